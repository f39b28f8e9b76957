"""What the forecast of many beds needs to know of each, in arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, fields
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import SoilWave
from loamshift.core.column_layout import HIGHEST_TABLE_PH, LOWEST_TABLE_PH
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Feed
from loamshift.domain.humus import HumusHistory
from loamshift.domain.place import Place
from loamshift.domain.soil import CarbonateBelief
from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.belief.column_inputs import reading_day
from loamshift.services.belief.humus import humus_history
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.water import water_anions_mmolc_l

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

NUMBERS: Final = (
    "ph_water",
    "ph_water_sd",
    "clay_pct",
    "organic_carbon_pct",
    "bulk_density_g_cm3",
    "field_capacity_frac",
    "wilting_frac",
    "log10_k_mean",
    "log10_k_sd",
    "carbonate_zero_weight",
    "carbonate_low_pct",
    "carbonate_high_pct",
    "carbonate_log_sd",
    "depth_cm",
    "sample_depth_cm",
    "available_water_mm",
    "irrigation_mm_year",
    "water_base_mmolc_m2_year",
    "water_anions_mmolc_l",
)
"""Fields of ``ManyBeds`` that hold one number for each bed."""


class BedKind(NamedTuple):
    """What beds have in common that is no number; ``months`` those of the watering."""

    place: Place | None = None
    land_use: str = "unknown"
    in_pot: bool = False
    organic_only: bool = False
    is_bare: bool = False
    water_known: bool = True
    months: tuple[int, ...] = ()
    humus: HumusHistory | None = None
    wave: SoilWave | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ManyBeds:
    """What is known of B beds; every array has shape (B,).

    ``ph_water`` with ``ph_water_sd`` of the current reading [pH in water]; ``clay_pct``,
    ``organic_carbon_pct`` [%]; ``bulk_density_g_cm3`` [g/cm3]; ``field_capacity_frac``,
    ``wilting_frac`` [m3/m3]; ``log10_k_mean``, ``log10_k_sd`` of the buffer scale [log10];
    ``carbonate_*`` as in ``CarbonateBelief``; ``depth_cm`` treated and ``sample_depth_cm`` [cm];
    ``available_water_mm`` [mm]; ``irrigation_mm_year`` [mm/yr] with ``water_base_mmolc_m2_year``
    [mmolc/m2/yr] and ``water_anions_mmolc_l`` that it brings [mmolc/L].

    ``today`` and ``read``, the day of the reading, as ordinals of the calendar [d]. ``kind_of``
    is the place of each bed's kind in ``kinds``, ``feeds`` the yearly feed of each. ``contexts``
    holds the context of a bed on which something was put before, or that has products of its own;
    None for all others.
    """

    ph_water: FloatArray
    ph_water_sd: FloatArray
    clay_pct: FloatArray
    organic_carbon_pct: FloatArray
    bulk_density_g_cm3: FloatArray
    field_capacity_frac: FloatArray
    wilting_frac: FloatArray
    log10_k_mean: FloatArray
    log10_k_sd: FloatArray
    carbonate_zero_weight: FloatArray
    carbonate_low_pct: FloatArray
    carbonate_high_pct: FloatArray
    carbonate_log_sd: FloatArray
    depth_cm: FloatArray
    sample_depth_cm: FloatArray
    available_water_mm: FloatArray
    irrigation_mm_year: FloatArray
    water_base_mmolc_m2_year: FloatArray
    water_anions_mmolc_l: FloatArray
    today: IntArray
    read: IntArray
    kinds: tuple[BedKind, ...]
    kind_of: IntArray
    feeds: Sequence[Feed | None]
    contexts: Sequence[BedContext | None] = field(default=())

    @property
    def n_beds(self) -> int:
        """Number of beds."""
        return int(self.ph_water.size)

    def __post_init__(self) -> None:
        beds = self.ph_water.size
        for one in fields(self):
            if one.name in ("kinds", "contexts") or len(getattr(self, one.name)) == beds:
                continue
            raise InputError(
                f"{one.name} holds {len(getattr(self, one.name))} beds and ph_water {beds}; "
                "give one value for each bed"
            )
        for name in NUMBERS:
            if not np.isfinite(getattr(self, name)).all():
                raise OutOfRangeError(f"{name} holds a value that is no number")
        outside = ~((self.ph_water > LOWEST_TABLE_PH) & (self.ph_water < HIGHEST_TABLE_PH))
        if outside.any():
            bed = int(np.nonzero(outside)[0][0])
            raise OutOfRangeError(
                f"bed {bed} has a pH of {self.ph_water[bed]:g}; a forecast needs one between "
                f"{LOWEST_TABLE_PH:g} and {HIGHEST_TABLE_PH:g}"
            )

    def kind(self, bed: int) -> BedKind:
        """The kind of a bed.

        Parameters
        ----------
        bed
            Which [index].
        """
        return self.kinds[int(self.kind_of[bed])]

    def context(self, bed: int) -> BedContext | None:
        """The context of a bed on which something was put before.

        Parameters
        ----------
        bed
            Which [index].
        """
        return self.contexts[bed] if len(self.contexts) else None

    def carbonate(self, bed: int) -> CarbonateBelief:
        """What is believed of the free carbonate of a bed.

        Parameters
        ----------
        bed
            Which [index].
        """
        return CarbonateBelief(
            zero_weight=float(self.carbonate_zero_weight[bed]),
            low_pct=float(self.carbonate_low_pct[bed]),
            high_pct=float(self.carbonate_high_pct[bed]),
            basis="",
            measured=False,
            log_sd=float(self.carbonate_log_sd[bed]),
        )


def many_beds(contexts: Sequence[BedContext]) -> ManyBeds:
    """The arrays of beds whose contexts were built one by one.

    Raises
    ------
    ValueError
        For a bed whose pH nobody read.
    """
    rows: list[tuple[float, ...]] = []
    kinds: dict[BedKind, int] = {}
    kind_of: list[int] = []
    for context in contexts:
        soil, case = require_soil(context), context.case
        lime = soil.carbonate
        rows.append(
            (
                soil.ph.ph_water,
                soil.ph.ph_water_sd,
                soil.clay_pct,
                soil.organic_carbon_pct,
                soil.bulk_density_g_cm3,
                soil.field_capacity_frac,
                soil.wilting_frac,
                soil.k.log10_k_mean,
                soil.k.log10_k_sd,
                lime.zero_weight,
                lime.low_pct,
                lime.high_pct,
                lime.log_sd,
                context.depth_cm,
                case.soil.sample_depth_cm or context.depth_cm,
                context.available_water_mm,
                context.irrigation_mm_year,
                context.water_base_mmolc_m2_year,
                water_anions_mmolc_l(context),
                case.today.toordinal(),
                reading_day(context).toordinal(),
            )
        )
        kind = BedKind(
            place=context.place,
            land_use=context.land_use,
            in_pot=context.in_pot,
            organic_only=context.organic_only,
            is_bare=context.is_bare,
            water_known=case.water.alkalinity_mg_l_as_caco3 is not None
            or context.irrigation_mm_year == 0.0,
            months=tuple(case.water.months),
            humus=humus_history(context),
            wave=None if context.thermometer is None else context.thermometer.wave,
        )
        kind_of.append(kinds.setdefault(kind, len(kinds)))
    table = np.array(rows, dtype=np.float64).reshape(len(rows), len(NUMBERS) + 2)
    columns = {name: np.ascontiguousarray(table[:, i]) for i, name in enumerate(NUMBERS)}
    return ManyBeds(
        **columns,
        today=table[:, -2].astype(np.int64),
        read=table[:, -1].astype(np.int64),
        kinds=tuple(kinds),
        kind_of=np.array(kind_of, dtype=np.int64),
        feeds=[context.case.feed for context in contexts],
        contexts=[context if _has_own(context) else None for context in contexts],
    )


def _has_own(context: BedContext) -> bool:
    """Whether a bed has a past or products of its own, so that no pattern can serve it."""
    case = context.case
    has_feed = case.feed is not None and case.feed.material is not None
    return bool(case.applied or case.own_materials) or has_feed
