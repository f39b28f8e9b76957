"""The clock of elemental sulfur: how much has turned to acid by when.

Rate per unit of surface, particles that shrink, a lag while the oxidisers grow, prills that
fall apart or stay whole. Time steps are days of soil temperature.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.core.sulfur_rate import (
    SulfurParameters,
    moisture_factor,
    ph_factor,
    temperature_factor,
)
from loamshift.errors import OutOfRangeError

SizeTriple = tuple[float, float, float]
"""Lower and upper diameter of a size class [um] and its share of the mass [0-1]."""
CM_PER_UM = 1.0e-4


def surface_loss(
    soil_temp_daily_c: ArrayLike,
    *,
    params: SulfurParameters,
    wetness: ArrayLike = 1.0,
    ph_water: float | None = None,
    k_scale: float = 1.0,
    sulfur_before: bool = False,
) -> NDArray[np.float64]:
    """Sulfur gone per area of particle surface by the end of each day.

    Parameters
    ----------
    soil_temp_daily_c
        Soil temperature of each day from the day of application on, one axis [degC].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].
    wetness
        Soil water over field capacity, one number or one per day [1].
    ph_water
        pH in water of the soil where it is known to be acid, None for no effect [pH].
    k_scale
        Factor on the rate, for a bed whose own rate is known or a draw of it, above 0 [1].
    sulfur_before
        True where sulfur was given in the last years, which cuts the lag to a third [truth].

    Returns
    -------
    ndarray
        Integral of the rate since application, one per day [ug/cm2].

    Raises
    ------
    OutOfRangeError
        For impossible temperatures, wetness, pH or scale.

    Notes
    -----
    K = integral of k f_T f_w min(1, c/lag) where the clock c counts days at 25 degC and field
    capacity. Within c the ramp integrates exactly to c2/(2 lag) and then c - lag/2, so the result
    does not hang on the step.

    References
    ----------
    watkinson-blair-1993, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> surface_loss([25.0] * 20, params=p).round(0).tolist()[-1]
    405.0
    """
    if not k_scale > 0.0:
        raise OutOfRangeError(f"k_scale {k_scale:g} must be above 0; 1 is the usual rate")
    factor = temperature_factor(soil_temp_daily_c, params) * moisture_factor(wetness, params)
    if factor.ndim != 1:
        raise OutOfRangeError(
            "soil_temp_daily_c must be one row of days; call once for each bed or member"
        )
    clock = np.cumsum(factor)
    lag = params.lag_d / 3.0 if sulfur_before else params.lag_d
    ramp = np.where(clock < lag, clock * clock / (2.0 * lag), clock - 0.5 * lag)
    acid_soil = 1.0 if ph_water is None else ph_factor(ph_water, params)
    return params.rate_ug_cm2_d * params.roughness * k_scale * acid_soil * ramp


def left_frac(
    surface_loss_ug_cm2: ArrayLike, *, sizes: Sequence[SizeTriple], params: SulfurParameters
) -> NDArray[np.float64]:
    """Share of the sulfur not yet oxidised, summed over the size classes.

    Parameters
    ----------
    surface_loss_ug_cm2
        Sulfur gone per surface, any shape, 0 or more [ug/cm2].
    sizes
        Size classes as (lower, upper, share of mass); the shares add up to 1, a class whose
        bounds are equal is one size [um, um, 0-1].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].

    Returns
    -------
    ndarray
        Share of the mass left, 1 to 0, same shape [1].

    Raises
    ------
    OutOfRangeError
        For a negative loss, bounds that are not 0 < lower <= upper, or shares that do not add
        up to 1.

    Notes
    -----
    One sphere: max(0, 1 - 2 K/(rho d))^3. Within a class the mass is spread evenly over the
    logarithm of the diameter; the mean over the class is integrated exactly, so no class is too
    wide: the integral of (1 - a/d)^3 dln d is ln d + 3 a/d - 3 a2/(2 d2) + a3/(3 d3), a = 2 K/rho.

    References
    ----------
    watkinson-blair-1993, watkinson-1993

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> left_frac([0.0, 300.0, 2000.0], sizes=[(10.0, 75.0, 1.0)], params=p).round(2).tolist()
    [1.0, 0.68, 0.1]
    """
    loss = np.asarray(surface_loss_ug_cm2, dtype=np.float64)
    if not np.all(loss >= 0.0):
        raise OutOfRangeError("surface_loss_ug_cm2 must be 0 or more; it only grows with time")
    _require_sizes(sizes)
    eaten_um = 2.0 * loss / params.density_ug_cm3 / CM_PER_UM
    left = np.zeros_like(loss)
    for low, high, mass in sizes:
        left = left + mass * _class_left(eaten_um, low=low, high=high)
    return np.clip(left, 0.0, 1.0)


def oxidised_course(
    soil_temp_daily_c: ArrayLike,
    *,
    sizes: Sequence[SizeTriple],
    params: SulfurParameters,
    wetness: ArrayLike = 1.0,
    ph_water: float | None = None,
    intact_diameter_um: float | None = None,
    k_scale: float = 1.0,
    sulfur_before: bool = False,
) -> NDArray[np.float64]:
    """Share of an application of sulfur that has turned to acid by the end of each day.

    Parameters
    ----------
    soil_temp_daily_c
        Soil temperature of each day from the day of application on, one axis [degC].
    sizes
        Size classes of the grains as (lower, upper, share of mass) [um, um, 0-1].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].
    wetness
        Soil water over field capacity, one number or one per day [1].
    ph_water
        pH in water of the soil where it is known to be acid, None for no effect [pH].
    intact_diameter_um
        Diameter of a prill or pastille that may stay whole, None for loose grains [um].
    k_scale
        Factor on the rate, above 0 [1].
    sulfur_before
        True where sulfur was given in the last years [truth].

    Returns
    -------
    ndarray
        Share oxidised, 0 to 1, never falling, one per day [1].

    Raises
    ------
    OutOfRangeError
        As :func:`surface_loss` and :func:`left_frac`.

    Notes
    -----
    Of prills the share ``break_up_frac`` reacts by the sizes of its grains, the rest as whole
    spheres. At the medians the course is 3 to 9 points fast for powder at 25 degC, and slow in
    the two cool field rows by 13 (under 150 um) and 49 points (250-500 um, where the published
    law itself fails); sizes and climate of those rows are assumed.

    References
    ----------
    watkinson-blair-1993, degryse-2016, boswell-1997

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> course = oxidised_course([25.0] * 60, sizes=[(10.0, 75.0, 1.0)], params=p)
    >>> course[[9, 29, 59]].round(2).tolist()
    [0.16, 0.58, 0.83]
    """
    loss = surface_loss(
        soil_temp_daily_c,
        params=params,
        wetness=wetness,
        ph_water=ph_water,
        k_scale=k_scale,
        sulfur_before=sulfur_before,
    )
    left = left_frac(loss, sizes=sizes, params=params)
    if intact_diameter_um is not None:
        whole = [(intact_diameter_um, intact_diameter_um, 1.0)]
        left_whole = left_frac(loss, sizes=whole, params=params)
        left = params.break_up_frac * left + (1.0 - params.break_up_frac) * left_whole
    return 1.0 - left


def days_until_frac(course: ArrayLike, frac: float) -> float:
    """Days from the application until a share has been oxidised.

    Parameters
    ----------
    course
        Share at the end of each day, never falling, from :func:`oxidised_course` [1].
    frac
        Share asked for, above 0 to 1 [1].

    Returns
    -------
    float
        Days, with a fraction by straight interpolation within the day; infinity where the course
        ends before the share is reached [d].

    Raises
    ------
    OutOfRangeError
        For a share outside 0 to 1, an empty course, or one that falls.

    Notes
    -----
    Day 0 stands at a share of 0; between the ends of two days the share is taken as a straight
    line.

    Examples
    --------
    >>> days_until_frac([0.1, 0.3, 0.7], 0.5)
    2.5
    >>> days_until_frac([0.1, 0.3], 0.5)
    inf
    """
    values = np.asarray(course, dtype=np.float64)
    if not 0.0 < frac <= 1.0:
        raise OutOfRangeError(f"frac {frac:g} must lie above 0 and up to 1; divide per cent by 100")
    if values.ndim != 1 or values.size == 0 or not np.all(np.diff(values, prepend=0.0) >= -1.0e-9):
        raise OutOfRangeError("course must be one row of shares that never falls")
    if values[-1] < frac:
        return math.inf
    after = int(np.argmax(values >= frac))
    before = float(values[after - 1]) if after > 0 else 0.0
    step = float(values[after]) - before
    return after + ((frac - before) / step if step > 0.0 else 1.0)


def _class_left(eaten_um: NDArray[np.float64], *, low: float, high: float) -> Any:
    """Mean of max(0, 1 - a/d)^3 over ln d between two diameters."""
    if high / low < 1.0 + 1.0e-4:
        middle = math.sqrt(low * high)
        return np.maximum(0.0, 1.0 - eaten_um / middle) ** 3
    start = np.clip(eaten_um, low, high)

    def integral(diameter: Any) -> Any:
        ratio = eaten_um / diameter
        return np.log(diameter) + 3.0 * ratio - 1.5 * ratio**2 + ratio**3 / 3.0

    return np.where(eaten_um < high, (integral(high) - integral(start)) / math.log(high / low), 0.0)


def _require_sizes(sizes: Sequence[SizeTriple]) -> None:
    for low, high, mass in sizes:
        if not 0.0 < low <= high <= 20000.0:
            raise OutOfRangeError(
                f"size class {low:g} to {high:g} um needs 0 < lower <= upper <= 20000; give the "
                "finest size the maker states, or a tenth of the upper one"
            )
        if not 0.0 <= mass <= 1.0:
            raise OutOfRangeError(f"share of mass {mass:g} must lie between 0 and 1")
    total = sum(mass for _, _, mass in sizes)
    if abs(total - 1.0) > 1.0e-6:
        raise OutOfRangeError(
            f"the shares of the size classes add up to {total:g}; they must add up to 1"
        )
