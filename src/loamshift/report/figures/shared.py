"""What several figures share: ends of a sentence, short dates, round steps of a scale."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from datetime import date

from loamshift.domain.answer import Answer, Wanted
from loamshift.domain.case import Case
from loamshift.report.letter_words import counted, raised
from loamshift.report.words import MONTHS, Words

SHORT_MONTHS = tuple(month[:3] for month in MONTHS)
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth")


def short_date(day: date, words: Words) -> str:
    """A date [calendar] to stand at an axis: ``20 Apr 2026`` or ``Apr 20, 2026`` [text]."""
    month = SHORT_MONTHS[day.month - 1]
    if words.spelling == "us":
        return f"{month} {day.day}, {day.year}"
    return f"{day.day} {month} {day.year}"


def day_in_year(day: date, words: Words) -> str:
    """A day of any year [calendar]: ``5 February`` or ``February 5`` [text]."""
    month = MONTHS[day.month - 1]
    return f"{month} {day.day}" if words.spelling == "us" else f"{day.day} {month}"


def part_called(number: int, of: int) -> str:
    """``the first part`` of several, or ``the dose`` where it is one [count; text]."""
    if of == 1:
        return "the dose"
    return f"the {_ORDINALS[number]} part" if number < len(_ORDINALS) else f"part {number + 1}"


def test_days(answer: Answer) -> tuple[date, ...]:
    """The days an answer [object] asks for a test, those that decide about the plan among them."""
    decides = () if answer.plan is None else (line.test for line in answer.plan.decides)
    return tuple(sorted({*answer.retest, *decides}))


def years_said(weeks: int) -> str:
    """A span of weeks [count] as ``three years`` or ``20 weeks`` [text]."""
    years = round(weeks * 7 / 365.25)
    return counted(years, "year") if years >= 1 else counted(weeks, "week")


def wanted_called(answer: Answer, case: Case, words: Words) -> str:
    """Whose range it is: the plants of the aim, or ``the target`` [text]."""
    names = answer.wanted.names if answer.wanted is not None else ()
    if ranges_part(case):
        return "between the two" if len(case.aim.plants) == 2 else "between them"
    return words.text(words.listed(names)) if names else "the target"


def wanted_said(wanted: Wanted, answer: Answer, case: Case, words: Words) -> str:
    """``Heather wants pH 4.5 to 5.5``, without a full stop [text]."""
    ends = f"pH {words.ph(wanted.ph_low)} to {words.ph(wanted.ph_high)}"
    if ranges_part(case):
        names = words.listed([words.text(plant.name) for plant in case.aim.plants])
        return f"What {names} want does not overlap; {ends} lies between"
    if not wanted.names:
        return f"The aim is {ends}"
    verb = "wants" if len(wanted.names) == 1 else "together want"
    return f"{raised(wanted_called(answer, case, words))} {verb} {ends}"


def ranges_part(case: Case) -> bool:
    """True where the plants of the aim want ranges that have nothing in common [truth]."""
    plants = case.aim.plants
    if len(plants) < 2:
        return False
    return max(p.ph_low for p in plants) > min(p.ph_high for p in plants)


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


def short_names(names: Sequence[str]) -> list[str]:
    """Names [text] without the brackets they end in, unless two would then be alike [text]."""
    short = [re.sub(r" \([^()]*\)$", "", name) for name in names]
    return [s if short.count(s) == 1 else name for s, name in zip(short, names, strict=True)]
