"""A case understood: every number the decisions need, filled in and in one place."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.core.loops import PLAIN, Loops
from loamshift.core.soil_thermometer import ThermometerFit
from loamshift.domain.case import Case
from loamshift.domain.place import Place
from loamshift.domain.soil import Soil


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The pH range wanted and the point aimed at [pH in water].

    ``ph_aim`` is the pH asked for, or the middle of the range. ``weak`` is true where the range
    rests on one source, on grade C or on memory: it never alone starts a plan. ``is_shared`` is
    false where the plants named have no range in common that two tests could tell from a point;
    the limits are then those of the gap or overlap between them. ``harmful_low`` and
    ``harmful_high`` bound the pH that injures one of them, or lie a margin outside the range
    where nobody printed one. ``lowest`` and ``highest`` end of every range printed.
    """

    ph_low: float
    ph_high: float
    ph_aim: float
    names: tuple[str, ...]
    weak: bool
    calcifuge: bool
    tolerated_low: float | None
    tolerated_high: float | None
    basis: str
    harmful_low: float
    harmful_high: float
    lowest: float
    highest: float
    is_shared: bool = True
    source_keys: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """What one earlier application still has to do after the last reading.

    ``acid_mmolc_m2`` positive acidifies, negative limes; ``total_mmolc_m2`` is all it ever
    brings; ``since_days`` from its date to the reading (negative: put on after the reading).
    """

    material: str
    rate_g_m2: float
    acid_mmolc_m2: float
    total_mmolc_m2: float
    since_days: int
    as_given: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BedContext:
    """A bed as the decisions see it.

    ``area_m2`` of one bed or None; ``soil_temp_c`` daily at the middle of the treated depth for
    day of year 1 to 365 [degC], empty without a place, corrected by the bed's own
    ``thermometer`` where it has one; ``water_base_mmolc_m2_year`` base that
    the irrigation brings [mmolc/m2/yr], with ``water_base_high`` where it had to be guessed;
    ``irrigation_mm_year`` [mm/yr]; ``drainage_mm_year`` [mm/yr] is the sum of ``drainage_mm`` of
    January to December [mm/month];
    ``cap_situation`` is unplanted | planted | lawn | field | container; ``is_bare`` where nothing
    grows and nothing is wanted; ``loops`` how the long sums are worked out.
    """

    case: Case
    soil: Soil | None
    target: Target | None
    place: Place | None
    depth_cm: float
    soil_mass_kg_m2: float
    area_m2: float | None
    total_area_m2: float | None
    planted: bool
    cap_situation: str
    land_use: str
    is_bare: bool
    soil_temp_c: tuple[float, ...]
    water_base_mmolc_m2_year: float
    water_known: bool
    irrigation_mm_year: float
    drainage_mm_year: float
    available_water_mm: float
    pending: tuple[Pending, ...]
    assumed: tuple[str, ...]
    thermometer: ThermometerFit | None = None
    drainage_mm: tuple[float, ...] = ()
    loops: Loops = PLAIN

    @property
    def in_pot(self) -> bool:
        """True for containers."""
        return self.cap_situation == "container"

    @property
    def nitrogen_use(self) -> str:
        """Use of the land as it counts for nitrogen: ``bare`` where no plant takes any up."""
        return "bare" if self.is_bare else self.land_use

    @property
    def pending_acid_mmolc_m2(self) -> float:
        """Acid of earlier applications still to come, net [mmolc/m2]."""
        return sum(item.acid_mmolc_m2 for item in self.pending)

    @property
    def organic_only(self) -> bool:
        """True for potting mixes, where only the organic term of the curve counts."""
        return self.soil is not None and self.soil.medium.value != "mineral"
