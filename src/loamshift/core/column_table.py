"""The buffer curve of the column, turned round once per member."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import law, rate

TABLE_STEPS: Final = 2048
"""Equal steps of base content in a member's table."""
PH, HYDROGEN, RISE = range(3)
"""Columns of a member's table: pH, hydrogen ions [mol/L], rise of the background load [-]."""
CURVE_PH, CURVE_HYDROGEN, SHAPE, SOLUTION = range(4)
"""Rows of the soil's curve; the last two [mmolc/kg]."""
_LOW = rate("table_low")
_PER = rate("table_per")
_REFERENCE_PH = law("background_reference_ph")
_HIGHEST_PH = law("background_highest_ph")
_RISE_PER_PH = rate("background_rise")


@compiled
def fill_table(table: FloatArray, number: FloatArray, curve: FloatArray, k: float) -> None:
    """Turn the curve of one member round: pH on equal steps of base content.

    Parameters
    ----------
    table
        Filled here, shape (steps + 1, 3): pH, hydrogen, rise [pH, mol/L, -].
    number
        Numbers of the member; the ends of its table are set here, the rise of its load before
        [mixed].
    curve
        Shape (4, points) over pH: pH, hydrogen, shape, solution [mixed].
    k
        Scale of this member's curve [-].

    Notes
    -----
    One walk along both axes. Between points of the curve (0.005 pH apart) everything is straight.
    rise = exp(s (min(pH, highest) - reference)), as in ``background.background_factor``.

    References
    ----------
    glendining-2023, own-arithmetic
    """
    steps = table.shape[0] - 1
    last = curve.shape[1] - 1
    low = k * curve[SHAPE, 0] + curve[SOLUTION, 0]
    high = k * curve[SHAPE, last] + curve[SOLUTION, last]
    number[_LOW] = low
    number[_PER] = steps / (high - low)
    at = 0
    below = low
    above = k * curve[SHAPE, 1] + curve[SOLUTION, 1]
    for j in range(steps + 1):
        base = low + (high - low) * (j / steps)
        while above < base and at < last - 1:
            at += 1
            below = above
            above = k * curve[SHAPE, at + 1] + curve[SOLUTION, at + 1]
        t = min(1.0, (base - below) / (above - below))
        for i in range(2):
            table[j, i] = curve[i, at] + t * (curve[i, at + 1] - curve[i, at])
        over = min(table[j, PH], number[_HIGHEST_PH]) - number[_REFERENCE_PH]
        table[j, RISE] = math.exp(number[_RISE_PER_PH] * over)


@compiled
def place(table: FloatArray, number: FloatArray, base: float) -> tuple[int, float]:
    """Where a base content stands in the table; its ends are not passed.

    Parameters
    ----------
    table
        Of :func:`fill_table` [pH, mol/L, -].
    number
        Numbers of the member [mixed].
    base
        Base content [mmolc/kg].

    Returns
    -------
    tuple of int and float
        Step, and how far along it, 0 to 1 [-].

    Notes
    -----
    A product and a cut: the steps are equal.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("table_low")], number[rate("table_per")] = 10.0, 2.0
    >>> place(np.zeros((5, 3)), number, 10.75)
    (1, 0.5)
    """
    x = (base - number[_LOW]) * number[_PER]
    steps = table.shape[0] - 1
    if x <= 0.0:
        return 0, 0.0
    if x >= steps:
        return steps - 1, 1.0
    step = int(x)
    return step, x - step


@compiled
def ph_of(table: FloatArray, number: FloatArray, base: float) -> float:
    """PH of a base content.

    Parameters
    ----------
    table
        Of :func:`fill_table` [pH, mol/L, -].
    number
        Numbers of the member [mixed].
    base
        Base content [mmolc/kg].

    Returns
    -------
    float
        pH in water [pH].

    Notes
    -----
    Straight within a step.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("table_low")], number[rate("table_per")] = 10.0, 2.0
    >>> ph_of(np.array([[4.0, 0.0, 0.0], [5.0, 0.0, 0.0], [7.0, 0.0, 0.0]]), number, 10.75)
    6.0
    """
    step, t = place(table, number, base)
    below = table[step, PH]
    ph: float = below + t * (table[step + 1, PH] - below)
    return ph


@compiled
def base_of(table: FloatArray, number: FloatArray, ph: float) -> float:
    """Base content at a pH: the table read the other way.

    Parameters
    ----------
    table
        Of :func:`fill_table` [pH, mol/L, -].
    number
        Numbers of the member [mixed].
    ph
        pH in water [pH].

    Returns
    -------
    float
        Base content; the end of the table for a pH beyond it [mmolc/kg].

    Notes
    -----
    Bisection over the steps, straight within one: the exact inverse of :func:`ph_of`.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("table_low")], number[rate("table_per")] = 10.0, 2.0
    >>> base_of(np.array([[4.0, 0.0, 0.0], [5.0, 0.0, 0.0], [7.0, 0.0, 0.0]]), number, 6.0)
    10.75
    """
    low = 0
    high = table.shape[0] - 1
    while high - low > 1:
        middle = (low + high) // 2
        if table[middle, PH] <= ph:
            low = middle
        else:
            high = middle
    t = (ph - table[low, PH]) / (table[low + 1, PH] - table[low, PH])
    t = min(1.0, max(0.0, t))
    base: float = number[_LOW] + (low + t) / number[_PER]
    return base
