"""What the next test decides: the course of the pH, splitting where the test is read."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import groupby
from typing import Final

from loamshift.domain.answer import Answer, Decision, Forecast, ForecastPh, TestLine
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Given, Message, message, ph
from loamshift.domain.ph import PhConversion
from loamshift.report.bed_names import treated_area_m2
from loamshift.report.figures.course import calendar_rows, part_rows, wanted_rows
from loamshift.report.figures.shared import (
    alone_label,
    course_moves,
    labels_said,
    prose_said,
    test_days,
    wanted_range_label,
)
from loamshift.report.letter_head import method_said
from loamshift.report.messages import say
from loamshift.report.own_method import in_own_method, own_method
from loamshift.report.words import Words

_YEAR: Final = timedelta(days=365)
_WEEK: Final = timedelta(days=7)
_LATER: Final = timedelta(days=14)
"""Room after the last test shown, so that its mark does not stand at the very edge."""


def decides_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The course of the pH, and what each reading of the next test leads to.

    Returns
    -------
    Figure or None
        The course with its test days where no test decides; nothing without a forecast.
    """
    forecast = answer.forecast
    if forecast is None or len(forecast.dates) < 2:
        return None
    if answer.verdict.decision is Decision.MEASURE_FIRST and answer.applications:
        answer, forecast = _without_plan(answer, forecast)  # its amounts are not to be spread yet
    lines = _lines(answer)
    test = lines[0].test if lines else None
    end = _end(answer, forecast, test)
    planned = bool(answer.applications) or bool(lines)
    own = own_method(case)
    readings = tuple(say(_reading(line, own), words) for line in lines)
    area = treated_area_m2(answer, case)
    thens = tuple(say(_then(line, area), words) for line in lines)
    wanted = answer.wanted
    has_band = _has_band(forecast)
    title = message("front-course") if test is None else message("front-decides", day=test)
    return Figure(
        kind=FigureKind.DECIDES,
        title=say(title, words),
        sentence=prose_said(_sentences(lines, forecast, end, own, planned=planned), words),
        data=(
            DataSet("span", ("first", "last"), ((_iso(forecast.dates[0]), _iso(end)),)),
            _course(forecast, test or end),
            _alone(forecast, end, planned=planned),
            DataSet("lines", ("line", "reads", "then"), _told(readings, thens, own, words)),
            _after(lines, forecast, end),
            DataSet(
                "decides",
                ("date", "text"),
                () if test is None else ((_iso(test), words.day(test)),),
            ),
            DataSet("wanted", ("low", "high"), wanted_rows(answer.wanted)),
            DataSet("parts", ("date", "sure"), part_rows(answer, forecast.dates[0], end)),
            DataSet(
                "tests",
                ("date",),
                tuple(
                    (_iso(day),)
                    for day in test_days(answer)
                    if forecast.dates[0] <= day <= end and day != test
                ),
            ),
            DataSet(
                "calendar",
                ("date", "text", "rank"),
                calendar_rows(forecast.dates[0], end, words),
            ),
        ),
        table=_table(lines, tuple(zip(readings, thens, strict=True)), forecast, end, own, words),
        labels=labels_said(
            words,
            axis=message("figure-axis"),
            plan=message("figure-plan" if planned else "figure-as-it-is"),
            band=message("figure-90-tests") if has_band else None,
            alone=alone_label(case),
            wanted=None if wanted is None else wanted_range_label(wanted, answer, case),
            part=message("figure-application"),
            perhaps=message("figure-perhaps"),
            test=message("figure-test"),
        ),
    )


def _without_plan(answer: Answer, forecast: Forecast) -> tuple[Answer, Forecast]:
    """The answer and its forecast with nothing put on; only the median of that is known."""
    alone = forecast.do_nothing.q50
    ph = ForecastPh(q05=alone, q25=alone, q50=alone, q75=alone, q95=alone)
    return replace(answer, applications=(), plan=None), replace(forecast, ph=ph)


def _has_band(forecast: Forecast) -> bool:
    return forecast.ph.q05 != forecast.ph.q95


def _lines(answer: Answer) -> tuple[TestLine, ...]:
    """What the next test decides, the highest reading first; none without their courses."""
    if answer.plan is None or not answer.plan.decides:
        return ()
    _, found = next(groupby(answer.plan.decides, key=lambda line: line.test))
    lines = tuple(found)[::-1]
    return lines if any(line.ph_after for line in lines) else ()


def _end(answer: Answer, forecast: Forecast, test: date | None) -> date:
    """Last day shown: the test after the one that decides, or a year on."""
    first, last = forecast.dates[0], forecast.dates[-1]
    if test is None:
        tests = [day for day in test_days(answer) if day > first]
        return min(last, max(first + _YEAR, (tests[0] if tests else first) + _LATER))
    later = [day for day in test_days(answer) if day > test]
    return min(last, max(test + _YEAR, min(later, default=test) + _LATER))


def _reading(line: TestLine, own: PhConversion | None) -> Message:
    """The readings of a line as the bed's own method has them, as in the table beside it."""
    from loamshift.report.front import reads, reads_between  # which puts this figure on its sheet

    return reads(line) if own is None else reads_between(*in_own_method(line, own))


