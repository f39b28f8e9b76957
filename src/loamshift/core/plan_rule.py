"""A plan as a rule: a first amount, and what the readings of later tests call for.

Chosen on possible beds of equal weight for the most of them in a range, with few harmed. No
reading is drawn: the probability that a bed reads in a bin of a tenth is exact.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.dose_surface import DoseSurface
from loamshift.core.plan_goal import RuleBounds, RuleGoal, bounds_of, fixed_plans
from loamshift.core.reading_bins import BIN_PH, TABLE_P, TABLE_Z, reading_edges
from loamshift.core.rule_lines import HAIR
from loamshift.core.rule_policy import (
    STEEPEST_PRICE,
    RulePolicy,
    RuleTables,
    best_policy,
    both_halves,
    judged_crosswise,
)
from loamshift.errors import InputError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]

RARE: Final = 1e-3
"""Bins of readings rarer than this at either end are taken together [0-1]."""
_PLASTIC: Final = (0.7548776662466927, 0.5698402909980532)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleLine:
    """Readings from ``low_ph`` to ``high_ph``, both printed to a tenth and an open end None,
    call for ``amount_g_m2``; ``test_again`` where nothing goes on and one more test pays.
    """

    low_ph: float | None
    high_ph: float | None
    amount_g_m2: float
    test_again: bool
    probability: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSteps:
    """What the readings of the tests call for, bin by bin.

    ``first_edges_ph`` and ``second_edges_ph`` between the bins of either test, ``second_g_m2``
    (B1,) by the first reading, ``third_g_m2`` (B1, B2) by both; without a second test it has one
    column, and no edges [pH; g/m2].
    """

    first_edges_ph: FloatArray
    second_edges_ph: FloatArray
    second_g_m2: FloatArray
    third_g_m2: FloatArray

    def second(self, read_ph: FloatArray) -> FloatArray:
        """What the first test calls for.

        Parameters
        ----------
        read_ph
            Its readings, shape (M,) [pH].

        Returns
        -------
        ndarray
            The second season's amounts, shape (M,) [g/m2].
        """
        return np.asarray(self.second_g_m2[np.searchsorted(self.first_edges_ph, read_ph)])

    def third(self, read_ph: FloatArray, read_again_ph: FloatArray) -> FloatArray:
        """What both tests call for.

        Parameters
        ----------
        read_ph
            Readings of the first, shape (M,) [pH].
        read_again_ph
            Readings of the second, shape (M,) [pH].

        Returns
        -------
        ndarray
            The third season's amounts, shape (M,) [g/m2].
        """
        first = np.searchsorted(self.first_edges_ph, read_ph)
        second = np.searchsorted(self.second_edges_ph, read_again_ph)
        return np.asarray(self.third_g_m2[first, second])


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A plan as a rule, and how it does.

    Shares of beds not used to choose it [0-1]. ``amounts_g_m2`` (S, M) what each bed comes to
    get under the rule, its readings spread evenly over their errors [g/m2]; ``read_line`` (M,)
    the line of the first test each of these readings falls into, and ``steps`` what the tests
    call for, None without one; ``goal`` what it was chosen for; ``harm_price`` of a harmed bed [-].
    """

    goal: RuleGoal
    first_g_m2: float
    lines: tuple[RuleLine, ...]
    share_in_range: float
    share_without_tests: float
    share_if_known: float
    share_harmed: float
    amounts_g_m2: FloatArray
    read_line: IntArray | None
    steps: RuleSteps | None
    harm_price: float = 0.0


