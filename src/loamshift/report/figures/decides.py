"""What the next test decides: the course of the pH, splitting where the test is read."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import groupby
from typing import Final

from loamshift.domain.answer import Answer, Decision, Forecast, ForecastPh, TestLine
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.bed_names import treated_area_m2
from loamshift.report.figures.course import calendar_rows, part_rows, wanted_rows
from loamshift.report.figures.shared import test_days, wanted_called
from loamshift.report.letter_words import sentences
from loamshift.report.messages import say
from loamshift.report.own_method import own_method
from loamshift.report.words import Words

_YEAR: Final = timedelta(days=365)
_WEEK: Final = timedelta(days=7)
_LATER: Final = timedelta(days=14)
"""Room after the last test shown, so that its mark does not stand at the very edge."""
_HARDLY_PH: Final = 0.15


def decides_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The course of the pH, and what each reading of the next test leads to.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Language and units of the reader [object].

    Returns
    -------
    Figure or None
        The course with its test days where no test decides; nothing without a forecast [object].
    """
    forecast = answer.forecast
    if forecast is None or len(forecast.dates) < 2:
        return None
    if answer.verdict.decision is Decision.MEASURE_FIRST and answer.applications:
        answer, forecast = _without_plan(answer, forecast)  # its amounts are not to be spread yet
    lines = _lines(answer)
    test = lines[0].test if lines else None
    end = _end(answer, forecast, test)
    area = treated_area_m2(answer, case)
    planned = bool(answer.applications) or bool(lines)
    told = tuple(_told(number, line, case, area, words) for number, line in enumerate(lines, 1))
    alone = "nothing added" if case.applied else "untreated"
    labels = (
        ("axis", "pH in water"),
        ("plan", "with the plan" if planned else alone),
        ("band", "90 in 100 tests" if _has_band(forecast) else ""),
        ("alone", alone),
        ("wanted", _range(answer, case, words)),
        ("part", "application"),
        ("perhaps", "if needed"),
        ("test", "test"),
    )
    return Figure(
        kind=FigureKind.DECIDES,
        title="The course of the pH"
        if test is None
        else f"What the test on {words.day(test)} decides",
        sentence=words.text(_sentence(lines, forecast, end, planned=planned, words=words)),
        data=(
            DataSet("span", ("first", "last"), ((_iso(forecast.dates[0]), _iso(end)),)),
            _course(forecast, test or end),
            _alone(forecast, end, planned=planned),
            DataSet("lines", ("line", "reads", "then"), told),
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
        table=_table(lines, told, forecast, end, words),
        labels=tuple((key, words.text(text)) for key, text in labels),
    )


def _without_plan(answer: Answer, forecast: Forecast) -> tuple[Answer, Forecast]:
    """The answer and its forecast with nothing put on; only the median of that is known."""
    alone = forecast.do_nothing.q50
    ph = ForecastPh(q05=alone, q25=alone, q50=alone, q75=alone, q95=alone)
    return replace(answer, applications=(), plan=None), replace(forecast, ph=ph)


def _has_band(forecast: Forecast) -> bool:
    return forecast.ph.q05 != forecast.ph.q95


def _range(answer: Answer, case: Case, words: Words) -> str:
    """Whose range it is and its two ends, so that it is told without its colour [text]."""
    wanted = answer.wanted
    if wanted is None:
        return ""
    ends = f"pH {words.ph(wanted.ph_low)} to {words.ph(wanted.ph_high)}"
    return f"{wanted_called(answer, case, words)}: {ends}"


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


def _told(
    number: int, line: TestLine, case: Case, area_m2: float | None, words: Words
) -> tuple[str | float | None, ...]:
    from loamshift.report.front import reads, then  # which puts this figure on the front sheet

    water = " in water" if own_method(case) is not None else ""
    reading = f"reads {say(reads(line), words)}{water}"
    return number, words.text(reading), say(then(line, area_m2), words)


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
        for week, ph in enumerate(line.ph_after or ()):
            day = start + week * _WEEK
            if day <= end:
                rows.append((number, _iso(max(day, line.test)), ph))
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
    told: tuple[tuple[str | float | None, ...], ...],
    forecast: Forecast,
    end: date,
    words: Words,
) -> Table:
    if not lines:
        at = [week for week, day in enumerate(forecast.dates) if day <= end]
        weeks = sorted({*at[:: max(1, len(at) // 8)], at[-1]})
        courses: tuple[tuple[float, ...], ...]
        courses = (forecast.ph.q05, forecast.ph.q50, forecast.ph.q95)
        titles: tuple[str, ...] = ("one in 20 below", "best estimate", "one in 20 above")
        if not _has_band(forecast):
            courses, titles = (forecast.ph.q50,), ("best estimate",)
        return Table(
            (Column("on"), *(Column(words.text(title), Align.RIGHT) for title in titles)),
            tuple(
                (words.date(forecast.dates[week]), *(words.ph(one[week]) for one in courses))
                for week in weeks
            ),
        )
    ends = _ends(lines, forecast, end)
    columns = ("the test", "then", f"best estimate on {words.date(end)}")
    return Table(
        (*(Column(words.text(title)) for title in columns[:2]), Column(columns[2], Align.RIGHT)),
        tuple(
            (str(reading), str(what), "" if ph is None else words.ph(ph))
            for (_, reading, what), ph in zip(told, ends, strict=True)
        ),
    )


def _sentence(
    lines: tuple[TestLine, ...], forecast: Forecast, end: date, *, planned: bool, words: Words
) -> str:
    test = lines[0].test if lines else end
    week = max(week for week, day in enumerate(forecast.dates) if day <= test)
    ph = forecast.ph
    who = "With the plan the best estimate" if planned else "Left as it is, the best estimate"
    first = f"{who} {_moves(ph.q50[0], ph.q50[week], test, words)}."
    if _has_band(forecast):
        first += (
            f" Of 100 tests that day, 90 should read {words.ph(ph.q05[week])} to "
            f"{words.ph(ph.q95[week])}."
        )
    ends = [ph for ph in _ends(lines, forecast, end) if ph is not None]
    then = ""
    if ends:
        low, high = words.ph(min(ends)), words.ph(max(ends))
        reach = f"pH {low}" if low == high else f"pH {low} to {high}"
        then = (
            f"What each reading calls for brings the best estimate to {reach} by {words.date(end)}."
        )
    return sentences(first, then)


def _moves(start: float, end: float, until: date, words: Words) -> str:
    if abs(end - start) < _HARDLY_PH:
        return f"stays near pH {words.ph(end)} until {words.date(until)}"
    verb = "rises" if end > start else "falls"
    return f"{verb} from pH {words.ph(start)} to {words.ph(end)} by {words.date(until)}"


def _iso(day: date) -> str:
    return day.isoformat()