def _then(line: TestLine, area_m2: float | None) -> Message:
    from loamshift.report.front import then

    return then(line, area_m2)


def _told(
    readings: tuple[str, ...], thens: tuple[str, ...], own: PhConversion | None, words: Words
) -> tuple[tuple[str | float | None, ...], ...]:
    """What stands at each bracket: the reading, its method, and what follows from it."""
    method = None if own is None else method_said(own.method)
    return tuple(
        (
            number,
            say(message("figure-decides-reads", reading=Given(reading), method=method), words),
            then,
        )
        for number, (reading, then) in enumerate(zip(readings, thens, strict=True), 1)
    )


def _course(forecast: Forecast, until: date) -> DataSet:
    """The course and its band up to the test, or as far as it is shown."""
    ph = forecast.ph
    rows: tuple[tuple[str | float | None, ...], ...] = tuple(
        (_iso(day), *(round(q[week], 3) for q in (ph.q05, ph.q25, ph.q50, ph.q75, ph.q95)))
        for week, day in enumerate(forecast.dates)
        if day <= until
    )
    return DataSet("course", ("date", "q05", "q25", "q50", "q75", "q95"), rows)


def _alone(forecast: Forecast, end: date, *, planned: bool) -> DataSet:
    shown = zip(forecast.dates, forecast.do_nothing.q50, strict=True)
    rows = tuple((_iso(day), round(ph, 3)) for day, ph in shown if day <= end) if planned else ()
    return DataSet("alone", ("date", "ph"), rows)


def _after(lines: tuple[TestLine, ...], forecast: Forecast, end: date) -> DataSet:
    """The course after each reading, from the day of the test on."""
    rows: list[tuple[str | float | None, ...]] = []
    for number, line in enumerate(lines, 1):
        start = max(day for day in forecast.dates if day <= line.test)
        for week, value in enumerate(line.ph_after or ()):
            day = start + week * _WEEK
            if day <= end:
                rows.append((number, _iso(max(day, line.test)), value))
    return DataSet("after", ("line", "date", "ph"), tuple(rows))


def _ends(lines: tuple[TestLine, ...], forecast: Forecast, end: date) -> list[float | None]:
    """Where each course stands on the last day shown [pH]."""
    found: list[float | None] = []
    for line in lines:
        start = max(day for day in forecast.dates if day <= line.test)
        after = line.ph_after or ()
        found.append(after[min((end - start) // _WEEK, len(after) - 1)] if after else None)
    return found


def _table(
    lines: tuple[TestLine, ...],
    told: tuple[tuple[str, str], ...],
    forecast: Forecast,
    end: date,
    own: PhConversion | None,
    words: Words,
) -> Table:
    if not lines:
        return _course_table(forecast, end, words)
    ends = _ends(lines, forecast, end)
    method = None if own is None else method_said(own.method)
    columns = (
        Column(say(message("front-reads", method=method), words)),
        Column(say(message("front-then"), words)),
        Column(say(message("figure-decides-best", day=end), words), Align.RIGHT),
    )
    rows = tuple(
        (reading, then, "" if found is None else words.ph(found))
        for (reading, then), found in zip(told, ends, strict=True)
    )
    return Table(columns, rows)


def _course_table(forecast: Forecast, end: date, words: Words) -> Table:
    """A few days of the course, where no test decides."""
    at = [week for week, day in enumerate(forecast.dates) if day <= end]
    weeks = sorted({*at[:: max(1, len(at) // 8)], at[-1]})
    has_band = _has_band(forecast)
    titles = [message("expect-best")]
    if has_band:
        titles.append(message("expect-90-tests"))
    rows = []
    for week in weeks:
        row = [words.date(forecast.dates[week]), words.ph(forecast.ph.q50[week])]
        if has_band:
            row.append(words.measure(ph(forecast.ph.q05[week], high=forecast.ph.q95[week])))
        rows.append(tuple(row))
    on = Column(say(message("expect-on"), words))
    columns = (on, *(Column(say(title, words), Align.RIGHT) for title in titles))
    return Table(columns, tuple(rows))


def _sentences(
    lines: tuple[TestLine, ...],
    forecast: Forecast,
    end: date,
    own: PhConversion | None,
    *,
    planned: bool,
) -> list[Message]:
    test = lines[0].test if lines else end
    week = max(week for week, day in enumerate(forecast.dates) if day <= test)
    bands = forecast.ph
    told = [
        course_moves(None if planned else "as-it-is", bands.q50[0], bands.q50[week], test),
    ]
    if _has_band(forecast):
        low, high = ph(bands.q05[week]), ph(bands.q95[week])
        salt = "no" if own is None else "yes"
        told.append(message("figure-course-tests", salt=salt, low=low, high=high))
    ends = [found for found in _ends(lines, forecast, end) if found is not None]
    if ends:
        reach = ph(min(ends), high=max(ends))
        told.append(message("figure-decides-then", day=end, range=reach))
    if lines and own is not None:
        told.append(message("figure-decides-own", method=method_said(own.method)))
    return told


def _iso(day: date) -> str:
    return day.isoformat()
