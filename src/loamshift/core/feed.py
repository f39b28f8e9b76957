"""Choosing a nitrogen feed so that the yearly acid ledger comes out as wished."""

from __future__ import annotations

import math
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.errors import InputError, LoamshiftError, OutOfRangeError

_SLACK: Final = 1e-9


class FeedChoice(NamedTuple):
    """Nitrogen from each feed, and the ledger with it."""

    nitrogen_g_m2_year: NDArray[np.float64]
    """Nitrogen from each feed, in the order given [g N/m2/yr]."""
    net_acid_mmolc_m2_year: float
    """Ledger with the feed; positive acidifies [mmolc/m2/yr]."""
    misfit_mmolc_m2_year: float
    """Net less wanted; positive is too acid [mmolc/m2/yr]."""


def choose_feed(
    acid_mmolc_per_g_n: ArrayLike,
    *,
    nitrogen_g_m2_year: float,
    other_acid_mmolc_m2_year: float,
    wanted_acid_mmolc_m2_year: float,
    nitrogen_high_g_m2_year: float | None = None,
    max_share_frac: ArrayLike | None = None,
) -> FeedChoice:
    """The mix of feeds that brings the plants' nitrogen and the ledger nearest to a wish.

    Answers how far the feed alone can balance water, rain and drift. Price, salt and what else a
    feed contains are left out; a feed a plant cannot bear gets a share of 0.

    Parameters
    ----------
    acid_mmolc_per_g_n
        Acid each feed brings per gram of nitrogen, the most usual feed first; negative limes
        [mmolc/g N].
    nitrogen_g_m2_year
        Nitrogen needed, or the least if an upper end is given, 0 or more [g N/m2/yr].
    other_acid_mmolc_m2_year
        Ledger without any feed; positive acidifies [mmolc/m2/yr].
    wanted_acid_mmolc_m2_year
        Ledger wished, 0 to stay [mmolc/m2/yr].
    nitrogen_high_g_m2_year
        Most nitrogen allowed; None holds nitrogen exactly to what is needed [g N/m2/yr].
    max_share_frac
        Largest share of all nitrogen from each feed; None allows each all of it [0-1].

    Returns
    -------
    FeedChoice
        Nitrogen by feed and the ledger with it [g N/m2/yr and mmolc/m2/yr].

    Raises
    ------
    InputError
        Where there is no feed, or lengths differ.
    OutOfRangeError
        Where an amount is impossible, or the shares allowed add up to less than all nitrogen.

    Notes
    -----
    Linear program in two passes: first the least distance from the wish, then, without giving
    any of it up, the least nitrogen weighted by the square of its place in the list, so that
    usual feeds and fewer grams win between equals. A corner solution uses at most two feeds
    beside those held at their largest share.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> choice = choose_feed([71.4, 35.7, -35.7], nitrogen_g_m2_year=10.0,
    ...                      other_acid_mmolc_m2_year=-500.0, wanted_acid_mmolc_m2_year=0.0)
    >>> [round(float(n), 1) for n in choice.nitrogen_g_m2_year], round(choice.misfit_mmolc_m2_year)
    ([4.0, 6.0, 0.0], 0)
    """
    acid = np.asarray(acid_mmolc_per_g_n, dtype=np.float64)
    if acid.ndim != 1 or acid.size == 0 or not np.isfinite(acid).all():
        raise InputError("acid_mmolc_per_g_n must list a finite number for one feed or more")
    most = nitrogen_g_m2_year if nitrogen_high_g_m2_year is None else nitrogen_high_g_m2_year
    if not (0.0 <= nitrogen_g_m2_year <= most < math.inf):
        raise OutOfRangeError(
            f"nitrogen from {nitrogen_g_m2_year:g} to {most:g} g/m2 a year must rise from 0 up"
        )
    if not (math.isfinite(other_acid_mmolc_m2_year) and math.isfinite(wanted_acid_mmolc_m2_year)):
        raise OutOfRangeError("the ledger and the wish must be finite numbers")
    share = (
        np.ones_like(acid) if max_share_frac is None else np.asarray(max_share_frac, dtype=float)
    )
    if share.shape != acid.shape:
        raise InputError(f"{share.size} shares against {acid.size} feeds: give one share per feed")
    if not ((share >= 0.0) & (share <= 1.0)).all() or (most > 0.0 and share.sum() < 1.0 - _SLACK):
        raise OutOfRangeError(
            f"shares {share.tolist()} must each be 0 to 1 and together at least 1, "
            "or no mix can bring the nitrogen"
        )
    gap = wanted_acid_mmolc_m2_year - other_acid_mmolc_m2_year
    nitrogen = _solve(acid, share, gap=gap, least=nitrogen_g_m2_year, most=most)
    net = other_acid_mmolc_m2_year + float(acid @ nitrogen)
    return FeedChoice(nitrogen, net, net - wanted_acid_mmolc_m2_year)


def _solve(
    acid: NDArray[np.float64],
    share: NDArray[np.float64],
    *,
    gap: float,
    least: float,
    most: float,
) -> NDArray[np.float64]:
    """Nitrogen by feed; unknowns are feeds in units of ``most``, then over- and undershoot."""
    if most == 0.0:
        return np.zeros_like(acid)
    scale = max(float(np.abs(acid).max()), abs(gap) / most, 1e-12)
    feeds = acid.size
    balance = np.concatenate([acid / scale, [-1.0, 1.0]])
    total = np.concatenate([np.ones(feeds), [0.0, 0.0]])
    caps = np.hstack([np.eye(feeds) - np.outer(share, np.ones(feeds)), np.zeros((feeds, 2))])
    caps = caps[share < 1.0]
    distance = np.concatenate([np.zeros(feeds), [1.0, 1.0]])
    equal = np.vstack([balance])
    equal_to = [gap / (scale * most)]
    upper = np.vstack([caps, total, -total])
    upper_to = [*np.zeros(caps.shape[0]), 1.0, -least / most]
    if least == most:
        equal = np.vstack([balance, total])
        equal_to = [gap / (scale * most), 1.0]
        upper, upper_to = caps, [*np.zeros(caps.shape[0])]
    nearest = _least(distance, upper, upper_to, equal, equal_to)
    if nearest is None:
        raise LoamshiftError("no mix of feeds could be found; the amounts are too far apart")
    usual = np.concatenate([1.0 + 1e-3 * np.arange(feeds) ** 2.0, [0.0, 0.0]])
    kept = float(distance @ nearest) + _SLACK
    chosen = _least(usual, np.vstack([upper, distance]), [*upper_to, kept], equal, equal_to)
    # A feed a million times weaker than another lies below the solver's own tolerance of 1e-7, and
    # the second pass can then find nothing; the first is as near, with the tie left unbroken.
    best = nearest if chosen is None else chosen
    nitrogen: NDArray[np.float64] = np.maximum(best[:feeds], 0.0) * most
    if least == most:
        nitrogen = nitrogen * (most / nitrogen.sum())
    return nitrogen


def _least(
    cost: NDArray[np.float64],
    upper: NDArray[np.float64],
    upper_to: list[float],
    equal: NDArray[np.float64],
    equal_to: list[float],
) -> NDArray[np.float64] | None:
    """The cheapest point, or None where the solver finds none."""
    from scipy.optimize import linprog  # kept out of the start of every command

    result: Any = linprog(
        cost,
        A_ub=upper if upper.size else None,
        b_ub=upper_to if upper.size else None,
        A_eq=equal,
        b_eq=equal_to,
        bounds=(0.0, None),
        method="highs",
    )
    return np.asarray(result.x, dtype=np.float64) if result.success else None
