"""A titration in jars: what goes into each, and what the readings make of the soil's curve."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.answer import Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Jar:
    """One jar: its number from 1, and what is added [mmolc/kg, base negative].

    ``acid_ml`` of the dilute acid [mL] or ``lime_g`` of pure limestone powder [g]; both 0 in the
    jar that gets nothing.
    """

    number: int
    acid_mmolc_kg: float
    acid_ml: float
    lime_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JarPlan:
    """A series of jars with as much soil [g] and water [mL] in each, acid of a strength [mol/L].

    ``ph_to`` is the pH that the series should pass [pH in water].
    """

    jars: tuple[Jar, ...]
    soil_g: float
    water_ml: float
    acid_mol_l: float
    ph_to: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JarResult:
    """What a series of jars says: the buffer scale and the need to a pH, before and after.

    ``scale_*`` 1 is the average soil of its kind [1]; ``need_*`` acid, or base where the pH is to
    rise [mmolc/kg]; ``narrower`` how many times narrower the need is now [1].
    """

    points: tuple[tuple[float, float], ...]
    ph_to: float
    acidify: bool
    scale_before: Band
    scale_after: Band
    need_before: Band
    need_after: Band
    narrower: float
