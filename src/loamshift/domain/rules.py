"""Rows of caps, cautions, printed rate tables and laboratory equations."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from loamshift.domain.evidence import Evidence
from loamshift.domain.message import Measure, Message, message


@dataclass(frozen=True, slots=True, kw_only=True)
class Cap:
    """A printed limit on how much goes on.

    ``applies_to`` is sulfur | aluminium sulfate | iron sulfate | limestone | nitrogen;
    ``situation`` is unplanted | planted | lawn | field | any; ``per`` is dose | year;
    ``limit_g_m2`` of the substance as sold, sulfur as S, lime as CaCO3, nitrogen as N [g/m2].
    ``used`` marks the one row that governs its situation; the others stay for the record.
    """

    key: str
    applies_to: str
    situation: str
    per: str
    limit_g_m2: float
    wait_months: float | None
    used: bool
    source_key: str
    where: str
    evidence: Evidence
    note: str


class CautionKind(StrEnum):
    """What a caution is about."""

    HAZARD = "hazard"
    """Harm to whoever handles or spreads something, and to what lives where it goes."""
    BED = "bed"
    """Something wrong with the bed itself."""
    EXPLANATION = "explanation"
    """How things work; nobody comes to harm by it."""
    SIGN = "sign"
    """What plants show, and what to look at first."""
    AROUND = "around"
    """What around a bed changes it again."""
    COLOUR = "colour"
    """What decides the colour of flowers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionRule:
    """A caution by code, with its figures and the source of what it says.

    Its words are the messages ``caution-CODE``, ``caution-CODE-short`` and
    ``caution-CODE-label``; ``figures`` stand in the first two of them by their names.
    """

    code: str
    kind: CautionKind
    figures: Mapping[str, Measure]
    source_key: str
    evidence: Evidence

    @property
    def text(self) -> Message:
        """The caution in full."""
        return message(f"caution-{self.code}", **self.figures)

    @property
    def short(self) -> Message:
        """What must be done, in one sentence or two."""
        return message(f"caution-{self.code}-short", **self.figures)

    @property
    def label(self) -> Message:
        """A name of a word or two, set before it."""
        return message(f"caution-{self.code}-label")


@dataclass(frozen=True, slots=True, kw_only=True)
class SulfurRate:
    """One row of a printed sulfur table, converted to g S per m2.

    ``family`` groups copies of one origin; ``texture`` is sand | loam | clay | any;
    ``depth_cm`` as printed or assumed (``depth_stated`` false); ``usable`` false for rows kept
    only as traps or records.
    """

    row: int
    source_key: str
    family: str
    ph_start: float | None
    ph_target: float | None
    ph_drop: float
    texture: str
    depth_cm: float
    depth_stated: bool
    low_g_m2: float
    high_g_m2: float
    evidence: Evidence
    usable: bool
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeRate:
    """One row of a printed limestone table [g CaCO3-limestone per m2]."""

    row: int
    source_key: str
    ph_start: float | None
    ph_target: float | None
    ph_rise: float
    texture: str
    rate_g_m2: float
    evidence: Evidence
    usable: bool
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BufferPhMethod:
    """A laboratory buffer-pH method: lime need as a function of buffer pH (and soil pH).

    ``form`` names the equation in ``loamshift.core.lime``; ``coefficients`` its numbers;
    ``target_ph`` the pH it limes to; ``depth_cm`` the depth it speaks of; ``slice_kg_m2`` the soil
    a rate per area is meant for [kg/m2]; ``field_allowance`` how many times the acidity its rate
    is [1]; ``sense_low_ph`` to ``sense_high_ph`` where such a reading can lie [its unit];
    ``family`` marks the one row that stands for its kind of buffer where nobody named it;
    ``log10_sd`` how sure it is as a measurement of the buffer curve [log10].
    """

    key: str
    synonyms: tuple[str, ...]
    form: str
    coefficients: tuple[float, ...]
    target_ph: float | None
    depth_cm: float
    result_unit: str
    slice_kg_m2: float | None
    field_allowance: float
    sense_low_ph: float
    sense_high_ph: float
    family: str
    log10_sd: float
    source_key: str
    evidence: Evidence
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KitchenMeasure:
    """A cup, spoon, handful or bucket: its volume [L], or mass [g] for a handful, with range."""

    name: str
    synonyms: tuple[str, ...]
    volume_l: float | None
    mass_g: float | None
    low: float
    high: float
    source_key: str
    evidence: Evidence
    note: str
