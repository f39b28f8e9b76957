"""Products that would bring the same acid or lime, by speed and, where known, by cost."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Answer, Option
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Given, Listed, Message, message
from loamshift.report.bed_names import whole_bed
from loamshift.report.figures.shared import labels_said, product_names, prose_said
from loamshift.report.letter_options import MOST_OPTIONS, half_said, half_time
from loamshift.report.messages import say
from loamshift.report.words import Words

_LEAST_OPTIONS: Final = 2
_LEAST_WEEKS, _MOST_WEEKS = 0.25, 156.0
_SCALE: Final = (
    (0.25, message("figure-options-scale-days")),
    (1.0, message("figure-options-scale-week")),
    (4.345, message("figure-options-scale-month")),
    (13.0, message("figure-options-scale-quarter")),
    (52.0, message("figure-options-scale-year")),
    (156.0, message("figure-options-scale-years")),
)
_DAYS_WEEKS: Final = 1.0
"""What takes less is said to take days [weeks]."""


def options_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The options, the fastest first.

    Returns
    -------
    Figure or None
        Nothing for fewer than two options, or where no time is known.
    """
    options = sorted(answer.options[:MOST_OPTIONS], key=_weeks)
    if len(options) < _LEAST_OPTIONS or all(o.weeks_to_half is None for o in options):
        return None
    names = product_names([option.material for option in options], words)
    rows = tuple(
        (
            say(message("front-apply", product=name), words),
            round(min(max(_weeks(option), _LEAST_WEEKS), _MOST_WEEKS), 3),
            "known" if option.weeks_to_half is not None else "longer",
            half_said(option.weeks_to_half, words),
            _cost(option, words),
        )
        for name, option in zip(names, options, strict=True)
    )
    columns = [
        Column(say(message("options-column-product"), words)),
        Column(say(message("options-column-half"), words), Align.RIGHT),
    ]
    whole = message("bed-for-whole", whole=whole_bed(case))
    if any(row[4] for row in rows):
        head = message("options-column-cost", currency=None)
        columns.append(Column(say(head, words), Align.RIGHT))
    scale = tuple((weeks, say(said, words)) for weeks, said in _SCALE)
    return Figure(
        kind=FigureKind.OPTIONS,
        title=say(message("figure-options-title"), words),
        sentence=prose_said(_sentences(options, names, case, words), words),
        data=(
            DataSet("ways", ("name", "weeks", "known", "said", "cost"), rows),
            DataSet("scale", ("weeks", "text"), scale),
        ),
        table=Table(
            tuple(columns),
            tuple((row[0], row[3], row[4])[: len(columns)] for row in rows),
        ),
        labels=labels_said(words, axis=message("figure-options-axis"), cost=whole),
    )


def _weeks(option: Option) -> float:
    return 1e9 if option.weeks_to_half is None else option.weeks_to_half


def _cost(option: Option, words: Words) -> str:
    return "" if option.cost is None else words.money(option.cost, option.currency)


def _sentences(
    options: list[Option], names: list[Given], case: Case, words: Words
) -> list[Message]:
    times = [half_said(option.weeks_to_half, words) for option in options]
    first, last = options[0].weeks_to_half, options[-1].weeks_to_half
    pace = "days" if first is not None and first < _DAYS_WEEKS else "later"

    def alike(said: str) -> Listed:
        return Listed(tuple(name for name, time in zip(names, times, strict=True) if time == said))

    if len(set(times)) == 1:
        n = len(options)
        told = [message("figure-options-alike", n=n, pace=pace, time=half_time(first))]
    else:
        told = [
            message(
                "figure-options-fastest",
                n=len(options),
                products=alike(times[0]),
                pace=pace,
                time=half_time(first),
            ),
            message("figure-options-slowest", products=alike(times[-1]), time=half_time(last)),
        ]
    price = _price(options, names, case, words)
    return told if price is None else [*told, price]


def _price(options: list[Option], names: list[Given], case: Case, words: Words) -> Message | None:
    priced = [
        (option, name)
        for option, name in zip(options, names, strict=True)
        if option.cost is not None
    ]
    if not priced:
        return None
    cheapest, name = min(priced, key=lambda pair: pair[0].cost or 0.0)
    key = "figure-options-one-price" if len(priced) == 1 else "figure-options-cheapest"
    return message(key, product=name, cost=Given(_cost(cheapest, words)), whole=whole_bed(case))
