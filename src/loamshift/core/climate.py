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
    evaporation from ground short of water; ``thermometer_months_least`` of readings that correct
    the swing of the year [months].
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
    thermometer_months_least: float


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


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilWave:
    """A yearly wave at the surface: its mean, and cosine and sine of one and two a year [degC]."""

    mean_c: float = 0.0
    cos_c: tuple[float, float] = (0.0, 0.0)
    sin_c: tuple[float, float] = (0.0, 0.0)


def soil_temperature_c(
    air_temp_c: Sequence[float],
    *,
    depth_cm: float,
    params: ClimateParameters,
    container: bool = False,
    correction: SoilWave | None = None,
) -> NDArray[np.float64]:
    """Soil temperature of each day of an average year.

    Answers when a soil is warm enough for sulfur and nitrogen to react. It is the damped wave of
    the air: warmth of bare sunny ground, mulch, slopes and the slow thaw in spring are left out
    unless a thermometer's ``correction`` brings them.

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
    correction
        What a soil thermometer adds, from ``fit_thermometer``; None without one [degC].

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
    day = np.arange(1.0, DAYS_IN_YEAR + 1.0)
    depth = np.full(DAYS_IN_YEAR, float(depth_cm))
    soil = np.zeros(DAYS_IN_YEAR)
    for wave in (soil_wave(air_temp_c), correction):
        if wave is not None:
            soil += wave_at(wave, days=day, depths_cm=depth, params=params, container=container)
    return not_below_snow_c(soil, params=params, container=container)


def soil_wave(air_temp_c: Sequence[float]) -> SoilWave:
    """The yearly wave of the air behind its monthly means.

    Parameters
    ----------
    air_temp_c
        Mean air temperature of January to December, 12 values, -60 to 50 [degC].

    Returns
    -------
    SoilWave
        Mean and two harmonics [degC].

    Raises
    ------
    OutOfRangeError
        For other than 12 sensible temperatures.

    Notes
    -----
    By least squares, each month being the exact mean of the wave over its own days.

    Examples
    --------
    >>> round(soil_wave([10.0] * 12).mean_c, 6)
    10.0
    """
    air = monthly_values("air_temp_c", air_temp_c, low=-60.0, high=50.0, unit="degC")
    edges = np.concatenate([[0.0], np.cumsum(DAYS_IN_MONTH)]).astype(np.float64)
    columns = [np.ones(12)]
    for n in _HARMONICS:
        omega = 2.0 * math.pi * n / DAYS_IN_YEAR
        sines, cosines = np.sin(omega * edges), np.cos(omega * edges)
        width = omega * np.diff(edges)
        columns += [np.diff(sines) / width, -np.diff(cosines) / width]
    mean, a1, b1, a2, b2 = np.linalg.lstsq(np.column_stack(columns), air, rcond=None)[0]
    return SoilWave(mean_c=float(mean), cos_c=(float(a1), float(a2)), sin_c=(float(b1), float(b2)))


def wave_at(
    wave: SoilWave,
    *,
    days: NDArray[np.float64],
    depths_cm: NDArray[np.float64],
    params: ClimateParameters,
    container: bool = False,
) -> NDArray[np.float64]:
    """A yearly wave of the surface as it arrives in the ground, snow and frost left out.

    Parameters
    ----------
    wave
        The wave at the surface [degC].
    days
        Day of the year, 1 to 365, each taken at its noon, shape (n,) [day of year].
    depths_cm
        Depth of each, 0 to 300, shape (n,) [cm].
    params
        Coefficients of the topic ``climate`` [see the dataclass].
    container
        True for pots, which follow the surface [truth].

    Returns
    -------
    ndarray
        Temperatures, shape (n,) [degC].

    Raises
    ------
    OutOfRangeError
        For a depth outside 0 to 300 cm.

    Notes
    -----
    Harmonic n is damped by exp(-z/D_n) and delayed by z/D_n radians.

    References
    ----------
    hillel-1982

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> wave_at(SoilWave(mean_c=9.0), days=np.ones(1), depths_cm=np.ones(1), params=p).tolist()
    [9.0]
    """
    depth = np.asarray(depths_cm, dtype=np.float64)
    if not np.all((depth >= 0.0) & (depth <= 300.0)):
        raise OutOfRangeError(f"depth_cm {depth.max():g} is outside 0 to 300; give centimetres")
    found = np.full(depth.shape, wave.mean_c)
    for n, cosine, sine in zip(_HARMONICS, wave.cos_c, wave.sin_c, strict=True):
        omega = 2.0 * math.pi * n / DAYS_IN_YEAR
        damping = damping_depth_cm(period_d=DAYS_IN_YEAR / n, params=params)
        ratio = np.zeros_like(depth) if container else depth / damping
        phase = omega * (np.asarray(days) - 0.5) - ratio
        found += np.exp(-ratio) * (cosine * np.cos(phase) + sine * np.sin(phase))
    return found


def not_below_snow_c(
    soil_temp_c: NDArray[np.float64], *, params: ClimateParameters, container: bool = False
) -> NDArray[np.float64]:
    """Soil temperatures with those of ground under snow or freezing at its floor.

    Parameters
    ----------
    soil_temp_c
        Temperatures, any shape [degC].
    params
        Coefficients of the topic ``climate`` [see the dataclass].
    container
        True for pots, which freeze through [truth].

    Returns
    -------
    ndarray
        The same, none of the ground below ``snow_floor_c`` [degC].

    Notes
    -----
    Snow and the heat of freezing water keep soil near 0.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> not_below_snow_c(np.array([-8.0, 3.0]), params=p).tolist()
    [0.0, 3.0]
    """
    return soil_temp_c if container else np.maximum(soil_temp_c, params.snow_floor_c)


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
