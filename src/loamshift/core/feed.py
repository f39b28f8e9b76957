"""Choosing a nitrogen feed so that the yearly acid ledger comes out as wished."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.errors import InputError, OutOfRangeError

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
    Linear program with two aims: first the least distance from the wish, then, without giving
    any of it up, the least nitrogen weighted by the square of its place in the list, so that
    usual feeds and fewer grams win between equals. A corner solution uses at most two feeds
    beside those held at their largest share; with a handful of feeds the corners are few enough
    to look at all of them, which needs no solver and none of its tolerance.

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
    """Nitrogen by feed: the cheapest of the corners of the program, all of which are looked at.

    Acid per gram of nitrogen fixes the cheapest mix; so only the total is left to choose. Its
    corners are the ends of its range and the totals at which one of the mixes does it alone.
    """
    mixes, weight = _cheapest_mixes(acid, share)
    per_g = mixes @ acid
    reach = np.outer([least, most], per_g)
    brought = min(max(gap, reach.min()), reach.max())
    alone = brought / per_g[per_g != 0.0]
    totals = [least, most, *alone[(alone > least) & (alone < most)]]
    slack = _SLACK * max(float(np.abs(per_g).max()), 1.0)
    best, least_weight = np.zeros_like(acid), math.inf
    for total in totals:
        wanted = brought / total if total > 0.0 else 0.0
        if not (per_g[0] - slack <= wanted <= per_g[-1] + slack) or abs(brought) > 0.0 == total:
            continue
        now = total * float(np.interp(wanted, per_g, weight))
        if now < least_weight:
            mix = [np.interp(wanted, per_g, column) for column in mixes.T]
            best, least_weight = total * np.array(mix), now
    return best


def _cheapest_mixes(
    acid: NDArray[np.float64], share: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Shares of the feeds in each mix that no other undercuts, by rising acid, and their weights.

    What lies between two neighbours is their mixture. Each comes of filling up to the shares
    allowed in the order of weight less a worth of the acid; the order changes only at worths that
    make two feeds equal.
    """
    usual = 1.0 + 1e-3 * np.arange(acid.size) ** 2.0
    one, other = np.triu_indices(acid.size, k=1)
    differ = acid[one] != acid[other]
    turns = np.unique((usual[one] - usual[other])[differ] / (acid[one] - acid[other])[differ])
    orders = [np.lexsort((usual, acid))]
    orders += [np.argsort(usual - worth * acid) for worth in (turns[:-1] + turns[1:]) / 2.0]
    orders.append(np.lexsort((usual, -acid)))
    mixes = np.array([_filled(order, share) for order in orders])
    _, kept = np.unique(mixes @ acid, return_index=True)
    return mixes[kept], (mixes @ usual)[kept]


def _filled(order: NDArray[np.intp], share: NDArray[np.float64]) -> NDArray[np.float64]:
    """Each feed in turn up to its largest share, until there is no room left."""
    filled = np.minimum(np.cumsum(share[order]), 1.0)
    mix = np.zeros_like(share)
    mix[order] = np.diff(filled, prepend=0.0) / filled[-1]
    return mix
