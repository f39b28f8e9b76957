"""Dates as people type them: what is not year-month-day, and how it is written so."""

from __future__ import annotations

import re
from datetime import date
from typing import Final

from loamshift.case.mend import Mend, quoted
from loamshift.domain.message import Given, Message, message

FIRST_YEAR: Final = 1900
LAST_YEAR: Final = 2200
_EXAMPLE: Final = "2026-04-12"
_MONTHS: Final = (
    "jan",
    "feb",
    "mar",
    "apr",
    "may",
    "jun",
    "jul",
    "aug",
    "sep",
    "oct",
    "nov",
    "dec",
)
_YEAR_FIRST: Final = re.compile(r"(\d{4})[./ -](\d{1,2})[./ -](\d{1,2})")
_YEAR_LAST: Final = re.compile(r"(\d{1,2})[./ -](\d{1,2})[./ -](\d{4})")
_DAY_NAMED: Final = re.compile(
    r"(\d{1,2})(?:st|nd|rd|th)?[. -]*([a-z]{3})[a-z]*[., -]+(\d{4})", re.I
)
_MONTH_NAMED: Final = re.compile(
    r"([a-z]{3})[a-z]*[. -]*(\d{1,2})(?:st|nd|rd|th)?[, ]+(\d{4})", re.I
)


def date_from_typed(text: str) -> date | None:
    """The day a text means that is no year-month-day; None where it could be two, or none.

    >>> date_from_typed("20.03.2026"), date_from_typed("March 20, 2026")
    (datetime.date(2026, 3, 20), datetime.date(2026, 3, 20))
    >>> date_from_typed("03.04.2026") is None
    True
    """
    text = text.strip().strip("\"'").strip()
    if found := _YEAR_FIRST.fullmatch(text):
        year, month, day = (int(part) for part in found.groups())
    elif found := _YEAR_LAST.fullmatch(text):
        first, second, year = (int(part) for part in found.groups())
        if first <= 12 and second <= 12 and first != second:
            return None
        day, month = (second, first) if second > 12 else (first, second)
    elif (found := _DAY_NAMED.fullmatch(text)) and found[2].casefold() in _MONTHS:
        day, month, year = int(found[1]), 1 + _MONTHS.index(found[2].casefold()), int(found[3])
    elif (found := _MONTH_NAMED.fullmatch(text)) and found[1].casefold() in _MONTHS:
        month, day, year = 1 + _MONTHS.index(found[1].casefold()), int(found[2]), int(found[3])
    else:
        return None
    try:
        meant = date(year, month, day)
    except ValueError:
        return None
    return meant if FIRST_YEAR <= year <= LAST_YEAR else None


def date_mend(value: object) -> Mend:
    """What is wrong with a value that is no date, and how the day it means is written."""
    return Mend(message("case-not-a-date", given=quoted(value)), year_month_day(value))


def year_month_day(value: object) -> Message:
    """How a date is written: the day that was meant, or one for example."""
    day = date_from_typed(value) if isinstance(value, str) else None
    if day is None:
        return message("case-year-first-such-as", key=Given(""), example=Given(_EXAMPLE))
    return message("case-year-first", key=Given(""), example=Given(day.isoformat()))
