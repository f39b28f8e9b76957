"""Rows that tell the same are judged once, and no others are taken for them."""

from __future__ import annotations

from datetime import date

from loamshift.case.table.equal_rows import EqualRows, told_by
from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.services.many.outcome import Outcome

DAY = date(2026, 4, 12)
ROW = {"soil.ph": "6.5", "aim.plant": "cabbage", "bed.count": 1}


def outcome(key: str) -> Outcome:
    """An outcome of no meaning."""
    return Outcome(
        key=key, verdict=Decision.LEAVE, reason=Reason.IN_RANGE, direction=Direction.NONE
    )


def test_a_row_is_known_by_what_it_tells_and_answered_under_its_own_key() -> None:
    rows = EqualRows()
    rows.keep(told_by({**ROW, "name": "x"}, DAY), outcome("x"))
    known = rows.known(told_by({**ROW, "name": "y"}, DAY), "y")
    assert known == outcome("y")


def test_what_differs_in_anything_is_another_row() -> None:
    rows = EqualRows()
    rows.keep(told_by(ROW, DAY), outcome("x"))
    others = (
        ({**ROW, "soil.ph": "6.50"}, DAY),
        ({**ROW, "soil.ph": 6.5}, DAY),
        ({**ROW, "bed.count": True}, DAY),
        ({**ROW, "water.alkalinity": "80"}, DAY),
        (ROW, date(2026, 4, 13)),
    )
    assert all(rows.known(told_by(*other), "y") is None for other in others)


def test_no_more_than_so_many_are_kept_and_the_last_met_stay() -> None:
    rows = EqualRows(most=2)
    first, second, third = (told_by({"soil.ph": ph}, DAY) for ph in ("5", "6", "7"))
    rows.keep(first, outcome("a"))
    rows.keep(second, outcome("b"))
    assert rows.known(first, "c") is not None
    rows.keep(third, outcome("d"))
    assert rows.known(second, "e") is None
    assert rows.known(first, "f") is not None
