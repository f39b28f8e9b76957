"""The course of the pH: bands, the plan, the bed left alone, the range wanted."""

from __future__ import annotations

from datetime import date, timedelta

from loamshift.domain.answer import Answer, Forecast, Wanted
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.figures.shared import (
    SHORT_MONTHS,
    short_date,
    test_days,
    wanted_called,
    wanted_said,
    years_said,
)
from loamshift.report.letter_words import bed_noun, sentences
from loamshift.report.words import Words

_HARDLY_PH = 0.15
_YEAR_WEEKS = 52
_ROWS = 14
"""About how many rows the table has; a forecast of three years is shown by the quarter."""
_SHORT_DAYS = 550
"""A forecast no longer than this is marked by quarters."""
_LONG_YEARS = 8
"""A forecast longer than this is marked by years alone."""


def course_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The forecast as a figure.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Figure or None
        Nothing where no forecast was made [object].
    """
    forecast = answer.forecast
    if forecast is None or len(forecast.dates) < 2:
        return None
    planned, parts = bool(answer.applications), _parts(answer, forecast)
    labels = (
        ("axis", "pH in water"),
        ("plan", "with the plan" if planned else "left as it is"),
        ("band", "90 in 100 tests"),
        ("alone", "untreated"),
        ("wanted", wanted_called(answer, case, words)),
        ("too_early", "too early to judge"),
        ("part", "application"),
        ("perhaps", "if needed"),
        ("test", "test"),
    )
    return Figure(
        kind=FigureKind.COURSE,
        title="The course of the pH",
        sentence=words.text(_sentence(answer, case, forecast, words)),
        data=(
            _course(forecast, words, planned=planned),
            DataSet("wanted", ("low", "high"), wanted_rows(answer.wanted)),
            parts,
            _tests(answer, forecast),
            _too_early(answer, forecast),
            _calendar(forecast, words),
        ),
        table=_table(forecast, words, planned=planned),
        labels=tuple((key, words.text(text)) for key, text in labels),
    )


def _course(forecast: Forecast, words: Words, *, planned: bool) -> DataSet:
    ph = forecast.ph
    alone = forecast.do_nothing.q50
    rows = []
    for week, day in enumerate(forecast.dates):
        low, mid, high = words.ph(ph.q05[week]), words.ph(ph.q50[week]), words.ph(ph.q95[week])
        said = f"{words.date(day)}: pH {mid}, nine tests in ten {low} to {high}"
        if planned:
            said += f"; left alone {words.ph(alone[week])}"
        rows.append(
            (
                day.isoformat(),
                *(round(q[week], 3) for q in (ph.q05, ph.q25, ph.q50, ph.q75, ph.q95)),
                round(alone[week], 3) if planned else None,
                said,
            )
        )
    return DataSet(
        "course", ("date", "q05", "q25", "q50", "q75", "q95", "alone", "said"), tuple(rows)
    )


def wanted_rows(wanted: Wanted | None) -> tuple[tuple[float, float], ...]:
    """The range wanted [object] as rows of its two ends, none without one [pH]."""
    return () if wanted is None else ((round(wanted.ph_low, 2), round(wanted.ph_high, 2)),)


def _parts(answer: Answer, forecast: Forecast) -> DataSet:
    rows = part_rows(answer, forecast.dates[0], forecast.dates[-1])
    return DataSet("parts", ("date", "sure"), rows)


def part_rows(answer: Answer, first: date, last: date) -> tuple[tuple[str, str], ...]:
    """What goes on for sure from one day to another, and what may once a test has been read.

    Parameters
    ----------
    answer
        The answer [object].
    first, last
        The days shown [calendar].

    Returns
    -------
    tuple of tuple
        Each day, and whether it is sure [text].
    """
    sure = {part.date for part in answer.applications if part.only_if is None}
    perhaps = {part.date for part in answer.applications if part.only_if is not None}
    if answer.plan is not None:
        perhaps |= {line.part_on for line in answer.plan.decides if line.part_on is not None}
    return tuple(
        (day.isoformat(), "sure" if day in sure else "if a test asks for it")
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

    Parameters
    ----------
    first, last
        The days shown [calendar].
    words
        Language of the reader [object].

    Returns
    -------
    tuple of tuple
        Each day, its words and its rank [text; count].
    """
    long = last.year - first.year > _LONG_YEARS
    short = (last - first).days <= _SHORT_DAYS
    start = short_date(first, words) if short else f"{SHORT_MONTHS[first.month - 1]} {first.year}"
    rows: list[tuple[str, str, float]] = [(first.isoformat(), start, 0)]
    for year in range(first.year, last.year + 1):
        for month in (1, 4, 7, 10):
            day = date(year, month, 1)
            if not first < day <= last or (long and month != 1) or (not short and month in (4, 10)):
                continue
            name = SHORT_MONTHS[month - 1]
            if long:
                rank = 1 if year % 10 == 0 else 2 if year % 5 == 0 else 3
                rows.append((day.isoformat(), str(year), rank))
            else:
                rank = {1: 1, 7: 2}.get(month, 3)
                rows.append((day.isoformat(), str(year) if month == 1 else name, rank))
    return tuple(rows)


