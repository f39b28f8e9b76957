"""The buffer curve of the column: one for all members and layers, each with a place on it.

Q = k (x organic + rest) + solution over equal steps of pH, straight within a step; x is the
organic carbon of a layer against its first. A layer keeps the edges of the step that its base
lies in, and walks on when the base leaves it: there is nothing to set up for a member.
"""

from __future__ import annotations

from loamshift.core.column_compile import compiled, inlined
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    BASE,
    CARBON,
    HIGH_CARBON,
    HIGH_REST,
    LOW_CARBON,
    LOW_REST,
    PH_LOW,
    PH_NOW,
    PH_PER_BASE,
    PLATEAU,
    PLATEAU_GYPSUM,
    PLATEAU_RISE,
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
_PLATEAU_REST = rate("plateau_rest")
_PLATEAU_CARBON = rate("plateau_carbon")
_GYPSUM_REST = rate("gypsum_rest")
_GYPSUM_CARBON = rate("gypsum_carbon")


@inlined
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
    base: float = edge_rest(curve, k, step) + carbon * (k * curve[step, ORGANIC])
    return base


@inlined
def edge_rest(curve: FloatArray, k: float, step: int) -> float:
    """Base content at the lower edge of a step, without what organic carbon holds.

    Parameters
    ----------
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    k
        Scale of the member's curve [-].
    step
        Which step [index].

    Returns
    -------
    float
        Base content [mmolc/kg].

    Notes
    -----
    k rest + solution.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> edge_rest(np.array([[10.0, 20.0, 1.0]]), 2.0, 0)
    41.0
    """
    base: float = k * curve[step, REST] + curve[step, SOLUTION]
    return base


@inlined
def set_carbon(cell: FloatArray, number: FloatArray, layer: int, j: int, carbon: float) -> None:
    """Give a layer its organic carbon, and the points of its curve that move with it.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the members [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
    carbon
        Organic carbon against that of the first day [-].

    Notes
    -----
    The base held stays: less carbon under the same base is a higher pH. Everything here is
    straight in the carbon; the step is not sought anew, :func:`read_ph` walks on from it.

    References
    ----------
    own-arithmetic
    """
    low = cell[layer, LOW_REST + j] + carbon * cell[layer, LOW_CARBON + j]
    high = cell[layer, HIGH_REST + j] + carbon * cell[layer, HIGH_CARBON + j]
    cell[layer, CARBON + j] = carbon
    cell[layer, Q_LOW + j] = low
    cell[layer, Q_HIGH + j] = high
    cell[layer, PH_PER_BASE + j] = number[_STEP_PH] / (high - low)
    rise = cell[layer, PLATEAU_RISE + j]
    plateau = number[_PLATEAU_REST + j] + carbon * number[_PLATEAU_CARBON + j]
    gypsum = number[_GYPSUM_REST + j] + carbon * number[_GYPSUM_CARBON + j]
    cell[layer, PLATEAU + j] = plateau + rise
    cell[layer, PLATEAU_GYPSUM + j] = gypsum + rise


@compiled
def stand_on(
    cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int, j: int, step: int
) -> None:
    """Put a layer on a step of the curve.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the members [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
    step
        Which step [index].

    Notes
    -----
    Its edges in parts, so that they follow the organic carbon.

    References
    ----------
    own-arithmetic
    """
    k = number[_K + j]
    cell[layer, STEP + j] = step
    cell[layer, PH_LOW + j] = number[_FIRST_PH] + step * number[_STEP_PH]
    cell[layer, LOW_REST + j] = edge_rest(curve, k, step)
    cell[layer, LOW_CARBON + j] = k * curve[step, ORGANIC]
    cell[layer, HIGH_REST + j] = edge_rest(curve, k, step + 1)
    cell[layer, HIGH_CARBON + j] = k * curve[step + 1, ORGANIC]
    set_carbon(cell, number, layer, j, cell[layer, CARBON + j])


@inlined
def is_outside(cell: FloatArray, layer: int, j: int) -> bool:
    """Whether the base of a layer has left the step it stood in.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].

    Returns
    -------
    bool
        True outside [truth].

    Notes
    -----
    Also beyond the ends of the curve, where no walk helps.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL
    >>> cell = np.zeros((1, N_CELL))
    >>> cell[0, Q_LOW], cell[0, Q_HIGH] = 10.0, 20.0
    >>> cell[0, PH_LOW], cell[0, PH_PER_BASE] = 6.0, 0.1
    >>> cell[0, BASE] = 25.0
    >>> bool(is_outside(cell, 0, 0))
    True
    """
    base = cell[layer, BASE + j]
    outside: bool = (base < cell[layer, Q_LOW + j]) | (base > cell[layer, Q_HIGH + j])
    return outside


