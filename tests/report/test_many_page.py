"""The summary of many rows says what they came to, whom to call and what to ask for."""

from __future__ import annotations

import pytest

from loamshift.domain.letter import Table
from loamshift.report.many_page import Called, ManyCounts, many_letter, summary_line
from loamshift.report.messages import say
from loamshift.report.words import Words


def counts(**changed: object) -> ManyCounts:
    usual: dict[str, object] = {
        "answered": 1000,
        "faulty": 0,
        "verdicts": {"go": 600, "leave": 400},
        "reasons": {},
        "questions": {},
        "problem_paths": {},
        "same_key": 0,
        "carried": (),
        "called": (),
        "problems": "v.problems.csv",
        "table": "v.csv",
    }
    return ManyCounts(**{**usual, **changed})  # type: ignore[arg-type]


def tables(found: ManyCounts, words: Words | None = None) -> dict[str, Table]:
    letter = many_letter(found, words=words or Words())
    return {
        section.heading or "": block
        for section in letter.sections
        for block in section.blocks
        if isinstance(block, Table)
    }


def test_verdicts_stand_in_their_order_with_their_shares() -> None:
    (table,) = tables(counts()).values()
    assert table.rows == (("leave alone", "400", "40%"), ("go ahead", "600", "60%"))


def test_people_to_call_stand_with_what_is_known_of_them() -> None:
    called = (Called(row=7, key="A", who=("Ms Reed", "555 0101"), why="Too much."),)
    found = counts(verdicts={"stop": 3}, called=called, carried=("client", "phone"))
    table = tables(found)["Call these people"]
    assert table.rows == (("A", "7", "Ms Reed", "555 0101", "Too much."),)
    letter = many_letter(found, words=Words())
    assert any("2 more are in v.csv" in str(section) for section in letter.sections)


def test_questions_and_places_are_named_as_a_reader_knows_them() -> None:
    asked = {"soil.fizz": 30, "on_hand[1].material": 1}
    found = counts(questions=asked, faulty=2, problem_paths={"soil.ph": 1, "": 1})
    shown = tables(found)
    assert shown["What to ask for"].rows[0][0] == "fizz test"
    assert [row[0] for row in shown["Rows with a problem"].rows] == [
        "pH of the soil",
        "The row as a whole",
    ]


@pytest.mark.parametrize("stopped", [0, 1, 5])
@pytest.mark.parametrize("faulty", [0, 1, 12])
@pytest.mark.parametrize("spelling", ["uk", "us"])
def test_every_count_makes_sentences(stopped: int, faulty: int, spelling: str) -> None:
    words = Words(spelling, "metric")
    for same_key in (0, 4):
        found = counts(verdicts={"stop": stopped}, faulty=faulty, same_key=same_key)
        line = say(summary_line(found), words)
        assert ("first" in line) == bool(stopped) and ("problem" in line) == bool(faulty)
        assert many_letter(found, words=words).sections
