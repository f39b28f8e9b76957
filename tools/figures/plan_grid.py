"""The grid of thirty beds: how many come into the range under the plan, and how many are harmed.

    python tools/figures/plan_grid.py            the thirty beds, the rule as printed in the letter
    python tools/figures/plan_grid.py --refit    a few of them, with a new letter after each test
    ... --resume                                 goes on where a run was broken off

Each plan is chosen on the possible beds of the program and judged on others (``true_beds``): the
first part goes on, a test reads with its error, the line of the table says the second part, and
so on, each bed run on the column with its own amounts. Kept in ``results``; ``page.py`` writes
``docs/plan-figures.md`` from them.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Final

import numpy as np
from numpy.typing import NDArray

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from figures.bed_cases import Done, Test, Wish, case_of, grid
from figures.results import gather
from figures.true_beds import TrueBeds, method_sd_ph, read, true_beds
from loamshift.cli.kernel_cache import keep_kernels
from loamshift.core.dose_surface import DoseSurface
from loamshift.core.plan_goal import RuleGoal, bounds_of, reachable
from loamshift.core.plan_rule import Rule
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import Seasons
from loamshift.services.courses.surface import ACID_KNOTS, LIME_KNOTS, Courses, courses_of
from loamshift.services.look import Look, look_with_column
from loamshift.services.plan.plan import line_for

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

TRUTHS: Final = 1500
TRUTH_SEED: Final = 20_260
MEMBERS: Final = 250
"""Members of the column as the command line asks for."""
MOST_HARMED: Final = 0.05
KNOWN_AMOUNTS: Final = 60
"""Amounts a season among which perfect knowledge chooses [count]."""
REFITTED: Final = (
    Wish(texture="sand", ph=6.5, aim=5.5),
    Wish(texture="loam", ph=7.0, aim=6.0),
    Wish(texture="clay", ph=7.0, aim=5.5),
    Wish(texture="sand", ph=5.0, aim=6.5),
    Wish(texture="loam", ph=5.5, aim=6.5),
    Wish(texture="clay", ph=5.0, aim=6.0),
)
REFIT_TRUTHS: Final = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """The plan of a wish, what it was chosen on, and the true beds that follow it."""

    wish: Wish
    look: Look
    rule: Rule
    goal: RuleGoal
    courses: Courses
    truths: TrueBeds
    alone_ph: FloatArray

    @property
    def seasons(self) -> Seasons:
        """Dates and limits."""
        return self.courses.seasons


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of the true beds: truth by bed."""

    on_day: BoolArray
    held: BoolArray
    harmed: BoolArray
    amounts_g_m2: FloatArray
    ph: FloatArray


def planned(wish: Wish, *, truths: int = TRUTHS, seed: int = TRUTH_SEED) -> Planned:
    """The plan of a wish, and true beds to try it on."""
    context = build_context(case_of(wish))
    look = look_with_column(context, members=MEMBERS, seed=1, years=3, refit=True)
    rule, courses = look.judged.rule, look.judged.courses
    if rule is None or courses is None:
        raise SystemExit(f"{wish.name}: {look.judged.decision} has no plan to try")
    ahead = (courses.seasons.hold - context.case.today).days + 15
    true = true_beds(context, count=truths, seed=seed, days_ahead=ahead)
    goal = rule.goal
    alone = true.under(courses.seasons, np.zeros((1, truths)), until=goal.hold)
    return Planned(
        wish=wish,
        look=look,
        rule=rule,
        goal=goal,
        courses=courses,
        truths=true,
        alone_ph=alone,
    )


