"""Where a field ends up, from what single spots do under a few amounts."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

NODES = 15
"""Quadrature points over what a spot may be [count]."""


def shares_over(
    ph: FloatArray, ph_sd: FloatArray, *, knots_ph: FloatArray, shares: FloatArray
) -> FloatArray:
    """Shares of outcomes for spots known only so well.

    Parameters
    ----------
    ph, ph_sd
        What is believed of each spot, shape (P,) [pH].
    knots_ph
        pH at which outcomes are known, rising, shape (K,) [pH].
    shares
        Share of each outcome there, shape (K, O) [0-1].

    Returns
    -------
    ndarray
        Share of each outcome by spot, shape (P, O) [0-1].

    Notes
    -----
    Gauss-Hermite quadrature over the spot, straight lines between the knots; beyond them the
    outermost holds.

    Examples
    --------
    >>> flat = shares_over(
    ...     np.array([6.0]), np.array([0.2]), knots_ph=np.array([5.0, 7.0]),
    ...     shares=np.array([[0.0], [1.0]]),
    ... )
    >>> round(float(flat[0, 0]), 6)
    0.5
    """
    points, weights = np.polynomial.hermite_e.hermegauss(NODES)
    weights = weights / weights.sum()
    at = ph[:, None] + ph_sd[:, None] * points[None, :]
    return np.stack(
        [np.interp(at, knots_ph, shares[:, one]) @ weights for one in range(shares.shape[1])],
        axis=1,
    )


def best_share(within: FloatArray, weights: FloatArray) -> float:
    """Share in range where each spot gets the amount that is best for it.

    Parameters
    ----------
    within
        Share in range by spot and amount, shape (P, A) [0-1].
    weights
        Of the spots, shape (P,), together 1 [1].

    Returns
    -------
    float
        Share of the field [0-1].

    Notes
    -----
    As if each spot could get an amount of its own.

    Examples
    --------
    >>> best_share(np.array([[0.2, 0.6], [0.8, 0.1]]), np.array([0.5, 0.5]))
    0.7
    """
    return float(within.max(axis=1) @ weights)
