"""Acid from the air of a place in a year."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Deposition:
    """What falls from the air on open land of a region in a year, wet and dry, sea salt left out.

    ``base_mmolc_m2`` is what neutralises; ``spread`` bounds 95 in 100 sites as a factor on the
    acid. ``source_key`` is that of the nearest year of the table.
    """

    region: str
    sulfur_kg_ha: float
    nitrogen_kg_ha: float
    base_mmolc_m2: float
    spread: float
    source_key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AirAcid:
    """Acid from the air at a place in a year [mmolc/m2/yr], with its region and source.

    ``spread`` bounds 95 in 100 sites as a factor.
    """

    region: str
    year: int
    mmolc_m2: float
    spread: float
    source_key: str
