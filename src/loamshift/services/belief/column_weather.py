"""From twelve months of climate and watering to the days that the column runs through."""

from __future__ import annotations

from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import DAYS_IN_MONTH, DAYS_IN_YEAR, SoilWave, soil_temperature_c
from loamshift.core.column_layout import ColumnWeather
from loamshift.core.rain_loops import Bucket, run_bucket
from loamshift.core.water_balance import WaterYear, wetness_daily
from loamshift.domain.place import Place
from loamshift.domain.soil import Soil
from loamshift.services.context.air import air_beyond_load_daily
from loamshift.services.context.water import water_year_of
from loamshift.tables.model import climate_parameters, ledger_parameters
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

NO_WATERING: Final = (0.0,) * 12
DRAINAGE_WITHOUT_PLACE_MM: Final = 200.0
"""Yearly drainage at which the loads stand: used where no place is known."""


def column_weather(
    soil: Soil,
    *,
    place: Place | None,
    edges_cm: FloatArray,
    start: date,
    days: int,
    available_water_mm: float,
    watering_mm: tuple[float, ...] = NO_WATERING,
    alkalinity_mmolc_l: float = 0.0,
    container: bool = False,
    bare: bool = False,
    land_use: str = "unknown",
    correction: SoilWave | None = None,
    bucket: Bucket = run_bucket,
) -> ColumnWeather:
    """Soil temperature, wetness, drainage and watering of every day of a run.

    Parameters
    ----------
    place
        Its climate; None for the assumed temperature, wetness and drainage.
    edges_cm
        Edges of the layers from 0 down, shape (L + 1,) [cm].
    days
        How many, 1 or more [d].
    available_water_mm
        Water between field capacity and wilting in the root zone [mm].
    watering_mm
        Watering of January to December [mm/month].
    alkalinity_mmolc_l
        Alkalinity of that water [mmolc/L].
    container
        True for pots, which follow the air.
    bare
        True for ground without plants, which dries at its surface only.
    land_use
        Whose load the bed has: what the load holds of the air is taken off.
    correction
        What the bed's own soil thermometer adds to the wave of the air [degC].
    bucket
        How the days of its water are followed.

    Notes
    -----
    29 February is one more day between day 59 and day 60. The drainage of a calendar day is its
    mean over the generated years; it leaves the soil on every third day of the month, as after
    soaking rain. Watering is spread evenly.

    References
    ----------
    hillel-1982, own-judgement
    """
    middles = 0.5 * (edges_cm[:-1] + edges_cm[1:])
    column = parameter_values("column")
    advice = parameter_values("advice")
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    watering_year = np.repeat(np.asarray(watering_mm) / month_days, DAYS_IN_MONTH)
    if place is None:
        temp_year = np.full((DAYS_IN_YEAR, middles.size), advice["assumed_soil_temp_c"])
        wet_year = np.full(DAYS_IN_YEAR, advice["assumed_wetness"])
        drained = np.repeat(DRAINAGE_WITHOUT_PLACE_MM / 12.0 / month_days, DAYS_IN_MONTH)
    else:
        climate = climate_parameters()
        temp_year = np.column_stack(
            [
                soil_temperature_c(
                    place.air_temp_c,
                    depth_cm=float(depth),
                    params=climate,
                    container=container,
                    correction=correction,
                )
                for depth in middles
            ]
        )
        water = water_year_of(
            place,
            soil,
            available_water_mm=available_water_mm,
            watering_mm=watering_mm,
            bare=bare,
            bucket=bucket,
        )
        wet_year = _wetness(water, soil, available_water_mm=available_water_mm)
        drained = water.drainage_day_mm
    order = days_of_year(start, days)
    return ColumnWeather(
        soil_temp_c=np.ascontiguousarray(temp_year[order]),
        wetness=np.ascontiguousarray(np.repeat(wet_year[order][:, None], middles.size, axis=1)),
        drainage_mm=soaking_days(drained, spacing_d=round(column["rain_day_spacing_d"]))[order],
        irrigation_mm=watering_year[order],
        alkalinity_mmolc_l=alkalinity_mmolc_l,
        leaching_factor=leaching_factor(float(np.sum(drained))),
        air_mmolc_m2_year=None
        if container
        else air_beyond_load_daily(place, land_use=land_use, start=start, days=days),
    )


def leaching_factor(drainage_mm_year: float) -> float:
    """How much of its yearly load a bed loses at its drainage, 1 at the reference.

    Parameters
    ----------
    drainage_mm_year
        Water draining in the year [mm/year].

    Returns
    -------
    float
        Factor [1].
    """
    return float(leaching_factors(np.asarray(drainage_mm_year)))


def leaching_factors(drainage_mm_year: FloatArray) -> FloatArray:
    """The same of many beds.

    Parameters
    ----------
    drainage_mm_year
        Water draining in the year, any shape [mm/year].

    Returns
    -------
    ndarray
        Factors [1].
    """
    ledger = ledger_parameters()
    ratio = np.minimum(ledger.drainage_most, drainage_mm_year / ledger.drainage_reference_mm)
    return np.asarray(ledger.drainage_base + ledger.drainage_slope * ratio, dtype=np.float64)


def _wetness(water: WaterYear, soil: Soil, *, available_water_mm: float) -> FloatArray:
    return wetness_daily(
        water,
        available_water_mm=available_water_mm,
        field_capacity_frac=soil.field_capacity_frac,
        wilting_frac=soil.wilting_frac,
    )


def soaking_days(day_mm: FloatArray, *, spacing_d: int) -> FloatArray:
    """The water of so many days on the first of them, month by month.

    Parameters
    ----------
    day_mm
        Of each day of the year, shape (..., 365) [mm].
    spacing_d
        Days from one soaking rain to the next [d].

    Returns
    -------
    ndarray
        Of the same shape [mm].
    """
    firsts = np.concatenate([[0], np.cumsum(DAYS_IN_MONTH)[:-1]])
    soaking = np.concatenate(
        [first + np.arange(0, n, spacing_d) for first, n in zip(firsts, DAYS_IN_MONTH, strict=True)]
    )
    found = np.zeros(day_mm.shape)
    found[..., soaking] = np.add.reduceat(day_mm, soaking, axis=-1)
    return found


def days_of_year(start: date, days: int) -> NDArray[np.int64]:
    """Index into an average year of each calendar day from ``start`` on.

    Parameters
    ----------
    days
        How many [d].

    Returns
    -------
    ndarray
        Shape (days,) [index].
    """
    ordinals = np.arange(start.toordinal(), start.toordinal() + days)
    years = range(start.year, date.fromordinal(int(ordinals[-1])).year + 1)
    firsts = np.array([date(year, 1, 1).toordinal() for year in years])
    year_index = np.searchsorted(firsts, ordinals, side="right") - 1
    day = ordinals - firsts[year_index]
    leap = np.array(
        [(date(year, 12, 31) - date(year, 1, 1)).days == DAYS_IN_YEAR for year in years]
    )
    late = leap[year_index] & (day >= 59)
    return np.asarray(day - late, dtype=np.int64)
