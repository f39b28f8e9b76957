"""Readings in bins of a tenth: how likely a bed is to read in each."""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import sample_quantiles

FloatArray = NDArray[np.float64]

BIN_PH: Final = 0.1
"""Readings are printed to a tenth; the second test's are taken two tenths at a time [pH]."""
TABLE_Z: Final = np.linspace(-8.0, 8.0, 3201)
TABLE_P: Final = np.array([0.5 * math.erfc(-z / math.sqrt(2.0)) for z in TABLE_Z])
"""Normal quantiles and the probability below each, from which it is read off."""


def normal_probability(z: FloatArray) -> FloatArray:
    """Probability below a standard normal quantile, to seven digits.

    Parameters
    ----------
    z
        Quantiles, any shape [sd].

    Returns
    -------
    ndarray
        The same shape [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> normal_probability(np.array([0.0, 1.96])).round(3).tolist()
    [0.5, 0.975]
    """
    return np.asarray(np.interp(z, TABLE_Z, TABLE_P), dtype=np.float64)


def reading_edges(ph: FloatArray, *, sd_ph: float, step_ph: float = BIN_PH) -> FloatArray:
    """Edges between bins that hold readings, half way between printed tenths.

    Parameters
    ----------
    ph
        What beds may read, shape (M,) [pH].
    sd_ph
        Error of the test [pH].
    step_ph
        Width of a bin [pH].

    Returns
    -------
    ndarray
        Rising [pH].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> reading_edges(np.array([6.0]), sd_ph=0.05).round(2).tolist()
    [5.95, 6.05]
    """
    lowest, highest = sample_quantiles(ph, (0.005, 0.995))
    low = math.floor((lowest - 2.0 * sd_ph) / BIN_PH)
    high = math.ceil((highest + 2.0 * sd_ph) / BIN_PH)
    count = max(2, math.ceil((high - low) * BIN_PH / step_ph))
    steps = np.arange(1, count + 1)
    return np.asarray((low - 0.5) * BIN_PH + step_ph * steps, dtype=np.float64)


def bin_shares(ph: FloatArray, edges_ph: FloatArray, *, sd_ph: float) -> FloatArray:
    """Probability that each bed reads in each bin, the outer ones open, shape (M, B).

    Parameters
    ----------
    ph
        What each bed has, shape (M,) [pH].
    edges_ph
        Edges between bins, rising [pH].
    sd_ph
        Error of the test [pH].

    Returns
    -------
    ndarray
        One row a bed, together 1 [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> bin_shares(np.array([6.0]), np.array([6.0]), sd_ph=0.1).round(2).tolist()
    [[0.5, 0.5]]
    """
    below = normal_probability((edges_ph[None, :] - ph[:, None]) / sd_ph)
    beds = ph.shape[0]
    full = np.concatenate((np.zeros((beds, 1)), below, np.ones((beds, 1))), axis=1)
    return np.asarray(np.diff(full, axis=1), dtype=np.float64)
