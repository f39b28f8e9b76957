"""What to expect: the forecast as one sentence and a few dates."""

from __future__ import annotations

from loamshift.domain.answer import WIDTH_CHECK, Answer, Direction, Forecast, WidthShare
from loamshift.domain.letter import Align, Block, Column, Paragraph, Section, Table
from loamshift.report.letter_words import raised, sentences
from loamshift.report.words import Words

_WEEKS = (13, 26, 52, 104, 156, 260, 520, 1040, 2600)
"""Weeks from today that the table shows, as far as the forecast reaches."""
_YEAR = 52
_MOST_CAUSES = 4
_NAMED_SHARE = 0.05
"""A cause of less than this share of the width has no row of its own."""
_REST_SHARE = 0.01
_HONEST = {
    Direction.ACIDIFY: "No measured course of pH after sulfur stands behind this forecast, only "
    "its parts: the buffer curve and the sulfur clock. Trust a test before it.",
    Direction.LIME: "In long liming trials such a band held nine readings in ten, but plots limed "
    "by a middling amount were forecast 0.3 to 0.5 too high. Trust a test before it.",
    Direction.NONE: "Trust a test before a forecast.",
}


def what_to_expect(answer: Answer, *, words: Words) -> Section | None:
    """The course of the pH as a careful test would read it.

    Parameters
    ----------
    answer
        The answer [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where no forecast was made [object].
    """
    forecast = answer.forecast
    if forecast is None or not forecast.dates:
        return None
    blocks: list[Block] = [
        Paragraph(words.text(_year_sentence(answer, forecast, words))),
        _course(answer, forecast, words),
        *_width(answer, forecast, words),
        Paragraph(words.text(sentences(_narrows(answer), _HONEST[_acting(answer)]))),
    ]
    return Section("What to expect", tuple(blocks))


def _acting(answer: Answer) -> Direction:
    """Which way the plan moves the bed; none where nothing goes on."""
    return answer.dose.direction if answer.applications else Direction.NONE


def _year_sentence(answer: Answer, forecast: Forecast, words: Words) -> str:
    week = min(_YEAR, len(forecast.dates) - 1)
    low, mid, high = (
        words.ph(course[week]) for course in (forecast.ph.q05, forecast.ph.q50, forecast.ph.q95)
    )
    day = words.date(forecast.dates[week])
    alone = words.ph(forecast.do_nothing.q50[week])
    if not answer.applications:
        return (
            f"Left as it is, a careful test on {day} should read between pH {low} and {high}, nine "
            f"times in ten, and most likely near {mid}."
        )
    several, stops = len(answer.applications) > 1, ""
    goes_on = "every part of the plan goes on" if several else "this goes on as planned"
    if answer.plan is not None and answer.plan.decides:
        goes_on = "you follow the plan and its test"
    elif several:
        stops = " The tests in between are there to stop it short of too much."
    return (
        f"If {goes_on}, a careful test on {day} should read between pH {low} and {high}, nine "
        f"times in ten, and most likely near {mid}; left alone the bed would read about "
        f"{alone}.{stops}"
    )


def _course(answer: Answer, forecast: Forecast, words: Words) -> Table:
    planned = bool(answer.applications)
    columns = [
        Column("on"),
        Column("nine tests in ten read", Align.RIGHT),
        Column("middle", Align.RIGHT),
    ]
    if planned:
        columns.append(Column("left alone", Align.RIGHT))
    rows = []
    last = len(forecast.dates) - 1
    weeks = [week for week in _WEEKS if week < last - 8] + [last]
    for week in weeks:
        low, high = words.ph(forecast.ph.q05[week]), words.ph(forecast.ph.q95[week])
        row = [
            words.date(forecast.dates[week]),
            f"{low} to {high}",
            words.ph(forecast.ph.q50[week]),
        ]
        if planned:
            row.append(words.ph(forecast.do_nothing.q50[week]))
        rows.append(tuple(row))
    return Table(tuple(columns), tuple(rows))


def width_causes(answer: Answer) -> tuple[WidthShare, ...]:
    """The causes of the width of a forecast [object] that have a row of their own [objects].

    None where there is only one: a table of one row says less than the sentence among the checks.
    """
    width = answer.forecast.width if answer.forecast is not None else ()
    named = tuple(one for one in width if one.share >= _NAMED_SHARE)[:_MOST_CAUSES]
    return named if len(named) > 1 else ()


def _narrows(answer: Answer) -> str:
    """What would narrow the forecast most, where the table has said the causes already."""
    told = next((one.comment for one in answer.findings if one.check == WIDTH_CHECK), "")
    _, found, after = told.partition("; ")
    return raised(after) if found and width_causes(answer) else ""


def _width(answer: Answer, forecast: Forecast, words: Words) -> tuple[Table, ...]:
    """What the width comes from: the largest causes, and the rest in one row."""
    named = width_causes(answer)
    if not named:
        return ()
    rows = [(words.text(one.cause), words.percent(one.share)) for one in named]
    rest = sum(one.share for one in forecast.width) - sum(one.share for one in named)
    if rest >= _REST_SHARE:
        rows.append(("all else", words.percent(rest)))
    columns = (Column("the width comes from"), Column("share", Align.RIGHT))
    return (Table(columns, tuple(rows)),)
