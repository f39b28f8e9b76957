"""Interpolation that keeps the order of its points: many curves over the same few nodes."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.errors import InputError

FloatArray = NDArray[np.float64]


def monotone_cubic(nodes: ArrayLike, values: ArrayLike, at: ArrayLike) -> FloatArray:
    """Values between nodes, without overshoot.

    Parameters
    ----------
    nodes
        Rising, shape (N,), two or more [any unit].
    values
        One value per node and curve, shape (N, C, ...) [of the values].
    at
        Where to read each curve, shape (Q, C); outside the nodes the end values hold
        [unit of the nodes].

    Returns
    -------
    ndarray
        Shape (Q, C, ...) [of the values].

    Raises
    ------
    InputError
        For nodes that do not rise, or shapes that do not fit.

    Notes
    -----
    Piecewise cubic Hermite polynomials with the slopes of Fritsch and Butland: the weighted
    harmonic mean of the two neighbouring secants, 0 where they differ in sign; one-sided
    three-point slopes at the ends, kept from overshooting.

    References
    ----------
    fritsch-butland-1984

    Examples
    --------
    >>> monotone_cubic([0.0, 1.0, 2.0], [[0.0], [1.0], [1.0]], [[0.5], [1.5]]).ravel().tolist()
    [0.6875, 1.0]
    """
    x = np.asarray(nodes, dtype=np.float64)
    y = np.asarray(values, dtype=np.float64)
    where = np.asarray(at, dtype=np.float64)
    if x.ndim != 1 or x.size < 2 or not np.all(np.diff(x) > 0.0):
        raise InputError("nodes must rise, and there must be two or more of them")
    if y.ndim < 2 or y.shape[0] != x.size or where.ndim != 2 or where.shape[1] != y.shape[1]:
        raise InputError(
            f"values {y.shape} need one row per node ({x.size}), and at {where.shape} one column "
            "per curve"
        )
    extra = (1,) * (y.ndim - 1)
    step = np.diff(x).reshape(-1, *extra)
    secant = np.diff(y, axis=0) / step
    slope = _slopes(step, secant)
    inside = np.clip(where, x[0], x[-1])
    left = np.clip(np.searchsorted(x, inside, side="right") - 1, 0, x.size - 2)
    curve = np.broadcast_to(np.arange(y.shape[1]), left.shape)
    tail = (1,) * (y.ndim - 2)
    width = (x[left + 1] - x[left]).reshape(*left.shape, *tail)
    share = ((inside - x[left]) / (x[left + 1] - x[left])).reshape(*left.shape, *tail)
    rest = 1.0 - share
    low, high = y[left, curve], y[left + 1, curve]
    rise_low, rise_high = slope[left, curve], slope[left + 1, curve]
    return np.asarray(
        (1.0 + 2.0 * share) * rest**2 * low
        + share**2 * (3.0 - 2.0 * share) * high
        + width * share * rest * (rest * rise_low - share * rise_high),
        dtype=np.float64,
    )


def with_midpoints(nodes: FloatArray, values: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The same curves with one more node half way between every two.

    Read straight from node to node they then lie close to the cubics, at a fraction of the work.

    Parameters
    ----------
    nodes
        Rising, shape (N,), two or more [any unit].
    values
        One value per node and curve, shape (N, C, ...) [of the values].

    Returns
    -------
    tuple of ndarray
        Nodes, shape (2N - 1,), and values, shape (2N - 1, C, ...) [as given].

    Notes
    -----
    The cubics of :func:`monotone_cubic` at the middle of each interval.

    References
    ----------
    fritsch-butland-1984

    Examples
    --------
    >>> nodes, values = with_midpoints(np.array([0.0, 1.0, 2.0]), np.array([[0.0], [1.0], [1.0]]))
    >>> nodes.tolist(), values.ravel().tolist()
    ([0.0, 0.5, 1.0, 1.5, 2.0], [0.0, 0.6875, 1.0, 1.0, 1.0])
    """
    step = np.diff(nodes).reshape(-1, *(1,) * (values.ndim - 1))
    slope = _slopes(step, np.diff(values, axis=0) / step)
    fine = np.empty((2 * nodes.size - 1, *values.shape[1:]))
    fine[::2] = values
    fine[1::2] = 0.5 * (values[:-1] + values[1:]) + 0.125 * step * (slope[:-1] - slope[1:])
    places = np.empty(2 * nodes.size - 1)
    places[::2] = nodes
    places[1::2] = 0.5 * (nodes[:-1] + nodes[1:])
    return places, fine


def _slopes(step: FloatArray, secant: FloatArray) -> FloatArray:
    """Slope at each node, shape (N, C, ...)."""
    count = secant.shape[0] + 1
    slope = np.zeros((count, *secant.shape[1:]))
    if count == 2:
        slope[:] = secant[0]
        return slope
    before, after = step[:-1], step[1:]
    one, two = secant[:-1], secant[1:]
    weight_one, weight_two = 2.0 * after + before, after + 2.0 * before
    alike = one * two > 0.0
    safe_one, safe_two = np.where(alike, one, 1.0), np.where(alike, two, 1.0)
    mean = (weight_one + weight_two) / (weight_one / safe_one + weight_two / safe_two)
    slope[1:-1] = np.where(alike, mean, 0.0)
    slope[0] = _end_slope(step[0], step[1], secant[0], secant[1])
    slope[-1] = _end_slope(step[-1], step[-2], secant[-1], secant[-2])
    return slope


def _end_slope(
    step: FloatArray, next_step: FloatArray, secant: FloatArray, next_secant: FloatArray
) -> FloatArray:
    """Three-point slope at an end, kept from overshooting."""
    slope = ((2.0 * step + next_step) * secant - step * next_secant) / (step + next_step)
    slope = np.where(slope * secant <= 0.0, 0.0, slope)
    steep = (secant * next_secant <= 0.0) & (np.abs(slope) > 3.0 * np.abs(secant))
    return np.asarray(np.where(steep, 3.0 * secant, slope), dtype=np.float64)
