"""The members of many beds drawn at once, array by array."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import FloatArray
from loamshift.errors import InputError, OutOfRangeError


def draw_many(
    centre: FloatArray,
    spread: FloatArray,
    *,
    lognormal: NDArray[np.bool_],
    low: FloatArray,
    high: FloatArray,
    shares: FloatArray,
    shares_of: NDArray[np.int64],
) -> FloatArray:
    """Sets of parameters of many beds, each drawn as ``ensemble.draw_members`` draws one.

    Parameters
    ----------
    centre
        Median of each prior of each bed, shape (B, P) [of the parameter].
    spread
        Standard deviation, of the logarithm where lognormal, shape (B, P) [of the parameter, or 1].
    lognormal
        True where the logarithm is normal, shape (B, P) [truth].
    low
        Bound below which no member lies, shape (B, P) [of the parameter].
    high
        Bound above which no member lies, shape (B, P) [of the parameter].
    shares
        Places of the members in the hypercube, of ``ensemble.even_shares`` for each seed, shape
        (S, P, n_members) [0-1].
    shares_of
        Which of them each bed has, shape (B,) [index].

    Returns
    -------
    ndarray
        Shape (P, B, n_members) [of the parameters].

    Raises
    ------
    InputError
        For arrays of unequal shape.
    OutOfRangeError
        For a negative spread, bounds that leave nothing between them or leave out the centre, or
        a lognormal centre that is not above 0.

    Notes
    -----
    The inverse of the normal distribution is by another library than that of one bed, so that
    members differ by some 1e-15 of their size.

    References
    ----------
    mckay-1979

    Examples
    --------
    >>> from loamshift.core.ensemble import draw_members, even_shares
    >>> places = even_shares(1, n_members=5, rng=np.random.default_rng(3))
    >>> prior = {"lognormal": np.array([[True]]), "low": np.array([[1.0]]),
    ...          "high": np.array([[90.0]])}
    >>> many = draw_many(np.array([[10.0]]), np.array([[0.5]]), shares=places[None],
    ...                  shares_of=np.array([0]), **prior)
    >>> one = draw_members([10.0], [0.5], n_members=5, rng=np.random.default_rng(3), **prior)
    >>> bool(np.abs(many[0, 0] / one[:, 0] - 1.0).max() < 1e-13)
    True
    """
    from scipy.special import ndtr, ndtri  # a third of a second to load

    shape = centre.shape
    if any(part.shape != shape for part in (spread, lognormal, low, high)):
        raise InputError(f"centre has shape {shape}; spread, lognormal and bounds need the same")
    if shares_of.shape != shape[:1] or shares.shape[1] != shape[1]:
        raise InputError(
            f"shares of shape {shares.shape} and shares_of {shares_of.shape} do not fit {shape}"
        )
    _check(centre, spread, lognormal, low, high)
    with np.errstate(divide="ignore"):  # no lower bound of a lognormal prior is a bound of 0
        mean, lowest, highest = (
            np.where(lognormal, np.log(np.where(lognormal, part, 1.0)), part)
            for part in (centre, np.where(lognormal, np.maximum(low, 0.0), low), high)
        )
    sd = np.where(spread > 0.0, spread, 1.0)
    below = ndtr((lowest - mean) / sd)
    above = ndtr((highest - mean) / sd)
    values = np.empty((shape[1], shape[0], shares.shape[2]))
    for index, value in enumerate(values):
        value[:] = shares[shares_of, index]
        value *= (above - below)[:, index, None]
        value += below[:, index, None]
        ndtri(np.clip(value, np.nextafter(0.0, 1.0), np.nextafter(1.0, 0.0), out=value), out=value)
        value *= sd[:, index, None]
        value += mean[:, index, None]
        np.clip(value, lowest[:, index, None], highest[:, index, None], out=value)
        logged = lognormal[:, index]
        if logged.all():
            np.exp(value, out=value)
        elif logged.any():
            value[logged] = np.exp(value[logged])
        held = spread[:, index] == 0.0
        if held.any():
            value[held] = centre[held, index, None]
    return values


def _check(
    centre: FloatArray,
    spread: FloatArray,
    lognormal: NDArray[np.bool_],
    low: FloatArray,
    high: FloatArray,
) -> None:
    if not (np.isfinite(centre) & np.isfinite(spread) & (spread >= 0.0)).all():
        raise OutOfRangeError("every centre must be a number and every spread 0 or more")
    if (lognormal & (centre <= 0.0)).any():
        raise OutOfRangeError("the centre of a lognormal prior must be above 0")
    held = spread == 0.0
    if not (held | ((low < high) & (low <= centre) & (centre <= high))).all():
        raise OutOfRangeError("the bounds of a prior must rise and hold its centre between them")
