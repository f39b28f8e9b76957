"""What was said of the columns of a weather file, in place of what their headings say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from loamshift.case.intake.sheet import Cells
from loamshift.case.quantities import read_depth_cm
from loamshift.case.weather.headings import Column, Meaning, Unit

IGNORE: Final = "ignore"
ORDER: Final = "order"
DAYS_FIRST, MONTHS_FIRST = "day-first", "month-first"
NO_ANSWERS: Final[Mapping[str, str]] = MappingProxyType({})
ASPECTS: Final = ("meaning", "unit", "depth")
_MEANINGS: Final = {one.value: one for one in Meaning}
_UNITS: Final = {one.value: one for one in Unit}


def answer_key(index: int, aspect: str) -> str:
    """What an answer is called: its column, counted from 0, and what of it."""
    return f"{index}: {aspect}"


def days_first_of(said: str) -> bool | None:
    """Whether dates have the day first, as somebody said; None where nobody did."""
    return {DAYS_FIRST: True, MONTHS_FIRST: False}.get(said)


def with_answers(
    columns: Sequence[Column], headings: Cells, answers: Mapping[str, str]
) -> tuple[Column, ...]:
    """Columns as they were said to be; those nobody spoke of as their headings have them.

    Raises
    ------
    Mend
        Where a depth cannot be read.
    """
    by_place = {column.index: column for column in columns}
    for index, heading in enumerate(headings):
        meaning = answers.get(answer_key(index, "meaning"), "")
        if meaning == IGNORE:
            by_place.pop(index, None)
        elif meaning in _MEANINGS and (
            index not in by_place or by_place[index].meaning is not _MEANINGS[meaning]
        ):
            by_place[index] = Column(index=index, heading=heading, meaning=_MEANINGS[meaning])
        if index not in by_place:
            continue
        unit, deep = (answers.get(answer_key(index, aspect), "") for aspect in ("unit", "depth"))
        if unit in _UNITS:
            by_place[index] = replace(by_place[index], unit=_UNITS[unit])
        if deep:
            by_place[index] = replace(by_place[index], depth_cm=read_depth_cm(deep).value)
    return tuple(by_place[index] for index in sorted(by_place))
