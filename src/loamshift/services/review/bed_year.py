"""One bed in a year, and what its plan still asks for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case
from loamshift.domain.history import PutOn, TestRead
from loamshift.domain.review import BedYear, NextPart
from loamshift.domain.score import ScoredPair
from loamshift.services.advise import advise
from loamshift.services.history import dated_tests

_EARLY: Final = timedelta(days=30)
"""A test taken this much before its day counts as that test."""


def bed_year(
    case: Case,
    letter: Answer | None,
    *,
    year: int,
    until: date,
    pairs: Sequence[ScoredPair] = (),
    where: str = "",
) -> BedYear:
    """What happened to a bed in a year, and what is still to be done on it.

    Parameters
    ----------
    letter
        The answer in the last letter sent. Where there is none, where it asked for a test first
        or where one has come since, a look today without a forecast takes its place.
    year
        Year from January to December [year].
    until
        What the plan has later than this is left for the next review.
    pairs
        Readings of this bed with the score of their forecast.
    where
        Whose bed it is and where, for a list of several.
    """
    tests = dated_tests(case)
    careful = [test for test in tests if not test.method.is_rough and test.on.year < year]
    plan, is_sent = _plan(letter, tests), True
    if plan is None:
        plan, is_sent = advise(case), False
    waits = plan.verdict.decision is Decision.MEASURE_FIRST
    sure = [part for part in plan.applications if part.only_if is None]
    put_on = sum(one.on >= plan.today for one in case.applied) if is_sent else 0
    coming = [] if waits else sure[put_on:]
    return BedYear(
        name=case.name,
        where=where,
        plants=tuple(plant.name for plant in case.aim.plants),
        done=tuple(
            PutOn(
                on=one.on,
                material=one.material.key,
                rate_g_m2=one.rate_g_m2,
                as_given=one.as_given,
            )
            for one in sorted(case.applied, key=lambda one: one.on)
            if one.on.year == year
        ),
        before=careful[-1] if careful else None,
        tests=tuple(test for test in tests if test.on.year == year),
        wanted=plan.wanted,
        scored=tuple(pair for pair in pairs if pair.read.on.year == year),
        decision=plan.verdict.decision.value,
        letter_on=plan.today if is_sent else None,
        parts=tuple(
            NextPart(
                on=part.date,
                material=part.material,
                rate_g_m2=part.rate_g_m2,
                amount_g=part.amount_g,
            )
            for part in coming
            if part.date <= until
        ),
        perhaps=0 if waits else len(plan.applications) - len(sure),
        retest=_still_to_test(plan, case, until),
        test_first=plan.missing[0].field if waits and plan.missing else "",
    )


def _plan(letter: Answer | None, tests: Sequence[TestRead]) -> Answer | None:
    """The letter whose plan still holds; None where a look today knows more."""
    if letter is None or letter.verdict.decision is Decision.MEASURE_FIRST:
        return None
    tested = any(test.on > letter.today and not test.method.is_rough for test in tests)
    return None if tested else letter


def _still_to_test(plan: Answer, case: Case, until: date) -> tuple[date, ...]:
    """Tests of a plan that nobody has made yet."""
    report = () if case.soil.ph is None else (case.soil.ph,)
    read = [one.taken for one in (*case.readings, *report) if one.taken is not None]
    return tuple(
        day
        for day in plan.retest
        if day <= until and not any(taken > plan.today and taken >= day - _EARLY for taken in read)
    )
