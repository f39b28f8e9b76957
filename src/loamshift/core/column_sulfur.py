"""Sulfur in the compiled column: what is left of a dose, and one step of its clock."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    A1,
    A2,
    A3,
    BREAK_DUG_IN,
    BREAK_TOP,
    CROWD_GRAINS,
    CROWD_WHOLE,
    DOSE_EATEN,
    DOSE_GROWN,
    DOSE_LEFT,
    DOSE_POOL,
    DOSE_START,
    DOSE_WHOLE,
    FRAC,
    HIGH_UM,
    INTACT,
    LOW_UM,
    ON_SURFACE,
    PER_EATEN,
    PER_LOG,
    RATE_FACTOR,
)

SPENT: Final = 1.0e-3
"""A pool smaller than this is used up at once [mmolc/m2]."""
_ALL_GROWN: Final = 1.0 - 1.0e-12
"""From here on the oxidisers count as grown."""


@compiled
def growth(grown_frac: float, growth_per_d: float, clock_d: float) -> tuple[float, float]:
    """Oxidisers after a step, and the days at full rate that the step is worth.

    Parameters
    ----------
    grown_frac
        Strength of the oxidisers before, above 0 to 1 [0-1].
    growth_per_d
        Their growth at 25 degC and field capacity, above 0 [1/d].
    clock_d
        Days at 25 degC and field capacity in the step [d].

    Returns
    -------
    tuple of float
        Strength after, days at full rate [0-1, d].

    Notes
    -----
    dP/dc = mu P (1 - P), exactly: with e = exp(-mu c), P becomes P/(P + (1 - P) e), and the
    integral of P dc is c + ln(P + (1 - P) e)/mu.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> [round(x, 3) for x in growth(0.2, 0.12, 20.0)]
    [0.734, 9.168]
    """
    if grown_frac >= _ALL_GROWN:
        return grown_frac, clock_d
    reach = grown_frac + (1.0 - grown_frac) * math.exp(-growth_per_d * clock_d)
    return grown_frac / reach, clock_d + math.log(reach) / growth_per_d


@compiled
def whole_left(eaten_um: float, diameter_um: float) -> float:
    """Share of one sphere not yet oxidised.

    Parameters
    ----------
    eaten_um
        Diameter lost so far [um].
    diameter_um
        Diameter at the start, above 0 [um].

    Returns
    -------
    float
        Share left [0-1].

    Notes
    -----
    max(0, 1 - a/d)^3.

    References
    ----------
    watkinson-blair-1993

    Examples
    --------
    >>> whole_left(50.0, 100.0)
    0.125
    """
    side = max(0.0, 1.0 - eaten_um / diameter_um)
    return side * side * side


@compiled
def dose_left(sizes: FloatArray, dose: int, eaten_um: float) -> float:
    """Share of a dose of loose grains not yet oxidised.

    Parameters
    ----------
    sizes
        Of :func:`dose_sizes` [mixed].
    dose
        Which one [index].
    eaten_um
        Diameter that a grain has lost so far, 2 K/rho [um].

    Returns
    -------
    float
        Share left [0-1].

    Notes
    -----
    The mean of max(0, 1 - a/d)^3 over each class, exactly.

    References
    ----------
    watkinson-blair-1993, watkinson-1993

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> from loamshift.core.column_layout import ColumnEvent, EventKind
    >>> from loamshift.core.column_sulfur_dose import dose_sizes
    >>> dose = ColumnEvent(kind=EventKind.SULFUR, day=0, layer_share=(1.0,), amount=1.0,
    ...                    sizes=((100.0, 100.0, 1.0),))
    >>> round(dose_left(dose_sizes(column_events([dose], n_layers=1)), 0, 50.0), 9)
    0.125
    """
    left = 0.0
    a = eaten_um
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
    return left


@compiled
def has_prills(doses: FloatArray) -> bool:
    """Whether any dose was put on as prills, which break up in the cold too.

    Parameters
    ----------
    doses
        Of :func:`dose_numbers` [mixed].

    Returns
    -------
    bool
        True for prills [truth].

    Notes
    -----
    By the diameter.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> has_prills(np.zeros((1, 10)))
    False
    """
    found = False
    for dose in range(doses.shape[0]):
        found = found or doses[dose, INTACT] > 0.0
    return found


@compiled
def oxidise(
    grain: FloatArray, sizes: FloatArray, doses: FloatArray, layer: int, speed: FloatArray
) -> tuple[float, float]:
    """One step of every dose in a layer; what it turned to acid, and what is left.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here, shape (doses, layers, places) [mixed].
    sizes
        Of :func:`dose_sizes` [mixed].
    doses
        Of :func:`dose_numbers`, with the member's own break-up [mixed].
    layer
        Which layer [index].
    speed
        Loss of diameter in a day at full rate, days at 25 degC and field capacity in the step,
        growth of the oxidisers, length of the step, moisture factor [um/d, d, 1/d, d, -].

    Returns
    -------
    tuple of float
        Acid released, acid still to come [mmolc/m2].

    Notes
    -----
    Loose grains are exact for a step of any length in constant weather and pH. The last
    thousandth of a mmolc reacts at once, so that a spent dose costs nothing.

    References
    ----------
    watkinson-blair-1993

    Examples
    --------
    >>> import numpy as np
    >>> grain = np.zeros((1, 1, 8))
    >>> grain[0, 0, :5] = 100.0, 100.0, 0.0, 1.0, 1.0
    >>> sizes = np.zeros((1, 1, 8))
    >>> sizes[0, 0, :6] = 100.0, 100.0, 1.0, 3.0 / 100.0, 3.0 / 100.0**2, 1.0 / 100.0**3
    >>> doses = np.zeros((1, 10))
    >>> doses[0, 1] = 1.0
    >>> acid, left = oxidise(grain, sizes, doses, 0, np.array([50.0, 1.0, 0.1, 1.0, 1.0]))
    >>> round(float(acid), 6), round(float(left), 6)
    (87.5, 12.5)
    """
    acid = 0.0
    total = 0.0
    for dose in range(grain.shape[0]):
        before = grain[dose, layer, DOSE_LEFT]
        if before <= 0.0:
            continue
        grown, worth = growth(grain[dose, layer, DOSE_GROWN], speed[2], speed[1])
        grain[dose, layer, DOSE_GROWN] = grown
        worn = speed[0] * doses[dose, RATE_FACTOR] * worth
        if doses[dose, INTACT] > 0.0:
            left = _prills_left(grain, sizes, doses, dose, layer, worn, speed)
        else:
            eaten = grain[dose, layer, DOSE_EATEN] + worn * grain[dose, layer, CROWD_GRAINS]
            grain[dose, layer, DOSE_EATEN] = eaten
            left = grain[dose, layer, DOSE_START] * dose_left(sizes, dose, eaten)
        if left < SPENT:
            left = 0.0
        left = min(left, before)
        grain[dose, layer, DOSE_LEFT] = left
        acid += before - left
        total += left
    return acid, total


@compiled
def _prills_left(
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    dose: int,
    layer: int,
    worn_um: float,
    speed: FloatArray,
) -> float:
    """What a step leaves of prills, whole and broken up, as ``sulfur.oxidised_course`` [mmolc/m2].

    First what has broken up reacts, then the whole prills shrink, then some of them break up.
    """
    total = 0.0
    for i in range(sizes.shape[1]):
        young = DOSE_POOL + 2 * i
        worn = sizes[dose, i, PER_EATEN] * worn_um * grain[dose, layer, CROWD_GRAINS]
        kept = math.exp(-6.0 * worn)
        old = kept * (grain[dose, layer, young + 1] + 3.0 * worn * grain[dose, layer, young])
        grain[dose, layer, young] *= kept
        grain[dose, layer, young + 1] = old
        total += grain[dose, layer, young] + old
    whole: float = grain[dose, layer, DOSE_WHOLE]
    if whole <= 0.0:
        return total
    eaten = grain[dose, layer, DOSE_EATEN]
    share = whole_left(eaten, doses[dose, INTACT])
    eaten += worn_um * grain[dose, layer, CROWD_WHOLE]
    grain[dose, layer, DOSE_EATEN] = eaten
    whole *= whole_left(eaten, doses[dose, INTACT]) / share
    per_d = doses[dose, BREAK_DUG_IN]
    if doses[dose, ON_SURFACE] > 0.0:
        per_d = doses[dose, BREAK_TOP] * speed[4]
    broken = -whole * math.expm1(-per_d * speed[3])
    grain[dose, layer, DOSE_WHOLE] = whole - broken
    for i in range(sizes.shape[1]):
        grain[dose, layer, DOSE_POOL + 2 * i] += sizes[dose, i, FRAC] * broken
    total += whole
    return total
