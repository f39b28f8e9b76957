"""The year strip: soil temperature, parts and tests from today on."""

from __future__ import annotations

import math
from datetime import date

from loamshift.domain.answer import Answer, SoilTemperature
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.figures.shared import SHORT_MONTHS, day_in_year, part_called, test_days
from loamshift.report.letter_words import counted, raised, sentences
from loamshift.report.words import Words

_ORDINALS = ("1st", "2nd", "3rd")
_WEEKS = 52
_SAME_C = 0.25


def year_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The year ahead as a strip.

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
        Nothing without a place, or where nothing is to be done within the year [object].
    """
    warmth = answer.soil_temperature
    if warmth is None or len(warmth.dates) < 2:
        return None
    parts = [part.date for part in answer.applications if part.date <= warmth.dates[-1]]
    tests = [day for day in test_days(answer) if day <= warmth.dates[-1]]
    if not parts and not tests:
        return None
    labels = (("today", "today"), ("part", "part"), ("test", "test"))
    return Figure(
        kind=FigureKind.YEAR,
        title="The year ahead",
        sentence=words.text(_sentence(answer, warmth, parts, tests, words)),
        data=(
            _warmth(warmth, words),
            _marks(answer, parts, tests, words),
            _months(warmth),
        ),
        table=_table(warmth, words),
        labels=tuple((key, words.text(text)) for key, text in labels),
    )


def _warmth(warmth: SoilTemperature, words: Words) -> DataSet:
    rows = tuple(
        (
            day.isoformat(),
            round(temp, 1),
            words.temperature(round(temp, 1) + 0.0),
            f"{words.date(day)}: {words.temperature(temp)}",
        )
        for day, temp in zip(warmth.dates, warmth.c, strict=True)
    )
    return DataSet("warmth", ("date", "soil_c", "text", "said"), rows)


def _marks(answer: Answer, parts: list[date], tests: list[date], words: Words) -> DataSet:
    rows = [("today", answer.today.isoformat(), "today")]
    alone = len(answer.applications) == 1
    for number, day in enumerate(parts):
        ordinal = _ORDINALS[number] if number < len(_ORDINALS) else f"{number + 1}th"
        rows.append(("part", day.isoformat(), "dose" if alone else f"{ordinal} part"))
    rows += [("test", day.isoformat(), "test again") for day in tests]
    texts = tuple((kind, day, words.text(text)) for kind, day, text in rows)
    return DataSet("marks", ("kind", "date", "text"), texts)


def _months(warmth: SoilTemperature) -> DataSet:
    first, last = warmth.dates[0], warmth.dates[-1]
    rows = []
    for year in (first.year, first.year + 1):
        for month in range(1, 13):
            day = date(year, month, 1)
            if first <= day <= last:
                rows.append((day.isoformat(), SHORT_MONTHS[month - 1]))
    return DataSet("months", ("date", "text"), tuple(rows))


def _table(warmth: SoilTemperature, words: Words) -> Table:
    rows = tuple(
        (words.date(day), words.temperature(temp))
        for day, temp in list(zip(warmth.dates, warmth.c, strict=True))[::4]
    )
    return Table(
        (Column("on"), Column("soil", Align.RIGHT)),
        rows,
        f"Soil temperature of an average year at {words.depth(warmth.depth_cm)}",
    )


def _sentence(
    answer: Answer,
    warmth: SoilTemperature,
    parts: list[date],
    tests: list[date],
    words: Words,
) -> str:
    depth = warmth.depth_cm if words.units == "us" else round(warmth.depth_cm)
    cold, warm = min(warmth.c), max(warmth.c)
    lead = (
        f"At {words.depth(depth)} the soil is coldest about "
        f"{day_in_year(_about(warmth, cold), words)}, near {words.temperature(cold)}, and warmest "
        f"about {day_in_year(_about(warmth, warm), words)}, near {words.temperature(warm)}."
    )
    of = len(answer.applications)
    dated = [
        f"{part_called(number, of)} {'is due ' if not number else ''}on {words.date(day)}, "
        f"{'with the soil ' if not number else ''}at {_temp_on(warmth, day, words)}"
        for number, day in enumerate(parts)
    ]
    put = f"{raised('; '.join(dated))}." if dated else ""
    later = of - len(parts)
    more = f"{raised(counted(later, 'more part'))} may follow later." if later else ""
    test = f"The next test is due on {words.date(tests[0])}." if tests else ""
    return sentences(lead, put, more, test)


def _about(warmth: SoilTemperature, temp: float) -> date:
    """The middle of the weeks that are as cold or as warm as this, round the turn of the year."""
    close = [week for week, c in enumerate(warmth.c[:_WEEKS]) if abs(c - temp) <= _SAME_C]
    turns = [2.0 * math.pi * week / _WEEKS for week in close]
    middle = math.atan2(sum(map(math.sin, turns)), sum(map(math.cos, turns)))
    return warmth.dates[round(middle / (2.0 * math.pi) * _WEEKS) % _WEEKS]


def _temp_on(warmth: SoilTemperature, day: date, words: Words) -> str:
    nearest = min(range(len(warmth.dates)), key=lambda week: abs(warmth.dates[week] - day))
    return words.temperature(warmth.c[nearest])
