"""What the air asks of a wet surface, and what plants or bare ground give of it."""

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

_OBLIQUITY: Final = math.radians(23.44)


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """What water evaporates from.

    ``evaporable_mm`` is the water it can draw on; it draws what the air asks while more than
    ``eased_below_mm`` of that is left, and less in proportion below [mm].
    """

    evaporable_mm: float
    eased_below_mm: float


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


def green_surface(*, available_water_mm: float, params: ClimateParameters) -> Surface:
    """A sward or crop that draws on the whole root zone.

    Parameters
    ----------
    available_water_mm
        Water the root zone holds between field capacity and wilting, 1 to 1000 [mm].
    params
        Coefficients of the topic ``climate`` [see the dataclass].

    Returns
    -------
    Surface
        All of the available water, the last half with difficulty [mm].

    Notes
    -----
    Falls off below half of the available water.

    References
    ----------
    allen-1998

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> green_surface(available_water_mm=80.0, params=p).eased_below_mm
    40.0
    """
    return Surface(
        evaporable_mm=available_water_mm,
        eased_below_mm=params.water_eased_from_frac * available_water_mm,
    )


def bare_surface(
    *,
    available_water_mm: float,
    field_capacity_frac: float,
    wilting_frac: float,
    params: ClimateParameters,
) -> Surface:
    """Ground without plants, which dries at its surface only.

    Parameters
    ----------
    available_water_mm
        Water the root zone holds between field capacity and wilting, 1 to 1000 [mm].
    field_capacity_frac
        Water at field capacity, 0 to 1 [volume share].
    wilting_frac
        Water at wilting, below field capacity [volume share].
    params
        Coefficients of the topic ``climate`` [see the dataclass].

    Returns
    -------
    Surface
        What the top of the soil gives off in two stages [mm].

    Notes
    -----
    Evaporable water = depth x (field capacity - half of wilting); the first millimetres go as fast
    as the air asks, the rest ever slower. Never more than the root zone holds.

    References
    ----------
    allen-1998

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> bare_surface(available_water_mm=80.0, field_capacity_frac=0.3, wilting_frac=0.12,
    ...              params=p)
    Surface(evaporable_mm=30.0, eased_below_mm=21.0)
    """
    water = params.bare_depth_mm * (field_capacity_frac - 0.5 * wilting_frac)
    water = min(water, available_water_mm)
    return Surface(
        evaporable_mm=water, eased_below_mm=max(water - params.bare_ready_mm, 0.1 * water)
    )


def _day_length_h(latitude: float) -> NDArray[np.float64]:
    """Mean hours of daylight of each month, at its middle day."""
    edges = np.concatenate([[0.0], np.cumsum(DAYS_IN_MONTH)])
    middle = 0.5 * (edges[:-1] + edges[1:])
    declination = -_OBLIQUITY * np.cos(2.0 * math.pi * (middle + 10.0) / DAYS_IN_YEAR)
    hour_angle = -math.tan(math.radians(latitude)) * np.tan(declination)
    hours = 24.0 / math.pi * np.arccos(np.clip(hour_angle, -1.0, 1.0))
    return np.asarray(hours, dtype=np.float64)
