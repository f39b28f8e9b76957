"""The buffer curve of the column: one for all members and layers, each with a place on it.

Q = k (x organic + rest) + solution over equal steps of pH, straight within a step; x is the
organic carbon of a layer against its first. A layer keeps the edges of the step that its base
lies in, and walks on when the base leaves it: there is nothing to set up for a member.
"""

from __future__ import annotations

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    BASE,
    CARBON,
    PH_LOW,
    PH_PER_BASE,
    PLATEAU,
    PLATEAU_GYPSUM,
    Q_HIGH,
    Q_LOW,
    STEP,
    rate,
)

ORGANIC, REST, SOLUTION = range(3)
"""Parts of the curve, a column each [mmolc/kg]."""
_K = rate("k")
_FIRST_PH = rate("curve_first_ph")
_STEP_PH = rate("curve_step_ph")
_PLATEAU_PH = rate("plateau_ph")
_GYPSUM_PH = rate("gypsum_ph")


@compiled
def edge_base(curve: FloatArray, k: float, carbon: float, step: int) -> float:
    """Base content at the lower edge of a step of the curve.

    Parameters
    ----------
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    k
        Scale of the member's curve [-].
    carbon
        Organic carbon of the layer against its first, 1 at the start [-].
    step
        Which step [index].

    Returns
    -------
    float
        Base content [mmolc/kg].

    Notes
    -----
    Q = k (x organic + rest) + solution.

    References
    ----------
    curtin-rostad-1997, own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> edge_base(np.array([[10.0, 20.0, 1.0]]), 2.0, 0.5, 0)
    51.0
    """
    base: float = k * (carbon * curve[step, ORGANIC] + curve[step, REST]) + curve[step, SOLUTION]
    return base


@compiled
def set_edges(cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int) -> None:
    """The edges of the step that a layer stands in, after its carbon or its step has changed.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].

    Notes
    -----
    The step is not sought anew: :func:`find_ph` walks on from here.

    References
    ----------
    own-arithmetic
    """
    step = int(cell[layer, STEP])
    low = edge_base(curve, number[_K], cell[layer, CARBON], step)
    high = edge_base(curve, number[_K], cell[layer, CARBON], step + 1)
    cell[layer, Q_LOW] = low
    cell[layer, Q_HIGH] = high
    cell[layer, PH_LOW] = number[_FIRST_PH] + step * number[_STEP_PH]
    cell[layer, PH_PER_BASE] = number[_STEP_PH] / (high - low)


@compiled
def find_ph(cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int) -> float:
    """PH of a layer; its place on the curve goes along.

    Parameters
    ----------
    cell
        State of the layers, the place changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].

    Returns
    -------
    float
        pH in water; that of an end of the curve for a base beyond it [pH].

    Notes
    -----
    A day moves the pH by less than a step or two, so a walk is short.

    References
    ----------
    own-arithmetic
    """
    base = cell[layer, BASE]
    if base < cell[layer, Q_LOW] or base > cell[layer, Q_HIGH]:
        step = int(cell[layer, STEP])
        k = number[_K]
        carbon = cell[layer, CARBON]
        last = curve.shape[0] - 2
        while step > 0 and base < edge_base(curve, k, carbon, step):
            step -= 1
        while step < last and base > edge_base(curve, k, carbon, step + 1):
            step += 1
        cell[layer, STEP] = step
        set_edges(cell, curve, number, layer)
        base = min(max(base, cell[layer, Q_LOW]), cell[layer, Q_HIGH])
    ph: float = cell[layer, PH_LOW] + (base - cell[layer, Q_LOW]) * cell[layer, PH_PER_BASE]
    return ph


@compiled
def ph_of(curve: FloatArray, number: FloatArray, base: float, carbon: float) -> float:
    """PH of a base content that belongs to no layer, such as that of a mixed sample.

    Parameters
    ----------
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the member [mixed].
    base
        Base content [mmolc/kg].
    carbon
        Organic carbon against that of the first day, mean by mass in a mix [-].

    Returns
    -------
    float
        pH in water; that of an end of the curve for a base beyond it [pH].

    Notes
    -----
    Bisection over the steps, straight within one.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("k")], number[rate("curve_first_ph")], number[rate("curve_step_ph")] = 1, 4, 1
    >>> curve = np.array([[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [30.0, 0.0, 0.0]])
    >>> ph_of(curve, number, 20.0, 1.0), ph_of(curve, number, 20.0, 2.0)
    (5.5, 5.0)
    """
    k = number[_K]
    low = 0
    high = curve.shape[0] - 1
    while high - low > 1:
        middle = (low + high) // 2
        if edge_base(curve, k, carbon, middle) <= base:
            low = middle
        else:
            high = middle
    below = edge_base(curve, k, carbon, low)
    along = (base - below) / (edge_base(curve, k, carbon, low + 1) - below)
    ph: float = number[_FIRST_PH] + (low + min(1.0, max(0.0, along))) * number[_STEP_PH]
    return ph


@compiled
def base_of(curve: FloatArray, number: FloatArray, ph: float, carbon: float) -> float:
    """Base content at a pH.

    Parameters
    ----------
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the member [mixed].
    ph
        pH in water [pH].
    carbon
        Organic carbon against that of the first day [-].

    Returns
    -------
    float
        Base content; that of an end of the curve for a pH beyond it [mmolc/kg].

    Notes
    -----
    The inverse of :func:`ph_of`; the steps of pH are equal, so there is nothing to seek.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("k")], number[rate("curve_first_ph")], number[rate("curve_step_ph")] = 1, 4, 1
    >>> curve = np.array([[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [30.0, 0.0, 0.0]])
    >>> base_of(curve, number, 5.5, 1.0), base_of(curve, number, 5.0, 2.0)
    (20.0, 20.0)
    """
    last = curve.shape[0] - 1
    along = min(float(last), max(0.0, (ph - number[_FIRST_PH]) / number[_STEP_PH]))
    step = min(int(along), last - 1)
    below = edge_base(curve, number[_K], carbon, step)
    above = edge_base(curve, number[_K], carbon, step + 1)
    base: float = below + (along - step) * (above - below)
    return base


@compiled
def set_carbon(
    cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int, carbon: float
) -> None:
    """Give a layer its organic carbon, and the points of its curve that move with it.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].
    carbon
        Organic carbon against that of the first day [-].

    Notes
    -----
    The base held stays: less carbon under the same base is a higher pH.

    References
    ----------
    own-arithmetic
    """
    cell[layer, CARBON] = carbon
    cell[layer, PLATEAU] = base_of(curve, number, number[_PLATEAU_PH], carbon)
    cell[layer, PLATEAU_GYPSUM] = base_of(curve, number, number[_GYPSUM_PH], carbon)
    set_edges(cell, curve, number, layer)


@compiled
def place_at(
    cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int, ph: float
) -> None:
    """Set a layer on a pH on the first day: its base, its place on the curve, its plateau.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].
    ph
        pH in water [pH].

    Notes
    -----
    On the first day the organic carbon is 1 of itself.

    References
    ----------
    own-arithmetic
    """
    along = (ph - number[_FIRST_PH]) / number[_STEP_PH]
    cell[layer, STEP] = float(int(min(curve.shape[0] - 2.0, max(0.0, along))))
    cell[layer, BASE] = base_of(curve, number, ph, 1.0)
    set_carbon(cell, curve, number, layer, 1.0)
