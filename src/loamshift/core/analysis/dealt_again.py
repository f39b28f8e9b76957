"""A randomisation test: how often dealing the pots out again gives a difference as large."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import OutOfRangeError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]
BoolArray = NDArray[np.bool_]

MOST_WAYS: Final = 20_000
"""With more ways than this, so many are drawn instead [count]."""
DRAWN: Final = 9_999
_ALIKE: Final = 1e-9
"""Sums closer than this are one: they were added up in another order [unit of the readings]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DealtAgain:
    """Of ``ways`` to deal treatments to pots, ``as_large`` give a difference as large.

    ``is_exact`` where they are all the ways there are, that of the trial among them; else they
    were drawn [count].
    """

    ways: int
    as_large: int
    is_exact: bool

    @property
    def p(self) -> float:
        """Chance of a difference as large, did the treatment do nothing [0-1]."""
        if self.is_exact:
            return self.as_large / self.ways
        return (self.as_large + 1) / (self.ways + 1)

    @property
    def can_reach(self) -> float:
        """The smallest chance that a design of equal groups could come to [0-1]."""
        return 2.0 / self.ways if self.is_exact else 1.0 / (self.ways + 1)


def dealt_again(
    reading: FloatArray,
    is_treated: BoolArray,
    block: IntArray | None = None,
    *,
    rng: np.random.Generator,
) -> DealtAgain:
    """How often another deal of one treatment and its control gives a difference as large.

    Answers whether a difference could come from the lot alone, without any law of errors: had the
    treatment done nothing, every pot would have read the same whatever it was dealt. Leaves out
    how large the difference is.

    Parameters
    ----------
    reading
        One reading of each pot of the two, shape (N,) [pH, or any unit].
    is_treated
        True for treated pots, at least one of each, shape (N,) [truth].
    block
        Number of the block of each pot, within which the lot was drawn, from 0, shape (N,);
        None without blocks [number].
    rng
        Seeded generator, used where there are too many ways to try them all [generator].

    Returns
    -------
    DealtAgain
        How many ways, and how many of them give as much [count].

    Raises
    ------
    OutOfRangeError
        Where no pot is treated, or every one is.

    Notes
    -----
    Both directions count. The statistic is the sum of treated readings less the means of their
    blocks, which orders the deals as the difference of the means does. All ways are tried up to
    20,000; beyond, 9,999 are drawn and one is added to both counts (Phipson and Smyth 2010), so
    that the chance is never too small. A test of the lot itself (Fisher 1935, section 21,
    recalled): its error is at most its level.

    Examples
    --------
    Two of two pots on one side: 2 of the 6 ways to deal them, one in each direction.

    >>> dealt_again(np.array([7.0, 7.1, 6.5, 6.6]), np.array([False, False, True, True]),
    ...             rng=np.random.default_rng(1))
    DealtAgain(ways=6, as_large=2, is_exact=True)
    """
    if not 0 < np.count_nonzero(is_treated) < is_treated.size:
        raise OutOfRangeError("a lot needs treated and untreated pots: one of each or more")
    blocks = np.zeros(reading.size, dtype=np.int_) if block is None else block
    parts: list[tuple[FloatArray, int]] = []
    found = 0.0
    for number in np.unique(blocks):
        here = blocks == number
        off = reading[here] - reading[here].mean()
        parts.append((off, int(np.count_nonzero(is_treated[here]))))
        found += float(off[is_treated[here]].sum())
    ways = math.prod(math.comb(off.size, count) for off, count in parts)
    if ways <= MOST_WAYS:
        sums = np.zeros(1)
        for off, count in parts:
            each = [math.fsum(off[list(chosen)]) for chosen in combinations(range(off.size), count)]
            sums = np.add.outer(sums, np.array(each)).ravel()
    else:
        sums = np.zeros(DRAWN)
        for off, count in parts:
            drawn = rng.permuted(np.tile(off, (DRAWN, 1)), axis=1)
            sums += drawn[:, :count].sum(axis=1)
    as_large = int(np.count_nonzero(np.abs(sums) >= abs(found) - _ALIKE))
    return DealtAgain(ways=sums.size, as_large=as_large, is_exact=ways <= MOST_WAYS)
