"""What an address of the lesson asks: each choice, and the case that they make."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache, partial
from typing import Final

from loamshift.domain.lesson import Lesson
from loamshift.domain.message import Message, message
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.lesson import lesson_of
from loamshift.web.cases import case_of, key_of, with_fields
from loamshift.web.forecasts import FORECASTS, SEED

LONGEST: Final = 100
LISTS: Final[Mapping[str, tuple[str, Mapping[str, str]]]] = {
    "organic": (
        "soil.organic_matter_pct",
        {"low": "1.5", "usual": "3.5", "high": "8"},
    ),
    "lime": (
        "soil.carbonate_pct",
        {"none": "0", "trace": "0.3", "some": "2", "much": "10"},
    ),
    "water": (
        "water.alkalinity",
        {"rain": "0", "soft": "30", "medium": "120", "hard": "280"},
    ),
}
"""What is chosen from a list: the key of a case, and the value behind each word."""
USUAL: Final = {
    "texture": "loam",
    "ph": "6.8",
    "organic": "usual",
    "lime": "none",
    "water": "rain",
    "amount": "80 g/m2",
    "month": "4",
    "place": "Minneapolis",
}
"""What stands in the form before anybody chose."""
TYPED: Final = {
    "texture": "soil.texture",
    "ph": "soil.ph",
    "place": "place.name",
    "material": "claim.0.material",
    "amount": "claim.0.amount",
}
"""What is typed or chosen by its own name: the key of a case."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One line of a list: its value, what it is called, whether it is chosen."""

    value: str
    called: Message
    chosen: bool


def asked(get: Mapping[str, str], words: Words) -> dict[str, str]:
    """Every choice of an address; the usual one where it says nothing, or nothing listed."""
    every = {**USUAL, "material": say(message("lesson-usual-material"), words)}
    said = {key: get.get(key, "").strip()[:LONGEST] or usual for key, usual in every.items()}
    for name, (_key, values) in LISTS.items():
        if said[name] not in values:
            said[name] = USUAL[name]
    if said["month"] not in {str(month) for month in range(1, 13)}:
        said["month"] = USUAL["month"]
    return said


def choices(said: Mapping[str, str], name: str) -> list[Choice]:
    """The lines of one list."""
    return [
        Choice(value, message(f"lesson-{name}-{value}"), value == said[name])
        for value in LISTS[name][1]
    ]


def lesson_asked(said: Mapping[str, str], *, today: date) -> Lesson:
    """The lesson that some choices ask for, kept while the process lives.

    Raises
    ------
    CaseError
        With every fault, where a pH, an amount, a place or a material cannot be used.
    """
    fields = [("soil.ph_method", "water 1:1"), *((key, said[name]) for name, key in TYPED.items())]
    fields += [(key, values[said[name]]) for name, (key, values) in LISTS.items()]
    month = int(said["month"])
    year = today.year + (month < today.month)
    return _lesson(key_of(with_fields({}, fields)), date(year, month, 1))


@lru_cache(maxsize=64)
def _lesson(key: str, day: date) -> Lesson:
    case = case_of(json.loads(key), today=day)
    return FORECASTS.take(partial(lesson_of, case, seed=SEED))
