"""Figures and days as weather files write them: marks for missing, trace, orders of a date."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from itertools import pairwise
from typing import Final

from loamshift.case.dates import FIRST_YEAR, LAST_YEAR, date_from_typed

MISSING_MARKS: Final = frozenset(
    {"", "na", "n/a", "nan", "-", "--", "---", "null", "none", "m", "missing", "*", "#n/a", "x"}
)
MISSING_FIGURES: Final = frozenset(
    {-99.0, -99.9, -99.99, -999.0, -999.9, -9999.0, -9999.9, -6999.0, -7999.0, -32768.0,
     999.9, 9999.0, 9999.9, 99999.0}
)  # fmt: skip
TRACES: Final = frozenset({"t", "tr", "trace", "spur", "<0.1", "<0,1", "< 0.1"})

_FIGURE: Final = re.compile(r"[-+−]?(\d+([.,]\d*)?|[.,]\d+)([eE][-+]?\d+)?")
_COMPACT: Final = re.compile(r"(\d{4})(\d{2})(\d{2})(?:[ T:]?(\d{2})(?::?\d{2})*)?")
_YEAR_FIRST: Final = re.compile(r"(\d{4})[-./](\d{1,2})[-./](\d{1,2})(?:[T ,]+(.*))?")
_YEAR_LAST: Final = re.compile(r"(\d{1,2})[-./](\d{1,2})[-./](\d{4}|\d{2})(?:[T ,]+(.*))?")
_CENTURY_TURN: Final = 70


def figure_of(cell: str) -> float | None:
    """The figure in a cell, comma or point; None for text.

    >>> figure_of("-3,5"), figure_of("12.25*"), figure_of("warm")
    (-3.5, 12.25, None)
    """
    text = cell.strip().rstrip("*").strip()
    if not _FIGURE.fullmatch(text):
        return None
    value = float(text.replace("−", "-").replace(",", "."))
    return value if abs(value) < 1e9 else None


def is_missing(cell: str) -> bool:
    """Whether a cell is left empty or holds a word for it."""
    return cell.strip().casefold() in MISSING_MARKS


def day_first(cells: Sequence[str]) -> bool | None:
    """Whether days written 3/4/2025 have the day first; None where nothing tells.

    A number above 12 tells, or else that the days of a file follow one another.
    """
    pairs = []
    for cell in cells:
        if found := _YEAR_LAST.fullmatch(cell.strip()):
            first, second, year = (int(part) for part in found.groups()[:3])
            if first > 12 or second > 12:
                return first > 12
            pairs.append((first, second, _full_year(year)))
    if not pairs:
        return True
    steps = []
    for day, month in ((0, 1), (1, 0)):
        ordinals = [date(pair[2], pair[month], pair[day]).toordinal() for pair in pairs]
        steps.append(sum(abs(b - a) for a, b in pairwise(ordinals)))
    return None if steps[0] == steps[1] else steps[0] < steps[1]


def day_of(cell: str, *, days_first: bool) -> tuple[date, str] | None:
    """The day a cell names and what follows it, such as the hour; None where it is no day."""
    text = cell.strip()
    if found := _COMPACT.fullmatch(text) or _YEAR_FIRST.fullmatch(text):
        year, month, day, rest = int(found[1]), int(found[2]), int(found[3]), found[4] or ""
    elif found := _YEAR_LAST.fullmatch(text):
        first, second = int(found[1]), int(found[2])
        day, month = (first, second) if days_first else (second, first)
        year, rest = _full_year(int(found[3])), found[4] or ""
    else:
        named = date_from_typed(text.partition(":")[0].rpartition(" ")[0] if ":" in text else text)
        return None if named is None else (named, "")
    return built_day(year, month, day, rest)


def built_day(year: int, month: int, day: int, rest: str = "") -> tuple[date, str] | None:
    """A day by its parts; None where there is none, or out of all bounds."""
    try:
        found = date(year, month, day)
    except ValueError:
        return None
    return (found, rest) if FIRST_YEAR - 100 <= year <= LAST_YEAR else None


def _full_year(year: int) -> int:
    if year >= 100:
        return year
    return year + (1900 if year >= _CENTURY_TURN else 2000)
