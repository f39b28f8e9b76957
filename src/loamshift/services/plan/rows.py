"""The lines of a test, none of which gives anything to a reading it would take too far."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import median_course, sample_median
from loamshift.core.plan_rule import Rule, RuleLine
from loamshift.services.courses.surface import Courses

FloatArray = NDArray[np.float64]

FEWEST_BEDS: Final = 10
"""The median of fewer beds than this tells nothing."""
_FURTHEST: Final = 10
"""One bed in so many, those that read furthest, tell how far an amount takes one of them."""
_STEP_PH: Final = 0.1
_SLACK: Final = 1e-6


def rows_of_test(rule: Rule, courses: Courses, *, aim_ph: float) -> tuple[RuleLine, ...]:
    """The lines of the first test as they are printed, low readings first.

    Parameters
    ----------
    aim_ph
        Where the bed is to come [pH in water].

    Returns
    -------
    tuple of RuleLine
        Those of the rule; the last one that gives something ends where a further reading would
        be past the range of the plant, be taken past it, or come to the aim by itself, and
        nothing goes on from there.

    Notes
    -----
    A rule is chosen on what its beds may read. Where few read further than its last line, that
    line was the best for them all; printed without an end it would answer for any reading.
    """
    acid = courses.surface.sign > 0.0
    lines = rule.lines if acid else rule.lines[::-1]  # the readings that need least first
    if not lines:
        return ()
    nothing = lines[0] if lines[0].amount_g_m2 <= 0.0 else None
    given = [line for line in lines if line.amount_g_m2 > 0.0]
    if not given:
        return rule.lines
    limit = _end_of_range(rule, acid=acid)
    given = [
        line for line in given if not _is_past(_near_end(line, acid=acid), limit=limit, acid=acid)
    ]
    if given and nothing is None:
        limit = _not_taken_past(rule, courses, given[0], limit=limit, aim_ph=aim_ph)
    if given:
        given[0] = _cut(given[0], limit, acid=acid)
    edge = _far_end(given[0], acid=acid) if given else None
    first = nothing or replace(
        lines[0], amount_g_m2=0.0, test_again=rule.goal.seasons > 2, probability=0.0
    )
    rows = (_up_to(first, edge, acid=acid), *given)
    return rows if acid else rows[::-1]


def _end_of_range(rule: Rule, *, acid: bool) -> float:
    """The last printed tenth within the range of the plant, on the far side [pH]."""
    if acid:
        return math.ceil(10.0 * rule.goal.range_low_ph - _SLACK) / 10.0
    return math.floor(10.0 * rule.goal.range_high_ph + _SLACK) / 10.0


def _not_taken_past(
    rule: Rule, courses: Courses, line: RuleLine, *, limit: float, aim_ph: float
) -> float:
    """The furthest reading of a line that needs its amount and is not taken past the range [pH].

    On the day wanted it may not be past the range, nor harmful on the way, and left alone it is
    not yet at the aim; the beds that read furthest tell how far they go. The line keeps one tenth.
    """
    goal, sign = rule.goal, courses.surface.sign
    test = goal.tests[0]
    read = sign * courses.surface.at(test, (rule.first_g_m2,))
    beds = np.argsort(read)[: max(FEWEST_BEDS, read.size // _FURTHEST)]
    given = (rule.first_g_m2, line.amount_g_m2)
    course = sign * courses.surface.course(given, days=slice(test, None))
    moved = median_course(read[beds, None] - course[beds])
    alone = sign * courses.surface.at(goal.on, (rule.first_g_m2,))
    by_itself = sample_median(read[beds] - alone[beds])
    end = sign * (goal.range_low_ph if sign > 0.0 else goal.range_high_ph)
    furthest = max(
        sign * limit,
        end + float(moved[goal.on - test]),
        sign * aim_ph + by_itself,
        sign * goal.harmful_ph + float(moved[: goal.on - test + 1].max()),
    )
    tenth = sign * math.ceil(10.0 * furthest - _SLACK) / 10.0
    near = _near_end(line, acid=sign > 0.0)
    return tenth if near is None or not _is_past(near, limit=tenth, acid=sign > 0.0) else near


def _near_end(line: RuleLine, *, acid: bool) -> float | None:
    """The end of a line with the readings that need most; None where it is open [pH]."""
    return line.high_ph if acid else line.low_ph


def _far_end(line: RuleLine, *, acid: bool) -> float | None:
    return line.low_ph if acid else line.high_ph


def _is_past(ph: float | None, *, limit: float, acid: bool) -> bool:
    if ph is None:
        return False
    return ph < limit - _SLACK if acid else ph > limit + _SLACK


def _cut(line: RuleLine, limit: float, *, acid: bool) -> RuleLine:
    """A line that ends at a limit where it went further."""
    far = _far_end(line, acid=acid)
    if far is not None and not _is_past(far, limit=limit, acid=acid):
        return line
    return replace(line, low_ph=limit) if acid else replace(line, high_ph=limit)


def _up_to(line: RuleLine, edge: float | None, *, acid: bool) -> RuleLine:
    """The open line of nothing, up to the one that begins at an edge."""
    if acid:
        return replace(line, low_ph=None, high_ph=edge and round(edge - _STEP_PH, 1))
    return replace(line, low_ph=edge and round(edge + _STEP_PH, 1), high_ph=None)
