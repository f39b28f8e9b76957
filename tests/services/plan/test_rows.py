"""The lines of a test end where a further reading would be taken past the plant's range."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from loamshift.core.plan_rule import Rule, RuleLine
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.surface import Courses
from loamshift.services.plan.rows import rows_of_test
from loamshift.services.verdict.decide import decide
from services.beds import bed

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0\n'


def line(low: float | None, high: float | None, amount: float) -> RuleLine:
    return RuleLine(low_ph=low, high_ph=high, amount_g_m2=amount, test_again=False, probability=0.5)


AIM = 5.0
"""Of highbush blueberry [pH]."""


def judged(ph: float, aim: str) -> tuple[Rule, Courses]:
    found = decide(build_context(bed(f"ph = {ph}\n" + LOAM, aim=aim))).judged
    assert found.rule is not None and found.courses is not None
    return found.rule, found.courses


@pytest.mark.parametrize(
    ("ph", "aim"), [(7.0, 'plant = "highbush blueberry"'), (5.0, 'plant = "cabbage"')]
)
def test_what_was_open_ends_within_the_range_and_where_its_amount_ends_there(
    ph: float, aim: str
) -> None:
    """From the last reading that gives, the amount leaves the usual bed in the range."""
    rule, courses = judged(ph, aim)
    acid = courses.surface.sign > 0.0
    amount = float(rule.goal.later_g_m2[2])
    lines = (line(None, 5.9, amount), line(6.0, None, 2.0 * amount))
    if not acid:
        lines = (line(None, 5.9, 2.0 * amount), line(6.0, None, amount))
    middle = 0.5 * (rule.goal.range_low_ph + rule.goal.range_high_ph)
    rows = rows_of_test(replace(rule, lines=lines), courses, aim_ph=middle)
    far, given = (rows[0], rows[1]) if acid else (rows[-1], rows[-2])
    last = given.low_ph if acid else given.high_ph
    assert far.amount_g_m2 == 0.0 and given.amount_g_m2 == amount and last is not None
    assert rule.goal.range_low_ph <= last <= rule.goal.range_high_ph
    for lower, upper in pairwise(rows):
        assert lower.high_ph is not None and upper.low_ph is not None
        assert upper.low_ph - lower.high_ph == pytest.approx(0.1)
    test, on = rule.goal.tests[0], rule.goal.on
    course = courses.surface.course((rule.first_g_m2, amount))
    furthest = np.argsort(courses.surface.sign * course[:, test])[: course.shape[0] // 10]
    moved = np.median(course[furthest, on] - course[furthest, test])
    assert rule.goal.range_low_ph <= last + moved <= rule.goal.range_high_ph
    nearer = last + moved - courses.surface.sign * 0.1
    alone = courses.surface.course((rule.first_g_m2,))
    nothing = np.median(alone[furthest, on] - alone[furthest, test])
    sign = courses.surface.sign
    assert sign * (last + nothing - middle) > -1e-6, "left alone it is not at the aim yet"
    if sign * (last - sign * 0.1 + nothing - middle) <= 0.0:
        return  # a tenth further on it comes there by itself
    at_limit = last in (4.5, 7.0) or not rule.goal.range_low_ph <= nearer <= rule.goal.range_high_ph
    assert at_limit or _harmful_on_the_way(rule, courses, amount, last)


def _harmful_on_the_way(rule: Rule, courses: Courses, amount: float, last: float) -> bool:
    """Whether a tenth further on the bed would pass the harmful limit before the day wanted."""
    sign, test, on = courses.surface.sign, rule.goal.tests[0], rule.goal.on
    course = sign * courses.surface.course((rule.first_g_m2, amount))[:, test : on + 1]
    furthest = np.argsort(course[:, 0])[: course.shape[0] // 10]
    deepest = np.median(course[furthest, :1] - course[furthest], axis=0).max()
    return bool(sign * last - 0.1 - deepest < sign * rule.goal.harmful_ph)


def test_a_line_that_gives_past_the_range_gives_nothing_there() -> None:
    rule, courses = judged(7.0, 'plant = "highbush blueberry"')
    lines = (line(None, 4.0, 0.0), line(4.1, 4.3, 5.0), line(4.4, 5.2, 9.0), line(5.3, None, 20.0))
    rows = rows_of_test(replace(rule, lines=lines), courses, aim_ph=AIM)
    assert [(row.low_ph, row.high_ph, row.amount_g_m2) for row in rows] == [
        (None, 4.4, 0.0),
        (4.5, 5.2, 9.0),
        (5.3, None, 20.0),
    ]


def test_a_rule_that_ends_by_itself_stays_as_it_is() -> None:
    rule, courses = judged(7.0, 'plant = "highbush blueberry"')
    lines = (line(None, 5.4, 0.0), line(5.5, 6.1, 40.0), line(6.2, None, 90.0))
    assert rows_of_test(replace(rule, lines=lines), courses, aim_ph=AIM) == lines
    assert rows_of_test(replace(rule, lines=()), courses, aim_ph=AIM) == ()
    none = (line(None, None, 0.0),)
    assert rows_of_test(replace(rule, lines=none), courses, aim_ph=AIM) == none