def outcome(plan: Planned, amounts_g_m2: FloatArray) -> Outcome:
    """What becomes of the true beds under amounts of shape (S, M)."""
    goal, sign = plan.goal, plan.courses.surface.sign
    ph = plan.truths.under(plan.seasons, amounts_g_m2, until=goal.hold)
    inside = (ph >= goal.range_low_ph) & (ph <= goal.range_high_ph)
    first = plan.courses.index(plan.seasons.days[0][0])
    past = (sign * (ph[:, first:] - goal.harmful_ph) < 0.0).any(axis=1)
    past_alone = (sign * (plan.alone_ph[:, first:] - goal.harmful_ph) < 0.0).any(axis=1)
    return Outcome(
        on_day=inside[:, goal.on],
        held=inside[:, goal.on] & inside[:, goal.hold],
        harmed=np.asarray(past & ~past_alone, dtype=np.bool_),
        amounts_g_m2=amounts_g_m2,
        ph=ph,
    )


def by_rule(plan: Planned, *, seed: int) -> Outcome:
    """The table of the letter after the first test, and the rule's own amount after the second."""
    steps, rule = plan.rule.steps, plan.rule
    assert steps is not None
    return _followed(
        plan,
        seed=seed,
        second=lambda first: np.array(
            [line_for(rule.lines, float(ph)).amount_g_m2 for ph in first]
        ),
        third=steps.third,
    )


def by_letters(plan: Planned, *, seed: int) -> Outcome:
    """A new letter after each test: its first amount goes on, as the letter itself says."""
    days, tests = plan.seasons.days, plan.seasons.tests

    @cache
    def first_amount(*read_ph: float) -> float:
        season = len(read_ph)
        amounts = [plan.rule.first_g_m2]
        amounts += [first_amount(*read_ph[:number]) for number in range(1, season)]
        done = [
            Done(
                on=day,
                material=plan.seasons.material.key,
                rate_g_m2=size,
                depth_cm=plan.seasons.incorporate_cm,
            )
            for number, amount in enumerate(amounts)
            for day, size in plan.seasons.sizes(number, amount)
            if day < days[season][0]
        ]
        case = case_of(
            plan.wish,
            today=days[season][0],
            by=plan.seasons.on,
            done=done,
            tests=[Test(on=on, ph=ph) for on, ph in zip(tests, read_ph, strict=False)],
        )
        look = look_with_column(build_context(case), members=MEMBERS, seed=1, years=3, refit=True)
        judged = look.judged
        if judged.rule is None or judged.courses is None:
            return 0.0
        if judged.courses.seasons.acidify is not plan.seasons.acidify:
            return 0.0
        return judged.rule.first_g_m2

    return _followed(
        plan,
        seed=seed,
        second=lambda first: np.array([first_amount(float(ph)) for ph in first]),
        third=lambda first, again: np.array(
            [first_amount(float(a), float(b)) for a, b in zip(first, again, strict=True)]
        ),
    )


def surface_of_truths(plan: Planned) -> DoseSurface:
    """The true beds' own surface, for what only hindsight could know."""
    amounts = plan.courses.surface.amounts_g_m2
    shares = ACID_KNOTS if plan.seasons.acidify else LIME_KNOTS
    return courses_of(
        plan.truths,
        plan.seasons,
        alone=plan.truths.run(()),
        need_mid_g_m2=float(amounts[2]) / shares[0],
        need_high_g_m2=float(amounts[-1]),
    ).surface


def best_single(plan: Planned, truths: DoseSurface) -> tuple[float, float]:
    """Share in range under the best amount put on now, chosen on the true beds themselves.

    On both days, and on the day wanted alone; of the amounts that harm few enough.
    """
    goal = _fine(plan.goal)
    found = []
    for one in (goal, replace(goal, hold=goal.on)):
        bounds = bounds_of(truths, one)
        wide = np.broadcast_to(goal.first_g_m2, (plan.truths.count, goal.first_g_m2.size))
        safe = bounds.harmed(wide).mean(axis=0) <= MOST_HARMED
        found.append(float(np.max(np.where(safe, bounds.in_range(wide).mean(axis=0), 0.0))))
    return found[0], found[1]


def known(plan: Planned, truths: DoseSurface) -> tuple[float, float]:
    """Share of true beds within reach, if each were known: on both days, and on the day alone."""
    goal = _fine(plan.goal)
    held = reachable(truths, goal)
    on_day = reachable(truths, replace(goal, hold=goal.on))
    return float(held.mean()), float(on_day.mean())


