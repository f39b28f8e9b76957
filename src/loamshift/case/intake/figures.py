"""Cells as figures and days: decimal commas, thousands, limits, and dates of either order."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum
from typing import Final

from loamshift.case.dates import FIRST_YEAR, LAST_YEAR, date_from_typed

_NUMBER: Final = re.compile(
    r"(?P<limit>[<>≤≥]=?|less than|more than|bld|bdl|nd<)?\s*"
    r"(?P<number>[+\-−]?(?:\d{1,3}(?:[ \u00a0\u202f']\d{3})+|\d+)(?:[.,]\d+)*(?:[eE][+-]?\d+)?"
    r"|[.,]\d+)"
    r"\s*(?P<rest>(?![-–]\s*\d)[^\d<>:/].*)?",
    re.IGNORECASE,
)
_COMMA: Final = re.compile(r"\d,(?:\d{1,2}|\d{4,})(?!\d)")
_THREE: Final = re.compile(r"\d{1,3}(?:,\d{3})+(?!\d)")
NOTHING: Final = frozenset(
    {"", "-", "--", "---", "*", "**", "n/a", "na", "n.a.", "nan", "null", "none", "nd", "n.d.", "."}
    | {"#n/a", "#value!", "#div/0!", "#ref!", "nt", "not tested", "n/t", "nm", "–", "—", "?", "x"}
    | {"see note", "see notes", "siehe anmerkung", "k.a.", "k. a.", "nb", "n.b.", "nr", "ns", "bq"}
)
"""What stands in a cell where nothing was measured."""


class Commas(Enum):
    """What a comma between digits is in a file."""

    DECIMAL = "decimal"
    THOUSANDS = "thousands"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as printed: its value [as printed], a limit sign or none, and the text behind it."""

    value: float
    limit: str = ""
    rest: str = ""


def commas_in(cells: Iterable[str]) -> Commas | None:
    """What commas are in these cells; None where there is none between digits.

    >>> commas_in(["6,8", "7,15"]), commas_in(["1,234"]), commas_in(["1,234.5"])
    (<Commas.DECIMAL: 'decimal'>, <Commas.UNKNOWN: 'unknown'>, <Commas.THOUSANDS: 'thousands'>)
    """
    found: Commas | None = None
    for cell in cells:
        if "," not in cell:
            continue
        if "." in cell and re.fullmatch(r"[\d.,\s]+", cell):
            last = max(cell.rfind(","), cell.rfind("."))
            return Commas.DECIMAL if cell[last] == "," else Commas.THOUSANDS
        if re.fullmatch(r"[<>\s]*[+-]?[\d,\s]+\D*", cell) and _COMMA.search(cell):
            return Commas.DECIMAL
        if _THREE.search(cell):
            found = Commas.UNKNOWN
    return found


def read_figure(cell: str, commas: Commas | None = None) -> Figure | None:
    """A figure with what stands before and behind it; None where a cell holds none.

    >>> read_figure("<0.1"), read_figure("1 234,5", Commas.DECIMAL).value
    (Figure(value=0.1, limit='<', rest=''), 1234.5)

    Parameters
    ----------
    commas
        What a comma is; a decimal sign where nobody knows and it is not a thousand's.
    """
    match = _NUMBER.fullmatch(cell.strip())
    if match is None:
        return None
    text = re.sub(r"[ \u00a0\u202f']", "", match["number"]).replace("−", "-")
    if "," in text:
        if "." in text:
            decimal = "," if text.rfind(",") > text.rfind(".") else "."
            text = text.replace("." if decimal == "," else ",", "").replace(",", ".")
        elif commas is Commas.THOUSANDS and _THREE.fullmatch(text.lstrip("+-")):
            text = text.replace(",", "")
        elif text.count(",") == 1:
            text = text.replace(",", ".")
        else:
            text = text.replace(",", "")
    elif text.count(".") > 1:
        text = text.replace(".", "")
    try:
        value = float(text)
    except ValueError:
        return None
    if not math.isfinite(value) or abs(value) > 1e12:
        return None
    limit = (match["limit"] or "").strip().casefold()
    sign = ">" if limit.startswith((">", "≥", "more")) else "<" if limit else ""
    return Figure(value, sign, (match["rest"] or "").strip())


class Order(Enum):
    """Which of two numbers of a date is the day."""

    DAY_FIRST = "day first"
    MONTH_FIRST = "month first"


_NUMERIC_DATE: Final = re.compile(r"(\d{1,2})[./ -](\d{1,2})[./ -](\d{4}|\d{2})(?:[ T].*)?")
_FIRST_SERIAL, _LAST_SERIAL = 30_000, 60_000
"""Workbooks count days from the end of 1899: 1982 to 2064."""
_SERIAL_ZERO: Final = date(1899, 12, 30)


def order_in(cells: Iterable[str]) -> Order | None:
    """Which number is the day, where one cell shows it; None where none does.

    A date with full stops has its day first wherever they are used (common practice, no source).
    """
    for cell in cells:
        match = _NUMERIC_DATE.fullmatch(cell.strip())
        if match is None:
            continue
        if int(match[1]) > 12 or "." in cell[:6]:
            return Order.DAY_FIRST
        if int(match[2]) > 12:
            return Order.MONTH_FIRST
    return None


def read_day(cell: str, order: Order | None) -> date | None:
    """The day in a cell; None where there is none, or it could be two.

    >>> read_day("12/03/26", Order.DAY_FIRST), read_day("45000", None)
    (datetime.date(2026, 3, 12), datetime.date(2023, 3, 15))
    """
    text = cell.strip()
    try:
        found = date.fromisoformat(text[:10]) if len(text) >= 10 else None
    except ValueError:
        found = None
    if found is None and (match := _NUMERIC_DATE.fullmatch(text)):
        found = _numeric(int(match[1]), int(match[2]), match[3], order)
    elif found is None and re.fullmatch(r"\d{5}(?:\.\d+)?", text):
        days = int(float(text))
        if _FIRST_SERIAL <= days <= _LAST_SERIAL:
            found = _SERIAL_ZERO + timedelta(days=days)
    elif found is None and re.fullmatch(r"\d{8}", text):
        try:
            found = date.fromisoformat(text)
        except ValueError:
            found = None
    elif found is None:
        found = date_from_typed(text)
    return found if found and FIRST_YEAR <= found.year <= LAST_YEAR else None


def is_two_days(cell: str) -> bool:
    """Whether a cell is a date that reads either way."""
    match = _NUMERIC_DATE.fullmatch(cell.strip())
    return match is not None and max(int(match[1]), int(match[2])) <= 12 and match[1] != match[2]


def _numeric(first: int, second: int, year: str, order: Order | None) -> date | None:
    if order is None and first <= 12 and second <= 12 and first != second:
        return None
    day, month = (first, second) if order is Order.DAY_FIRST else (second, first)
    if order is None:
        day, month = (first, second) if first > 12 else (second, first)
    try:
        return date(int(year) + (2000 if len(year) == 2 else 0), month, day)
    except ValueError:
        return None
