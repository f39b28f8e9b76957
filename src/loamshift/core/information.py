"""What a further test is worth: the plan chosen anew for each of its outcomes, on the same beds.

No bed is run again and no reading is drawn. An outcome weighs the beds by how likely each of them
gives it; the plan is chosen on the surface that is there already.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loamshift.core.dose_surface import DoseSurface
from loamshift.core.plan_goal import RuleBounds, RuleGoal, bounds_of
from loamshift.core.reading_bins import BIN_PH, bin_shares, normal_probability, reading_edges
from loamshift.errors import InputError

FloatArray = NDArray[np.float64]
SmallArray = NDArray[np.float32]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]

OUTCOMES = 8
"""Bins that the readings of a further test are sorted into [count]."""
STEP_PH = 2.0 * BIN_PH
"""Width of the bins of the tests that the plan has already [pH]."""
FIRST_TRIED, LATER_TRIED = 6, 5
"""First and later amounts that a plan is chosen anew from [count]."""
FOLLOWED = 3
"""First amounts that are followed through a third season: with one test to come the choice of
the first is made, and a second test hardly moves it [count]."""
ONE_THREAD = 200_000
"""A product of no more multiplications than this is left to one thread [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcomes:
    """How a plan does that is chosen for each outcome of a test.

    ``probability`` (J,) of each; ``in_range`` (J,) share of all beds that give it and come to lie
    in the range, together the share of the whole; ``better`` (J,) how much of that comes from
    another first amount than the one that is best without the test [0-1].
    """

    probability: FloatArray
    in_range: FloatArray
    better: FloatArray


def outcome_shares(seen: FloatArray, *, sd: FloatArray | float, outcomes: int) -> FloatArray:
    """Probability that each bed gives each of some outcomes, the readings sorted into bins.

    Parameters
    ----------
    seen
        What an exact test would find in each bed, shape (M,) [any unit].
    sd
        Error of the test, above 0, one for all or shape (M,) [the same unit].
    outcomes
        How many bins, 1 or more; about as many readings fall into each [count].

    Returns
    -------
    ndarray
        Shape (M, outcomes), each row together 1 [0-1].

    Raises
    ------
    InputError
        For an error that is not above 0.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> outcome_shares(np.array([0.0, 1.0]), sd=1e-3, outcomes=2).round(2).tolist()
    [[1.0, 0.0], [0.0, 1.0]]
    """
    error = np.broadcast_to(np.asarray(sd, dtype=np.float64), seen.shape)
    if not np.all(error > 0.0):
        raise InputError("sd must be above 0: no test is without error")
    spread = normal_middles(16)
    read = np.sort((seen[:, None] + error[:, None] * spread).ravel())
    places = (np.arange(1, outcomes) * read.size) // outcomes
    edges = 0.5 * (read[places - 1] + read[places])
    below = normal_probability((edges[None, :] - seen[:, None]) / error[:, None])
    ends = np.zeros((seen.size, 1)), np.ones((seen.size, 1))
    return np.asarray(np.diff(np.concatenate((ends[0], below, ends[1]), axis=1)), dtype=np.float64)


def normal_middles(count: int) -> FloatArray:
    """Middles of equal slices of a standard normal distribution.

    Parameters
    ----------
    count
        How many, 1 or more [count].

    Returns
    -------
    ndarray
        Rising, shape (count,) [sd].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> normal_middles(2).round(2).tolist()
    [-0.67, 0.67]
    """
    z = np.linspace(-4.5, 4.5, 1801)
    shares = (np.arange(count) + 0.5) / count
    return np.asarray(np.interp(shares, normal_probability(z), z), dtype=np.float64)


def decided_by_outcome(
    surface: DoseSurface,
    goal: RuleGoal,
    shares: Sequence[FloatArray],
    *,
    chosen_on: BoolArray,
    first_g_m2: float,
    harm_price: float,
) -> tuple[Outcomes, ...]:
    """How plans do that are chosen anew for the outcomes of tests.

    Parameters
    ----------
    surface
        What each bed does under any amounts [object].
    goal
        What is wanted, and what may be done [object].
    shares
        Of each test, how likely each bed gives each outcome, shape (M, J), rows together 1; one
        column of ones is no test at all [0-1].
    chosen_on
        True for one half of the beds, shape (M,) [truth].
    first_g_m2
        The first amount that is best without a test [g/m2].
    harm_price
        Beds in range that a harmed bed is weighed like [-].

    Returns
    -------
    tuple of Outcomes
        One a test [objects].

    Raises
    ------
    InputError
        Where a test does not speak of every bed.

    Notes
    -----
    For each outcome j the beds are weighed by P(j | bed). The first amount, the second by the
    reading of the first planned test and the third by both readings are the best of the weighed
    beds (backward induction, exact over bins of readings). Amounts are chosen on one half of the
    beds and judged on the other, both ways round: chosen and judged on the same beds, a test that
    tells nothing would seem to gain. Fewer amounts and wider bins are tried than for the plan
    itself; the same are tried with a test and without.

    References
    ----------
    own-arithmetic

    Examples
    --------
    Whole plans are in ``tests/core/test_information.py``.

    >>> from loamshift.core.dose_surface import dose_surface
    >>> flat = dose_surface(np.array([0.0, 100.0]), np.array([[[7.0, 5.0]], [[7.0, 5.0]]]),
    ...                     later_ph=(), later_from=(), reference_g_m2=50.0, sign=1.0,
    ...                     spells=(slice(0, 1),))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> (plain,) = decided_by_outcome(flat, goal, [np.ones((2, 1))], first_g_m2=50.0,
    ...                               chosen_on=np.array([True, False]), harm_price=0.0)
    >>> plain.in_range.tolist()
    [1.0]
    """
    beds = surface.ph.shape[0]
    if any(one.ndim != 2 or one.shape[0] != beds for one in shares):
        raise InputError(f"every test needs a row of shares for each of {beds} beds")
    together = np.concatenate(list(shares), axis=1)
    bounds = bounds_of(surface, goal)
    firsts = np.unique([*some_of(goal.first_g_m2, FIRST_TRIED), first_g_m2])
    halves = (np.flatnonzero(chosen_on), np.flatnonzero(~chosen_on))

    def tried(aim: RuleGoal, amounts: FloatArray) -> tuple[FloatArray, FloatArray]:
        ways = [
            _judged(surface, bounds, aim, together, halves, first_g_m2=one, harm_price=harm_price)
            for one in amounts.tolist()
        ]
        return np.stack([one[0] for one in ways]), np.stack([one[1] for one in ways])

    if goal.seasons > 2:
        one_test = replace(goal, seasons=2, tests=goal.tests[:1])
        chosen, _ = tried(one_test, firsts)
        firsts = _followed(firsts, chosen, first_g_m2)
    chosen, judged = tried(goal, firsts)  # (first, way, J)
    best = chosen.argmax(axis=0)
    taken = np.take_along_axis(judged, best[None], axis=0)[0]
    as_planned = judged[int(np.argmin(np.abs(firsts - first_g_m2)))]
    found, start = [], 0
    for one in shares:
        here = slice(start, start + one.shape[1])
        found.append(
            Outcomes(
                probability=one.mean(axis=0),
                in_range=taken[:, here].mean(axis=0),
                better=(taken - as_planned)[:, here].mean(axis=0),
            )
        )
        start = here.stop
    return tuple(found)


def some_of(amounts_g_m2: FloatArray, count: int) -> FloatArray:
    """Some of the amounts, the first and the last among them.

    Parameters
    ----------
    amounts_g_m2
        Rising [g/m2].
    count
        How many at the most, 2 or more [count].

    Returns
    -------
    ndarray
        Rising, evenly spaced by their places [g/m2].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> some_of(np.array([0.0, 1.0, 2.0, 3.0, 4.0]), 3).tolist()
    [0.0, 2.0, 4.0]
    """
    places = np.linspace(0, amounts_g_m2.size - 1, min(count, amounts_g_m2.size))
    return np.asarray(amounts_g_m2[np.unique(places.round().astype(np.int64))], dtype=np.float64)


def _followed(firsts: FloatArray, chosen: FloatArray, first_g_m2: float) -> FloatArray:
    """The first amounts that lose most where they are left out, that of the plan among them."""
    planned = int(np.argmin(np.abs(firsts - first_g_m2)))
    kept = [planned]
    while len(kept) < min(FOLLOWED, firsts.size):
        gained = np.maximum(chosen - chosen[kept].max(axis=0), 0.0).sum(axis=(1, 2))
        kept.append(int(gained.argmax()))
    return np.asarray(firsts[np.unique(kept)], dtype=np.float64)


def _judged(
    surface: DoseSurface,
    bounds: RuleBounds,
    goal: RuleGoal,
    shares: FloatArray,
    halves: tuple[IntArray, IntArray],
    *,
    first_g_m2: float,
    harm_price: float,
) -> tuple[FloatArray, FloatArray]:
    """Best value on one half, and its share in range on the other, shape (2 ways, J)."""
    beds, outcomes = shares.shape
    if goal.seasons == 1:
        alone = np.full((beds, 1), first_g_m2)
        tables = _tables(bounds, (alone,), harm_price)
        sums = [
            _sums(one, tables, half) for one, half in zip(_of(shares, halves), halves, strict=True)
        ]
        chosen = np.stack([one[0][:, 0] for one in sums])
        return chosen, np.stack([sums[1][1][:, 0], sums[0][1][:, 0]])
    read = surface.at(goal.tests[0], (first_g_m2,))
    edges = reading_edges(read, sd_ph=goal.reading_sd_ph, step_ph=STEP_PH)
    first = bin_shares(read, edges, sd_ph=goal.reading_sd_ph)
    rows = _of((shares[:, :, None] * first[:, None, :]).reshape(beds, -1), halves)
    later = some_of(goal.later_g_m2, LATER_TRIED)
    if goal.seasons == 2:
        wide = np.broadcast_to(later, (beds, later.size))
        tables = _tables(bounds, (first_g_m2, wide), harm_price)
        sums = [_sums(one, tables, half) for one, half in zip(rows, halves, strict=True)]
        values, goods = ([one[part] for one in sums] for part in (0, 1))
    else:
        values, goods = _third(
            surface, bounds, goal, rows, halves, later, first_g_m2=first_g_m2, harm_price=harm_price
        )
    return _best_later(values, goods, outcomes)


def _third(
    surface: DoseSurface,
    bounds: RuleBounds,
    goal: RuleGoal,
    rows: list[SmallArray],
    halves: tuple[IntArray, IntArray],
    later: FloatArray,
    *,
    first_g_m2: float,
    harm_price: float,
) -> tuple[list[FloatArray], list[FloatArray]]:
    """Of each second amount the best value, and the share in range, by outcome and first bin."""
    beds = surface.ph.shape[0]
    wide = np.broadcast_to(later, (beds, later.size))
    values: list[list[FloatArray]] = [[], []]
    goods: list[list[FloatArray]] = [[], []]
    for second in later.tolist():
        read = surface.at(goal.tests[1], (first_g_m2, second))
        edges = reading_edges(read, sd_ph=goal.reading_sd_ph, step_ph=STEP_PH)
        share = bin_shares(read, edges, sd_ph=goal.reading_sd_ph).astype(np.float32)
        value, good = _tables(bounds, (first_g_m2, second, wide), harm_price)
        by_bin = (share[:, :, None] * good[:, None, :]).reshape(beds, -1)
        tables = (by_bin, by_bin)
        if value is not good:
            tables = ((share[:, :, None] * value[:, None, :]).reshape(beds, -1), by_bin)
        sums = [
            [total.reshape(one.shape[0], share.shape[1], later.size) for total in both]
            for one, half in zip(rows, halves, strict=True)
            for both in (_sums(one, tables, half),)
        ]
        for way, (here, there) in enumerate((sums, sums[::-1])):
            third = here[0].argmax(axis=2)[..., None]
            values[way].append(np.take_along_axis(here[0], third, axis=2).sum(axis=(1, 2)))
            goods[way].append(np.take_along_axis(there[1], third, axis=2).sum(axis=(1, 2)))
    chosen = [np.stack(one, axis=1) for one in values]
    return chosen, [np.stack(one, axis=1) for one in goods[::-1]]


def _best_later(
    values: list[FloatArray], goods: list[FloatArray], outcomes: int
) -> tuple[FloatArray, FloatArray]:
    """The best second amount by outcome and first bin; ``goods`` of the half of its place."""
    chosen, judged = [], []
    for way in range(2):
        second = values[way].argmax(axis=1)[:, None]
        best = np.take_along_axis(values[way], second, axis=1)
        good = np.take_along_axis(goods[1 - way], second, axis=1)
        chosen.append(best.reshape(outcomes, -1).sum(axis=1))
        judged.append(good.reshape(outcomes, -1).sum(axis=1))
    return np.stack(chosen), np.stack(judged)


def _tables(
    bounds: RuleBounds, plan: tuple[FloatArray | float, ...], harm_price: float
) -> tuple[SmallArray, SmallArray]:
    """Value of a plan by bed and last amount, and whether it lies in the range."""
    good = bounds.in_range(*plan).astype(np.float32)
    if harm_price <= 0.0:
        return good, good
    value = good - np.float32(harm_price) * bounds.harmed(*plan).astype(np.float32)
    return np.asarray(value, dtype=np.float32), good


def _of(rows: FloatArray, halves: tuple[IntArray, IntArray]) -> list[SmallArray]:
    """Rows by bed, as the weights of a mean over each half, shape (rows, beds of the half)."""
    return [np.ascontiguousarray((rows[half] / half.size).T, dtype=np.float32) for half in halves]


def _sums(
    weighed: SmallArray, tables: tuple[SmallArray, SmallArray], half: IntArray
) -> tuple[FloatArray, FloatArray]:
    """Means over half of the beds of value and of good, by row and column of the tables."""
    value = _product(weighed, tables[0][half])
    good = value if tables[0] is tables[1] else _product(weighed, tables[1][half])
    return value.astype(np.float64), good.astype(np.float64)


def _product(left: SmallArray, right: SmallArray) -> SmallArray:
    """A matrix product by blocks too small to be given to several threads, which would wait for
    each other longer than they work.
    """
    block = max(1, ONE_THREAD // right.size)
    whole = left.shape[0] // block * block
    blocks = left[:whole].reshape(-1, block, left.shape[1])
    product = (blocks @ right).reshape(whole, right.shape[1])
    if whole < left.shape[0]:
        product = np.concatenate((product, left[whole:] @ right))
    return np.asarray(product, dtype=np.float32)