def choose_rule(
    surface: DoseSurface,
    goal: RuleGoal,
    *,
    chosen_on: BoolArray,
    bounds: RuleBounds | None = None,
) -> Rule:
    """The rule that brings the most beds into the range and keeps them there.

    Parameters
    ----------
    surface
        What each bed does under any amounts [object].
    goal
        What is wanted, and what may be done [object].
    chosen_on
        True for one half of the beds, shape (M,) [truth].
    bounds
        Those of the goal where they are known; None for not yet [object].

    Returns
    -------
    Rule
        First amount, lines of the first test, and shares [object].

    Raises
    ------
    InputError
        For a goal whose tests do not fit its seasons, or halves of which one is empty.

    Notes
    -----
    With one test: for each first amount the sums over beds of P(reading in bin) x in range, by
    bin and second amount, less a price for harm. With two the second amount is worth what the
    best third amounts make of it (backward induction), for the best first amount of the one-test
    rule: a second test hardly moves it. The lines of the first test are cut by a dynamic
    programme over bins, rising with the need. One price of harm for the whole plan, by
    bisection. The shares are those of a rule chosen on one half of the beds and judged on the
    other, both ways round.

    References
    ----------
    own-arithmetic

    Examples
    --------
    Whole plans are in ``tests/core/test_plan_rule.py``.

    >>> from loamshift.core.dose_surface import dose_surface
    >>> flat = dose_surface(np.array([0.0, 100.0]), np.array([[[7.0, 5.0]], [[7.0, 5.0]]]),
    ...                     later_ph=(), later_from=(), reference_g_m2=50.0, sign=1.0,
    ...                     spells=(slice(0, 1),))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> choose_rule(flat, goal, chosen_on=np.array([True, False])).first_g_m2
    50.0
    """
    if len(goal.tests) != goal.seasons - 1:
        raise InputError(f"{goal.seasons} seasons need {goal.seasons - 1} tests between them")
    halves = (np.flatnonzero(chosen_on), np.flatnonzero(~chosen_on))
    if any(half.size == 0 for half in halves):
        raise InputError("chosen_on must hold some beds of either kind")
    if bounds is None:
        bounds = bounds_of(surface, goal)
    single, known = _without_tests(bounds, goal, halves)
    if goal.seasons == 1:
        return _one_season(bounds, goal, single=single, known=known)
    acid = surface.sign > 0.0
    amount = _first_amount(surface, bounds, goal, halves)
    edges = reading_edges(surface.at(goal.tests[0], (amount,)), sd_ph=goal.reading_sd_ph)
    tables = _tables(surface, bounds, goal, halves, first_g_m2=amount, edges=edges)
    policy = best_policy(both_halves(tables), goal, acid=acid, cut=surface.sums.cut)
    good, hurt = judged_crosswise(tables, goal, acid=acid, cut=surface.sums.cut)
    steps = _steps(surface, goal, policy, first_g_m2=amount, edges=edges)
    amounts, read = _followed(surface, goal, steps, first_g_m2=amount)
    ends = [end for _, end, _ in policy.segments[:-1]]
    return Rule(
        goal=goal,
        first_g_m2=amount,
        lines=_lines(policy, tables, goal, surface, first_g_m2=amount, edges=edges),
        share_in_range=good,
        share_without_tests=single,
        share_if_known=max(known, good),
        share_harmed=hurt,
        amounts_g_m2=amounts,
        read_line=np.searchsorted(ends, np.searchsorted(edges, read), side="right"),
        steps=steps,
        harm_price=policy.price,
    )


def _one_season(bounds: RuleBounds, goal: RuleGoal, *, single: float, known: float) -> Rule:
    beds = bounds.harms_g_m2.shape[0]
    grid = np.broadcast_to(goal.first_g_m2, (beds, goal.first_g_m2.size))
    good = bounds.in_range(grid).mean(axis=0)
    hurt = bounds.harmed(grid)
    safe = hurt.mean(axis=0) <= goal.most_harmed_frac
    best = int(np.argmax(np.where(safe, good, -1.0)))
    amounts = np.full((1, beds), goal.first_g_m2[best])
    return Rule(
        goal=goal,
        first_g_m2=float(goal.first_g_m2[best]),
        lines=(),
        share_in_range=single,
        share_without_tests=single,
        share_if_known=max(known, single),
        share_harmed=float(hurt[:, best].mean()),
        amounts_g_m2=amounts,
        read_line=None,
        steps=None,
        harm_price=0.0 if safe[int(np.argmax(good))] else STEEPEST_PRICE,
    )


