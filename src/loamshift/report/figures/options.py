"""Ways to bring the same acid or lime, by speed and, where prices are known, by cost."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Direction, Option
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.figures.shared import short_names
from loamshift.report.letter_options import MOST_OPTIONS, OVER_THREE_YEARS, half_said
from loamshift.report.letter_words import (
    material_called,
    material_in_text,
    raised,
    sentences,
    whole,
)
from loamshift.report.words import Words

_LEAST_OPTIONS = 2
_LEAST_WEEKS, _MOST_WEEKS = 0.25, 156.0
_SCALE = (
    (0.25, "days"),
    (1.0, "a week"),
    (4.345, "a month"),
    (13.0, "3 months"),
    (52.0, "a year"),
    (156.0, "3 years"),
)


def options_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The options, the fastest first.

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
        Nothing for fewer than two options, or where no time is known [object].
    """
    options = sorted(answer.options[:MOST_OPTIONS], key=_weeks)
    if len(options) < _LEAST_OPTIONS or all(o.weeks_to_half is None for o in options):
        return None
    names = short_names([material_called(option.material, words) for option in options])
    rows = tuple(
        (
            name,
            round(min(max(_weeks(option), _LEAST_WEEKS), _MOST_WEEKS), 3),
            "known" if option.weeks_to_half is not None else "longer",
            _time(option, words),
            _cost(option, words),
        )
        for name, option in zip(names, options, strict=True)
    )
    columns = [Column("material"), Column("half works in", Align.RIGHT)]
    priced = any(row[4] for row in rows)
    if priced:
        columns.append(Column(f"cost for {whole(case)}", Align.RIGHT))
    return Figure(
        kind=FigureKind.OPTIONS,
        title="How soon each would work",
        sentence=words.text(_sentence(options, answer, case, words)),
        data=(
            DataSet("ways", ("name", "weeks", "known", "said", "cost"), rows),
            DataSet("scale", ("weeks", "text"), _SCALE),
        ),
        table=Table(
            tuple(columns),
            tuple((row[0], row[3], row[4])[: len(columns)] for row in rows),
        ),
        labels=(("axis", "until half of it has worked"), ("cost", f"for {whole(case)}")),
    )


def _weeks(option: Option) -> float:
    return 1e9 if option.weeks_to_half is None else option.weeks_to_half


def _time(option: Option, words: Words) -> str:
    return half_said(option.weeks_to_half, words) or OVER_THREE_YEARS


def _cost(option: Option, words: Words) -> str:
    return "" if option.cost is None else words.money(option.cost, option.currency)


def _sentence(options: list[Option], answer: Answer, case: Case, words: Words) -> str:
    what = "lime" if answer.dose.direction is Direction.LIME else "acid"
    fast = [option for option in options if _time(option, words) == _time(options[0], words)]
    slow = [option for option in options if _time(option, words) == _time(options[-1], words)]
    if len(fast) == len(options):
        lead = f"All {len(options)} ways to bring the same {what} work equally fast."
    else:
        lead = (
            f"Of {len(options)} ways to bring the same {what}, half of "
            f"{_named(fast, words)} has worked {_within(fast[0], words)}, and half of "
            f"{_named(slow, words)} {'only ' if slow[0].weeks_to_half is None else ''}"
            f"{_within(slow[0], words)}."
        )
    priced = [option for option in options if option.cost is not None]
    if not priced:
        return lead
    cheapest = min(priced, key=lambda option: option.cost or 0.0)
    name = raised(short_names([material_in_text(cheapest.material, words)])[0])
    if len(priced) == 1:
        return sentences(
            lead,
            f"{name} would cost {_cost(cheapest, words)} for {whole(case)}; no other price is "
            "known.",
        )
    return sentences(lead, f"{name} is the cheapest, {_cost(cheapest, words)} for {whole(case)}.")


def _named(options: list[Option], words: Words) -> str:
    return words.listed(short_names([material_in_text(o.material, words) for o in options]))


def _within(option: Option, words: Words) -> str:
    weeks = option.weeks_to_half
    if weeks is None:
        return "after more than 3 years"
    said = half_said(weeks, words)
    return f"within {said}" if said == "days" else f"in {said}"
