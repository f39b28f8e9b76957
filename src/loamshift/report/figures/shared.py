"""What several figures share: whose range it is, short dates, labels, round steps of a scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date

from loamshift.domain.answer import Answer, Wanted
from loamshift.domain.case import Case
from loamshift.domain.message import Given, Listed, Message, Prose, message, ph, plants
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials

HARDLY_PH = 0.15
"""A course that moves less is said to stay where it is [pH]."""


def labels_said(words: Words, **labels: Message | None) -> tuple[tuple[str, str], ...]:
    """The words in a drawing by their keys, with what opens its table; None is empty."""
    every = {**labels, "table": message("figure-table")}
    return tuple((key, "" if what is None else say(what, words)) for key, what in every.items())


def short_date(day: date, words: Words) -> str:
    """A date to stand at an axis: ``20 Apr 2026`` or ``Apr 20, 2026``."""
    month = Given(words.month(day.month, short=True))
    said = message(
        "figure-short-date", day=Given(str(day.day)), month=month, year=Given(str(day.year))
    )
    return say(said, words)


def short_month(day: date, words: Words) -> str:
    """The month of a date to stand at an axis: ``Apr 2026``."""
    month = Given(words.month(day.month, short=True))
    return say(message("figure-short-month", month=month, year=Given(str(day.year))), words)


def alone_label(case: Case) -> Message:
    """The bed without the plan, as a label."""
    return message("figure-alone", applied="yes" if case.applied else "no")


def test_days(answer: Answer) -> tuple[date, ...]:
    """The days an answer asks for a test, those that decide about the plan among them."""
    decides = () if answer.plan is None else (line.test for line in answer.plan.decides)
    return tuple(sorted({*answer.retest, *decides}))


def wanted_label(answer: Answer, case: Case) -> Message:
    """Whose range it is, as a label: the plants of the aim, or the target."""
    return message("figure-wanted", whose=_whose(answer, case), plants=_plants(answer, case))


def wanted_range_label(wanted: Wanted, answer: Answer, case: Case) -> Message:
    """The same with the two ends of the range, so that it is told without its colour."""
    return message(
        "figure-wanted-range",
        whose=_whose(answer, case),
        plants=_plants(answer, case),
        range=ph(wanted.ph_low, high=wanted.ph_high),
    )


def wanted_in_text(wanted: Wanted, answer: Answer, case: Case) -> Message:
    """The range to stand in a sentence: ``the range for heather, pH 4.5 to 5.5``."""
    span, names = ph(wanted.ph_low, high=wanted.ph_high), _plants(answer, case)
    if ranges_part(case):
        return message("figure-range-apart", plants=names, range=span)
    return message("verdict-range", plants=names, range=span)


def _whose(answer: Answer, case: Case) -> str:
    if ranges_part(case):
        return "apart"
    return "target" if _plants(answer, case) is None else "plants"


def _plants(answer: Answer, case: Case) -> Listed | None:
    if ranges_part(case):
        return plants([plant.name for plant in case.aim.plants])
    names = answer.wanted.names if answer.wanted is not None else ()
    return plants(names) if names else None


def ranges_part(case: Case) -> bool:
    """True where the plants of the aim want ranges that have nothing in common."""
    wanted = case.aim.plants
    if len(wanted) < 2:
        return False
    return max(p.ph_low for p in wanted) > min(p.ph_high for p in wanted)


def turn(start: float, end: float) -> str:
    """Which way a course goes from one pH to another [pH]: rise, fall or none."""
    if abs(end - start) < HARDLY_PH:
        return "none"
    return "rise" if end > start else "fall"


def course_moves(alone: str | None, start: float, end: float, day: date) -> Message:
    """How far the best estimate of a course moves by a day.

    Parameters
    ----------
    alone
        ``as-it-is``, ``untreated`` or ``added``; None with the plan.
    start, end
        Best estimates at both ends [pH].
    """
    return message(
        "figure-course-first",
        alone=alone,
        turn=turn(start, end),
        start=ph(start),
        end=ph(end),
        day=day,
    )


def round_steps(top: float, *, most: int) -> tuple[float, ...]:
    """Round values from 0 to at most ``top``, no more than ``most`` steps apart.

    Parameters
    ----------
    top
        The largest value to show, above 0 [any unit].
    most
        How many steps there may be, 1 or more [count].

    Returns
    -------
    tuple of float
        0, a step, two steps … each 1, 2 or 5 of some power of ten [the unit of ``top``].
    """
    power = 10.0 ** math.floor(math.log10(top / most))
    step = next(s * power for s in (1.0, 2.0, 5.0, 10.0) if s * power * most >= top * (1 - 1e-9))
    return tuple(step * n for n in range(int(top / step + 1e-9) + 1))


def product_names(keys: Sequence[str], words: Words) -> list[Given]:
    """Products by their keys as they stand in a sentence; two that would be alike in full.

    The letter's tables call them the same.
    """
    names = [words.product(key) for key in keys]
    return [
        Given(name if names.count(name) == 1 or key == name else _in_full(key, name, words))
        for key, name in zip(keys, names, strict=True)
    ]


def _in_full(key: str, name: str, words: Words) -> str:
    material = load_materials().get(key)
    if material is None:
        return name
    _, opened, more = words.material_name(material).partition(" (")
    return f"{name}{opened}{more}"


def prose_said(told: Sequence[Message | None], words: Words) -> str:
    """Sentences after one another; None is passed over."""
    return say(Prose(tuple(one for one in told if one is not None)), words)
