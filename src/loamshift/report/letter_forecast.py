"""What to expect: the forecast in a few sentences and a few dates."""

from __future__ import annotations

from loamshift.domain.answer import WIDTH_CHECK, Answer, Direction, Forecast, WidthShare
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Paragraph, Section, Table
from loamshift.domain.message import Message, Prose, message, ph
from loamshift.report.figures.course import reached
from loamshift.report.look_first import lime_around
from loamshift.report.messages import say
from loamshift.report.words import Words

_WEEKS = (13, 26, 52, 104, 156, 260, 520, 1040, 2600)
"""Weeks from today that the table shows, as far as the forecast reaches."""
_YEAR = 52
_MOST_CAUSES = 4
_NAMED_SHARE = 0.05
"""A cause of less than this share of the width has no row of its own."""
_REST_SHARE = 0.01
_LIMY_PH = 7.5
"""Ground that reads so high already holds free lime, which more lime does not raise [pH]."""


def what_to_expect(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The course of the pH as a careful test would read it, and when it comes into its range."""
    forecast = answer.forecast
    if forecast is None or not forecast.dates:
        return None
    said = "yes" if case.applied else "no"
    acts = answer.dose.direction if answer.applications else Direction.NONE
    closing = [
        lime_around(case) if forecast.do_nothing.q50[0] < _LIMY_PH else None,
        _narrows(answer),
        message("expect-honest", direction=acts.value),
    ]
    told: list[Message] = _year(answer, forecast, said)
    comes = reached(answer, case, forecast) if answer.applications else None
    told += [] if comes is None else [comes]
    blocks: list[Block] = [
        Paragraph(" ".join(say(one, words) for one in told)),
        _course(answer, forecast, said, words),
        *_width(answer, forecast, words),
        Paragraph(" ".join(say(one, words) for one in closing if one is not None)),
    ]
    return Section(say(message("expect-heading"), words), tuple(blocks))


def _year(answer: Answer, forecast: Forecast, applied: str) -> list[Message]:
    week = min(_YEAR, len(forecast.dates) - 1)
    low, mid, high = (
        ph(course[week]) for course in (forecast.ph.q05, forecast.ph.q50, forecast.ph.q95)
    )
    day = forecast.dates[week]
    if not answer.applications:
        return [message("expect-untreated-year", day=day, mid=mid, low=low, high=high)]
    several = len(answer.applications) > 1
    tests = answer.plan is not None and bool(answer.plan.decides)
    follows = "tests" if tests else "several" if several else "one"
    told = [
        message("expect-year", follows=follows, day=day, mid=mid),
        message("expect-year-range", low=low, high=high),
        message("expect-alone", applied=applied, ph=ph(forecast.do_nothing.q50[week])),
    ]
    if several and not tests:
        told.append(message("expect-tests-stop"))
    return told


def _course(answer: Answer, forecast: Forecast, applied: str, words: Words) -> Table:
    planned = bool(answer.applications)
    heads = [message(key) for key in ("expect-on", "expect-best", "expect-90-tests")]
    heads += [message("figure-alone", applied=applied)] if planned else []
    columns = [
        Column(say(head, words), Align.LEFT if place == 0 else Align.RIGHT)
        for place, head in enumerate(heads)
    ]
    rows = []
    last = len(forecast.dates) - 1
    weeks = [week for week in _WEEKS if week < last - 8] + [last]
    for week in weeks:
        spread = words.measure(ph(forecast.ph.q05[week], high=forecast.ph.q95[week]))
        row = [words.date(forecast.dates[week]), words.ph(forecast.ph.q50[week]), spread]
        if planned:
            row.append(words.ph(forecast.do_nothing.q50[week]))
        rows.append(tuple(row))
    return Table(tuple(columns), tuple(rows))


def width_causes(answer: Answer) -> tuple[WidthShare, ...]:
    """The causes of the width of a forecast that have a row of their own.

    None where there is only one: a table of one row says less than the sentence among the checks.
    """
    width = answer.forecast.width if answer.forecast is not None else ()
    named = tuple(one for one in width if one.share >= _NAMED_SHARE)[:_MOST_CAUSES]
    return named if len(named) > 1 else ()


def _narrows(answer: Answer) -> Message | None:
    """What would narrow the forecast most, where the table has said the causes already."""
    told = next((one.comment for one in answer.findings if one.check == WIDTH_CHECK), None)
    if not isinstance(told, Prose) or not width_causes(answer):
        return None
    return next((one for one in told.sentences if one.key == "expect-narrows"), None)


def _width(answer: Answer, forecast: Forecast, words: Words) -> tuple[Table, ...]:
    """What the width comes from: the largest causes, and the rest in one row."""
    named = width_causes(answer)
    if not named:
        return ()
    rows = [(say(one.cause, words), words.percent(one.share)) for one in named]
    rest = sum(one.share for one in forecast.width) - sum(one.share for one in named)
    if rest >= _REST_SHARE:
        rows.append((say(message("expect-everything-else"), words), words.percent(rest)))
    columns = (
        Column(say(message("expect-wide"), words)),
        Column(say(message("expect-share"), words), Align.RIGHT),
    )
    return (Table(columns, tuple(rows)),)