def _without_tests(
    bounds: RuleBounds, goal: RuleGoal, halves: tuple[IntArray, IntArray]
) -> tuple[float, float]:
    """Share of the best plan without a test, judged on the other half, and of perfect knowledge."""
    beds = bounds.harms_g_m2.shape[0]
    plans = fixed_plans(goal, beds)
    good, hurt = bounds.in_range(*plans), bounds.harmed(*plans)
    known = (good & ~hurt).any(axis=1)
    shares = []
    for here, there in (halves, halves[::-1]):
        safe = hurt[here].mean(axis=0) <= goal.most_harmed_frac
        best = int(np.argmax(np.where(safe, good[here].mean(axis=0), -1.0)))
        shares.append(float(good[there, best].mean()))
    return 0.5 * (shares[0] + shares[1]), float(known.mean())


def _first_amount(
    surface: DoseSurface, bounds: RuleBounds, goal: RuleGoal, halves: tuple[IntArray, IntArray]
) -> float:
    """The best first amount by the rule of one test, the smaller of two alike [g/m2]."""
    one_test = replace(goal, seasons=2, tests=goal.tests[:1])
    tried = []
    for amount in goal.first_g_m2.tolist():
        seen = surface.at(goal.tests[0], (amount,))
        edges = reading_edges(seen, sd_ph=goal.reading_sd_ph)
        share = surface.sums.shares(seen, edges, sd_ph=goal.reading_sd_ph)
        both = both_halves(_two_seasons(bounds, one_test, halves, first_g_m2=amount, share=share))
        tried.append((float(both.good.max(axis=0).sum()), amount, both))
    best, best_value = 0.0, -math.inf
    for most, amount, both in sorted(tried, key=lambda one: (-round(one[0] / HAIR), one[1])):
        if most <= best_value + HAIR:
            break  # no rule does better than the best second amount of every bin, harm left aside
        policy = best_policy(both, one_test, acid=surface.sign > 0.0, cut=surface.sums.cut)
        value = policy.good - STEEPEST_PRICE * max(0.0, policy.harmed - goal.most_harmed_frac)
        if value > best_value + HAIR:
            best, best_value = amount, value
    return best


def _tables(
    surface: DoseSurface,
    bounds: RuleBounds,
    goal: RuleGoal,
    halves: tuple[IntArray, IntArray],
    *,
    first_g_m2: float,
    edges: FloatArray,
) -> tuple[RuleTables, RuleTables]:
    """Sums for one first amount, one for each half of the beds."""
    beds = surface.ph.shape[0]
    seen = surface.at(goal.tests[0], (first_g_m2,))
    share = surface.sums.shares(seen, edges, sd_ph=goal.reading_sd_ph)
    later = goal.later_g_m2
    if goal.seasons == 2:
        return _two_seasons(bounds, goal, halves, first_g_m2=first_g_m2, share=share)
    seconds = _second_edges(surface, goal, first_g_m2)
    wide = np.broadcast_to(later, (beds, later.size))
    found: tuple[list[RuleTables], list[RuleTables]] = ([], [])
    for amount in later:
        seen = surface.at(goal.tests[1], (first_g_m2, float(amount)))
        second = surface.sums.shares(seen, seconds, sd_ph=goal.reading_sd_ph)
        plan = (first_g_m2, float(amount), wide)
        good, hurt = bounds.in_range(*plan), bounds.harmed(*plan)
        for half, sums in zip(halves, found, strict=True):
            sums.append(
                RuleTables(
                    good=_by_bins(share[half], second[half], good[half]),
                    harmed=_by_bins(share[half], second[half], hurt[half]),
                )
            )
    return tuple(  # type: ignore[return-value]
        RuleTables(
            good=np.stack([one.good for one in sums]),
            harmed=np.stack([one.harmed for one in sums]),
        )
        for sums in found
    )


def _two_seasons(
    bounds: RuleBounds,
    goal: RuleGoal,
    halves: tuple[IntArray, IntArray],
    *,
    first_g_m2: float,
    share: FloatArray,
) -> tuple[RuleTables, RuleTables]:
    """The sums where one test is made; ``share`` of each bed by bin of its readings."""
    later = goal.later_g_m2
    wide = np.broadcast_to(later, (share.shape[0], later.size))
    fate = np.empty((share.shape[0], 2 * later.size))
    fate[:, : later.size] = bounds.in_range(first_g_m2, wide)
    fate[:, later.size :] = bounds.harmed(first_g_m2, wide)
    found = []
    for half in halves:
        sums = (share[half].T @ fate[half] / half.size).T[:, :, None, None]
        found.append(RuleTables(good=sums[: later.size], harmed=sums[later.size :]))
    return found[0], found[1]


