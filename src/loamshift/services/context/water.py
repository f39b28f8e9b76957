"""The water year of a bed: its storms, and plants or bare ground that dry it."""

from __future__ import annotations

from functools import cache

import numpy as np

from loamshift.core.evaporation import bare_surface
from loamshift.core.rain_days import RainDice, throw_dice
from loamshift.core.rain_loops import Bucket, run_bucket
from loamshift.core.water_balance import WaterYear, water_year
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind, Case
from loamshift.domain.place import Place
from loamshift.domain.soil import Soil
from loamshift.tables.model import climate_parameters
from loamshift.tables.parameters import parameter_values


def is_bare(case: Case) -> bool:
    """Whether a bed is open ground said to be without plants, and none are wanted on it.

    Returns
    -------
    bool
        True only where that was said: a bed nobody described is taken as planted.
    """
    bed = case.bed
    is_open = bed.kind in (BedKind.GROUND, BedKind.RAISED, BedKind.FIELD)
    return is_open and bed.planted is False and not case.aim.plants


def water_year_of(
    place: Place,
    soil: Soil | None,
    *,
    available_water_mm: float,
    watering_mm: tuple[float, ...],
    bare: bool,
    bucket: Bucket = run_bucket,
) -> WaterYear:
    """The average year of water of a bed.

    Parameters
    ----------
    soil
        The soil; None where it is not known.
    available_water_mm
        Water between field capacity and wilting in the root zone [mm].
    watering_mm
        Watering of January to December [mm/month].
    bare
        True for ground without plants.
    bucket
        How its days are followed.

    Returns
    -------
    WaterYear
        Worked out once for a place, soil and watering [mm].
    """
    climate = climate_parameters()
    surface = None
    if bare and soil is not None:
        surface = bare_surface(
            available_water_mm=available_water_mm,
            field_capacity_frac=soil.field_capacity_frac,
            wilting_frac=soil.wilting_frac,
            params=climate,
        )
    return water_year(
        air_temp_c=place.air_temp_c,
        rain_mm=place.rain_mm,
        latitude=place.latitude,
        available_water_mm=available_water_mm,
        params=climate,
        dice=rain_dice(),
        irrigation_mm=watering_mm,
        wet_days=place.wet_days,
        surface=surface,
        bucket=bucket,
    )


def anions_row(land_use: str, *, in_pot: bool, is_fed: bool) -> str:
    """Which row of ``column`` holds the anions of the water that drains from a bed.

    Parameters
    ----------
    land_use
        One of the uses in ``core.background``.
    in_pot
        True for pots.
    is_fed
        True where a feed is told.

    Returns
    -------
    str
        Name of the row.
    """
    if in_pot:
        return "anions_fed_pot_mmolc_l" if is_fed else "anions_unknown_mmolc_l"
    if land_use in ("low crop", "high crop"):
        return "anions_crop_mmolc_l"
    return "anions_unfed_mmolc_l" if land_use in ("unfed", "garden") else "anions_unknown_mmolc_l"


def anions_mmolc_l(context: BedContext) -> float:
    """Anions in the water that drains from a bed, bicarbonate apart: the middle.

    Returns
    -------
    float
        Those of its use, and what its watering adds [mmolc/L].
    """
    row = anions_row(context.land_use, in_pot=context.in_pot, is_fed=context.case.feed is not None)
    return parameter_values("column")[row] + water_anions_mmolc_l(context)


def water_anions_mmolc_l(context: BedContext) -> float:
    """Anions that the watering of a bed adds to the water that drains, as drying concentrates it.

    Returns
    -------
    float
        Chloride, sulfate and nitrate that come with its hardness, 0 without watering [mmolc/L].
    """
    if context.irrigation_mm_year <= 0.0:
        return 0.0
    column = parameter_values("column")
    least_mm = column["least_drained_frac"] * context.irrigation_mm_year
    brought = column["anions_per_alkalinity"] * context.water_base_mmolc_m2_year
    return brought / max(context.drainage_mm_year, least_mm)


def deep_co2_factor(depth_cm: float) -> float:
    """Carbon dioxide at the bottom of a bed against that of the topsoil.

    Parameters
    ----------
    depth_cm
        Depth of the bed [cm].

    Returns
    -------
    float
        What the water that leaves a bed is in balance with, over the topsoil's [-].
    """
    column = parameter_values("column")
    return column["deep_co2_factor"] if depth_cm > column["deep_co2_from_cm"] else 1.0


@cache
def rain_dice() -> RainDice:
    """The chance of the generated years of rain: the same for every place."""
    climate = climate_parameters()
    return throw_dice(np.random.default_rng(round(climate.rain_seed)), params=climate)
