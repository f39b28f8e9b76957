"""What goes on, when, and what the next test decides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import median_course, sample_median
from loamshift.core.plan_rule import Rule, RuleLine
from loamshift.domain.answer import (
    Application,
    Direction,
    PlanPart,
    PlanRule,
    Reason,
    TestLine,
    Then,
)
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Message
from loamshift.services.context.salt_put_on import salt_test_day
from loamshift.services.courses.seasons import Seasons, active_share, choose_material
from loamshift.services.courses.surface import Courses, day_index
from loamshift.services.plan.rows import FEWEST_BEDS, rows_of_test
from loamshift.services.plan.words import condition
from loamshift.services.products.options import working_mmolc_m2
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import retest_error_ph
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The plan as a rule, the first path through it, and days to test.

    ``ph`` (M, D) course of each bed that follows the rule [pH in water], None without a plan.
    """

    rule: PlanRule | None
    applications: tuple[Application, ...]
    too_early_before: date | None
    retest: tuple[date, ...]
    ph: FloatArray | None


NO_PLAN = Plan(rule=None, applications=(), too_early_before=None, retest=(), ph=None)


def plan_of(context: BedContext, judged: Judgement) -> Plan:
    """The plan of a judgement, or none where nothing is to go on.

    Parameters
    ----------
    judged
        The judgement on it; without a pH there is no plan.

    Notes
    -----
    The first path is what goes on in the first season, and what the next test calls for where it
    reads what it most likely reads.
    """
    if judged.reason is Reason.SALT:
        return replace(NO_PLAN, retest=(salt_test_day(context),))
    if judged.reason is Reason.AT_WORK and context.case.applied:
        return replace(NO_PLAN, retest=(_when_acted(context),))
    if judged.rule is None or judged.courses is None:
        return NO_PLAN
    rule, courses = judged.rule, judged.courses
    seasons = courses.seasons
    parts = tuple(
        PlanPart(
            date=day,
            material=seasons.material.key,
            rate_g_m2=size,
            amount_g=_amount_g(context, size),
        )
        for day, size in seasons.sizes(0, rule.first_g_m2)
    )
    ph = courses.surface.course(tuple(rule.amounts_g_m2))
    target = context.target
    aim_ph = 0.5 * (rule.goal.range_low_ph + rule.goal.range_high_ph)
    rows = rows_of_test(rule, courses, aim_ph=aim_ph if target is None else target.ph_aim)
    on = courses.index(seasons.on)
    return Plan(
        rule=PlanRule(
            material=seasons.material.key,
            parts=parts,
            decides=tuple(_test_line(line, seasons) for line in rows),
            share_in_range=rule.share_in_range,
            share_in_range_without_tests=rule.share_without_tests,
            share_if_known=rule.share_if_known,
            share_harmed=rule.share_harmed,
            median_ph=sample_median(ph[:, on]),
            on=seasons.on,
            acted_on=seasons.acted_on,
        ),
        applications=_first_path(context, rule, rows, courses),
        too_early_before=_too_early_before(context, rule, courses),
        retest=tuple(sorted({*seasons.tests, seasons.on})),
        ph=ph,
    )


def _when_acted(context: BedContext) -> date:
    """When what was put on last is worth testing: a year on, so that it is seen in one season."""
    today, soonest = context.case.today, parameter_values("plan")["judged_after_days"]
    last = max(applied.on for applied in context.case.applied)
    return max(last + timedelta(days=365), today + timedelta(days=soonest))


def with_courses(plan: Plan, judged: Judgement) -> Plan:
    """The plan, each of its test lines with the median course of the beds that read so.

    Notes
    -----
    The beds are those the plan was chosen on, each following the whole rule; what one reads at
    the first test is its pH that day with an error, evenly spread over all errors.
    """
    rule, courses, chosen = plan.rule, judged.courses, judged.rule
    if rule is None or plan.ph is None or courses is None or chosen is None:
        return plan
    if chosen.read_line is None:
        return plan
    start, end = courses.index(rule.decides[0].test), courses.index(rule.on)
    found = []
    added = len(rule.decides) - len(chosen.lines) if courses.surface.sign > 0.0 else 0
    for number, line in enumerate(rule.decides):
        beds = plan.ph[chosen.read_line == number - added, start : end + 1]
        if beds.shape[0] >= FEWEST_BEDS and beds.shape[1]:
            course = tuple(round(float(ph), 3) for ph in np.median(beds, axis=0))
            line = replace(line, ph_after=course)
        found.append(line)
    return replace(plan, rule=replace(rule, decides=tuple(found)))