def _by_bins(first: FloatArray, second: FloatArray, outcome: BoolArray) -> FloatArray:
    """Mean over beds of outcome (M, A) by bins of both readings, shape (B1, B2, A).

    As one small product for each first bin: one large product would be given to several threads,
    which wait for each other longer than they work.
    """
    shares = np.asarray(second.T, dtype=np.float32)
    weighed = first.T[:, :, None].astype(np.float32) * outcome[None].astype(np.float32)
    return np.asarray((shares[None] @ weighed) / np.float32(first.shape[0]), dtype=np.float64)


def _second_edges(surface: DoseSurface, goal: RuleGoal, first_g_m2: float) -> FloatArray:
    top = float(goal.later_g_m2[-1])
    seen = [surface.at(goal.tests[1], (first_g_m2, amount)) for amount in (0.0, top)]
    return reading_edges(np.concatenate(seen), sd_ph=goal.reading_sd_ph, step_ph=2.0 * BIN_PH)


def _lines(
    policy: RulePolicy,
    tables: tuple[RuleTables, RuleTables],
    goal: RuleGoal,
    surface: DoseSurface,
    *,
    first_g_m2: float,
    edges: FloatArray,
) -> tuple[RuleLine, ...]:
    both = both_halves(tables)
    seen = surface.at(goal.tests[0], (first_g_m2,))
    share = surface.sums.shares(seen, edges, sd_ph=goal.reading_sd_ph).mean(axis=0)
    worth = both.good - policy.price * both.harmed
    found = []
    last = len(policy.segments) - 1
    for number, (start, end, choice) in enumerate(policy.segments):
        probability = float(share[start:end].sum())
        amount = float(goal.later_g_m2[choice])
        here = worth[choice, start:end]
        with_test = float(here.max(axis=2).sum())
        without = float(here.sum(axis=(0, 1)).max())
        gain = (with_test - without) / max(probability, RARE)
        found.append(
            RuleLine(
                low_ph=None if number == 0 else _tenth(edges[start - 1] + 0.5 * BIN_PH),
                high_ph=None if number == last else _tenth(edges[end - 1] - 0.5 * BIN_PH),
                amount_g_m2=amount,
                test_again=amount == 0.0 and gain > goal.worth_a_test_frac,
                probability=probability,
            )
        )
    return tuple(found)


def _tenth(ph: float) -> float:
    return round(float(ph), 1)


def _steps(
    surface: DoseSurface,
    goal: RuleGoal,
    policy: RulePolicy,
    *,
    first_g_m2: float,
    edges: FloatArray,
) -> RuleSteps:
    bins = np.arange(policy.second.size)
    return RuleSteps(
        first_edges_ph=edges,
        second_edges_ph=_second_edges(surface, goal, first_g_m2)
        if goal.seasons > 2
        else np.empty(0),
        second_g_m2=goal.later_g_m2[policy.second],
        third_g_m2=goal.later_g_m2[policy.third[policy.second, bins]]
        if goal.seasons > 2
        else np.zeros((policy.second.size, 1)),
    )


def _followed(
    surface: DoseSurface, goal: RuleGoal, steps: RuleSteps, *, first_g_m2: float
) -> tuple[FloatArray, FloatArray]:
    """What each bed gets, and what its first test reads: an even spread over the errors."""
    beds = surface.ph.shape[0]
    order = np.arange(beds)
    amounts = np.zeros((goal.seasons, beds))
    amounts[0] = first_g_m2
    shares = [(0.5 + order * step) % 1.0 for step in _PLASTIC]
    errors = [np.interp(share, TABLE_P, TABLE_Z) * goal.reading_sd_ph for share in shares]
    read = surface.at(goal.tests[0], (first_g_m2,)) + errors[0]
    amounts[1] = steps.second(read)
    if goal.seasons > 2:
        again = surface.at(goal.tests[1], (first_g_m2, amounts[1])) + errors[1]
        amounts[2] = steps.third(read, again)
    return amounts, read
