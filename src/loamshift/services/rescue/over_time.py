"""A rescue over time: what goes back on in parts, what each test decides, when planting is safe."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.plan_goal import RuleGoal
from loamshift.core.plan_rule import choose_rule
from loamshift.domain.answer import Direction
from loamshift.domain.bed_context import BedContext
from loamshift.domain.decision import Band
from loamshift.domain.rescue import RescueCourse, RescueStage
from loamshift.services.belief.bed_run import Runner
from loamshift.services.courses.seasons import (
    DAYS_IN_YEAR,
    TEST_LEAD_D,
    Seasons,
    seasons_ahead,
    tidy_amounts,
)
from loamshift.services.courses.surface import courses_of, day_index
from loamshift.services.plan.plan import plan_of
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import AMOUNTS, REACH, retest_error_ph
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

STAGES_DAYS: Final = (0, 30, 91, 182, 365, 730)
"""Days from today on which a rescue is looked at: from now to two years on [d]."""
HALF, NINE_TENTHS = 0.5, 0.9


def rescue_over_time(
    context: BedContext,
    beds: Runner,
    judged: Judgement,
    *,
    need: Band,
    acidify: bool,
    waits: bool,
    come_frac: Callable[[int], float | None],
) -> RescueCourse | None:
    """A rescue over time by the possible beds, or None where no day for it is left.

    Where nothing has to go back on, and in a pot, which is filled afresh instead, it is the course
    of what was left alone.

    Parameters
    ----------
    need
        What would bring the bed back in all, as pure sulfur or calcium carbonate [g/m2].
    acidify
        True for a bed that was limed too much.
    waits
        True where nothing goes on before the first test; nor after it, of lime, where most of the
        acid comes later than within a year: each test twice a year then calls for a little.
    come_frac
        Share of what is still to act that has acted so many days from today [0-1].

    Notes
    -----
    The courses and the choice are those of any plan (``services.courses``, ``core.plan_rule``);
    what is wanted is that the beds lie between the limits that the plants bear. Lime goes on in
    three parts, each within the published limit of one dose and two of them within that of a
    year, so that it is not put on ahead of acid which takes years to come. Sulfur waits for the
    first test: it does nothing but dissolve the lime while there is free lime.
    """
    seasons = seasons_ahead(context, acidify=acidify)
    if not acidify:
        seasons = _in_parts(seasons)
    if max(seasons.capacity_g_m2) <= 0.0:
        return None
    alone = beds.run(())
    middle = max(need.mid / seasons.active_frac, 1e-3 * max(seasons.capacity_g_m2))
    high = max(need.hi90 / seasons.active_frac, middle)
    left_alone = context.in_pot or need.hi90 <= 0.0
    courses = courses_of(beds, seasons, alone=alone, need_mid_g_m2=middle, need_high_g_m2=high)
    low_ph, high_ph = limits_ph(context)
    goal = _goal(context, seasons, courses.days, most_g_m2=REACH * high)
    if waits:
        goal = replace(goal, first_g_m2=np.zeros(1))
        if not acidify and (come_frac(DAYS_IN_YEAR) or 1.0) < HALF:
            goal = replace(goal, later_g_m2=np.zeros(1))
    untreated_90_on = _safe_from(
        alone.ph[:, : goal.hold + 1], courses.days, (low_ph, high_ph), share=NINE_TENTHS
    )
    if left_alone or untreated_90_on == courses.days[0]:  # only salt and roots to mind
        goal = replace(goal, first_g_m2=np.zeros(1), later_g_m2=np.zeros(1))
    rule = choose_rule(courses.surface, goal, chosen_on=courses.chosen_on)
    direction = Direction.ACIDIFY if acidify else Direction.LIME
    treated = replace(judged, rule=rule, courses=courses, direction=direction)
    plan = plan_of(context, treated)
    assert plan.rule is not None and plan.ph is not None
    days, end = courses.days, goal.hold

    def safe_from(ph: FloatArray, share: float) -> date | None:
        return _safe_from(ph[:, : end + 1], days, (low_ph, high_ph), share=share)

    return RescueCourse(
        plan=plan.rule,
        stages=_stages(context.case.today, days, alone.ph, plan.ph, come_frac),
        limit_low_ph=low_ph,
        limit_high_ph=high_ph,
        safe_on=safe_from(plan.ph, HALF),
        safe_90_on=safe_from(plan.ph, NINE_TENTHS),
        safe_untreated_on=safe_from(alone.ph, HALF),
        look_to=days[end],
    )


def limits_ph(context: BedContext) -> tuple[float, float]:
    """Between which pH the plants are not harmed: theirs, or what most plants bear.

    Returns
    -------
    tuple of float
        Lower and upper limit [pH in water].
    """
    if context.target is None:
        advice = parameter_values("advice")
        return advice["rescue_low_ph"], advice["rescue_high_ph"]
    return context.target.harmful_low, context.target.harmful_high


def _in_parts(seasons: Seasons) -> Seasons:
    """Lime in three parts, the test of each two weeks before it: the first once the laboratory has
    answered, the second as soon as a test tells what the first did, the third after a year. Two of
    them keep the published limit of a year.
    """
    soon = timedelta(weeks=parameter_values("advice")["rescue_retest_weeks"])
    lead = timedelta(days=TEST_LEAD_D)
    first = seasons.days[0][0] + lead
    starts = [first, first + soon + lead, first + timedelta(days=DAYS_IN_YEAR)]
    starts = [start for start in starts if start + soon <= seasons.on]
    each = min(seasons.dose_g_m2, 0.5 * max(seasons.capacity_g_m2))
    spent = max(seasons.capacity_g_m2) - seasons.capacity_g_m2[0]
    return replace(
        seasons,
        capacity_g_m2=(max(each - spent, 0.0), *(each for _ in starts[1:])),
        days=tuple((start,) for start in starts),
        tests=tuple(start - lead for start in starts[1:]),
    )


def _goal(
    context: BedContext, seasons: Seasons, days: Sequence[date], *, most_g_m2: float
) -> RuleGoal:
    rules, (low_ph, high_ph) = parameter_values("plan"), limits_ph(context)
    first, later = (
        min(one, most_g_m2) for one in (seasons.capacity_g_m2[0], seasons.capacity_g_m2[-1])
    )
    least = rules["least_part_frac"] * later
    target = context.target
    if seasons.acidify:
        range_ph = (low_ph if target is None else target.ph_low, high_ph)
    else:
        range_ph = (low_ph, high_ph if target is None else target.ph_high)
    return RuleGoal(
        range_low_ph=range_ph[0],
        range_high_ph=range_ph[1],
        harmful_ph=low_ph if seasons.acidify else high_ph,
        on=day_index(days, seasons.on),
        hold=day_index(days, seasons.hold),
        tests=tuple(day_index(days, day) for day in seasons.tests),
        reading_sd_ph=retest_error_ph(context),
        first_g_m2=np.array(tidy_amounts(first, count=AMOUNTS[0], least_g_m2=least)),
        later_g_m2=np.array(tidy_amounts(later, count=AMOUNTS[1], least_g_m2=least)),
        seasons=seasons.count,
        most_harmed_frac=rules["chosen_harmed_frac"],
        lines=int(rules["test_lines"]),
        worth_a_test_frac=rules["test_again_gain_frac"],
    )


def _safe_from(
    ph: FloatArray, days: Sequence[date], limits: tuple[float, float], *, share: float
) -> date | None:
    """First day from which so large a share of the beds stays between the limits."""
    within = (ph >= limits[0]) & (ph <= limits[1])
    stays = np.flip(np.logical_and.accumulate(np.flip(within, axis=1), axis=1), axis=1)
    there = stays.mean(axis=0) >= share
    return days[int(np.argmax(there))] if there.any() else None


def _stages(
    today: date,
    days: Sequence[date],
    untreated: FloatArray,
    treated: FloatArray,
    come_frac: Callable[[int], float | None],
) -> tuple[RescueStage, ...]:
    found = []
    for ahead in STAGES_DAYS:
        on = today + timedelta(days=ahead)
        if on > days[-1]:
            break
        place = day_index(days, on)
        found.append(
            RescueStage(
                on=on,
                come_frac=come_frac(ahead),
                untreated=_band(untreated[:, place]),
                treated=_band(treated[:, place]),
            )
        )
    return tuple(found)


def _band(ph: FloatArray) -> Band:
    low, mid, high = np.quantile(ph, (0.05, 0.5, 0.95)).tolist()
    return Band(lo90=low, mid=mid, hi90=high)