@compiled
def walk(cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int, j: int) -> None:
    """Walk to the step that the base of a layer lies in.

    Parameters
    ----------
    cell
        State of the layers, the place changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the members [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].

    Notes
    -----
    A day moves the pH by less than a step or two, so a walk is short.

    References
    ----------
    own-arithmetic
    """
    base = cell[layer, BASE + j]
    k = number[_K + j]
    carbon = cell[layer, CARBON + j]
    step = int(cell[layer, STEP + j])
    last = curve.shape[0] - 2
    while step > 0 and base < edge_base(curve, k=k, carbon=carbon, step=step):
        step -= 1
    while step < last and base > edge_base(curve, k=k, carbon=carbon, step=step + 1):
        step += 1
    stand_on(cell, curve, number, layer, j, step)


@inlined
def ph_here(cell: FloatArray, layer: int, j: int) -> float:
    """PH of a layer that stands on the step its base lies in.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].

    Returns
    -------
    float
        pH in water; that of an end of the curve for a base beyond it [pH].

    Notes
    -----
    Straight within a step.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL
    >>> cell = np.zeros((1, N_CELL))
    >>> cell[0, Q_LOW], cell[0, Q_HIGH] = 10.0, 20.0
    >>> cell[0, PH_LOW], cell[0, PH_PER_BASE] = 6.0, 0.1
    >>> cell[0, BASE] = 15.0
    >>> float(ph_here(cell, 0, 0))
    6.5
    """
    low = cell[layer, Q_LOW + j]
    base = min(max(cell[layer, BASE + j], low), cell[layer, Q_HIGH + j])
    ph: float = cell[layer, PH_LOW + j] + (base - low) * cell[layer, PH_PER_BASE + j]
    return ph


@compiled
def read_ph(
    cell: FloatArray, curve: FloatArray, number: FloatArray, work: FloatArray, layer: int, n: int
) -> None:
    """PH of a layer in each lane; the places on the curve go along.

    Parameters
    ----------
    cell
        State of the layers, the places changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH is set here [mixed].
    layer
        Which layer [index].
    n
        Lanes in use [count].

    Notes
    -----
    On most days nobody leaves a step: that is asked first, of all at once.

    References
    ----------
    own-arithmetic
    """
    outside = 0
    for j in range(n):
        outside += int(is_outside(cell, layer, j))
    if outside > 0:
        for j in range(n):
            if is_outside(cell, layer, j):
                walk(cell, curve, number, layer, j)
    for j in range(n):
        work[PH_NOW + j] = ph_here(cell, layer, j)


@compiled
def base_of(curve: FloatArray, number: FloatArray, j: int, ph: float, carbon: float) -> float:
    """Base content at a pH.

    Parameters
    ----------
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the members [mixed].
    j
        Which lane [index].
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
    The steps of pH are equal, so there is nothing to seek.

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
    >>> base_of(curve, number, 0, 5.5, 1.0), base_of(curve, number, 0, 5.0, 2.0)
    (20.0, 20.0)
    """
    last = curve.shape[0] - 1
    along = min(float(last), max(0.0, (ph - number[_FIRST_PH]) / number[_STEP_PH]))
    step = min(int(along), last - 1)
    below = edge_base(curve, k=number[_K + j], carbon=carbon, step=step)
    above = edge_base(curve, k=number[_K + j], carbon=carbon, step=step + 1)
    base: float = below + (along - step) * (above - below)
    return base


@compiled
def place_at(
    cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int, j: int, ph: float
) -> None:
    """Set a layer on a pH on the first day: its base, its place on the curve, its plateau.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    curve
        Shape (points, 3): organic, rest, solution, on equal steps of pH [mmolc/kg].
    number
        Numbers of the members [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
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
    cell[layer, CARBON + j] = 1.0
    cell[layer, BASE + j] = base_of(curve, number, j, ph=ph, carbon=1.0)
    stand_on(cell, curve, number, layer, j, int(min(curve.shape[0] - 2.0, max(0.0, along))))
