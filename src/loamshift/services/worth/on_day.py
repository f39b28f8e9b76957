"""What a test on a day of somebody's own choosing is worth, beside the tests of the plan."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np

from loamshift.core.information import OUTCOMES, decided_by_outcome, outcome_shares
from loamshift.domain.answer import Decision
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.message import Message, in_100, message
from loamshift.domain.worded_error import WordedError
from loamshift.domain.worth import WorthOnDay
from loamshift.services.context.build_context import build_context
from loamshift.services.forecast.reach import beyond_forecast
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import retest_error_ph
from loamshift.services.worth.words import without_plan_words
from loamshift.services.worth.worth import OF_FIELD
from loamshift.tables.parameters import parameter_values


def worth_on_day(case: Case, on: date, *, members: int = 250, seed: int = 1) -> WorthOnDay:
    """What a careful test on a day to come would be worth.

    Parameters
    ----------
    members
        Possible beds, 25 or more [count].
    seed
        Seed of their draws [number].

    Raises
    ------
    WordedError
        Where the day is not to come.

    Notes
    -----
    Up to the day of the first application the reading may change it; after that the first
    application is made, and the reading is weighed together with the test of the plan when the
    second is chosen. A day after that test has nothing of its own to decide: by then the plan has
    gone on. The gain is reckoned as that of any test (``core.information``): with the test and
    without it, by the same beds and the same amounts, and never more than knowing everything.

    References
    ----------
    own-arithmetic
    """
    if on <= case.today:
        raise WordedError(message("worth-day-past", day=on, today=case.today))
    context, judged = _looked_at(case, members=members, seed=seed)
    kind = case.bed.kind.value
    waits = judged.decision is Decision.MEASURE_FIRST
    if waits or judged.rule is None or judged.courses is None or judged.rule.first_g_m2 <= 0.0:
        waits_for = OF_FIELD.get(judged.measure or "")
        return WorthOnDay(on=on, gain=None, words=without_plan_words(judged, waits_for, kind=kind))
    rule, courses = judged.rule, judged.courses
    tests = courses.seasons.tests if rule.goal.tests else ()
    first = courses.seasons.days[0][0]
    if on > first and not (tests and on <= tests[0]):
        planned = tests[0] if tests else None
        return WorthOnDay(on=on, gain=None, words=_too_late(on, planned))
    goal, amount = rule.goal, 0.0
    if on > first:
        goal, amount = replace(goal, first_g_m2=np.array([rule.first_g_m2])), rule.first_g_m2
    ph = courses.surface.course((amount,))[:, courses.index(on)]
    seen = outcome_shares(ph, sd=retest_error_ph(context), outcomes=OUTCOMES)
    without, with_it = decided_by_outcome(
        courses.surface,
        goal,
        [np.ones((ph.size, 1)), seen],
        chosen_on=courses.chosen_on,
        first_g_m2=rule.first_g_m2,
        harm_price=rule.harm_price,
    )
    most = max(rule.share_if_known - rule.share_in_range, 0.0)
    gain = min(max(float(with_it.in_range.sum() - without.in_range.sum()), 0.0), most)
    enough = gain >= parameter_values("plan")["test_again_gain_frac"]
    said = message(
        "worth-on-day",
        day=on,
        gain=in_100(gain),
        enough="yes" if enough else "no",
        planned=tests[0] if tests and tests[0] != on else None,
        kind=kind,
    )
    return WorthOnDay(on=on, gain=gain, words=said)


def _too_late(on: date, planned: date | None) -> Message:
    """A day after that on which the plan goes on, or of a plan without a test."""
    return message("worth-day-late", day=on, planned=planned)


def _looked_at(case: Case, *, members: int, seed: int) -> tuple[BedContext, Judgement]:
    """The bed as it is believed, and its judgement by the column."""
    context = build_context(case)
    if context.soil is None or beyond_forecast(context) is not None:
        decided = decide(context, refit=True)
        return decided.context, decided.judged
    from loamshift.services.look import look_with_column  # loads the compiler

    look = look_with_column(context, members=members, seed=seed, years=3, refit=True)
    return look.context, look.judged
