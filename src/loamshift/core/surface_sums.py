"""What a dose surface and the choice of a rule ask most often, and how it is worked out.

One bed has it done by NumPy; many beds by machine code of the same rules
(``core.surface_sums_many``).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

from loamshift.core.counted_amounts import Past, Within, counted_past, counted_within
from loamshift.core.reading_bins import bin_shares
from loamshift.core.rule_lines import cut_into_lines

FloatArray = NDArray[np.float64]

Read = Callable[[FloatArray, FloatArray, FloatArray], FloatArray]
"""A way to read curves at amounts, as ``read_between``."""
THINNEST_STEP_PH: Final = 1e-12
"""Two amounts that do the same count as this far apart [pH]."""


class Passing(Protocol):
    """A way to find where curves pass a pH, as ``amounts_passing``."""

    def __call__(
        self, knots: FloatArray, curve: FloatArray, ph: float, *, sign: float
    ) -> FloatArray:
        """Amounts [g/m2] at which curves [pH] pass one pH."""
        ...


class Shares(Protocol):
    """A way to spread readings over bins, as ``bin_shares``."""

    def __call__(self, ph: FloatArray, edges_ph: FloatArray, *, sd_ph: float) -> FloatArray:
        """Shares [0-1] of readings [pH] by bin."""
        ...


class Cut(Protocol):
    """A way to cut bins into lines, as ``cut_into_lines``."""

    def __call__(
        self, value: FloatArray, *, lines: int, rising: bool
    ) -> tuple[tuple[int, int, int], ...]:
        """First bin, bin after the last and amount of each line."""
        ...


def read_between(knots: FloatArray, curve: FloatArray, amounts: FloatArray) -> FloatArray:
    """Curves read at amounts: linear between those that were run; beyond the ends theirs holds.

    Parameters
    ----------
    knots
        Amounts that were run, rising, shape (K,) [g/m2].
    curve
        pH with each, shape (M, K) or (M, D, K) [pH].
    amounts
        Where to read, shape (M,) or (M, A), or (M, D) for as many days [g/m2].

    Returns
    -------
    ndarray
        Shape of the amounts [pH].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> read_between(np.array([0.0, 100.0]), np.array([[7.0, 5.0]]), np.array([25.0])).tolist()
    [6.5]
    """
    flat = curve.reshape(-1, knots.size)
    inside = np.clip(amounts.reshape(flat.shape[0], -1), knots[0], knots[-1])
    left = np.clip(np.searchsorted(knots, inside, side="right") - 1, 0, knots.size - 2)
    share = (inside - knots[left]) / (knots[left + 1] - knots[left])
    row = np.arange(flat.shape[0])[:, None]
    low, high = flat[row, left], flat[row, left + 1]
    return np.asarray(low + share * (high - low), dtype=np.float64).reshape(amounts.shape)


def amounts_passing(knots: FloatArray, curve: FloatArray, ph: float, *, sign: float) -> FloatArray:
    """Amount with which each curve passes one pH; infinite where it lies outside the knots.

    Parameters
    ----------
    knots
        Amounts that were run, rising, shape (K,) [g/m2].
    curve
        pH with each, shape (M, K) or (M, W, K) [pH].
    ph
        The pH [pH].
    sign
        1 where more lowers the pH, -1 where it raises it [-].

    Returns
    -------
    ndarray
        Shape (M,) or (M, W) [g/m2].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> amounts_passing(np.array([0.0, 100.0]), np.array([[7.0, 5.0]]), 6.5, sign=1.0).tolist()
    [25.0]
    """
    flat = curve.reshape(-1, knots.size)
    moved, wanted = np.maximum.accumulate(-sign * flat, axis=1), -sign * ph
    before = (moved <= wanted).sum(axis=1)
    left = np.clip(before - 1, 0, knots.size - 2)
    row = np.arange(flat.shape[0])
    low, high = moved[row, left], moved[row, left + 1]
    share = (wanted - low) / np.maximum(high - low, THINNEST_STEP_PH)
    amount = knots[left] + share * (knots[left + 1] - knots[left])
    amount[before == 0] = -np.inf
    amount[before == knots.size] = np.inf
    return np.asarray(amount, dtype=np.float64).reshape(curve.shape[:-1])


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceSums:
    """Ways to hold amounts to bounds, to read and pass curves, and to spread and cut readings."""

    within: Within = counted_within
    past: Past = counted_past
    read: Read = read_between
    passing: Passing = amounts_passing
    shares: Shares = bin_shares
    cut: Cut = cut_into_lines


PLAIN_SUMS: Final = SurfaceSums()
"""Without the compiler."""
