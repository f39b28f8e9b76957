"""The scale k of one bed's buffer curve, learnt from measurements.

log10 k is normal; each measurement gives a value and an sd, and they are combined by
precision. No measurement may sharpen it beyond what sampling in the field allows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np

from loamshift.core.buffer_curve import (
    LN10,
    BufferParameters,
    FloatArray,
    shape_mmolc_kg,
    shape_slope_mmolc_kg_ph,
    soil_arrays,
    solution_mmolc_kg,
)
from loamshift.errors import FitError, InputError

_REACH_SD = 6.0
_NODES = 301


class Log10K(NamedTuple):
    """The logarithm of the scale of a curve, with its sd [log10]."""

    mean: float
    sd: float


def combine_log10_k(
    *, mean: float, sd: float, observed: Sequence[tuple[float, float]]
) -> tuple[float, float]:
    """Belief about log10 k after measurements, each weighted by its precision.

    Parameters
    ----------
    mean
        Mean before [log10].
    sd
        Standard deviation before, above 0 [log10].
    observed
        Pairs of measured log10 k and its sd, above 0; empty leaves the belief as it was [log10].

    Returns
    -------
    tuple of float
        Mean and sd after [log10].

    Raises
    ------
    InputError
        Where an sd is not a positive number.

    Notes
    -----
    Precision (1/sd^2) adds; the mean is the precision-weighted mean. Measurements are taken as
    independent: jars of one sample are one measurement, see ``log10_k_from_titration``.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> mean, sd = combine_log10_k(mean=0.0, sd=0.20, observed=[(0.20, 0.10)])
    >>> round(mean, 3), round(sd, 4)
    (0.16, 0.0894)
    """
    precision = 0.0
    total = 0.0
    for value, error in ((mean, sd), *observed):
        if not (math.isfinite(value) and math.isfinite(error) and error > 0.0):
            raise InputError(
                f"log10 k {value:g} with sd {error:g}: the sd must be a positive number; "
                "state how sure the measurement is"
            )
        weight = 1.0 / (error * error)
        precision += weight
        total += weight * value
    return total / precision, math.sqrt(1.0 / precision)


class Possible(NamedTuple):
    """One thing a measurement may mean: its weight [0-1], log10 k and sd [log10]."""

    weight: float
    mean: float
    sd: float


def log10_k_after(
    *,
    mean: float,
    sd: float,
    exact: Sequence[tuple[float, float]] = (),
    rough: Sequence[Sequence[Possible]] = (),
    freedom: float = 4.0,
) -> Log10K:
    """Belief about log10 k after measurements of which some may be far out, or mean two things.

    Parameters
    ----------
    mean
        Mean before [log10].
    sd
        Standard deviation before, above 0 [log10].
    exact
        Pairs of measured log10 k and its sd, whose error is normal [log10].
    rough
        Measurements whose error has long tails, each as what it may mean with weights that need
        not sum to 1 [see class].
    freedom
        Degrees of freedom of the t distribution of their errors, 1 or more [1].

    Returns
    -------
    Log10K
        Mean and sd after [log10].

    Raises
    ------
    InputError
        Where an sd is not a positive number.

    Notes
    -----
    Normal belief times the t densities of the measurements, on 301 even nodes over six sd. A
    measurement that lies far out moves the belief less, the farther it lies; one that may mean
    several things counts as the sum over them, so that what fits nothing has no weight.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> near = log10_k_after(mean=0.0, sd=0.2, rough=[[Possible(1.0, 0.2, 0.15)]])
    >>> far = log10_k_after(mean=0.0, sd=0.2, rough=[[Possible(1.0, 2.0, 0.15)]])
    >>> round(near.mean, 2), round(far.mean, 2)
    (0.12, 0.1)
    """
    mean, sd = combine_log10_k(mean=mean, sd=sd, observed=exact)
    if not rough:
        return Log10K(mean, sd)
    nodes = mean + sd * np.linspace(-_REACH_SD, _REACH_SD, _NODES)
    logged = -0.5 * ((nodes - mean) / sd) ** 2
    for possibilities in rough:
        density = np.zeros_like(nodes)
        for weight, at, error in possibilities:
            if not (math.isfinite(at) and math.isfinite(error) and error > 0.0):
                raise InputError(
                    f"log10 k {at:g} with sd {error:g}: the sd must be a positive number; "
                    "state how sure the measurement is"
                )
            tail = (1.0 + ((nodes - at) / error) ** 2 / freedom) ** (-0.5 * (freedom + 1.0))
            density += weight / error * tail
        logged = logged + np.log(density)
    share = np.exp(logged - logged.max())
    share /= share.sum()
    centre = float(share @ nodes)
    return Log10K(centre, math.sqrt(float(share @ (nodes - centre) ** 2)))


def log10_k_from_step(
    *,
    acid_mmolc_kg: float,
    ph_from: float,
    ph_to: float,
    clay_pct: float,
    organic_carbon_pct: float,
    params: BufferParameters,
    ph_sd: float | None = None,
    organic_only: bool = False,
) -> Log10K:
    """The scale of a curve from one measured step: so much acid, from this pH to that.

    Parameters
    ----------
    acid_mmolc_kg
        Acid that made the step; negative for base [mmolc/kg].
    ph_from
        pH in water before [pH].
    ph_to
        pH in water after [pH].
    clay_pct
        Clay [%].
    organic_carbon_pct
        Organic carbon [%].
    params
        Coefficients, topic ``buffer`` [see class].
    ph_sd
        Error of each reading; None takes ``step_ph_sd`` of the parameters [pH].
    organic_only
        True for peat and bark mixes [true or false].

    Returns
    -------
    Log10K
        Measured log10 k and its sd [log10].

    Raises
    ------
    InputError
        Where acid and step point in opposite ways, or the step is no larger than the error of
        its two readings, so that it says nothing.

    Notes
    -----
    k = acid / (Q(a) - Q(b)), the small solution term taken out first. The error of the two
    readings is carried through the slope of the curve at either end; the sampling floor of the
    field is added in variance. A step of 1 pH gives sd about 0.09 to 0.10. Free carbonate must
    be absent: it would be read as buffering.

    References
    ----------
    glendining-2023

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> found = log10_k_from_step(acid_mmolc_kg=34.0, ph_from=7.0, ph_to=5.5, clay_pct=18.0,
    ...                           organic_carbon_pct=1.5, params=p)
    >>> round(abs(found.mean), 2), round(found.sd, 3)
    (0.0, 0.085)
    """
    error = params.step_ph_sd if ph_sd is None else ph_sd
    if not (math.isfinite(error) and error > 0.0):
        raise InputError(f"ph_sd = {error:g} must be above 0; a laboratory reading is about 0.05")
    if not (math.isfinite(acid_mmolc_kg) and acid_mmolc_kg * (ph_from - ph_to) > 0.0):
        raise InputError(
            f"{acid_mmolc_kg:g} mmolc/kg of acid cannot take the pH from {ph_from:g} to "
            f"{ph_to:g}; acid is positive and lowers the pH, base is negative"
        )
    if abs(ph_from - ph_to) <= math.sqrt(2.0) * error:
        raise InputError(
            f"a step of {abs(ph_from - ph_to):.2g} pH is no larger than the error of its two "
            f"readings (sd {error:g} each); add more acid or base and read again"
        )
    ph, clay, carbon, _ = soil_arrays(
        ph=(ph_from, ph_to), clay_pct=clay_pct, organic_carbon_pct=organic_carbon_pct, k=1.0
    )
    curve = _curve(clay, carbon, params, organic_only)
    shape = shape_mmolc_kg(ph, **curve)
    slope = shape_slope_mmolc_kg_ph(ph, **curve)
    solution = solution_mmolc_kg(ph, params=params)
    shape_step = float(shape[0] - shape[1])
    scaled = acid_mmolc_kg - float(solution[0] - solution[1])
    if scaled / shape_step <= 0.0:
        raise InputError(
            f"{acid_mmolc_kg:g} mmolc/kg is less than the soil solution alone takes up between "
            f"pH {ph_from:g} and {ph_to:g}; check the amount of soil in the jar"
        )
    reading = error * math.hypot(float(slope[0]), float(slope[1])) / (abs(shape_step) * LN10)
    return Log10K(math.log10(scaled / shape_step), math.hypot(reading, params.log10_k_floor_sd))


def log10_k_from_titration(
    acid_mmolc_kg: FloatArray | Sequence[float],
    ph_water: FloatArray | Sequence[float],
    *,
    clay_pct: float,
    organic_carbon_pct: float,
    params: BufferParameters,
    ph_sd: float | None = None,
    organic_only: bool = False,
) -> Log10K:
    """The scale of a curve from a series of jars of one soil, each with its acid or base.

    Parameters
    ----------
    acid_mmolc_kg
        Acid of each jar; 0 for the untreated one, negative for base [mmolc/kg].
    ph_water
        pH in water of each jar [pH].
    clay_pct
        Clay [%].
    organic_carbon_pct
        Organic carbon [%].
    params
        Coefficients, topic ``buffer`` [see class].
    ph_sd
        Error of each reading; None takes ``step_ph_sd`` of the parameters [pH].
    organic_only
        True for peat and bark mixes [true or false].

    Returns
    -------
    Log10K
        Fitted log10 k and its sd [log10].

    Raises
    ------
    InputError
        Where there are fewer than two jars, or lengths differ.
    FitError
        Where the pH does not fall as acid is added, or spans less than the error of reading.

    Notes
    -----
    Least squares of acid + solution(pH) = c - k shape(pH) for c and k, each jar weighted by the
    inverse square of the curve's slope, so that the errors are those of the pH readings. The sd
    comes from the scatter about the fit, or from ``ph_sd`` if that is larger, with the sampling
    floor of the field added in variance.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = BufferParameters(**parameter_values("buffer"))
    >>> found = log10_k_from_titration([-20.0, 0.0, 20.0, 40.0], [7.40, 6.50, 5.62, 4.85],
    ...                                clay_pct=18.0, organic_carbon_pct=1.5, params=p)
    >>> round(10**found.mean, 2), round(found.sd, 3)
    (1.0, 0.082)
    """
    error = params.step_ph_sd if ph_sd is None else ph_sd
    acid = np.asarray(acid_mmolc_kg, dtype=np.float64)
    if acid.ndim != 1 or acid.size < 2 or acid.shape != np.shape(ph_water):
        raise InputError(
            f"a titration needs two jars or more, each with its acid and its pH; given "
            f"{acid.size} amounts and {np.size(ph_water)} readings"
        )
    if not (np.isfinite(acid).all() and math.isfinite(error) and error > 0.0):
        raise InputError("amounts of acid must be finite and ph_sd above 0; check the jar list")
    ph, clay, carbon, _ = soil_arrays(
        ph=ph_water, clay_pct=clay_pct, organic_carbon_pct=organic_carbon_pct, k=1.0
    )
    curve = _curve(clay, carbon, params, organic_only)
    shape = shape_mmolc_kg(ph, **curve)
    scaled = acid + solution_mmolc_kg(ph, params=params)
    weight = shape_slope_mmolc_kg_ph(ph, **curve) ** -2.0
    weight = weight / weight.sum()
    shape_mean = float(np.sum(weight * shape))
    shape_spread = shape - shape_mean
    variance = float(np.sum(weight * shape_spread**2))
    slope_mean = float(np.sqrt(1.0 / np.mean(shape_slope_mmolc_kg_ph(ph, **curve) ** -2.0)))
    if math.sqrt(variance) <= error * slope_mean:
        raise FitError(
            f"the jars span only pH {ph.min():.2f} to {ph.max():.2f}, no more than the error of "
            f"reading (sd {error:g}); use larger steps of acid or base"
        )
    k = -float(np.sum(weight * shape_spread * scaled)) / variance
    if not k > 0.0:
        raise FitError(
            "the pH does not fall as acid is added; check that acid is positive, base negative, "
            "and that no jar was swapped"
        )
    offset = float(np.sum(weight * scaled)) + k * shape_mean
    residual_ph = (scaled - offset + k * shape) / (k * shape_slope_mmolc_kg_ph(ph, **curve))
    free = acid.size - 2
    scatter = math.sqrt(float(np.sum(residual_ph**2)) / free) if free > 0 else 0.0
    per_jar = max(scatter, error) * slope_mean
    reading = per_jar / (math.sqrt(acid.size * variance) * LN10)
    return Log10K(math.log10(k), math.hypot(reading, params.log10_k_floor_sd))


def _curve(
    clay: FloatArray, carbon: FloatArray, params: BufferParameters, organic_only: bool
) -> dict[str, Any]:
    return {
        "clay_pct": clay,
        "organic_carbon_pct": carbon,
        "params": params,
        "organic_only": organic_only,
    }
