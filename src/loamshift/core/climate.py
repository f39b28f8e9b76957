"""From twelve monthly air temperatures to the soil temperature of every day.

Months are calendar months, so the southern hemisphere needs nothing special. Day 1 is the first
of January; the year has 365 days.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import OutOfRangeError

DAYS_IN_MONTH: Final = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
DAYS_IN_YEAR: Final = 365
SECONDS_PER_DAY: Final = 86400.0
_HARMONICS: Final = (1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimateParameters:
    """Coefficients of the topic ``climate``, one field per row.

    ``diffusivity_m2_s`` of heat in soil [m2/s]; ``snow_floor_c`` [degC]; ``thornthwaite_*`` and
    ``hot_*`` of the evaporation formula; ``snow_below_c`` month mean of snow [degC]; ``rain_*``,
    ``wet_*`` of the generated rain; ``water_eased_from_frac`` [0-1] and ``bare_*`` [mm] of
    evaporation from ground short of water.
    """

    diffusivity_m2_s: float
    snow_floor_c: float
    thornthwaite_scale_mm: float
    thornthwaite_index_power: float
    thornthwaite_index_least: float
    thornthwaite_a0: float
    thornthwaite_a1: float
    thornthwaite_a2: float
    thornthwaite_a3: float
    hot_from_c: float
    hot_b0: float
    hot_b1: float
    hot_b2: float
    hottest_c: float
    snow_below_c: float
    rain_seed: float
    rain_years: float
    rain_shape: float
    wet_after_dry_share: float
    wet_days_scale: float
    wet_days_power: float
    water_eased_from_frac: float
    bare_depth_mm: float
    bare_ready_mm: float


def damping_depth_cm(*, period_d: float, params: ClimateParameters) -> float:
    """Depth at which a temperature wave has fallen to 1/e.

    Parameters
    ----------
    period_d
        Length of the wave, 365 for the year and 1 for the day, above 0 [d].
    params
        Coefficients of the topic ``climate`` [see the dataclass].

    Returns
    -------
    float
        Damping depth [cm].

    Raises
    ------
    OutOfRangeError
        For a period that is not above 0.

    Notes
    -----
    D = sqrt(2 alpha/omega), omega = 2 pi/period.

    References
    ----------
    hillel-1982

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> round(damping_depth_cm(period_d=365.0, params=p))
    224
    """
    if not period_d > 0.0:
        raise OutOfRangeError(f"period_d {period_d:g} must be above 0 days; a year is 365")
    omega = 2.0 * math.pi / (period_d * SECONDS_PER_DAY)
    return 100.0 * math.sqrt(2.0 * params.diffusivity_m2_s / omega)


def soil_temperature_c(
    air_temp_c: Sequence[float],
    *,
    depth_cm: float,
    params: ClimateParameters,
    container: bool = False,
) -> NDArray[np.float64]:
    """Soil temperature of each day of an average year.

    Answers when a soil is warm enough for sulfur and nitrogen to react. It is the damped wave of
    the air: warmth of bare sunny ground, mulch, slopes and the slow thaw in spring are left out.

    Parameters
    ----------
    air_temp_c
        Mean air temperature of January to December, 12 values, -60 to 50 [degC].
    depth_cm
        Depth in the ground, 0 to 300; half the treated depth is usual [cm].
    params
        Coefficients of the topic ``climate`` [see the dataclass].
    container
        True for pots and boxes, which follow the air without damping or snow [truth].

    Returns
    -------
    ndarray
        Daily means, day of year 1 to 365 at index 0 to 364, shape (365,) [degC].

    Raises
    ------
    OutOfRangeError
        For other than 12 sensible temperatures or a depth outside 0 to 300 cm.

    Notes
    -----
    Mean and two harmonics are fitted to the monthly means by least squares, each month being the
    exact mean of the wave over its own days. Harmonic n is damped by exp(-z/D_n) and delayed by
    z/D_n radians, D_n = sqrt(2 alpha/(n omega)). In the ground a day below ``snow_floor_c`` is
    set to that floor: snow and freezing water keep soil near 0.

    References
    ----------
    hillel-1982, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> air = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
    >>> soil = soil_temperature_c(air, depth_cm=10.0, params=p)
    >>> round(float(soil.max()), 1), 1 + int(soil.argmax()) > 196
    (17.1, True)
    """
    air = monthly_values("air_temp_c", air_temp_c, low=-60.0, high=50.0, unit="degC")
    if not 0.0 <= depth_cm <= 300.0:
        raise OutOfRangeError(f"depth_cm {depth_cm:g} is outside 0 to 300; give centimetres")
    edges = np.concatenate([[0.0], np.cumsum(DAYS_IN_MONTH)]).astype(np.float64)
    columns = [np.ones(12)]
    for n in _HARMONICS:
        omega = 2.0 * math.pi * n / DAYS_IN_YEAR
        sines, cosines = np.sin(omega * edges), np.cos(omega * edges)
        width = omega * np.diff(edges)
        columns += [np.diff(sines) / width, -np.diff(cosines) / width]
    fitted = np.linalg.lstsq(np.column_stack(columns), air, rcond=None)[0]
    day = np.arange(DAYS_IN_YEAR) + 0.5
    soil = np.full(DAYS_IN_YEAR, fitted[0])
    for order, n in enumerate(_HARMONICS):
        omega = 2.0 * math.pi * n / DAYS_IN_YEAR
        ratio = (
            0.0
            if container
            else depth_cm / damping_depth_cm(period_d=DAYS_IN_YEAR / n, params=params)
        )
        phase = omega * day - ratio
        a, b = fitted[1 + 2 * order], fitted[2 + 2 * order]
        soil += math.exp(-ratio) * (a * np.cos(phase) + b * np.sin(phase))
    return soil if container else np.maximum(soil, params.snow_floor_c)


def days_from(year_c: NDArray[np.float64], *, start_day: int, n_days: int) -> NDArray[np.float64]:
    """Days of an average year in a row, from one day of the year on, round the turn of the year.

    Parameters
    ----------
    year_c
        One value per day of the year, shape (365,) [degC or any unit].
    start_day
        Day of year to begin with, 1 to 366; 366 counts as 365 [day of year].
    n_days
        How many days, 1 or more [d].

    Returns
    -------
    ndarray
        Values in order, shape (n_days,) [unit of the year].

    Raises
    ------
    OutOfRangeError
        For a start or a length outside these limits.

    Notes
    -----
    The day after day 365 is day 1: one average year is laid end to end, without leap days.

    Examples
    --------
    >>> days_from(np.arange(365.0), start_day=365, n_days=3).tolist()
    [364.0, 0.0, 1.0]
    """
    if not 1 <= start_day <= 366:
        raise OutOfRangeError(f"start_day {start_day} is outside 1 to 366")
    if n_days < 1:
        raise OutOfRangeError(f"n_days {n_days} must be 1 or more")
    first = min(start_day, DAYS_IN_YEAR) - 1
    return np.asarray(year_c)[(first + np.arange(n_days)) % DAYS_IN_YEAR]


def monthly_values(
    name: str, values: Sequence[float], *, low: float, high: float, unit: str
) -> NDArray[np.float64]:
    """Twelve monthly values as an array, refused where they cannot be right.

    Parameters
    ----------
    name
        What they are called in the message [text].
    values
        January to December [see unit].
    low
        Least value allowed [see unit].
    high
        Greatest value allowed [see unit].
    unit
        Unit named in the message [text].

    Returns
    -------
    ndarray
        The values, shape (12,) [see unit].

    Raises
    ------
    OutOfRangeError
        For other than 12 numbers within the limits.

    Notes
    -----
    The limits are the caller's: what no place on Earth has is taken for a slip of the unit.

    Examples
    --------
    >>> monthly_values("rain_mm", [50.0] * 12, low=0.0, high=2000.0, unit="mm").sum()
    np.float64(600.0)
    """
    array = np.asarray(values, dtype=np.float64)
    if array.shape != (12,):
        raise OutOfRangeError(
            f"{name} needs 12 monthly values from January on; {array.size} were given"
        )
    if not np.all((array >= low) & (array <= high)):
        raise OutOfRangeError(
            f"{name} must lie between {low:g} and {high:g} {unit} in every month; check the unit"
        )
    return array
