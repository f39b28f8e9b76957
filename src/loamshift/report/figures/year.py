"""The year strip: soil temperature, applications and tests from today on."""

from __future__ import annotations

import math
from datetime import date
from typing import Final

from loamshift.domain.answer import Answer, SoilTemperature
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Given, Measure, Message, depth, message, temperature
from loamshift.report.figures.course import part_rows
from loamshift.report.figures.shared import labels_said, prose_said, test_days
from loamshift.report.letter_head import as_ruled_cm
from loamshift.report.messages import say
from loamshift.report.words import Words

_WEEKS: Final = 52
_SAME_C: Final = 0.25


def year_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The year ahead as a strip.

    Returns
    -------
    Figure or None
        Nothing without a place, or where nothing is to be done within the year.
    """
    warmth = answer.soil_temperature
    if warmth is None or len(warmth.dates) < 2:
        return None
    first, last = answer.today, warmth.dates[-1]
    parts = [(date.fromisoformat(day), sure) for day, sure in part_rows(answer, first, last)]
    tests = [day for day in test_days(answer) if day <= last]
    if not parts and not tests:
        return None
    return Figure(
        kind=FigureKind.YEAR,
        title=say(message("figure-year-title"), words),
        sentence=prose_said(_sentences(answer, warmth, parts, tests, words), words),
        data=(
            _warmth(warmth, words),
            _marks(answer, parts, tests, words),
            _months(warmth, words),
        ),
        table=_table(warmth, words),
        labels=labels_said(words),
    )


def _warmth(warmth: SoilTemperature, words: Words) -> DataSet:
    rows = tuple(
        (day.isoformat(), round(temp, 1), words.temperature(round(temp, 1) + 0.0))
        for day, temp in zip(warmth.dates, warmth.c, strict=True)
    )
    return DataSet("warmth", ("date", "soil_c", "text"), rows)


def _marks(
    answer: Answer, parts: list[tuple[date, str]], tests: list[date], words: Words
) -> DataSet:
    names = {"sure": message("figure-application"), "perhaps": message("figure-perhaps")}
    marks = [("today", answer.today, message("figure-today"))]
    marks += [("part", day, names[sure]) for day, sure in parts]
    marks += [("test", day, message("figure-test")) for day in tests]
    rows = tuple((kind, day.isoformat(), say(name, words)) for kind, day, name in marks)
    return DataSet("marks", ("kind", "date", "text"), rows)


def _months(warmth: SoilTemperature, words: Words) -> DataSet:
    first, last = warmth.dates[0], warmth.dates[-1]
    rows = []
    for year in (first.year, first.year + 1):
        for month in range(1, 13):
            day = date(year, month, 1)
            if first <= day <= last:
                rows.append((day.isoformat(), words.month(month, short=True)))
    return DataSet("months", ("date", "text"), tuple(rows))


def _table(warmth: SoilTemperature, words: Words) -> Table:
    rows = tuple(
        (words.date(day), words.temperature(temp))
        for day, temp in list(zip(warmth.dates, warmth.c, strict=True))[::4]
    )
    columns = (
        Column(say(message("expect-on"), words)),
        Column(say(message("figure-year-column-soil"), words), Align.RIGHT),
    )
    deep = depth(as_ruled_cm(warmth.depth_cm))
    return Table(columns, rows, say(message("figure-year-caption", depth=deep), words))


def _sentences(
    answer: Answer,
    warmth: SoilTemperature,
    parts: list[tuple[date, str]],
    tests: list[date],
    words: Words,
) -> list[Message]:
    cold, warm = min(warmth.c), max(warmth.c)
    told = [
        message(
            "figure-year-soil",
            depth=depth(as_ruled_cm(warmth.depth_cm)),
            **{
                "cold-day": Given(words.day(_about(warmth, cold))),
                "warm-day": Given(words.day(_about(warmth, warm))),
            },
            cold=temperature(cold),
            warm=temperature(warm),
        )
    ]
    every = part_rows(answer, answer.today, date.max)
    for number, (day, sure) in enumerate(parts):
        temp = _temp_on(warmth, day)
        if sure == "sure":
            which = "next" if number else "first" if len(every) > 1 else "only"
            told.append(message("figure-year-application", which=which, day=day, temp=temp))
        else:
            told.append(message("figure-year-perhaps", day=day, temp=temp))
    later = len(every) - len(parts)
    if later > 0:
        told.append(message("figure-year-later", n=later))
    if tests:
        told.append(message("figure-year-test", day=tests[0]))
    return told


def _about(warmth: SoilTemperature, temp: float) -> date:
    """The middle of the weeks that are as cold or as warm as this, round the turn of the year."""
    close = [week for week, c in enumerate(warmth.c[:_WEEKS]) if abs(c - temp) <= _SAME_C]
    turns = [2.0 * math.pi * week / _WEEKS for week in close]
    middle = math.atan2(sum(map(math.sin, turns)), sum(map(math.cos, turns)))
    return warmth.dates[round(middle / (2.0 * math.pi) * _WEEKS) % _WEEKS]


def _temp_on(warmth: SoilTemperature, day: date) -> Measure:
    nearest = min(range(len(warmth.dates)), key=lambda week: abs(warmth.dates[week] - day))
    return temperature(warmth.c[nearest])
