"""Many possible beds at once: drawing them, banding what they do, and scoring the forecast.

Randomness is an argument: the generator is made and seeded by the caller.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from statistics import NormalDist
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.errors import InputError, OutOfRangeError

FloatArray = NDArray[np.float64]

BAND_PROBABILITIES: Final = (0.05, 0.25, 0.5, 0.75, 0.95)
"""Median, middle half and nine in ten."""

_CHANCE_SQUARED_Z: Final = 4.0
_NORMAL: Final = NormalDist()
_KEPT_QUANTILES: Final = 512
"""Beds drawn by one seed share their slices: so many sets of quantiles are kept [count]."""


def draw_members(
    centre: ArrayLike,
    spread: ArrayLike,
    *,
    lognormal: ArrayLike,
    low: ArrayLike,
    high: ArrayLike,
    n_members: int,
    rng: np.random.Generator,
) -> FloatArray:
    """Sets of parameters drawn from their priors, evenly spread over each of them.

    Answers which beds could lie behind what is known. Parameters are drawn independently of each
    other; a tie between two must be made by the caller.

    Parameters
    ----------
    centre
        Median of each prior, shape (n_parameters,); above 0 where lognormal [of the parameter].
    spread
        Standard deviation of a normal prior, or of the natural logarithm of a lognormal one;
        0 holds the parameter at its centre, shape (n_parameters,) [of the parameter, or 1].
    lognormal
        True where the logarithm is normal, shape (n_parameters,) [truth].
    low
        Bound below which no member lies, -inf for none, shape (n_parameters,) [of the parameter].
    high
        Bound above which no member lies, inf for none, shape (n_parameters,) [of the parameter].
    n_members
        How many sets, 1 or more [count].
    rng
        Seeded generator; the same seed gives the same members [object].

    Returns
    -------
    ndarray
        One set a row, shape (n_members, n_parameters) [of the parameters].

    Raises
    ------
    InputError
        For arrays of unequal length.
    OutOfRangeError
        For no member, a negative spread, bounds that leave nothing between them or leave out the
        centre, or a lognormal centre that is not above 0.

    Notes
    -----
    Latin hypercube: each prior is cut into ``n_members`` slices of equal probability, one member
    is drawn in each slice, and the slices are shuffled for each parameter. Bounds cut the prior
    off and the rest is scaled up, so no draws pile up at a bound.

    References
    ----------
    mckay-1979

    Examples
    --------
    >>> drawn = draw_members([10.0], [0.5], lognormal=[True], low=[0.0], high=[np.inf],
    ...                      n_members=1000, rng=np.random.default_rng(1))
    >>> round(float(np.median(drawn)), 1)
    10.0
    """
    middle, width = _vector(centre), _vector(spread)
    logged = np.asarray(lognormal, dtype=np.bool_).ravel()
    lowest, highest = _vector(low), _vector(high)
    count = middle.size
    if any(part.size != count for part in (width, logged, lowest, highest)):
        raise InputError(
            f"centre holds {count} priors; spread, lognormal, low and high must hold as many"
        )
    if n_members < 1:
        raise OutOfRangeError(f"n_members {n_members} must be 1 or more")
    _check_priors(middle, width, logged, lowest, highest)
    members = np.empty((n_members, count), dtype=np.float64)
    for index, share in enumerate(even_shares(count, n_members=n_members, rng=rng)):
        if width[index] == 0.0:
            members[:, index] = middle[index]
            continue
        if logged[index]:
            members[:, index] = np.exp(
                _truncated_normal(
                    share,
                    mean=float(np.log(middle[index])),
                    sd=float(width[index]),
                    low=float(np.log(lowest[index])) if lowest[index] > 0.0 else -np.inf,
                    high=float(np.log(highest[index])),
                )
            )
        else:
            members[:, index] = _truncated_normal(
                share,
                mean=float(middle[index]),
                sd=float(width[index]),
                low=float(lowest[index]),
                high=float(highest[index]),
            )
    return members


def even_shares(count: int, *, n_members: int, rng: np.random.Generator) -> FloatArray:
    """A Latin hypercube of probabilities, a row for each parameter.

    Parameters
    ----------
    count
        Parameters [count].
    n_members
        Members, 1 or more [count].
    rng
        Seeded generator [object].

    Returns
    -------
    ndarray
        One value in each of ``n_members`` slices of equal width, shuffled, shape
        (count, n_members) [0-1].

    References
    ----------
    mckay-1979

    Examples
    --------
    >>> made = even_shares(1, n_members=4, rng=np.random.default_rng(1))
    >>> sorted((made[0] * 4.0).astype(int).tolist())
    [0, 1, 2, 3]
    """
    made = np.empty((count, n_members))
    for row in made:
        slices = rng.permutation(n_members)
        row[:] = (slices + rng.random(n_members)) / n_members
    return made


def quantile_bands(
    members: ArrayLike, *, probabilities: tuple[float, ...] = BAND_PROBABILITIES
) -> FloatArray:
    """The bands a forecast is drawn with.

    Parameters
    ----------
    members
        Outcome of each member, members along the first axis [of the outcome].
    probabilities
        Probabilities 0 to 1, rising [1].

    Returns
    -------
    ndarray
        Quantiles, one for each probability along the first axis [of the outcome].

    Raises
    ------
    InputError
        For no members, or an outcome that is not a number.

    Notes
    -----
    Linear between the sorted members.

    Examples
    --------
    >>> quantile_bands(np.arange(101.0)).tolist()
    [5.0, 25.0, 50.0, 75.0, 95.0]
    """
    values = np.asarray(members, dtype=np.float64)
    if values.ndim == 0 or values.shape[0] == 0:
        raise InputError("members holds no member; run at least one")
    if not np.all(np.isfinite(values)):
        raise InputError("members holds values that are no numbers; a run failed before this")
    return np.asarray(np.quantile(values, probabilities, axis=0), dtype=np.float64)


def median_course(members: FloatArray) -> FloatArray:
    """The median of the members day by day.

    Parameters
    ----------
    members
        What each member does, shape (M, T), one member or more [any unit].

    Returns
    -------
    ndarray
        Shape (T,) [the same unit].

    Notes
    -----
    ``numpy.median`` along the first axis, to the last bit; days side by side are a tenth of the
    work.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> median_course(np.array([[1.0, 5.0], [2.0, 4.0], [9.0, 0.0]])).tolist()
    [2.0, 4.0]
    """
    by_day = np.ascontiguousarray(members.T)
    count = by_day.shape[1]
    above = count // 2
    parted = np.partition(by_day, above, axis=1)
    middle = parted[:, above]
    below = middle if count % 2 else parted[:, :above].max(axis=1)
    return np.asarray(0.5 * (below + middle), dtype=np.float64)


def sample_median(values: FloatArray) -> float:
    """The median of some values.

    Parameters
    ----------
    values
        One or more, shape (M,) [any unit].

    Returns
    -------
    float
        That of ``numpy.median``, which takes five times as long over some hundred [the same unit].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> sample_median(np.array([4.0, 1.0, 2.0, 9.0]))
    3.0
    """
    ordered, count = np.sort(values), values.size
    return 0.5 * float(ordered[(count - 1) // 2] + ordered[count // 2])


def sample_quantiles(values: FloatArray, probabilities: Sequence[float]) -> list[float]:
    """Quantiles of some values, straight between their ranks.

    Parameters
    ----------
    values
        One or more, shape (M,) [any unit].
    probabilities
        Which, each from 0 to 1 [1].

    Returns
    -------
    list of float
        Those of ``numpy.quantile``, which takes five times as long over some hundred
        [the same unit].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> sample_quantiles(np.array([4.0, 1.0, 2.0]), (0.5, 0.75))
    [2.0, 3.0]
    """
    ordered, last = np.sort(values), values.size - 1
    found = []
    for probability in probabilities:
        rank = last * probability
        left = int(rank)
        low, high = float(ordered[left]), float(ordered[min(left + 1, last)])
        share, step = rank - left, high - low
        found.append(low + step * share if share < 0.5 else high - step * (1.0 - share))
    return found


def variance_shares(parameters: ArrayLike, outcome: ArrayLike) -> FloatArray:
    """What the width of a forecast comes from, parameter by parameter.

    Parameters
    ----------
    parameters
        One set a row, shape (n_members, n_parameters) [of the parameters].
    outcome
        What each member came to, shape (n_members,) [of the outcome].

    Returns
    -------
    ndarray
        Share of each parameter, 0 to 1, adding up to 1; all 0 where nothing varies,
        shape (n_parameters,) [1].

    Raises
    ------
    InputError
        For fewer than 3 members, or lengths that do not match.

    Notes
    -----
    Squared rank correlation of each parameter with the outcome, less the 1/(n - 1) that chance
    gives a parameter without effect, scaled to add up to 1; up to 4/(n - 1) it counts as none,
    because chance gives as much to one in twenty; so five members or fewer tell no cause. It
    tells the order of the causes, not exact shares: effects that are not monotone, and pairs
    that act only together, are missed.

    References
    ----------
    saltelli-2008

    Examples
    --------
    >>> x = np.random.default_rng(1).random((500, 2))
    >>> variance_shares(x, x[:, 0] ** 3).round(1).tolist()
    [1.0, 0.0]
    """
    table = np.asarray(parameters, dtype=np.float64)
    result = np.asarray(outcome, dtype=np.float64)
    if table.ndim != 2 or result.shape != (table.shape[0],):
        raise InputError("parameters needs one row, and outcome one value, for each member")
    if table.shape[0] < 3:
        raise InputError(f"{table.shape[0]} members are too few to tell causes apart; take 100")
    ranked = _average_ranks(result)
    squared = np.array([_correlation(_average_ranks(column), ranked) ** 2 for column in table.T])
    chance = 1.0 / (table.shape[0] - 1)
    beyond_chance = np.where(squared > _CHANCE_SQUARED_Z * chance, squared - chance, 0.0)
    total = float(beyond_chance.sum())
    return beyond_chance / total if total > 0.0 else beyond_chance


def crps_ensemble(members: ArrayLike, observed: ArrayLike) -> FloatArray:
    """How far a forecast was off, its width and its place judged at once.

    Parameters
    ----------
    members
        Forecast of each member, shape (n_members,) or (n_members, n_observed) [of the outcome].
    observed
        What was measured, one value or shape (n_observed,) [of the outcome].

    Returns
    -------
    ndarray
        Score of each observation, 0 is perfect, in the unit of the outcome; for one member it is
        the plain error [of the outcome].

    Raises
    ------
    InputError
        For no members or shapes that do not match.

    Notes
    -----
    Continuous ranked probability score of the empirical distribution: mean |x - y| less half the
    mean |x - x'| over all pairs, by one sort.

    References
    ----------
    gneiting-raftery-2007

    Examples
    --------
    >>> float(crps_ensemble([4.0, 6.0], 5.0))
    0.5
    """
    given = np.asarray(members, dtype=np.float64)
    truth = np.asarray(observed, dtype=np.float64)
    if given.ndim == 0 or given.shape[0] == 0:
        raise InputError("members holds no member; run at least one")
    values = np.sort(given, axis=0)
    if values.shape[1:] != truth.shape:
        raise InputError(
            f"members forecast {values.shape[1:]} values and observed holds {truth.shape}"
        )
    count = values.shape[0]
    weight = (2.0 * np.arange(count) - count + 1.0) / count**2
    spread = np.tensordot(weight, values, axes=(0, 0))
    return np.asarray(np.abs(values - truth).mean(axis=0) - spread, dtype=np.float64)


def coverage(observed: ArrayLike, *, low: ArrayLike, high: ArrayLike) -> float:
    """Share of measured values that a band held.

    Parameters
    ----------
    observed
        What was measured, shape (n,) [of the outcome].
    low
        Lower edge of the band at each, shape (n,) [of the outcome].
    high
        Upper edge of the band at each, shape (n,) [of the outcome].

    Returns
    -------
    float
        Share 0 to 1; a value on the edge counts as held [1].

    Raises
    ------
    InputError
        For nothing observed, or a band whose low edge lies above its high one.

    Notes
    -----
    Observations of one site share their errors: twenty of them are not twenty trials.

    Examples
    --------
    >>> coverage([1.0, 2.0, 3.0, 9.0], low=[0.0] * 4, high=[5.0] * 4)
    0.75
    """
    truth, lower, upper = _vector(observed), _vector(low), _vector(high)
    if truth.size == 0 or lower.size != truth.size or upper.size != truth.size:
        raise InputError("observed, low and high need the same number of values, one or more")
    if np.any(lower > upper):
        raise InputError("low lies above high; the two edges of the band are swapped")
    return float(np.mean((truth >= lower) & (truth <= upper)))


def _vector(values: ArrayLike) -> FloatArray:
    return np.asarray(values, dtype=np.float64).ravel()


def _check_priors(
    middle: FloatArray,
    width: FloatArray,
    logged: NDArray[np.bool_],
    lowest: FloatArray,
    highest: FloatArray,
) -> None:
    if not np.all(np.isfinite(middle)) or not np.all(np.isfinite(width) & (width >= 0.0)):
        raise OutOfRangeError("every centre must be a number and every spread 0 or more")
    if np.any(logged & (middle <= 0.0)):
        raise OutOfRangeError("the centre of a lognormal prior must be above 0")
    held = width == 0.0
    if not np.all(held | ((lowest < highest) & (lowest <= middle) & (middle <= highest))):
        raise OutOfRangeError("the bounds of a prior must rise and hold its centre between them")


def _truncated_normal(
    share: FloatArray, *, mean: float, sd: float, low: float, high: float
) -> FloatArray:
    """Quantile function of a normal distribution cut off at its bounds."""
    below = _NORMAL.cdf((low - mean) / sd)
    above = _NORMAL.cdf((high - mean) / sd)
    quantile = np.frombuffer(_quantiles_at(share.tobytes(), below=below, above=above))
    return np.clip(mean + sd * quantile, low, high)


@lru_cache(maxsize=_KEPT_QUANTILES)
def _quantiles_at(share: bytes, *, below: float, above: float) -> bytes:
    """Standard normal quantiles at shares between two probabilities, kept for the next bed."""
    probability = below + (above - below) * np.frombuffer(share)
    inside = np.clip(probability, np.nextafter(0.0, 1.0), np.nextafter(1.0, 0.0))
    quantile = np.fromiter(map(_NORMAL.inv_cdf, inside.tolist()), np.float64, inside.size)
    return quantile.tobytes()


def _average_ranks(values: FloatArray) -> FloatArray:
    """Ranks from 0, values that are equal sharing the mean of theirs."""
    _, where, counts = np.unique(values, return_inverse=True, return_counts=True)
    last = np.cumsum(counts)
    return np.asarray((last - 0.5 * (counts + 1.0))[where], dtype=np.float64)


def _correlation(a: FloatArray, b: FloatArray) -> float:
    da, db = a - a.mean(), b - b.mean()
    scale = float(np.sqrt((da @ da) * (db @ db)))
    return float(da @ db) / scale if scale > 0.0 else 0.0