def dated_parts(
    context: BedContext, seasons: Seasons, amount_g_m2: float
) -> tuple[Application, ...]:
    """An amount spread over the seasons, each as full as its limit allows.

    Parameters
    ----------
    amount_g_m2
        Product in all [g/m2].

    Returns
    -------
    tuple of Application
        Those of later seasons only after a test.
    """
    found: list[Application] = []
    left = amount_g_m2
    for number in range(seasons.count):
        weighed = seasons.dose_g_m2 * len(seasons.days[number])
        size = min(left, seasons.capacity_g_m2[number], weighed)
        test = seasons.tests[number - 1] if number else None
        found += [
            _application(
                context,
                seasons,
                day,
                rate,
                None if test is None else condition(None, test=test),
            )
            for day, rate in seasons.sizes(number, size)
        ]
        left -= size
    return tuple(found)


def first_season_mmolc_m2(
    context: BedContext,
    *,
    rule: PlanRule,
    applications: Sequence[Application],
    direction: Direction,
) -> float:
    """Acid or base that what goes on first brings, as options are compared by.

    Parameters
    ----------
    applications
        The first path through it, for a plan that begins with a test.

    Returns
    -------
    float
        0 where nothing goes on; the product of the plan brings it at the rate of the plan
        [mmolc/m2].
    """
    acidify = direction is Direction.ACIDIFY
    material, active = choose_material(context, acidify=acidify)
    rate = sum(part.rate_g_m2 for part in rule.parts or applications)
    rate *= active / active_share(material, acidify=acidify)
    return working_mmolc_m2(context, material, rate_g_m2=rate, direction=direction)


def _amount_g(context: BedContext, rate_g_m2: float) -> float | None:
    area = context.total_area_m2
    return None if area is None else rate_g_m2 * area


def _application(
    context: BedContext, seasons: Seasons, day: date, rate_g_m2: float, only_if: Message | None
) -> Application:
    return Application(
        date=day,
        material=seasons.material.key,
        rate_g_m2=rate_g_m2,
        amount_g=_amount_g(context, rate_g_m2),
        incorporate_cm=seasons.incorporate_cm,
        only_if=only_if,
    )


def _test_line(line: RuleLine, seasons: Seasons) -> TestLine:
    then = Then.TEST_AGAIN if line.test_again else Then.DONE
    return TestLine(
        test=seasons.tests[0],
        reads_from=line.low_ph,
        reads_to=line.high_ph,
        part_g_m2=line.amount_g_m2,
        then=Then.PART if line.amount_g_m2 > 0.0 else then,
        part_on=seasons.days[1][0] if line.amount_g_m2 > 0.0 else None,
    )


def _first_path(
    context: BedContext, rule: Rule, rows: tuple[RuleLine, ...], courses: Courses
) -> tuple[Application, ...]:
    seasons = courses.seasons
    found = [
        _application(context, seasons, day, size, None)
        for day, size in seasons.sizes(0, rule.first_g_m2)
    ]
    if not rows:
        return tuple(found)
    test = courses.index(seasons.tests[0])
    expected = sample_median(courses.surface.at(test, (rule.first_g_m2,)))
    line = line_for(rows, expected)
    only_if = condition(line, test=seasons.tests[0])
    found += [
        _application(context, seasons, day, size, only_if)
        for day, size in seasons.sizes(1, line.amount_g_m2)
    ]
    return tuple(found)


def line_for(lines: Sequence[RuleLine], ph: float) -> RuleLine:
    """The line of a test that a reading falls into.

    Parameters
    ----------
    ph
        The reading [pH in water].
    """
    printed = round(ph, 1)
    return next(
        (line for line in lines if line.high_ph is None or printed <= line.high_ph + 1e-9),
        lines[-1],
    )


def _too_early_before(context: BedContext, rule: Rule, courses: Courses) -> date | None:
    """The first day on which a test can see what the first season's part has done.

    Once half of what it does until the next part is done, and by more than the error of a
    reading where it ever moves so far.
    """
    seasons, days = courses.seasons, courses.days
    if rule.first_g_m2 <= 0.0:
        return None
    start = day_index(days, seasons.days[0][0])
    following = seasons.days[1][0] if seasons.count > 1 else seasons.on
    end = max(day_index(days, following), start + 1)
    until = slice(start, end + 1)
    with_part = median_course(courses.surface.course((rule.first_g_m2,), days=until))
    alone = median_course(courses.surface.course((0.0,), days=until))
    moved = courses.surface.sign * (alone - with_part)
    furthest = float(moved.max())
    early = parameter_values("advice")["early_share"]
    seen = moved >= early * furthest
    if furthest >= retest_error_ph(context):
        seen &= moved >= retest_error_ph(context)
    week = start + int(np.argmax(seen)) if seen.any() else end
    latest = seasons.tests[0] if seasons.tests else seasons.on
    return min(max(days[week], seasons.days[0][0] + timedelta(days=1)), latest)