def _fine(goal: RuleGoal) -> RuleGoal:
    return replace(
        goal,
        first_g_m2=np.linspace(0.0, float(goal.first_g_m2[-1]), KNOWN_AMOUNTS),
        later_g_m2=np.linspace(0.0, float(goal.later_g_m2[-1]), KNOWN_AMOUNTS),
    )


def row_of(wish: Wish, *, truths: int = TRUTHS, seed: int = TRUTH_SEED) -> dict[str, object]:
    """One bed of the grid as a row of figures."""
    plan = planned(wish, truths=truths, seed=seed)
    rule, own = by_rule(plan, seed=seed + 1), surface_of_truths(plan)
    single, single_on_day = best_single(plan, own)
    known_held, known_on_day = known(plan, own)
    return {
        "decision": plan.look.judged.decision.value,
        "seasons": plan.goal.seasons,
        "first_g_m2": plan.rule.first_g_m2,
        "promised": round(plan.rule.share_in_range, 3),
        "plan": round(float(rule.held.mean()), 3),
        "single": round(single, 3),
        "known": round(known_held, 3),
        "harmed": round(float(rule.harmed.mean()), 3),
        "plan_on_day": round(float(rule.on_day.mean()), 3),
        "single_on_day": round(single_on_day, 3),
        "known_on_day": round(known_on_day, 3),
        "promised_single": round(plan.rule.share_without_tests, 3),
        "promised_known": round(plan.rule.share_if_known, 3),
        "promised_harmed": round(plan.rule.share_harmed, 3),
        "truths": truths,
    }


def refit_row_of(
    wish: Wish, *, truths: int = REFIT_TRUTHS, seed: int = TRUTH_SEED
) -> dict[str, object]:
    """The same bed by the printed rule and by a new letter after each test."""
    plan = planned(wish, truths=truths, seed=seed)
    rule, letters = by_rule(plan, seed=seed + 1), by_letters(plan, seed=seed + 1)
    return {
        "promised": round(plan.rule.share_in_range, 3),
        "rule": round(float(rule.held.mean()), 3),
        "letters": round(float(letters.held.mean()), 3),
        "rule_harmed": round(float(rule.harmed.mean()), 3),
        "letters_harmed": round(float(letters.harmed.mean()), 3),
        "rule_on_day": round(float(rule.on_day.mean()), 3),
        "letters_on_day": round(float(letters.on_day.mean()), 3),
        "rule_g_m2": round(float(np.median(rule.amounts_g_m2.sum(axis=0))), 1),
        "letters_g_m2": round(float(np.median(letters.amounts_g_m2.sum(axis=0))), 1),
        "truths": truths,
    }


def _followed(
    plan: Planned,
    *,
    seed: int,
    second: Callable[[FloatArray], FloatArray],
    third: Callable[[FloatArray, FloatArray], FloatArray],
) -> Outcome:
    goal, truths = plan.goal, plan.truths
    rng = np.random.default_rng(seed)
    sd = method_sd_ph(plan.look.context)
    amounts = np.zeros((goal.seasons, truths.count))
    amounts[0] = plan.rule.first_g_m2
    readings: list[FloatArray] = []
    for season in range(1, goal.seasons):
        week = goal.tests[season - 1]
        ph = truths.under(plan.seasons, amounts, until=week)[:, week]
        readings.append(read(ph, method_sd_ph=sd, rng=rng))
        amounts[season] = second(*readings) if season == 1 else third(*readings)
    return outcome(plan, amounts)


def main(words: list[str]) -> int:
    """Work out the rows and keep them."""
    if not set(words) <= {"--refit", "--resume"}:
        print(__doc__)
        return 2
    keep_kernels()
    beds = {wish.name: wish for wish in (REFITTED if "--refit" in words else grid())}
    if "--refit" in words:
        name, work = "plan_grid_refit", refit_row_of
    else:
        name, work = "plan_grid", row_of
    gather(name, beds, lambda bed: [work(beds[bed])], resume="--resume" in words)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
