"""Bins of readings cut into the few lines of a printed table."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

HAIR: Final = 1e-9
"""Sums nearer to each other than this are equal: what rounding does must not choose [-]."""


def cut_into_lines(
    value: FloatArray, *, lines: int, rising: bool
) -> tuple[tuple[int, int, int], ...]:
    """Bins (low to high) cut into so many lines at most, each with one amount.

    The amount rises with the reading for acid and falls with it for lime. Dynamic programme over
    the end of a line and its amount. Of what is worth the same: fewer lines, smaller amounts.

    Parameters
    ----------
    value
        What each amount is worth where the reading falls into a bin, shape (bins, amounts), bins
        and amounts rising [any unit].
    lines
        Most lines, 1 or more [count].
    rising
        True where more goes on the higher the reading [truth].

    Returns
    -------
    tuple of tuple
        First bin, bin after the last, and amount of each line, low readings first [indices].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> cut_into_lines(np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0]]), lines=4, rising=True)
    ((0, 2, 0), (2, 3, 1))
    """
    if not rising:
        mirrored = cut_into_lines(value[::-1], lines=lines, rising=True)
        count = value.shape[0]
        return tuple((count - end, count - start, choice) for start, end, choice in mirrored[::-1])
    bins, choices = value.shape
    total = np.vstack((np.zeros(choices), np.cumsum(value, axis=0)))
    best = np.full((lines + 1, bins + 1, choices), -np.inf)
    came = np.zeros((lines + 1, bins + 1, choices, 2), dtype=np.int64)
    best[1, 1:] = total[1:]
    came[1, 1:, :, 1] = -1
    for line in range(2, lines + 1):
        before = best[line - 1]
        upto, which = _running_best(before, axis=1)
        running, starts = _running_best(upto[:, :-1] - total[:, 1:], axis=0)
        best[line, 1:, 1:] = running[:-1] + total[1:, 1:]
        came[line, 1:, 1:, 0] = starts[:-1]
        came[line, 1:, 1:, 1] = np.take_along_axis(which[:, :-1], starts[:-1], axis=0)
    ends = best[:, bins].ravel()
    line, choice = divmod(int(np.argmax(ends >= ends.max() - HAIR)), choices)
    end = bins
    found: list[tuple[int, int, int]] = []
    while line > 1:
        start, previous = (int(one) for one in came[line, end, choice])
        found.append((start, end, choice))
        end, choice, line = start, previous, line - 1
    found.append((0, end, choice))
    return tuple(one for one in found[::-1] if one[1] > one[0])


def _running_best(values: FloatArray, *, axis: int) -> tuple[FloatArray, IntArray]:
    """The best so far along an axis, and where it stood."""
    best = np.maximum.accumulate(values, axis=axis)
    shape = [1, 1]
    shape[axis] = values.shape[axis]
    place = np.arange(values.shape[axis]).reshape(shape)
    first = np.ones_like(values, dtype=np.bool_)
    rest = [slice(None), slice(None)]
    rest[axis] = slice(1, None)
    before = [slice(None), slice(None)]
    before[axis] = slice(None, -1)
    first[tuple(rest)] = values[tuple(rest)] > best[tuple(before)] + HAIR
    return best, np.maximum.accumulate(np.where(first, place, 0), axis=axis)
