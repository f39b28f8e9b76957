"""Sulfur in the compiled column: what is left of a dose, and one step of its clock."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import ColumnEvents, EventKind, FloatArray
from loamshift.core.column_numbers import (
    A1,
    A2,
    A3,
    DOSE_CLOCK,
    DOSE_EATEN,
    DOSE_LEFT,
    DOSE_START,
    FRAC,
    HIGH_UM,
    INTACT,
    LAG,
    LOW_UM,
    PER_LOG,
    RATE_FACTOR,
)

CM_PER_UM: Final = 1.0e-4
SPENT: Final = 1.0e-3
"""A pool smaller than this is used up at once [mmolc/m2]."""
_ONE_SIZE: Final = 1.0 + 1.0e-4
"""Classes whose bounds differ by less are one size."""


def dose_sizes(events: ColumnEvents) -> FloatArray:
    """The size classes of each sulfur dose, with the constants of their means.

    Parameters
    ----------
    events
        All events of a run [arrays].

    Returns
    -------
    ndarray
        Shape (doses, classes, 7), places as in ``column_numbers`` [mixed].

    Notes
    -----
    Mass even over the logarithm of the diameter within a class, as in ``sulfur.left_frac``: the
    mean of (1 - a/d)^3 is 1 - a1 a + a2 a2 - a3 a3 while a is below the class.

    References
    ----------
    watkinson-blair-1993, own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> dose_sizes(column_events([], n_layers=3)).shape
    (0, 1, 7)
    """
    is_dose = events.kind == EventKind.SULFUR
    low, high = events.size_low_um[is_dose], events.size_high_um[is_dose]
    one = high / low < _ONE_SIZE
    middle = np.sqrt(low * high)
    log = np.log(np.where(one, 2.0, high / low))
    spread = [(1.0 / low**n - 1.0 / high**n) / log for n in (1, 2, 3)]
    sizes = np.empty((*low.shape, 7))
    sizes[..., LOW_UM] = np.where(one, middle, low)
    sizes[..., HIGH_UM] = np.where(one, middle, high)
    sizes[..., FRAC] = events.size_frac[is_dose]
    sizes[..., A1] = np.where(one, 3.0 / middle, 3.0 * spread[0])
    sizes[..., A2] = np.where(one, 3.0 / middle**2, 1.5 * spread[1])
    sizes[..., A3] = np.where(one, 1.0 / middle**3, spread[2] / 3.0)
    sizes[..., PER_LOG] = np.where(one, 0.0, 1.0 / log)
    return sizes


def dose_numbers(events: ColumnEvents) -> FloatArray:
    """Prills, rate and lag of each sulfur dose.

    Parameters
    ----------
    events
        All events of a run [arrays].

    Returns
    -------
    ndarray
        Shape (doses, 3): diameter of prills, factor on the rate, factor on the lag [um, -, -].

    Notes
    -----
    In the order of the events.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> dose_numbers(column_events([], n_layers=3)).shape
    (0, 3)
    """
    is_dose = events.kind == EventKind.SULFUR
    columns = (events.intact_um, events.rate_factor, events.lag_factor)
    return np.ascontiguousarray(np.stack([column[is_dose] for column in columns], axis=1))


@compiled
def dose_left(sizes: FloatArray, doses: FloatArray, dose: int, eaten: FloatArray) -> float:
    """Share of a dose not yet oxidised.

    Parameters
    ----------
    sizes
        Of :func:`dose_sizes` [mixed].
    doses
        Of :func:`dose_numbers` [mixed].
    dose
        Which one [index].
    eaten
        Diameter that a grain has lost so far, 2 K/rho, and share of prills that fall apart
        [um, 0-1].

    Returns
    -------
    float
        Share left [0-1].

    Notes
    -----
    The mean of max(0, 1 - a/d)^3 over each class, exactly; whole prills are one size.

    References
    ----------
    watkinson-blair-1993, watkinson-1993

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> from loamshift.core.column_layout import ColumnEvent
    >>> dose = ColumnEvent(kind=EventKind.SULFUR, day=0, layer_share=(1.0,), amount=1.0,
    ...                    sizes=((100.0, 100.0, 1.0),))
    >>> events = column_events([dose], n_layers=1)
    >>> sizes, doses = dose_sizes(events), dose_numbers(events)
    >>> round(dose_left(sizes, doses, 0, np.array([50.0, 0.5])), 9)
    0.125
    """
    left = 0.0
    a = eaten[0]
    for i in range(sizes.shape[1]):
        share = sizes[dose, i, FRAC]
        high = sizes[dose, i, HIGH_UM]
        if share <= 0.0 or a >= high:
            continue
        if a <= sizes[dose, i, LOW_UM]:
            part = 1.0 - a * (
                sizes[dose, i, A1] - a * (sizes[dose, i, A2] - a * sizes[dose, i, A3])
            )
        else:
            r = a / high
            part = math.log(high / a) + r * (3.0 - r * (1.5 - r / 3.0))
            part = (part - (3.0 - 1.5 + 1.0 / 3.0)) * sizes[dose, i, PER_LOG]
        left += share * max(0.0, part)
    whole_um = doses[dose, INTACT]
    if whole_um > 0.0:
        whole = max(0.0, 1.0 - a / whole_um)
        left = eaten[1] * left + (1.0 - eaten[1]) * whole * whole * whole
    return left


@compiled
def eaten_for(sizes: FloatArray, doses: FloatArray, dose: int, wanted: FloatArray) -> float:
    """Loss of diameter at which this share of a dose is left.

    Parameters
    ----------
    sizes
        Of :func:`dose_sizes` [mixed].
    doses
        Of :func:`dose_numbers` [mixed].
    dose
        Which one [index].
    wanted
        Share left, share of prills that fall apart, and two places to work in [0-1].

    Returns
    -------
    float
        Loss of diameter [um].

    Notes
    -----
    Bisection. Used where tillage mixes layers: the mixed dose keeps its mass, where a mean of
    the losses would not, because the law is curved.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> from loamshift.core.column_layout import ColumnEvent
    >>> dose = ColumnEvent(kind=EventKind.SULFUR, day=0, layer_share=(1.0,), amount=1.0,
    ...                    sizes=((100.0, 100.0, 1.0),))
    >>> events = column_events([dose], n_layers=1)
    >>> sizes, doses = dose_sizes(events), dose_numbers(events)
    >>> round(eaten_for(sizes, doses, 0, np.array([0.125, 0.5, 0.0, 0.0])), 6)
    50.0
    """
    low = 0.0
    high = doses[dose, INTACT]
    for i in range(sizes.shape[1]):
        high = max(high, sizes[dose, i, HIGH_UM])
    tried = wanted[2:]
    tried[1] = wanted[1]
    for _ in range(60):
        tried[0] = 0.5 * (low + high)
        if dose_left(sizes, doses, dose, tried) > wanted[0]:
            low = tried[0]
        else:
            high = tried[0]
    eaten: float = 0.5 * (low + high)
    return eaten


@compiled
def ramp(doses: FloatArray, dose: int, clock_d: float) -> float:
    """Days at full rate that a clock is worth, the lag taken off.

    Parameters
    ----------
    doses
        Prills, rate and lag of each dose, the lag in days [um, -, d].
    dose
        Which one [index].
    clock_d
        Days at 25 degC and field capacity [d].

    Returns
    -------
    float
        Days at full rate [d].

    Notes
    -----
    The integral of min(1, c/lag): c2/(2 lag), then c - lag/2.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> ramp(np.array([[0.0, 1.0, 10.0]]), 0, 20.0)
    15.0
    """
    lag: float = doses[dose, LAG]
    if clock_d < lag:
        return clock_d * clock_d / (2.0 * lag)
    return clock_d - 0.5 * lag


@compiled
def oxidise(
    grain: FloatArray, sizes: FloatArray, doses: FloatArray, layer: int, speed: FloatArray
) -> tuple[float, float]:
    """One step of every dose in a layer; what it turned to acid, and what is left.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here, shape (doses, layers, 4) [mixed].
    sizes
        Of :func:`dose_sizes` [mixed].
    doses
        Prills, rate and lag of each dose, the lag in days [um, -, d].
    layer
        Which layer [index].
    speed
        Room to work in; loss of diameter in a day at full rate, share of prills that fall
        apart, days at full rate that the step is worth [um, 0-1, um/d, d].

    Returns
    -------
    tuple of float
        Acid released, acid still to come [mmolc/m2].

    Notes
    -----
    Exact for a step of any length in constant weather and pH. The last thousandth of a mmolc
    reacts at once, so that a spent dose costs nothing.

    References
    ----------
    watkinson-blair-1993

    Examples
    --------
    >>> grain = np.array([[[100.0, 100.0, 0.0, 10.0]]])
    >>> sizes = np.zeros((1, 1, 7))
    >>> sizes[0, 0] = 100.0, 100.0, 1.0, 3.0 / 100.0, 3.0 / 100.0**2, 1.0 / 100.0**3, 0.0
    >>> doses, speed = np.array([[0.0, 1.0, 0.001]]), np.array([0.0, 0.5, 50.0, 1.0])
    >>> acid, left = oxidise(grain, sizes, doses, 0, speed)
    >>> round(float(acid), 6), round(float(left), 6)
    (87.5, 12.5)
    """
    acid = 0.0
    total = 0.0
    for dose in range(grain.shape[0]):
        before = grain[dose, layer, DOSE_LEFT]
        if before <= 0.0:
            continue
        clock = grain[dose, layer, DOSE_CLOCK]
        after = clock + speed[3]
        worth = ramp(doses, dose, after) - ramp(doses, dose, clock)
        speed[0] = grain[dose, layer, DOSE_EATEN] + speed[2] * doses[dose, RATE_FACTOR] * worth
        left = grain[dose, layer, DOSE_START] * dose_left(sizes, doses, dose, speed)
        if left < SPENT:
            left = 0.0
        left = min(left, before)
        grain[dose, layer, DOSE_CLOCK] = after
        grain[dose, layer, DOSE_EATEN] = speed[0]
        grain[dose, layer, DOSE_LEFT] = left
        acid += before - left
        total += left
    return acid, total