def _table(forecast: Forecast, words: Words, *, planned: bool) -> Table:
    last = len(forecast.dates) - 1
    step = max(4, round(last / _ROWS))
    weeks = [week for week in range(0, last, step) if week <= last - step // 2] + [last]
    columns = [
        Column("on"),
        Column("one in twenty below", Align.RIGHT),
        Column("middle", Align.RIGHT),
        Column("one in twenty above", Align.RIGHT),
    ]
    courses = [forecast.ph.q05, forecast.ph.q50, forecast.ph.q95]
    if planned:
        columns.append(Column("left alone", Align.RIGHT))
        courses.append(forecast.do_nothing.q50)
    rows = tuple(
        (words.date(forecast.dates[week]), *(words.ph(course[week]) for course in courses))
        for week in weeks
    )
    return Table(tuple(columns), rows, "pH in water, as a careful test would read it")


def _sentence(answer: Answer, case: Case, forecast: Forecast, words: Words) -> str:
    mid, last = forecast.ph.q50, len(forecast.dates) - 1
    span = years_said(last)
    low, high = words.ph(forecast.ph.q05[last]), words.ph(forecast.ph.q95[last])
    ends = f"at the end nine tests in ten read {low} to {high}"
    if not answer.applications:
        moves = _moves(mid[0], mid[last], words)
        lead = f"Left as it is, the {bed_noun(case)} {moves} over {span}; {ends}."
        return sentences(lead, _reached(answer, case, forecast, words))
    year = min(_YEAR_WEEKS, last)
    after = f" and reads {words.ph(mid[last])} after {span}" if last > year else ""
    lead = (
        f"With the plan the middle forecast {_moves(mid[0], mid[year], words)} by "
        f"{words.date(forecast.dates[year])}{after}; {ends}."
    )
    alone = forecast.do_nothing.q50
    left = f"Left alone it {_moves(alone[0], alone[last], words)} in the same time."
    return sentences(lead, left, _reached(answer, case, forecast, words))


def _moves(start: float, end: float, words: Words) -> str:
    if abs(end - start) < _HARDLY_PH:
        return f"stays near pH {words.ph(end)}"
    verb = "rises" if end > start else "falls"
    return f"{verb} from pH {words.ph(start)} to {words.ph(end)}"


def _reached(answer: Answer, case: Case, forecast: Forecast, words: Words) -> str:
    wanted = answer.wanted
    if wanted is None:
        return ""
    lead = wanted_said(wanted, answer, case, words)
    inside = [wanted.ph_low <= ph <= wanted.ph_high for ph in forecast.ph.q50]
    if all(inside):
        return f"{lead}, and the middle course lies in it throughout."
    if not any(inside):
        return f"{lead}, which the middle course does not reach."
    first = inside.index(True)
    if first == 0:
        out = forecast.dates[inside.index(False)]
        return f"{lead}; the middle course leaves it about {words.date(out)}."
    stays = "" if all(inside[first:]) else ", but not for good"
    return f"{lead}; the middle course comes into it about {words.date(forecast.dates[first])}" + (
        f"{stays}."
    )


def days_between(first: str, later: str) -> int:
    """Days from one ISO date [text] to another [text]; negative before it [d]."""
    return (date.fromisoformat(later) - date.fromisoformat(first)) // timedelta(days=1)
