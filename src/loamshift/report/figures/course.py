"""The course of the pH: bands, the plan, the bed left alone, the range wanted."""

from __future__ import annotations

from datetime import date, timedelta

from loamshift.domain.answer import Answer, Forecast, Wanted
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Message, message, ph
from loamshift.report.figures.shared import (
    alone_label,
    course_moves,
    labels_said,
    prose_said,
    short_date,
    short_month,
    test_days,
    wanted_in_text,
    wanted_label,
)
from loamshift.report.messages import say
from loamshift.report.words import Words

_YEAR_WEEKS = 52
_ROWS = 14
"""About how many rows the table has; a forecast of three years is shown by the quarter."""
_SHORT_DAYS = 550
"""A forecast no longer than this is marked by quarters."""
_LONG_YEARS = 8
"""A forecast longer than this is marked by years alone."""


def course_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The forecast as a figure."""
    forecast = answer.forecast
    if forecast is None or len(forecast.dates) < 2:
        return None
    planned = bool(answer.applications)
    return Figure(
        kind=FigureKind.COURSE,
        title=say(message("front-course"), words),
        sentence=prose_said(_sentences(answer, case, forecast), words),
        data=(
            _course(forecast, planned=planned),
            DataSet("wanted", ("low", "high"), wanted_rows(answer.wanted)),
            _parts(answer, forecast),
            _tests(answer, forecast),
            _too_early(answer, forecast),
            _calendar(forecast, words),
        ),
        table=_table(forecast, case, words, planned=planned),
        labels=labels_said(
            words,
            axis=message("figure-axis"),
            plan=message("figure-plan" if planned else "figure-as-it-is"),
            band=message("figure-90-tests"),
            alone=alone_label(case),
            wanted=wanted_label(answer, case),
            too_early=message("figure-too-early"),
            part=message("figure-application"),
            perhaps=message("figure-perhaps"),
            test=message("figure-test"),
        ),
    )


def _course(forecast: Forecast, *, planned: bool) -> DataSet:
    bands = forecast.ph
    alone = forecast.do_nothing.q50
    rows = tuple(
        (
            day.isoformat(),
            *(round(q[week], 3) for q in (bands.q05, bands.q25, bands.q50, bands.q75, bands.q95)),
            round(alone[week], 3) if planned else None,
        )
        for week, day in enumerate(forecast.dates)
    )
    return DataSet("course", ("date", "q05", "q25", "q50", "q75", "q95", "alone"), rows)


def wanted_rows(wanted: Wanted | None) -> tuple[tuple[float, float], ...]:
    """The range wanted as rows of its two ends, none without one [pH]."""
    return () if wanted is None else ((round(wanted.ph_low, 2), round(wanted.ph_high, 2)),)


def _parts(answer: Answer, forecast: Forecast) -> DataSet:
    rows = part_rows(answer, forecast.dates[0], forecast.dates[-1])
    return DataSet("parts", ("date", "sure"), rows)


def part_rows(answer: Answer, first: date, last: date) -> tuple[tuple[str, str], ...]:
    """What goes on for sure from one day to another, and what may once a test has been read."""
    sure = {part.date for part in answer.applications if part.only_if is None}
    perhaps = {part.date for part in answer.applications if part.only_if is not None}
    if answer.plan is not None:
        perhaps |= {line.part_on for line in answer.plan.decides if line.part_on is not None}
    return tuple(
        (day.isoformat(), "sure" if day in sure else "perhaps")
        for day in sorted(sure | perhaps)
        if first <= day <= last
    )


def _tests(answer: Answer, forecast: Forecast) -> DataSet:
    days = (day for day in test_days(answer) if forecast.dates[0] <= day <= forecast.dates[-1])
    return DataSet("tests", ("date",), tuple((day.isoformat(),) for day in days))


def _too_early(answer: Answer, forecast: Forecast) -> DataSet:
    before = answer.too_early_before
    if before is None or before <= forecast.dates[0]:
        return DataSet("too_early", ("from", "to"), ())
    end = min(before, forecast.dates[-1])
    return DataSet("too_early", ("from", "to"), ((forecast.dates[0].isoformat(), end.isoformat()),))


def _calendar(forecast: Forecast, words: Words) -> DataSet:
    rows = calendar_rows(forecast.dates[0], forecast.dates[-1], words)
    return DataSet("calendar", ("date", "text", "rank"), rows)


def calendar_rows(first: date, last: date, words: Words) -> tuple[tuple[str, str, float], ...]:
    """Days that may stand at the axis, the most welcome ones with the lowest rank.

    The first of January goes by its year; quarters are offered only where there is room.

    Returns
    -------
    tuple of tuple
        Each day, its words and its rank [text; count].
    """
    long = last.year - first.year > _LONG_YEARS
    short = (last - first).days <= _SHORT_DAYS
    start = short_date(first, words) if short else short_month(first, words)
    rows: list[tuple[str, str, float]] = [(first.isoformat(), start, 0)]
    for year in range(first.year, last.year + 1):
        for month in (1, 4, 7, 10):
            day = date(year, month, 1)
            if not first < day <= last or (long and month != 1) or (not short and month in (4, 10)):
                continue
            name = words.month(month, short=True)
            if long:
                rank = 1 if year % 10 == 0 else 2 if year % 5 == 0 else 3
                rows.append((day.isoformat(), str(year), rank))
            else:
                rank = {1: 1, 7: 2}.get(month, 3)
                rows.append((day.isoformat(), str(year) if month == 1 else name, rank))
    return tuple(rows)


def _table(forecast: Forecast, case: Case, words: Words, *, planned: bool) -> Table:
    last = len(forecast.dates) - 1
    step = max(4, round(last / _ROWS))
    weeks = [week for week in range(0, last, step) if week <= last - step // 2] + [last]
    titles = [message("expect-best"), message("expect-90-tests")]
    if planned:
        titles.append(alone_label(case))
    rows = []
    for week in weeks:
        spread = words.measure(ph(forecast.ph.q05[week], high=forecast.ph.q95[week]))
        row = [words.date(forecast.dates[week]), words.ph(forecast.ph.q50[week]), spread]
        if planned:
            row.append(words.ph(forecast.do_nothing.q50[week]))
        rows.append(tuple(row))
    columns = (
        Column(say(message("expect-on"), words)),
        *(Column(say(title, words), Align.RIGHT) for title in titles),
    )
    return Table(columns, tuple(rows), say(message("figure-course-caption"), words))


def _sentences(answer: Answer, case: Case, forecast: Forecast) -> tuple[Message | None, ...]:
    middle, last = forecast.ph.q50, len(forecast.dates) - 1
    planned = bool(answer.applications)
    year = min(_YEAR_WEEKS, last) if planned else last
    first = course_moves(
        None if planned else "as-it-is", middle[0], middle[year], forecast.dates[year]
    )
    low, high = ph(forecast.ph.q05[last]), ph(forecast.ph.q95[last])
    if year == last:
        ends = message("figure-course-tests", salt="no", low=low, high=high)
    else:
        ends = message(
            "figure-course-last", day=forecast.dates[last], end=ph(middle[last]), low=low, high=high
        )
    alone = None
    if planned:
        left = forecast.do_nothing.q50
        how = "added" if case.applied else "untreated"
        alone = course_moves(how, left[0], left[last], forecast.dates[last])
    return first, ends, alone, reached(answer, case, forecast)


def reached(answer: Answer, case: Case, forecast: Forecast) -> Message | None:
    """When the best estimate comes into the range wanted, or that it never does or leaves it."""
    wanted = answer.wanted
    if wanted is None:
        return None
    named = wanted_in_text(wanted, answer, case)
    inside = [wanted.ph_low <= value <= wanted.ph_high for value in forecast.ph.q50]
    if all(inside):
        return message("figure-course-inside", wanted=named)
    if not any(inside):
        return message("figure-course-never", wanted=named)
    first = inside.index(True)
    if first == 0:
        out = forecast.dates[inside.index(False)]
        return message("figure-course-leaves", wanted=named, day=out)
    stays = "yes" if all(inside[first:]) else "no"
    return message("figure-course-enters", wanted=named, day=forecast.dates[first], stays=stays)


def days_between(first: str, later: str) -> int:
    """Days from one ISO date to another; negative before it [d]."""
    return (date.fromisoformat(later) - date.fromisoformat(first)) // timedelta(days=1)
