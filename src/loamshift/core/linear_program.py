"""The cheapest point of a small linear program, without loading a library of solvers for it."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import LoamshiftError

FloatArray = NDArray[np.float64]

_ZERO: Final = 1e-11
"""A cost or a coefficient nearer to nothing than this is nothing [the program's own units]."""
_MET: Final = 1e-10
"""How far the conditions together may be missed [the program's own units]."""


def cheapest_point(
    cost: FloatArray,
    *,
    at_most: FloatArray,
    at_most_to: FloatArray,
    equal: FloatArray,
    equal_to: FloatArray,
) -> FloatArray | None:
    """The point that costs least among those, none of them below 0, that meet all conditions.

    Answers programs of a few unknowns with figures around 1; large or badly scaled ones are left
    to a library.

    Parameters
    ----------
    cost
        Cost of one of each unknown, shape (n,) [any].
    at_most
        Conditions ``at_most @ x <= at_most_to``, shape (u, n), also none [any].
    at_most_to
        What they are held to, shape (u,) [any].
    equal
        Conditions ``equal @ x == equal_to``, shape (e, n), also none [any].
    equal_to
        What they are held to, shape (e,) [any].

    Returns
    -------
    array or None
        A corner that costs least, shape (n,), or None where no point meets all conditions [any].

    Raises
    ------
    LoamshiftError
        Where there is no least cost.

    Notes
    -----
    The simplex method in two phases on a full table: the first drives what is missed of the
    conditions to nothing, the second the cost to its least. Of several columns or rows the first
    is always taken (Bland's rule), so it comes to an end and gives the same point every time.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> point = cheapest_point(np.array([1.0, 3.0]), at_most=np.array([[1.0, 0.0]]),
    ...     at_most_to=np.array([2.0]), equal=np.array([[1.0, 1.0]]), equal_to=np.array([5.0]))
    >>> point.tolist()
    [2.0, 3.0]
    """
    unknowns, slacks = cost.size, at_most_to.size
    held = np.zeros((slacks + equal_to.size, unknowns + slacks + 1))
    held[:slacks, :unknowns], held[slacks:, :unknowns] = at_most, equal
    held[:slacks, unknowns:-1] = np.eye(slacks)
    held[:, -1] = [*at_most_to, *equal_to]
    held[held[:, -1] < 0.0] *= -1.0
    rows, columns = held.shape
    table = np.hstack([held[:, :-1], np.eye(rows), held[:, -1:]])
    basis = np.arange(columns - 1, columns - 1 + rows)
    missed = np.repeat([0.0, 1.0], [columns - 1, rows])
    _descend(table, basis, missed)
    if float(missed[basis] @ table[:, -1]) > _MET:
        return None
    table, basis = _without_missed(table, basis, columns - 1)
    _descend(table, basis, np.concatenate([cost, np.zeros(slacks)]))
    point = np.zeros(columns - 1)
    point[basis] = table[:, -1]
    return np.maximum(point[:unknowns], 0.0)


def _descend(table: FloatArray, basis: NDArray[np.int64], cost: FloatArray) -> None:
    """Exchange columns of the basis until none brings the cost down."""
    while True:
        lower = np.flatnonzero(cost - cost[basis] @ table[:, :-1] < -_ZERO)
        if not lower.size:
            return
        column = table[:, lower[0]]
        bound = np.flatnonzero(column > _ZERO)
        if not bound.size:
            raise LoamshiftError("a linear program has no least cost; a condition is missing")
        room = table[bound, -1] / column[bound]
        nearest = bound[room <= room.min() + _ZERO]
        _exchange(table, basis, int(nearest[np.argmin(basis[nearest])]), int(lower[0]))


def _exchange(table: FloatArray, basis: NDArray[np.int64], row: int, column: int) -> None:
    """Bring a column into the basis in place of the one that stands for a row."""
    table[row] /= table[row, column]
    factors = table[:, column].copy()
    factors[row] = 0.0
    table -= np.outer(factors, table[row])
    basis[row] = column


def _without_missed(
    table: FloatArray, basis: NDArray[np.int64], kept: int
) -> tuple[FloatArray, NDArray[np.int64]]:
    """The table of the second phase; a condition that others contain already is dropped."""
    needed = np.ones(basis.size, dtype=bool)
    for row in np.flatnonzero(basis >= kept):
        usable = np.flatnonzero(np.abs(table[row, :kept]) > _ZERO)
        needed[row] = usable.size > 0
        if usable.size:
            _exchange(table, basis, int(row), int(usable[0]))
    return np.delete(table[needed], np.s_[kept:-1], axis=1), basis[needed]
