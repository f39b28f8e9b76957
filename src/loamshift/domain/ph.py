"""pH readings: the method they were taken by, their error, and how methods convert."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.evidence import Evidence


class PhMethod(StrEnum):
    """How a pH was read. The word in the case file is the value."""

    WATER_1_1 = "water 1:1"
    WATER_1_2 = "water 1:2"
    WATER_1_2_5 = "water 1:2.5"
    WATER_1_5 = "water 1:5"
    PASTE = "paste"
    CACL2 = "CaCl2"
    KCL = "KCl"
    PROBE = "probe"
    STRIP = "strip"
    UNKNOWN = "unknown"

    @property
    def is_water(self) -> bool:
        """True for laboratory readings in water or paste."""
        return self in _WATER

    @property
    def is_salt(self) -> bool:
        """True for readings in a salt solution."""
        return self in (PhMethod.CACL2, PhMethod.KCL)

    @property
    def is_rough(self) -> bool:
        """True where the reading can widen an answer but must not drive it."""
        return self in (PhMethod.PROBE, PhMethod.STRIP, PhMethod.UNKNOWN)


_WATER = (
    PhMethod.WATER_1_1,
    PhMethod.WATER_1_2,
    PhMethod.WATER_1_2_5,
    PhMethod.WATER_1_5,
    PhMethod.PASTE,
)


@dataclass(frozen=True, slots=True)
class PhConversion:
    """One published or customary way from a reading by ``method`` to pH in water.

    ``ph_water = intercept + slope * ph`` with standard deviation ``sd`` [pH], valid for
    readings from ``ph_low`` to ``ph_high``. ``default`` marks the one used at the door.
    A conversion that is not linear names its ``form``; only linear ones are default.
    """

    method: PhMethod
    to_method: PhMethod
    intercept: float
    slope: float
    sd: float
    ph_low: float
    ph_high: float
    default: bool
    source_key: str
    evidence: Evidence
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PhReading:
    """One reading as taken: value [pH], method, depth sampled [cm], date, own error [pH]."""

    ph: float
    method: PhMethod
    depth_cm: float | None = None
    taken: date | None = None
    ph_sd: float | None = None


@dataclass(frozen=True, slots=True)
class PhBelief:
    """What a reading says about the pH in water of the soil: mean [pH] and sd [pH]."""

    ph_water: float
    ph_water_sd: float
    method: PhMethod
    basis: str
