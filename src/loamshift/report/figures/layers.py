"""The layers of a bed as strips: the pH of each, month by month, with a material and without."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from loamshift.domain.lesson import LayerCourse
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.material import Material
from loamshift.domain.message import Given, Message, Product, depth, message, ph
from loamshift.report.figures.shared import labels_said, short_month
from loamshift.report.messages import say
from loamshift.report.words import Words

SHOWN_MONTHS: Final = (0, 3, 6, 12, 18, 24)
"""Months after the first day whose figures stand in the strips and in the table [count]."""
_LAST_DAYS: Final = 30
_QUARTER: Final = 3


def layers_figure(course: LayerCourse, material: Material, *, words: Words) -> Figure:
    """The strips of a lesson as a figure."""
    shown = shown_days(course)
    return Figure(
        kind=FigureKind.LAYERS,
        title=say(message("lesson-figure-title"), words),
        sentence=say(_sentence(course, material), words),
        data=(
            _cells(course, words, shown),
            DataSet("layers", ("layer", "text"), tuple(enumerate(layer_names(course, words)))),
            _months(course, words),
        ),
        table=layers_table(course, words=words),
        labels=labels_said(
            words,
            **{"with": message("lesson-with", material=Product(material.key))},
            alone=message("lesson-alone"),
        ),
    )


def shown_days(course: LayerCourse) -> tuple[int, ...]:
    """Which of the days of a course stand in figures, by their places."""
    first = course.dates[0]
    months = [
        min(range(len(course.dates)), key=lambda i: abs((course.dates[i] - first).days - days))
        for days in (round(30.44 * month) for month in SHOWN_MONTHS)
    ]
    return tuple(dict.fromkeys(months))


def layer_names(course: LayerCourse, words: Words) -> tuple[str, ...]:
    """The layers as people call them: from the top to a depth, or between two."""
    return tuple(
        say(
            message("lesson-layer-top", to=depth(bottom))
            if not top
            else message("lesson-layer", top=depth(top), to=depth(bottom)),
            words,
        )
        for top, bottom in course.layers
    )


def layers_table(course: LayerCourse, *, words: Words, blank: bool = False) -> Table:
    """The pH of each layer on some days, or the same with room to write.

    Parameters
    ----------
    blank
        True for a table to be filled in.
    """
    days = shown_days(course)
    heads = [Column(say(message("lesson-column-layer"), words))]
    heads += [Column(short_month(course.dates[day], words), Align.RIGHT) for day in days]
    rows = []
    for layer, name in enumerate(layer_names(course, words)):
        values = (words.ph(course.with_ph[day][layer]) for day in days)
        rows.append((name, *("" if blank and n else text for n, text in enumerate(values))))
    return Table(tuple(heads), tuple(rows))


def _cells(course: LayerCourse, words: Words, shown: tuple[int, ...]) -> DataSet:
    """One cell for each layer and month: from when to when, its pH, and its figure where shown."""
    ends = (*course.dates[1:], course.dates[-1] + timedelta(days=_LAST_DAYS))
    rows = [
        (
            kind,
            layer,
            start.isoformat(),
            end.isoformat(),
            round(values[layer], 2),
            words.ph(values[layer]) if day in shown else "",
        )
        for kind, every in (("with", course.with_ph), ("alone", course.alone_ph))
        for day, (start, end, values) in enumerate(zip(course.dates, ends, every, strict=True))
        for layer in range(len(values))
    ]
    return DataSet("cells", ("course", "layer", "start", "end", "ph", "text"), tuple(rows))


def _months(course: LayerCourse, words: Words) -> DataSet:
    first, last = course.dates[0], course.dates[-1]
    rows = [
        (day.isoformat(), short_month(day, words))
        for year in range(first.year, last.year + 1)
        for day in (date(year, month, 1) for month in range(1, 13, _QUARTER))
        if first <= day <= last
    ]
    return DataSet("months", ("date", "text"), tuple(rows))


def _sentence(course: LayerCourse, material: Material) -> Message:
    year = shown_days(course)[SHOWN_MONTHS.index(12)]
    drops = [a - b for a, b in zip(course.with_ph[year], course.alone_ph[year], strict=True)]
    most = max(range(len(drops)), key=lambda layer: abs(drops[layer]))
    top, bottom = course.layers[most]
    return message(
        "lesson-figure-sentence",
        material=Product(material.key),
        top="yes" if not top else "no",
        above=depth(top),
        to=depth(bottom),
        with_it=ph(course.with_ph[year][most]),
        alone=ph(course.alone_ph[year][most]),
        same=Given(str(int(abs(drops[most]) < 0.05))),
    )
