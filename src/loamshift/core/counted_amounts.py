"""Amounts by season counted in grams of the first, and held to bounds of beds."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
Amounts = tuple[FloatArray | float, ...]
Within = Callable[[FloatArray, Amounts, FloatArray, FloatArray], BoolArray]
"""A way to hold amounts between bounds, as ``counted_within``."""
Past = Callable[[FloatArray, Amounts, FloatArray], BoolArray]
"""A way to hold amounts to a bound, as ``counted_past``."""


def counted_g_m2(worth: FloatArray, amounts_g_m2: tuple[FloatArray | float, ...]) -> FloatArray:
    """Amounts by season in grams of the first.

    Parameters
    ----------
    worth
        What a gram of each season counts as in each bed, shape (M, S) [-].
    amounts_g_m2
        One a season, each a number or shape (M,) or (M, A) [g/m2].

    Returns
    -------
    ndarray
        Shape (M,) or (M, A) [g/m2].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> counted_g_m2(np.array([[1.0, 0.8]]), (50.0, np.array([[0.0, 100.0]]))).tolist()
    [[50.0, 130.0]]
    """
    wide = max((np.shape(one) for one in amounts_g_m2), key=len, default=())
    side_by_side = len(wide) == 2
    total = np.zeros(wide if side_by_side else (worth.shape[0],))
    for season, amount in enumerate(amounts_g_m2):
        given = np.asarray(amount, dtype=np.float64)
        one = worth[:, season]
        if side_by_side:
            one = one[:, None]
            given = given[:, None] if given.ndim == 1 else given
        total += one * given
    return total


def counted_each(worth: FloatArray, amounts_g_m2: tuple[FloatArray | float, ...]) -> FloatArray:
    """``counted_g_m2`` on several days at once.

    Parameters
    ----------
    worth
        What a gram of each season counts as in each bed on each day, shape (M, W, S) [-].
    amounts_g_m2
        One a season, each a number or shape (M,) or (M, A) [g/m2].

    Returns
    -------
    ndarray
        Shape (M, W) or (M, W, A) [g/m2].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> counted_each(np.array([[[1.0, 0.8]]]), (50.0, np.array([[0.0, 100.0]]))).tolist()
    [[[50.0, 130.0]]]
    """
    side_by_side = any(np.ndim(one) == 2 for one in amounts_g_m2)
    total: FloatArray = np.zeros(())
    for season, amount in enumerate(amounts_g_m2):
        given, one = np.asarray(amount, dtype=np.float64), worth[:, :, season]
        if side_by_side:
            one = one[:, :, None]
            given = given[:, None, :] if given.ndim == 2 else given.reshape(-1, 1, 1)
        elif given.ndim == 1:
            given = given[:, None]
        total = total + one * given
    return total


def counted_within(
    worth: FloatArray,
    amounts: tuple[FloatArray | float, ...],
    enters: FloatArray,
    leaves: FloatArray,
) -> BoolArray:
    """Which amounts lie between bounds on every day.

    Parameters
    ----------
    worth
        What a gram of each season counts as in each bed on each day, shape (M, W, S) [-].
    amounts
        One a season, each a number or shape (M,) or (M, A) [g/m2].
    enters
        Lower bounds, shape (M, W) [g/m2].
    leaves
        Upper bounds, shape (M, W) [g/m2].

    Returns
    -------
    ndarray
        Shape (M,) or (M, A) [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> ends = np.array([[20.0]]), np.array([[95.0]])
    >>> counted_within(np.ones((1, 1, 1)), (np.array([[10.0, 90.0]]),), *ends).tolist()
    [[False, True]]
    """
    total = counted_each(worth, amounts)
    if total.ndim == 3:
        enters, leaves = enters[:, :, None], leaves[:, :, None]
    return np.asarray(((total >= enters) & (total <= leaves)).all(axis=1))


def counted_past(
    worth: FloatArray, amounts: tuple[FloatArray | float, ...], limits: FloatArray
) -> BoolArray:
    """Which amounts lie past a bound in any spell.

    Parameters
    ----------
    worth
        What a gram of each season counts as in each bed in each spell, shape (M, W, S) [-].
    amounts
        One a season, each a number or shape (M,) or (M, A) [g/m2].
    limits
        Bounds, shape (M, W) [g/m2].

    Returns
    -------
    ndarray
        Shape (M,) or (M, A) [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> counted_past(np.ones((1, 1, 1)), (np.array([[10.0, 90.0]]),), np.array([[20.0]])).tolist()
    [[False, True]]
    """
    total = counted_each(worth, amounts)
    return np.asarray((total > (limits if total.ndim == 2 else limits[:, :, None])).any(axis=1))
