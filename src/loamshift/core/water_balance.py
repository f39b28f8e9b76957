"""Rain, evaporation and what drains: the water year of a soil, day by day.

Rain comes in generated storms, because rain spread evenly over a month drains too little.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import (
    DAYS_IN_MONTH,
    DAYS_IN_YEAR,
    ClimateParameters,
    monthly_values,
)
from loamshift.core.evaporation import Surface, green_surface, thornthwaite_mm
from loamshift.core.rain_days import RainDice, rain_days_mm, usual_wet_days
from loamshift.core.rain_loops import Bucket, run_bucket
from loamshift.errors import OutOfRangeError

NO_IRRIGATION: Final = (0.0,) * 12
_KEPT_YEARS: Final = 256


@dataclass(frozen=True, slots=True)
class WaterYear:
    """The mean of the generated years of water, January to December.

    ``rain_mm``, ``irrigation_mm``, ``potential_mm``, ``evaporation_mm`` and ``drainage_mm`` of each
    month [mm/month]; ``snow_mm`` lying as snow at its end [mm]. ``drainage_day_mm`` [mm/d] and
    ``store_day_mm``, available water in the root zone [mm], of each of 365 days.
    """

    rain_mm: NDArray[np.float64]
    irrigation_mm: NDArray[np.float64]
    potential_mm: NDArray[np.float64]
    evaporation_mm: NDArray[np.float64]
    drainage_mm: NDArray[np.float64]
    snow_mm: NDArray[np.float64]
    drainage_day_mm: NDArray[np.float64]
    store_day_mm: NDArray[np.float64]


def water_year(
    *,
    air_temp_c: Sequence[float],
    rain_mm: Sequence[float],
    latitude: float,
    available_water_mm: float,
    params: ClimateParameters,
    dice: RainDice,
    irrigation_mm: Sequence[float] = NO_IRRIGATION,
    wet_days: Sequence[float] | None = None,
    surface: Surface | None = None,
    bucket: Bucket = run_bucket,
) -> WaterYear:
    """An average year of soil water: evaporation, drainage and what the root zone holds.

    Parameters
    ----------
    air_temp_c
        Mean air temperature of January to December, 12 values, -60 to 50 [degC].
    rain_mm
        Rain and melted snow of January to December, 12 values, 0 to 3000 [mm/month].
    latitude
        Degrees north, south negative, -90 to 90 [degree].
    available_water_mm
        Water the root zone holds between field capacity and wilting, 1 to 1000 [mm].
    params
        Coefficients of the topic ``climate`` [see the dataclass].
    dice
        Chance of the generated rain, from :func:`loamshift.core.rain_days.throw_dice` [object].
    irrigation_mm
        Watering of January to December, 12 values, 0 to 3000 [mm/month].
    wet_days
        Days with rain in each month; None for what is usual at that rain [d/month].
    surface
        What the water evaporates from; None for :func:`green_surface` [object].
    bucket
        How its days are followed: in plain Python, or by machine code for many beds [function].

    Returns
    -------
    WaterYear
        Means of the generated years [mm/month, mm/d, mm].

    Raises
    ------
    OutOfRangeError
        For inputs outside these limits, or a place where no month is above freezing.

    Notes
    -----
    Months at or below 0 degC keep rain as snow, which melts evenly over the first month above;
    there is no drainage in frost. In other months each day adds its rain, draws
    min(1, store/eased) of the potential evaporation, and drains what is above field capacity.
    The generated years are laid end to end and run until they repeat themselves, so
    rain + irrigation = evaporation + drainage.

    References
    ----------
    thornthwaite-1948, geng-1986, allen-1998, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> from loamshift.core.rain_days import throw_dice
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> dice = throw_dice(np.random.default_rng(1), params=p)
    >>> air = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
    >>> rain = [55, 37, 49, 46, 52, 51, 47, 55, 54, 59, 59, 60]
    >>> year = water_year(air_temp_c=air, rain_mm=rain, latitude=51.5,
    ...                   available_water_mm=100.0, params=p, dice=dice)
    >>> bool(abs(year.rain_mm.sum() - year.evaporation_mm.sum() - year.drainage_mm.sum()) < 1e-6)
    True
    """
    air = monthly_values("air_temp_c", air_temp_c, low=-60.0, high=50.0, unit="degC")
    rain = monthly_values("rain_mm", rain_mm, low=0.0, high=3000.0, unit="mm")
    watering = monthly_values("irrigation_mm", irrigation_mm, low=0.0, high=3000.0, unit="mm")
    if not 1.0 <= available_water_mm <= 1000.0:
        raise OutOfRangeError(
            f"available_water_mm {available_water_mm:g} is outside 1 to 1000; depth in mm times "
            "(field capacity less wilting point) gives it"
        )
    if not np.any(air > params.snow_below_c):
        raise OutOfRangeError(
            "no month of air_temp_c is above freezing: there is no growing season to advise on; "
            "check the temperatures and their unit"
        )
    wet = usual_wet_days(rain_mm, params=params) if wet_days is None else np.asarray(wet_days)
    return _kept_year(
        tuple(air.tolist()),
        tuple(rain.tolist()),
        tuple(watering.tolist()),
        tuple(wet.tolist()),
        latitude=latitude,
        available_water_mm=float(available_water_mm),
        surface=surface
        or green_surface(available_water_mm=float(available_water_mm), params=params),
        params=params,
        dice=dice,
        bucket=bucket,
    )


def wetness_daily(
    year: WaterYear,
    *,
    available_water_mm: float,
    field_capacity_frac: float,
    wilting_frac: float,
) -> NDArray[np.float64]:
    """Soil water over field capacity for each day of the year, for the sulfur clock.

    Parameters
    ----------
    year
        From :func:`water_year` [object].
    available_water_mm
        The capacity the year was computed with [mm].
    field_capacity_frac
        Water at field capacity [volume share].
    wilting_frac
        Water at wilting, below field capacity [volume share].

    Returns
    -------
    ndarray
        Wetness 0 to 1, day of year 1 to 365, shape (365,) [share of field capacity].

    Raises
    ------
    OutOfRangeError
        For shares that make no soil.

    Notes
    -----
    (wilting + store share x (field capacity - wilting)) / field capacity, of the mean store of
    that day over the generated years. The bucket never stands above field capacity.

    Examples
    --------
    >>> import numpy as np
    >>> full = WaterYear(*(np.zeros(12),) * 6, np.zeros(365), np.full(365, 80.0))
    >>> wet = wetness_daily(full, available_water_mm=80.0, field_capacity_frac=0.3,
    ...                     wilting_frac=0.1)
    >>> float(wet.min())
    1.0
    """
    if not 0.0 <= wilting_frac < field_capacity_frac <= 1.0:
        raise OutOfRangeError(
            f"wilting_frac {wilting_frac:g} and field_capacity_frac {field_capacity_frac:g} need "
            "0 <= wilting < field capacity <= 1 as volume shares"
        )
    share = year.store_day_mm / available_water_mm
    water = wilting_frac + (field_capacity_frac - wilting_frac) * share
    return np.asarray(water / field_capacity_frac, dtype=np.float64)


@lru_cache(maxsize=_KEPT_YEARS)
def _kept_potential(
    air_temp_c: tuple[float, ...], *, latitude: float, params: ClimateParameters
) -> NDArray[np.float64]:
    """Potential evaporation, worked out once for a place."""
    found = thornthwaite_mm(air_temp_c, latitude=latitude, params=params)
    found.setflags(write=False)
    return found


@lru_cache(maxsize=_KEPT_YEARS)
def _kept_year(
    air_temp_c: tuple[float, ...],
    rain_mm: tuple[float, ...],
    irrigation_mm: tuple[float, ...],
    wet_days: tuple[float, ...],
    *,
    latitude: float,
    available_water_mm: float,
    surface: Surface,
    params: ClimateParameters,
    dice: RainDice,
    bucket: Bucket,
) -> WaterYear:
    """The year of checked inputs, worked out once for a place, soil and watering."""
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    month = np.repeat(np.arange(12), DAYS_IN_MONTH)
    potential = _kept_potential(air_temp_c, latitude=latitude, params=params)
    watering = np.asarray(irrigation_mm)
    made = rain_days_mm(rain_mm, wet_days=wet_days, params=params, dice=dice)
    years = made.shape[0]
    days = np.zeros((3, DAYS_IN_YEAR))
    snow = np.zeros(12)
    bucket(
        made + (watering / month_days)[month],
        (potential / month_days)[month],
        np.asarray(air_temp_c) <= params.snow_below_c,
        np.asarray(DAYS_IN_MONTH),
        np.array([surface.evaporable_mm, surface.eased_below_mm]),
        days,
        snow,
    )
    evaporation, drainage, store = days / years
    firsts = np.concatenate([[0], np.cumsum(DAYS_IN_MONTH)[:-1]])
    year = WaterYear(
        np.asarray(rain_mm),
        watering,
        potential,
        np.add.reduceat(evaporation, firsts),
        np.add.reduceat(drainage, firsts),
        snow / years,
        drainage,
        available_water_mm - surface.evaporable_mm + store,
    )
    for field in fields(year):
        getattr(year, field.name).setflags(write=False)
    return year
