"""Rain, evaporation and what drains: the water year of a soil from monthly figures.

Rain spread evenly over a month drains less than rain in storms does, so the drainage here is on
the low side; the ledger's range covers it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import (
    DAYS_IN_MONTH,
    DAYS_IN_YEAR,
    ClimateParameters,
    monthly_values,
)
from loamshift.errors import OutOfRangeError

NO_IRRIGATION: Final = (0.0,) * 12
_OBLIQUITY: Final = math.radians(23.44)


@dataclass(frozen=True, slots=True)
class WaterYear:
    """An average year of water, January to December.

    All in mm a month, ``store_mm`` and ``snow_mm`` at the end of the month: available water in
    the root zone and water lying as snow.
    """

    rain_mm: NDArray[np.float64]
    irrigation_mm: NDArray[np.float64]
    potential_mm: NDArray[np.float64]
    evaporation_mm: NDArray[np.float64]
    drainage_mm: NDArray[np.float64]
    store_mm: NDArray[np.float64]
    snow_mm: NDArray[np.float64]


def thornthwaite_mm(
    air_temp_c: Sequence[float], *, latitude: float, params: ClimateParameters
) -> NDArray[np.float64]:
    """Evaporation that each month could draw from a well-watered sward.

    Parameters
    ----------
    air_temp_c
        Mean air temperature of January to December, 12 values, -60 to 50 [degC].
    latitude
        Degrees north, south negative, -90 to 90 [degree].
    params
        Coefficients of the topic ``climate`` [see the dataclass].

    Returns
    -------
    ndarray
        Potential evaporation, shape (12,) [mm/month].

    Raises
    ------
    OutOfRangeError
        For other than 12 sensible temperatures or a latitude off the globe.

    Notes
    -----
    Method of Thornthwaite: 16 (L/12)(N/30)(10 T/I)^a, I = sum (T/5)^1.514, a cubic in I; 0 at and
    below 0 degC; above 26.5 degC the parabola of Willmott, Rowe and Mintz. Coefficients from
    memory. An index below 5, a place with hardly a summer, is taken as 5: the formula would
    otherwise evaporate the more the colder it gets. It knows neither wind nor dry air, and reads
    low in arid and windy places.

    References
    ----------
    thornthwaite-1948, willmott-1985

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> air = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
    >>> round(float(thornthwaite_mm(air, latitude=51.5, params=p).sum()), -1)
    640.0
    """
    air = monthly_values("air_temp_c", air_temp_c, low=-60.0, high=50.0, unit="degC")
    if not -90.0 <= latitude <= 90.0:
        raise OutOfRangeError(
            f"latitude {latitude:g} is outside -90 to 90 degrees; south is negative"
        )
    warm = np.maximum(air, 0.0)
    index = float(np.sum((warm / 5.0) ** params.thornthwaite_index_power))
    if index == 0.0:
        return np.zeros(12)
    index = max(index, params.thornthwaite_index_least)
    power = (
        params.thornthwaite_a0
        + params.thornthwaite_a1 * index
        + params.thornthwaite_a2 * index**2
        + params.thornthwaite_a3 * index**3
    )
    mild = params.thornthwaite_scale_mm * (10.0 * warm / index) ** power
    hottest = np.minimum(air, params.hottest_c)
    hot = params.hot_b0 + params.hot_b1 * hottest + params.hot_b2 * hottest**2
    standard = np.where(air > params.hot_from_c, hot, mild)
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    return standard * _day_length_h(latitude) / 12.0 * month_days / 30.0


def water_year(
    *,
    air_temp_c: Sequence[float],
    rain_mm: Sequence[float],
    latitude: float,
    available_water_mm: float,
    params: ClimateParameters,
    irrigation_mm: Sequence[float] = NO_IRRIGATION,
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
    irrigation_mm
        Watering of January to December, 12 values, 0 to 3000 [mm/month].

    Returns
    -------
    WaterYear
        The year that repeats itself, 12 values each [mm/month].

    Raises
    ------
    OutOfRangeError
        For inputs outside these limits, or a place where no month is above freezing.

    Notes
    -----
    Months at or below 0 degC keep rain as snow, which melts in the first month above; there is
    no drainage in frost. Where supply exceeds potential evaporation the bucket fills and then
    drains; where it does not, the store falls by exp(-deficit/capacity). Years are run until one
    repeats the last. Rain + irrigation = evaporation + drainage over the year.

    References
    ----------
    thornthwaite-1948, thornthwaite-mather-1955

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> air = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
    >>> rain = [55, 37, 49, 46, 52, 51, 47, 55, 54, 59, 59, 60]
    >>> year = water_year(air_temp_c=air, rain_mm=rain, latitude=51.5,
    ...                   available_water_mm=100.0, params=p)
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
    potential = thornthwaite_mm(air_temp_c, latitude=latitude, params=params)
    evaporation, drainage = np.zeros(12), np.zeros(12)
    stores, snows = np.zeros(12), np.zeros(12)
    store, snow = available_water_mm, 0.0
    for _ in range(2000):
        before = (store, snow)
        for month in range(12):
            supply = float(rain[month] + watering[month])
            if air[month] <= params.snow_below_c:
                snow += supply
                evaporation[month] = drainage[month] = 0.0
            else:
                supply += snow
                snow = 0.0
                store, evaporation[month], drainage[month] = _month(
                    store=store,
                    supply=supply,
                    potential=float(potential[month]),
                    capacity=available_water_mm,
                )
            stores[month], snows[month] = store, snow
        if abs(store - before[0]) + abs(snow - before[1]) < 1.0e-10:
            break
    return WaterYear(rain, watering, potential, evaporation, drainage, stores, snows)


def drainage_mm_year(
    *,
    air_temp_c: Sequence[float],
    rain_mm: Sequence[float],
    latitude: float,
    available_water_mm: float,
    params: ClimateParameters,
    irrigation_mm: Sequence[float] = NO_IRRIGATION,
) -> float:
    """Water that leaves the root zone downward in an average year.

    Parameters
    ----------
    air_temp_c
        Mean air temperature of January to December, 12 values [degC].
    rain_mm
        Rain and melted snow of January to December, 12 values [mm/month].
    latitude
        Degrees north, south negative [degree].
    available_water_mm
        Water the root zone holds between field capacity and wilting [mm].
    params
        Coefficients of the topic ``climate`` [see the dataclass].
    irrigation_mm
        Watering of January to December, 12 values [mm/month].

    Returns
    -------
    float
        Drainage [mm/year].

    Raises
    ------
    OutOfRangeError
        As :func:`water_year`.

    Notes
    -----
    The sum of the twelve months of drainage of :func:`water_year`; method and sources stand there.

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> air = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
    >>> rain = [55, 37, 49, 46, 52, 51, 47, 55, 54, 59, 59, 60]
    >>> drained = drainage_mm_year(air_temp_c=air, rain_mm=rain, latitude=51.5,
    ...                            available_water_mm=100.0, params=p)
    >>> 80.0 < drained < 180.0
    True
    """
    return float(
        water_year(
            air_temp_c=air_temp_c,
            rain_mm=rain_mm,
            latitude=latitude,
            available_water_mm=available_water_mm,
            params=params,
            irrigation_mm=irrigation_mm,
        ).drainage_mm.sum()
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
        The water year [see the dataclass].
    available_water_mm
        The capacity it was made with [mm].
    field_capacity_frac
        Water at field capacity by volume, above wilting to 1 [m3/m3].
    wilting_frac
        Water at wilting point by volume, 0 up [m3/m3].

    Returns
    -------
    ndarray
        Wetness, wilting point over field capacity to 1, shape (365,) [1].

    Raises
    ------
    OutOfRangeError
        Where wilting point and field capacity do not fit together.

    Notes
    -----
    Store at the end of each month, straight between month ends round the year. The monthly
    bucket never stands above field capacity: wet spells are averaged out.

    Examples
    --------
    >>> import numpy as np
    >>> full = WaterYear(*(np.zeros(12),) * 5, np.full(12, 80.0), np.zeros(12))
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
    ends = np.cumsum(DAYS_IN_MONTH).astype(np.float64)
    day = np.arange(DAYS_IN_YEAR) + 0.5
    share = np.interp(day, ends, year.store_mm / available_water_mm, period=float(DAYS_IN_YEAR))
    water = wilting_frac + (field_capacity_frac - wilting_frac) * share
    return np.asarray(water / field_capacity_frac, dtype=np.float64)


def _month(
    *, store: float, supply: float, potential: float, capacity: float
) -> tuple[float, float, float]:
    """Store after, evaporation and drainage of one month without frost."""
    if supply >= potential:
        filled = store + supply - potential
        return min(filled, capacity), potential, max(0.0, filled - capacity)
    left = store * math.exp(-(potential - supply) / capacity)
    return left, supply + store - left, 0.0


def _day_length_h(latitude: float) -> NDArray[np.float64]:
    """Mean hours of daylight of each month, at its middle day."""
    edges = np.concatenate([[0.0], np.cumsum(DAYS_IN_MONTH)])
    middle = 0.5 * (edges[:-1] + edges[1:])
    declination = -_OBLIQUITY * np.cos(2.0 * math.pi * (middle + 10.0) / DAYS_IN_YEAR)
    hour_angle = -math.tan(math.radians(latitude)) * np.tan(declination)
    hours = 24.0 / math.pi * np.arccos(np.clip(hour_angle, -1.0, 1.0))
    return np.asarray(hours, dtype=np.float64)
