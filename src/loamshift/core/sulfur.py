"""Grains of elemental sulfur: their surface, what is gone from it by when, and what is left.

Particles that shrink, eaten by oxidisers that grow. Time steps are days of soil temperature.
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
_UG_PER_G = 1.0e6


def surface_cm2_g(sizes: Sequence[SizeTriple], *, params: SulfurParameters) -> float:
    """Surface of a gram of sulfur grains.

    Parameters
    ----------
    sizes
        Size classes as (lower, upper, share of mass), as in :func:`left_frac` [um, um, 0-1].
    params
        Coefficients of the topic ``sulfur`` [see the dataclass].

    Returns
    -------
    float
        Surface of spheres of those diameters [cm2/g].

    Raises
    ------
    OutOfRangeError
        As :func:`left_frac`.

    Notes
    -----
    6/(rho d); the mean of 1/d over a class whose mass is even over ln d.

    References
    ----------
    watkinson-blair-1993, own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> round(surface_cm2_g([(100.0, 100.0, 1.0)], params=p))
    290
    """
    _require_sizes(sizes)
    per_um = 0.0
    for low, high, mass in sizes:
        narrow = high / low < 1.0 + 1.0e-4
        middle = math.sqrt(low * high)
        mean = 1.0 / middle if narrow else (1.0 / low - 1.0 / high) / math.log(high / low)
        per_um += mass * mean
    return 6.0 * _UG_PER_G / params.density_ug_cm3 * per_um / CM_PER_UM


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
        Factor on the rate, such as that of crowding or of lying on top, above 0 [1].
    sulfur_before
        True where sulfur was given in the last three years: the oxidisers are there [truth].

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
    K = integral of k P f_T f_w. The oxidisers P grow by dP/dc = mu P (1 - P) in the clock c of
    days at 25 degC and field capacity, so the integral of P dc is exactly
    c + ln(P0 + (1 - P0) exp(-mu c))/mu, and the result does not hang on the step.

    References
    ----------
    watkinson-blair-1993, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SulfurParameters(**parameter_values("sulfur"))
    >>> surface_loss([25.0] * 20, params=p).round(0).tolist()[-1]
    257.0
    """
    if not k_scale > 0.0:
        raise OutOfRangeError(f"k_scale {k_scale:g} must be above 0; 1 is the usual rate")
    factor = temperature_factor(soil_temp_daily_c, params) * moisture_factor(wetness, params)
    if factor.ndim != 1:
        raise OutOfRangeError(
            "soil_temp_daily_c must be one row of days; call once for each bed or member"
        )
    clock = np.cumsum(factor)
    grown = params.grown_again_frac if sulfur_before else params.grown_first_frac
    still = np.exp(-params.growth_per_d * clock)
    full = clock + np.log(grown + (1.0 - grown) * still) / params.growth_per_d
    acid_soil = 1.0 if ph_water is None else ph_factor(ph_water, params)
    return params.rate_ug_cm2_d * k_scale * acid_soil * np.maximum(0.0, full)


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


def mean_diameter_um(*, low_um: float, high_um: float) -> float:
    """Mean diameter of a size class whose mass is even over the logarithm of the diameter.

    Parameters
    ----------
    low_um
        Lower bound, above 0 [um].
    high_um
        Upper bound, the lower or more [um].

    Returns
    -------
    float
        Mean by mass [um].

    Notes
    -----
    (b - a)/ln(b/a).

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(mean_diameter_um(low_um=75.0, high_um=150.0), 1)
    108.2
    """
    if high_um / low_um < 1.0 + 1.0e-4:
        return math.sqrt(low_um * high_um)
    return (high_um - low_um) / math.log(high_um / low_um)


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
