"""The sums of one mixed layer, for one number or an array of them.

Written once: NumPy works them out for the beds of one case at a time, and the compiler turns the
same lines into machine code for many cases (``core.mixed_layer_many``).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, Final

import numpy as np

from loamshift.core.soil_water import hydrogen_by_newton, ratio_of_slopes

LN10: Final = math.log(10.0)
SLOW_BELOW_PH: Final = 1.0
"""Free lime takes up all acid at the pH it holds the soil at, and less down to so far below."""
DAYS_IN_YEAR: Final = 365.25

Number = Any
"""A float, or an array of them: the sums are the same."""

exp: Callable[[Any], Any] = np.exp
least: Callable[[Any, Any], Any] = np.minimum
most: Callable[[Any, Any], Any] = np.maximum
pick: Callable[[Any, Any, Any], Any] = np.where
"""Called by these names, since the compiler is given its own for single numbers."""


def used_up(x: Number) -> Number:
    """Share used up by a first-order step.

    Parameters
    ----------
    x
        Rate times time, 0 or more [-].

    Returns
    -------
    float or ndarray
        1 - exp(-x) [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> float(used_up(0.0))
    0.0
    """
    return -np.expm1(-x)


def leached_mmolc_m2(
    ph: Number,
    background: Number,
    rise_per_ph: Number,
    weathering: Number,
    air: Number,
    reference_ph: Number,
    highest_ph: Number,
    leaching: Number,
    days: Number,
) -> Number:
    """Base that a year's load takes out in a step, less weathering, with the air.

    Parameters
    ----------
    ph
        Of the layer [pH in water].
    background
        Load at the reference pH [mmolc/m2/yr].
    rise_per_ph
        Rise of its logarithm with the pH [1/pH].
    weathering
        What minerals give [mmolc/m2/yr].
    air
        What comes from the air beside the load [mmolc/m2/yr].
    reference_ph
        Where the load is stated [pH].
    highest_ph
        From here up it rises no more [pH].
    leaching
        Factor of the drainage [-].
    days
        Length of the step [d].

    Returns
    -------
    float or ndarray
        Base; negative where weathering gives more [mmolc/m2].

    Notes
    -----
    load x exp(rise (pH - reference)) x leaching, less weathering, with the air, by the year.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> float(leached_mmolc_m2(5.0, 365.25, 0.5, 0.0, 0.0, 5.0, 7.0, 1.0, 30.0))
    30.0
    """
    rise = least(ph, highest_ph) - reference_ph
    lost = background * exp(rise_per_ph * rise) * leaching - weathering + air
    return lost * days / DAYS_IN_YEAR


def rest_ph(bicarbonate: Number, anions: Number, suspension: Number) -> Number:
    """PH of the suspension at which draining water carries out neither acid nor base.

    Parameters
    ----------
    bicarbonate
        Times 1/H it is the bicarbonate [mmol2/L2].
    anions
        Anions in the soil water, bicarbonate apart [mmolc/L].
    suspension
        Calcium with magnesium in the suspension [mmolc/L].

    Returns
    -------
    float or ndarray
        The pH [pH in water].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(float(rest_ph(1e-7, 1.26, 1.26)), 2)
    5.0
    """
    at_rest = np.sqrt(bicarbonate / 1000.0)
    return 0.5 * np.log10((anions + bicarbonate / at_rest) / suspension) - np.log10(at_rest)


def drained_base_mmolc_m2(
    ph: Number,
    at_rest_ph: Number,
    anions: Number,
    bicarbonate: Number,
    highest: Number,
    suspension: Number,
    ph_per_base: Number,
    water_mm: Number,
) -> Number:
    """Base that draining water carries out in a step: linear implicit, as in the column.

    Parameters
    ----------
    ph
        Of the layer [pH in water].
    at_rest_ph
        From ``rest_ph`` [pH].
    anions
        Anions in the soil water, bicarbonate apart [mmolc/L].
    bicarbonate
        Times 1/H it is the bicarbonate [mmol2/L2].
    highest
        The most bicarbonate that it holds [mmolc/L].
    suspension
        Calcium with magnesium in the suspension [mmolc/L].
    ph_per_base
        Slope of the layer [pH m2/mmolc].
    water_mm
        Water that drains in the step [mm].

    Returns
    -------
    float or ndarray
        Base; negative where acid goes out [mmolc/m2].

    Notes
    -----
    A = min(b/H, highest) - 1000 H [mmolc/L], H of the soil water; F = w A/(1 + w A' dpH/db).
    Where the ceiling makes A' too small the chord to the pH at which A is 0 stands in for it.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> float(drained_base_mmolc_m2(6.0, 5.0, 1.0, 1e-7, 6.0, 1.26, 0.0, 0.0))
    0.0
    """
    hydrogen = hydrogen_by_newton(exp(-LN10 * ph), anions, bicarbonate, suspension)
    held = bicarbonate / hydrogen
    acid = 1000.0 * hydrogen
    content = least(held, highest) - acid
    slope = LN10 * (pick(held < highest, held, 0.0) + acid) * ratio_of_slopes(held, anions)
    off = ph - at_rest_ph
    beyond = content * off > 0.0
    slope = pick(beyond, most(slope, content / pick(beyond, off, 1.0)), slope)
    return water_mm * content / (1.0 + water_mm * slope * ph_per_base)


def taken_by_lime_frac(ph: Number, held_ph: Number) -> Number:
    """Share of the acid of a step that free lime takes up at a pH.

    Parameters
    ----------
    ph
        Of the layer [pH in water].
    held_ph
        At which lime holds it [pH].

    Returns
    -------
    float or ndarray
        Share, all of it where lime holds the soil and less below [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> float(taken_by_lime_frac(7.5, 8.0))
    0.5
    """
    return least(most(1.0 - (held_ph - ph) / SLOW_BELOW_PH, 0.0), 1.0)


def given_by_lime_mmolc_m2(
    ph: Number,
    carbonate: Number,
    room: Number,
    held_ph: Number,
    per_d: Number,
    acid_exponent: Number,
    full_above_ph: Number,
    is_coarse: Number,
    days: Number,
) -> Number:
    """Base that free lime gives in a step to a layer below the pH at which it holds it.

    Parameters
    ----------
    ph
        Of the layer [pH in water].
    carbonate
        Base of the free lime [mmolc/m2].
    room
        What the layer takes up to that pH [mmolc/m2].
    held_ph
        At which lime holds it [pH].
    per_d
        Rate of the lime at ``full_above_ph`` [1/d].
    acid_exponent
        How much faster below [1/pH].
    full_above_ph
        From here up its rate is the least [pH].
    is_coarse
        Whether it lies there in coarse grains [truth].
    days
        Length of the step [d].

    Returns
    -------
    float or ndarray
        Base, no more than there is or than there is room for [mmolc/m2].

    Notes
    -----
    Fine lime a share of the way there, coarse grains a share of what is left of them.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> float(given_by_lime_mmolc_m2(7.5, 0.0, 50.0, 8.0, 0.1, 0.3, 7.0, False, 30.0))
    0.0
    """
    below = most(full_above_ph - ph, 0.0)
    time = days * exp(LN10 * acid_exponent * below)
    near = pick(is_coarse, least(most(held_ph - ph, 0.0), 1.0), 1.0)
    share = used_up(per_d * near * time)
    fine = least(carbonate, room * share)
    coarse = least(carbonate * share, room)
    return pick(is_coarse, coarse, fine)
