"""Doubts about the readings themselves: each is said, never a silent number."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import combinations, pairwise

from loamshift.domain.answer import Finding, Severity, Worded
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.message import Listed, Measure, Message, Product, Quantity, message, prose
from loamshift.domain.ph import PhReading
from loamshift.services.cautions.reading_words import reading_told
from loamshift.services.cautions.target_checks import finding_row
from loamshift.services.context.applied_words import applied_told
from loamshift.services.context.readings import (
    OLDEST_D,
    SeasonReading,
    dated_readings,
    is_working,
    ph_belief,
    season_readings,
)

AGREEMENT = "two readings of one soil"
REPEATED = "readings given twice"
TOO_OLD = "age of the readings"
NO_DATE = "date of the soil report"
ROUGH_ONLY = "readings by a laboratory"
ROUGH_FIRST = "first reading of the bed"
NOT_SEEN = "reading after the last application"
HALF_SEEN = "time from application to reading"

DISAGREE_SD = 2.0
"""Two readings farther apart than this many standard deviations disagree."""
DEPTHS_DIFFER = 1.5
"""Depths in a greater ratio than this are not the same soil [1]."""
OLDEST_YEARS = OLDEST_D / 366.0
"""The same as ``OLDEST_D`` [years]."""
SEEN_SHARE = 0.5
"""Less of a material acted than this share, and a reading does not judge it [0-1]."""


def reading_findings(context: BedContext) -> tuple[Finding, ...]:
    """Every doubt about the readings of a case, and whether those of one season agree.

    Returns
    -------
    tuple of Finding
        Rows; none where there is one good reading and nothing to say.
    """
    case = context.case
    readings, seasons = dated_readings(case), season_readings(case)
    return (
        *_agreement(case, seasons),
        *_given_twice(case, readings),
        *_too_old(case, readings),
        *_no_date(case),
        *_rough_only(readings),
        *_rough_first(case, readings, seasons),
        *_not_seen(case, readings),
        *_half_seen(context),
    )


def _agreement(case: Case, seasons: Sequence[SeasonReading]) -> tuple[Finding, ...]:
    """Readings with nothing put on in between, two by two: those that disagree, or that all agree.

    A change from one season to the next can have its own cause; within a season there is none.
    What is still working from before is such a cause: the belief holds the later reading against
    what was expected on its day.
    """
    within = [pair for season in seasons for pair in combinations(season.readings, 2)]
    between = [
        (before.leading, after.leading)
        for before, after in pairwise(seasons)
        if not _applied_between(case, before.day, _day(after.readings[0]))
        and not is_working(case, before.day)
    ]
    failed = [pair for pair in within if _apart_in_sd(*pair) > DISAGREE_SD]
    rows = [_contradiction(failed)] if failed else []
    rows += [_jump(*pair) for pair in between if _apart_in_sd(*pair) > DISAGREE_SD]
    if rows or not (within or between):
        return tuple(rows)
    worst = max((*within, *between), key=lambda pair: _apart_in_sd(*pair))
    return (_row_of_two(*worst, passed=True, comment=message("check-readings-agree")),)


def _contradiction(failed: Sequence[tuple[PhReading, PhReading]]) -> Finding:
    one, two = max(failed, key=lambda pair: _apart_in_sd(*pair))
    pairs = len(failed)
    return _row_of_two(
        one,
        two,
        passed=False,
        comment=prose(
            message("check-readings-contradict", one=_told(one), two=_told(two)),
            message("check-readings-worst", pairs=pairs) if pairs > 1 else None,
            _depths(one, two),
            message("check-readings-together"),
        ),
    )


def _jump(one: PhReading, two: PhReading) -> Finding:
    return _row_of_two(
        one,
        two,
        passed=False,
        comment=prose(
            message("check-readings-jump", one=_told(one), two=_told(two)),
            _depths(one, two),
            message("check-readings-jump-ask"),
        ),
    )


def _row_of_two(one: PhReading, two: PhReading, *, passed: bool, comment: Worded) -> Finding:
    return finding_row(
        AGREEMENT,
        value=round(_apart(one, two), 2),
        operator="<=",
        limit=round(DISAGREE_SD * _combined_sd(one, two), 2),
        unit="pH",
        passed=passed,
        severity=Severity.CAUTION,
        comment=comment,
        source_key="own-judgement",
    )


def _applied_between(case: Case, before: date, after: date) -> bool:
    return any(before <= applied.on < after for applied in case.applied)


def _given_twice(case: Case, readings: Sequence[PhReading]) -> Iterator[Finding]:
    entry = case.soil
    given = (1 if entry.ph else 0) + len(entry.other_ph) + len(case.readings)
    extra = given - len(readings)
    if extra > 0:
        yield finding_row(
            REPEATED,
            value=float(extra),
            operator="<=",
            limit=0.0,
            unit="readings",
            passed=False,
            severity=Severity.INFO,
            comment=message("check-readings-repeated", extra=extra),
        )


def _too_old(case: Case, readings: Sequence[PhReading]) -> Iterator[Finding]:
    oldest = case.today - timedelta(days=OLDEST_D)
    old = [reading for reading in readings if _day(reading) < oldest]
    if not old:
        return
    is_all = len(old) == len(readings)
    comment = message(
        "check-readings-all-too-old" if is_all else "check-readings-too-old",
        days=Listed(tuple(_day(reading) for reading in old)),
        age=Measure(Quantity.YEARS, OLDEST_YEARS),
    )
    yield finding_row(
        TOO_OLD,
        value=round((case.today - _day(old[0])).days / 365.25, 1),
        operator="<=",
        limit=OLDEST_YEARS,
        unit="years",
        passed=False,
        severity=Severity.CAUTION if is_all else Severity.INFO,
        comment=comment,
        source_key="own-judgement",
    )


def _no_date(case: Case) -> Iterator[Finding]:
    entry = case.soil
    report = [*((entry.ph,) if entry.ph else ()), *entry.other_ph]
    if entry.sampled is not None or not any(reading.taken is None for reading in report):
        return
    if not (case.readings or case.applied):
        return
    one = "readings" if case.readings else "applications"
    beside = "both" if case.readings and case.applied else one
    yield finding_row(
        NO_DATE,
        value="not given",
        operator="is",
        limit="a date",
        unit="",
        passed=False,
        severity=Severity.CAUTION,
        comment=message("check-no-date", beside=beside, today=case.today),
        source_key="own-judgement",
    )


def _rough_only(readings: Sequence[PhReading]) -> Iterator[Finding]:
    if len(readings) < 2 or not all(reading.method.is_rough for reading in readings):
        return
    yield finding_row(
        ROUGH_ONLY,
        value=0.0,
        operator=">=",
        limit=1.0,
        unit="readings",
        passed=False,
        severity=Severity.CAUTION,
        comment=message("check-rough-only", n=len(readings)),
        source_key="own-judgement",
    )


def _rough_first(
    case: Case, readings: Sequence[PhReading], seasons: Sequence[SeasonReading]
) -> Iterator[Finding]:
    if not seasons or seasons[0].rough:
        return
    oldest, first = case.today - timedelta(days=OLDEST_D), _day(seasons[0].readings[0])
    left_out = [one for one in readings if oldest <= _day(one) < first and one.method.is_rough]
    if not left_out:
        return
    yield finding_row(
        ROUGH_FIRST,
        value=float(len(left_out)),
        operator="<=",
        limit=0.0,
        unit="readings",
        passed=False,
        severity=Severity.INFO,
        comment=message("check-rough-first", readings=Listed(tuple(map(_told, left_out)))),
        source_key="own-judgement",
    )


def _not_seen(case: Case, readings: Sequence[PhReading]) -> Iterator[Finding]:
    """Applications that no reading has followed."""
    if not readings:
        return
    last = _day(readings[-1])
    unseen = [applied for applied in case.applied if applied.on >= last]
    if not unseen:
        return
    told = applied_told(unseen)
    yield finding_row(
        NOT_SEEN,
        value=last.isoformat(),
        operator=">",
        limit=max(applied.on for applied in unseen).isoformat(),
        unit="",
        passed=False,
        severity=Severity.CAUTION,
        comment=message("check-not-seen", day=last, applied=told),
        source_key="own-arithmetic",
    )


def _half_seen(context: BedContext) -> Iterator[Finding]:
    """Applications that had not acted by half when the reading was taken.

    Nothing is pending where no pH is known.
    """
    for applied, pending in zip(context.case.applied, context.pending, strict=False):
        if pending.since_days <= 0 or pending.total_mmolc_m2 == 0.0:
            continue
        acted = 1.0 - pending.acid_mmolc_m2 / pending.total_mmolc_m2
        if acted >= SEEN_SHARE:
            continue
        yield finding_row(
            HALF_SEEN,
            value=round(acted, 2),
            operator=">=",
            limit=SEEN_SHARE,
            unit="share",
            passed=False,
            severity=Severity.CAUTION,
            comment=message(
                "check-half-seen",
                share=Measure(Quantity.SHARE, max(acted, 0.0)),
                product=Product(pending.material),
                day=applied.on,
            ),
            source_key="own-arithmetic",
        )


def _day(reading: PhReading) -> date:
    assert reading.taken is not None  # dated_readings gives each a day
    return reading.taken


def _told(reading: PhReading) -> Message:
    return reading_told(reading, day=_day(reading))


def _depths(one: PhReading, two: PhReading) -> Message | None:
    if one.depth_cm is None or two.depth_cm is None:
        return None
    shallow, deep = sorted((one.depth_cm, two.depth_cm))
    return message("check-readings-depths") if deep > DEPTHS_DIFFER * shallow else None


def _apart(one: PhReading, two: PhReading) -> float:
    return abs(ph_belief(one).ph_water - ph_belief(two).ph_water)


def _combined_sd(one: PhReading, two: PhReading) -> float:
    return math.hypot(ph_belief(one).ph_water_sd, ph_belief(two).ph_water_sd)


def _apart_in_sd(one: PhReading, two: PhReading) -> float:
    return _apart(one, two) / _combined_sd(one, two)
