"""How good a forecast was: its distribution held against what was read afterwards."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.errors import OutOfRangeError

FloatArray = NDArray[np.float64]

VALUES = 99
"""Equally likely values that stand for a forecast given by its quantiles [count]."""


def values_from_quantiles(
    quantiles_ph: ArrayLike, *, levels_frac: ArrayLike, count: int = VALUES
) -> FloatArray:
    """Equally likely values of a distribution of which a few quantiles are known.

    Answers what an ensemble with these quantiles would look like; between two quantiles, and
    beyond the outermost, the distribution is taken as a piece of a normal one.

    Parameters
    ----------
    quantiles_ph
        Quantiles, none below the one before it [pH].
    levels_frac
        Share of the distribution below each, rising between 0 and 1 [0-1].
    count
        How many values [count].

    Returns
    -------
    ndarray
        Values in rising order, the first at the share 1 / (2 count) [pH].

    Raises
    ------
    OutOfRangeError
        For fewer than two quantiles, levels that do not rise between 0 and 1, or quantiles
        that fall.

    Notes
    -----
    Straight lines over the normal scores of the levels; the outer two lines are carried on.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> values = values_from_quantiles([5.0, 6.0], levels_frac=[0.25, 0.75])
    >>> round(float(values[49]), 3)
    5.5
    """
    quantiles = np.asarray(quantiles_ph, dtype=np.float64)
    levels = np.asarray(levels_frac, dtype=np.float64)
    if quantiles.size < 2 or quantiles.shape != levels.shape:
        raise OutOfRangeError("a distribution needs two quantiles or more, each with its level")
    inside = levels[0] > 0.0 and levels[-1] < 1.0
    if not inside or np.any(np.diff(levels) <= 0.0) or np.any(np.diff(quantiles) < 0.0):
        raise OutOfRangeError("levels must rise between 0 and 1, and quantiles must not fall")
    from scipy.special import ndtri  # kept out of the start of every command

    known = ndtri(levels)
    wanted = ndtri((np.arange(count) + 0.5) / count)
    slopes = np.diff(quantiles) / np.diff(known)
    piece = np.clip(np.searchsorted(known, wanted) - 1, 0, slopes.size - 1)
    values: FloatArray = quantiles[piece] + slopes[piece] * (wanted - known[piece])
    return values


def crps(values_ph: ArrayLike, *, read_ph: float, error_sd: float = 0.0) -> float:
    """Continuous ranked probability score of equally likely values, blurred by a reading's error.

    Answers by how much a forecast missed, in pH: for a single sure value it is the plain error,
    and a forecast that said how unsure it was loses less.

    Parameters
    ----------
    values_ph
        Equally likely values of the forecast [pH].
    read_ph
        What was read [pH].
    error_sd
        Error of the reading that the values do not hold yet, 0 or more [pH].

    Returns
    -------
    float
        Score, 0 at best [pH].

    Raises
    ------
    OutOfRangeError
        Without values, or for an error below 0.

    Notes
    -----
    E|X - y| - E|X - X'| / 2, X a mixture of normals of one width about the values.

    References
    ----------
    gneiting-raftery-2007

    Examples
    --------
    >>> round(crps([5.0], read_ph=5.5), 3)
    0.5
    """
    values = _values(values_ph, error_sd)
    among = np.subtract.outer(values, values)
    near = _mean_distance(values - read_ph, error_sd).mean()
    return float(near - 0.5 * _mean_distance(among, np.sqrt(2.0) * error_sd).mean())


def share_below(values_ph: ArrayLike, *, read_ph: float, error_sd: float = 0.0) -> float:
    """Share of a forecast that lies below what was read.

    Parameters
    ----------
    values_ph
        Equally likely values of the forecast [pH].
    read_ph
        What was read [pH].
    error_sd
        Error of the reading that the values do not hold yet, 0 or more [pH].

    Returns
    -------
    float
        Share; over many readings of a good forecast it takes every value equally often [0-1].

    Raises
    ------
    OutOfRangeError
        Without values, or for an error below 0.

    References
    ----------
    gneiting-raftery-2007

    Examples
    --------
    >>> share_below([5.0, 6.0], read_ph=5.5)
    0.5
    """
    values = _values(values_ph, error_sd)
    if error_sd == 0.0:
        return float(0.5 * np.mean(values < read_ph) + 0.5 * np.mean(values <= read_ph))
    from scipy.special import ndtr  # kept out of the start of every command

    return float(ndtr((read_ph - values) / error_sd).mean())


def skill(scores_ph: Sequence[float], *, against_ph: Sequence[float]) -> float:
    """Share of another forecast's score that a forecast saves.

    Parameters
    ----------
    scores_ph
        Its scores [pH].
    against_ph
        Those of the other forecast for the same readings [pH].

    Returns
    -------
    float
        1 for a perfect forecast, 0 for one no better than the other, below 0 for a worse one [1].

    Raises
    ------
    OutOfRangeError
        Where there are none, not equally many, or the other forecast was perfect.

    References
    ----------
    gneiting-raftery-2007

    Examples
    --------
    >>> skill([0.1, 0.2], against_ph=[0.2, 0.4])
    0.5
    """
    other = float(np.sum(against_ph))
    if not scores_ph or len(scores_ph) != len(against_ph) or other <= 0.0:
        raise OutOfRangeError("skill needs as many scores of the other forecast, not all nought")
    return 1.0 - float(np.sum(scores_ph)) / other


def share_interval(hits: int, of: int, *, level_frac: float = 0.95) -> tuple[float, float]:
    """Between which shares the true one lies, by so many hits.

    Parameters
    ----------
    hits
        Readings that were inside [count].
    of
        All readings, 1 or more [count].
    level_frac
        How sure the interval is to be [0-1].

    Returns
    -------
    tuple of float
        Lower and upper end [0-1].

    Raises
    ------
    OutOfRangeError
        For no readings, or more hits than readings.

    Notes
    -----
    The exact interval of Clopper and Pearson (1934), by quantiles of the beta distribution; it is
    never too narrow.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> [round(end, 3) for end in share_interval(9, 10)]
    [0.555, 0.997]
    """
    if not 0 <= hits <= of or of == 0:
        raise OutOfRangeError(f"{hits} hits of {of} readings cannot be")
    from scipy.special import betaincinv  # kept out of the start of every command

    beyond = 0.5 * (1.0 - level_frac)
    low = betaincinv(hits, of - hits + 1, beyond) if hits else 0.0
    high = betaincinv(hits + 1, of - hits, 1.0 - beyond) if hits < of else 1.0
    return float(low), float(high)


def chance_interval(share_frac: float, of: int, *, level_frac: float = 0.9) -> tuple[float, float]:
    """Which shares of hits chance alone gives where the true share is known.

    Parameters
    ----------
    share_frac
        True share, between 0 and 1 [0-1].
    of
        Readings, 1 or more [count].
    level_frac
        How often the share of hits lies in it, at least [0-1].

    Returns
    -------
    tuple of float
        Lower and upper end [0-1].

    Raises
    ------
    OutOfRangeError
        For no readings, or a share outside 0 to 1.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> chance_interval(0.9, 10)
    (0.7, 1.0)
    """
    if of < 1 or not 0.0 <= share_frac <= 1.0:
        raise OutOfRangeError(f"a share of {share_frac} of {of} readings cannot be")
    from scipy.special import bdtr  # kept out of the start of every command

    beyond = 0.5 * (1.0 - level_frac)
    below = bdtr(np.arange(of + 1), of, share_frac)
    low, high = (int(np.searchsorted(below, level)) for level in (beyond, 1.0 - beyond))
    return low / of, min(high, of) / of


def _values(values_ph: ArrayLike, error_sd: float) -> FloatArray:
    values = np.asarray(values_ph, dtype=np.float64)
    if values.size == 0 or not error_sd >= 0.0:
        raise OutOfRangeError("a score needs values, and an error of 0 or more")
    return values


def _mean_distance(mean_ph: FloatArray, sd_ph: float) -> FloatArray:
    """Mean distance from 0 of a normal quantity [pH]."""
    if sd_ph == 0.0:
        return np.abs(mean_ph)
    from scipy.special import ndtr  # kept out of the start of every command

    z = mean_ph / sd_ph
    density = np.exp(-0.5 * z**2) / np.sqrt(2.0 * np.pi)
    distance: FloatArray = sd_ph * (2.0 * density + z * (2.0 * ndtr(z) - 1.0))
    return distance
