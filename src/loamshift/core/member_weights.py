"""How well possible beds fit what was read: weights over a scale on fixed nodes and the rest.

The members stand on a grid: every draw of everything else (``others``) at each node of the
scale of the buffer curve. Between the nodes the scale is interpolated and integrated, so that
the weights cannot collapse onto one value of it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.monotone_cubic import monotone_cubic
from loamshift.errors import InputError, OutOfRangeError

FloatArray = NDArray[np.float64]

FINE_STEPS: Final = 125
"""Points of the scale over which it is integrated [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """Weights of possible beds after readings.

    ``z`` (F) standard scale, rising [sd of the prior]; ``weight`` (F, O), together 1 [1];
    ``fitted_ph`` (F, O, J) what each bed would have read [pH].
    """

    z: FloatArray
    weight: FloatArray
    fitted_ph: FloatArray

    @property
    def of_others(self) -> FloatArray:
        """Weight of each draw of everything but the scale, shape (O,) [1]."""
        return np.asarray(self.weight.sum(axis=0), dtype=np.float64)

    @property
    def of_scale(self) -> FloatArray:
        """Weight of each point of the scale, shape (F,) [1]."""
        return np.asarray(self.weight.sum(axis=1), dtype=np.float64)

    @property
    def effective_others(self) -> float:
        """How many draws carry the weight, 1 to their number [count]."""
        return float(1.0 / np.sum(self.of_others**2))


def weigh_members(
    nodes_z: FloatArray,
    predicted_ph: FloatArray,
    *,
    read_ph: Sequence[float],
    read_sd_ph: Sequence[float],
    degrees: float,
) -> Weights:
    """Weights of possible beds from what was read of the real one.

    Parameters
    ----------
    nodes_z
        Nodes of the scale, rising, shape (N,) [sd of the prior].
    predicted_ph
        What each member would have read, shape (N, O, J) [pH].
    read_ph
        What was read, J values; none leaves the prior [pH].
    read_sd_ph
        Error of each, above 0 [pH].
    degrees
        Degrees of freedom of the error; a small number forgives an outlier [1].

    Returns
    -------
    Weights
        Weights, together 1 [object].

    Raises
    ------
    InputError
        Where shapes do not match.
    OutOfRangeError
        For an error that is not above 0.

    Notes
    -----
    w = phi(z) x product of Student t densities of (read - predicted) / sd, with the scale of
    the t equal to the sd of a careful reading: not shrunk to match its variance.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> nodes = np.array([-1.0, 0.0, 1.0])
    >>> ph = np.array([[[5.0]], [[6.0]], [[7.0]]])
    >>> fit = weigh_members(nodes, ph, read_ph=[6.5], read_sd_ph=[0.2], degrees=5.0)
    >>> 0.2 < float(fit.of_scale @ fit.z) < 0.5
    True
    """
    read, sd = np.asarray(read_ph, dtype=np.float64), np.asarray(read_sd_ph, dtype=np.float64)
    if predicted_ph.ndim != 3 or predicted_ph.shape[0] != nodes_z.size:
        raise InputError(f"predicted_ph {predicted_ph.shape} needs one row per node of the scale")
    if read.shape != sd.shape or read.size != predicted_ph.shape[2]:
        raise InputError("read_ph, read_sd_ph and predicted_ph must speak of as many readings")
    if not np.all(sd > 0.0):
        raise OutOfRangeError("read_sd_ph must be above 0: a reading without error fits no bed")
    fine = np.linspace(nodes_z[0], nodes_z[-1], FINE_STEPS)
    n_others = predicted_ph.shape[1]
    where = np.broadcast_to(fine[:, None], (fine.size, n_others))
    fitted = monotone_cubic(nodes_z, predicted_ph, where)
    log_weight = np.repeat(-0.5 * fine[:, None] ** 2, n_others, axis=1)
    missed = (read - fitted) / sd
    log_weight -= 0.5 * (degrees + 1.0) * np.log1p(missed**2 / degrees).sum(axis=2)
    weight = np.exp(log_weight - log_weight.max())
    return Weights(z=fine, weight=weight / weight.sum(), fitted_ph=fitted)


def scale_quantiles(weights: Weights, probabilities: Sequence[float]) -> FloatArray:
    """Quantiles of the scale after the readings.

    Parameters
    ----------
    weights
        Weights of the members [object].
    probabilities
        Probabilities 0 to 1 [1].

    Returns
    -------
    ndarray
        One a probability [sd of the prior].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> nodes = np.array([-3.0, 0.0, 3.0])
    >>> free = weigh_members(nodes, np.zeros((3, 1, 0)), read_ph=[], read_sd_ph=[], degrees=5.0)
    >>> scale_quantiles(free, [0.05, 0.95]).round(1).tolist()
    [-1.6, 1.6]
    """
    return _quantiles(weights.z, weights.of_scale[:, None], np.asarray(probabilities))[:, 0]


def equal_beds(
    weights: Weights, *, n_others: int, n_scale: int
) -> tuple[NDArray[np.int64], FloatArray]:
    """Beds of equal weight that stand for a weighted ensemble, without any draw.

    Parameters
    ----------
    weights
        Weights of the members [object].
    n_others
        Draws of everything else to keep, with repeats [count].
    n_scale
        Values of the scale for each of them [count].

    Returns
    -------
    tuple of ndarray
        Which draws, shape (n_others,) [index], and the scale of each bed, the quantiles of its
        weight at the middles of equal slices, shape (n_scale, n_others) [sd of the prior].

    Notes
    -----
    Draws by systematic resampling from the middle of the first slice.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> nodes = np.array([-3.0, 0.0, 3.0])
    >>> free = weigh_members(nodes, np.zeros((3, 2, 0)), read_ph=[], read_sd_ph=[], degrees=5.0)
    >>> chosen, z = equal_beds(free, n_others=2, n_scale=3)
    >>> chosen.tolist(), z[:, 0].round(1).tolist()
    ([0, 1], [-1.0, 0.0, 1.0])
    """
    edges = np.cumsum(weights.of_others)
    wanted = (np.arange(n_others) + 0.5) / n_others
    chosen = np.minimum(np.searchsorted(edges / edges[-1], wanted), edges.size - 1)
    slices = (np.arange(n_scale) + 0.5) / n_scale
    return chosen.astype(np.int64), _quantiles(weights.z, weights.weight[:, chosen], slices)


@lru_cache(maxsize=16)
def normal_slices(count: int) -> FloatArray:
    """Middles of equal slices of a standard normal distribution.

    Parameters
    ----------
    count
        How many, 1 or more [count].

    Returns
    -------
    ndarray
        Rising, not to be written to, shape (count,) [sd].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> normal_slices(2).round(2).tolist()
    [-0.67, 0.67]
    """
    if count < 1:
        raise OutOfRangeError(f"count = {count} must be 1 or more")
    z = np.linspace(-4.5, 4.5, 1801)
    density = np.exp(-0.5 * z**2) / math.sqrt(2.0 * math.pi)
    slices = (np.arange(count) + 0.5) / count
    found = _quantiles(z, density[:, None], slices)[:, 0]
    found.flags.writeable = False
    return found


def _quantiles(z: FloatArray, weight: FloatArray, probabilities: FloatArray) -> FloatArray:
    """Quantiles of each column of weights over equal steps of z, shape (P, columns)."""
    step = z[1] - z[0]
    edges = np.concatenate(([z[0] - 0.5 * step], z + 0.5 * step))
    found = np.empty((probabilities.size, weight.shape[1]))
    for column in range(weight.shape[1]):
        total = np.concatenate(([0.0], np.cumsum(weight[:, column])))
        found[:, column] = np.interp(probabilities * total[-1], total, edges)
    return np.clip(found, z[0], z[-1])
