"""When the next part goes on, when a test means something, and when to test again."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvents, ColumnResult, EventKind
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, events_before, run, shortened
from loamshift.services.plan.dose_bench import Bench
from loamshift.services.plan.parts import TEST_LEAD_DAYS, start_date
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

DAYS_IN_YEAR: Final = 365
LEAST_WAIT_D: Final = 90
"""The test that judges the plan is never sooner after the last part than one season [d]."""
_LIME_SHARES_OF_RUN: Final = (0.03, 0.1, 0.25, 0.5, 1.0)
"""Lengths of the runs between which the lime reacted is read, as shares of the whole run."""


def next_part(
    bench: Bench, result: ColumnResult, events: ColumnEvents, dates: list[date]
) -> date | None:
    """The day of one part more, or None where neither limits nor date leave room for it.

    Parameters
    ----------
    bench
        The bed prepared [object].
    result
        A run with the parts so far, some of the members [arrays].
    events
        Its events [arrays].
    dates
        Day of each part so far [calendar].

    Returns
    -------
    date or None
        The day [calendar].

    Notes
    -----
    It waits until the stated share of what is there has reacted in the median, and until a test
    can see what the last part did, which is when it has moved the median by the error of a
    reading; where no part ever does that, as on free lime, only the share counts. Never sooner
    than the printed wait, the yearly limit and warm soil allow.
    """
    limits, advice = verdict_values(), parameter_values("advice")
    if len(dates) >= bench.most_parts:
        return None
    start = bench.week_of(dates[-1])
    reacted = reacted_frac(bench, result, events)
    moved = bench.sign * (np.median(result.ph[:, start]) - np.median(result.ph[:, start:], axis=0))
    seen = float(bench.whole.retest_sd)
    ready = reacted[start:] >= advice["part_reacted_share"]
    if float(moved.max()) >= seen:
        ready &= moved >= seen
    if not ready.any():
        return None
    wait = int(limits["part_wait_days" if bench.acidify else "lime_part_wait_days"])
    day = bench.day_of(start + int(np.argmax(ready))) + timedelta(days=TEST_LEAD_DAYS)
    day = max(day, dates[-1] + timedelta(days=wait))
    if len(dates) >= bench.per_year:
        day = max(day, dates[-bench.per_year] + timedelta(days=DAYS_IN_YEAR))
    day = start_date(bench.context, acidify=bench.acidify, not_before=day)
    if day >= bench.first_day + timedelta(days=int(limits["seasons"]) * DAYS_IN_YEAR):
        return None
    by = bench.context.case.aim.by
    return None if by is not None and day + timedelta(days=wait) > by else day


def too_early_before(
    bench: Bench,
    result: ColumnResult,
    control: ColumnResult,
    reacted: FloatArray,
    dates: list[date],
) -> date:
    """The day before which a test says nothing about the plan.

    Parameters
    ----------
    bench
        The bed prepared [object].
    result
        The run with the plan [arrays].
    control
        The run without it, the same members [arrays].
    reacted
        Share of what went on that has reacted by each week of the run [0-1].
    dates
        Day of each part [calendar].

    Returns
    -------
    date
        The day [calendar].

    Notes
    -----
    Until the second part, or the end of what is watched: the first week in which the plan has
    moved the median, against the bed left alone, by the stated share of the furthest it gets
    and by the error of a reading, and the same share has reacted. Less than the first cannot
    tell a plan that works from one that does not, less than the second cannot be seen, and with
    less than the third most is still to come. Where it never moves so far as to be seen, only
    the share that has reacted counts.
    """
    early = parameter_values("advice")["early_share"]
    start = bench.week_of(dates[0])
    end = bench.week_of(dates[1]) if len(dates) > 1 else bench.watched_days(dates) // DAYS_IN_WEEK
    end = max(min(end, result.ph.shape[1] - 1), start)
    window = slice(start, end + 1)
    moved = bench.sign * (
        np.median(control.ph[:, window], axis=0) - np.median(result.ph[:, window], axis=0)
    )
    furthest, seen = float(moved.max()), float(bench.whole.retest_sd)
    there = reacted[window] >= early
    if furthest >= seen:
        there &= moved >= max(early * furthest, seen)
    week = start + int(np.argmax(there)) if there.any() else end
    return bench.day_of(week)


def retests(
    bench: Bench,
    reacted: FloatArray,
    dates: list[date],
    *,
    too_early: date,
) -> tuple[date, ...]:
    """Days to test: before each further part, and when the plan can be judged.

    Parameters
    ----------
    bench
        The bed prepared [object].
    reacted
        Share of what went on that has reacted by each week of the run [0-1].
    dates
        Day of each part [calendar].
    too_early
        The day before which a test says nothing [calendar].

    Returns
    -------
    tuple of date
        In order, one before each part but the first, and the last [calendar].

    Notes
    -----
    The last is the first week, a season or more after the last part, in which nearly all has
    reacted in the median; where that takes longer than is watched, the end of that time.
    """
    found = [max(day - timedelta(days=TEST_LEAD_DAYS), too_early) for day in dates[1:]]
    start = bench.week_of(dates[-1] + timedelta(days=LEAST_WAIT_D)) + 1
    end = bench.watched_days(dates) // DAYS_IN_WEEK
    there = reacted[start:end] >= verdict_values()["judge_share"]
    last = bench.day_of(start + int(np.argmax(there)) if there.any() else end)
    return (*found, max(last, too_early))


def reacted_frac(bench: Bench, result: ColumnResult, events: ColumnEvents) -> FloatArray:
    """Share of what went on that has reacted by each week, median of the members.

    Parameters
    ----------
    bench
        The bed prepared [object].
    result
        A run [arrays].
    events
        Its events [arrays].

    Returns
    -------
    ndarray
        Shape (n_weeks,) [0-1].

    Notes
    -----
    Sulfur as the run has it. Of lime the run knows what is left at its end, so shorter runs of
    some members are made and the share is read between them, from nothing when the first lime
    goes on.
    """
    weeks = result.ph.shape[1]
    if bench.acidify:
        return np.asarray(np.median(result.oxidised_frac, axis=0), dtype=np.float64)
    limed = events.kind == EventKind.LIME
    if not limed.any():
        return np.zeros(weeks)
    first, length = int(events.day[limed].min()), DAYS_IN_WEEK * (weeks - 1)
    at, share = [first], [0.0]
    for part in _LIME_SHARES_OF_RUN:
        day = first + round(part * (length - first))
        if day <= at[-1]:
            continue
        short = events_before(events, day=day)
        inputs = shortened(bench.few, days=day)
        brought = inputs.members.parameters.lime_field_efficiency * float(
            short.amount[short.kind == EventKind.LIME].sum()
        )
        at.append(day)
        share.append(1.0 - float(np.median(run(inputs, short).lime_left_mmolc_m2 / brought)))
    return np.interp(DAYS_IN_WEEK * np.arange(weeks), at, share)
