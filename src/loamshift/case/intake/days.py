"""The days of a report: when the sample was taken, received and reported."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Final

from loamshift.case.intake.figures import NOTHING, Order, is_two_days, order_in, read_day
from loamshift.case.intake.proposal import Finding, Place
from loamshift.case.intake.table import Column, Table
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, message

ORDER_KEY: Final = "dates: order"
DAY_KEYS: Final = ("date_sampled", "date_received", "date_reported")
_MOST_PLACES: Final = 5


def date_order(
    tables: Sequence[Table], told: Mapping[str, str]
) -> tuple[Order | None, tuple[Finding, ...]]:
    """Which number of a date is the day, in the whole file; asked where nothing shows it."""
    cells = [cell for table in tables for column in _columns(table) for cell in column.cells]
    answered = told.get(ORDER_KEY)
    if answered:
        return Order(answered), ()
    order = order_in(cells)
    doubtful = next((cell for cell in cells if is_two_days(cell)), None)
    if order is not None or doubtful is None:
        return order, ()
    return None, (
        Finding(
            code="date-order",
            severity=Severity.CAUTION,
            said=message("intake-date-order", given=Given(doubtful)),
            question=message("intake-ask-date-order", given=Given(doubtful)),
            key=ORDER_KEY,
            choices=tuple(one.value for one in Order),
            count=sum(map(is_two_days, cells)),
        ),
    )


def _columns(table: Table) -> list[Column]:
    return [
        column
        for column in table.columns
        if any(meant.key in DAY_KEYS for meant in column.heading.meanings)
    ]


def read_days(
    table: Table, column: Column, order: Order | None
) -> tuple[list[date | None], tuple[Finding, ...]]:
    """The day of each sample; cells that are none are told."""
    known: dict[str, date | None] = {}
    days: list[date | None] = []
    wrong: list[int] = []
    for place, cell in enumerate(column.cells):
        if cell not in known:
            known[cell] = read_day(cell, order)
        day = known[cell]
        days.append(day)
        if day is None and cell.casefold() not in NOTHING and not is_two_days(cell):
            wrong.append(place)
    if not wrong:
        return days, ()
    first = column.cells[wrong[0]]
    return days, (
        Finding(
            code="date-unread",
            severity=Severity.CAUTION,
            said=message(
                "intake-date-unread",
                heading=Given(column.heading.text),
                given=Given(first[:40]),
                count=len(wrong),
            ),
            places=tuple(
                Place(sheet=table.sheet, row=table.rows[one], column=column.letters)
                for one in wrong[:_MOST_PLACES]
            ),
            count=len(wrong),
        ),
    )
