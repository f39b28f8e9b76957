"""The comparison in words: causes, what followed, and the summary of many."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from case.test_answer import bare_answer, made_answer
from loamshift.domain.answer import Answer, Decision
from loamshift.report.changes import changes_letter
from loamshift.report.summary import DECISIONS, CaseRow, amount_said, summary_letter
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.changes import changes

METRIC = Words("uk", "metric")


def said(old: Answer, new: Answer, *, words: Words = METRIC, **rest: Any) -> str:
    letter = changes_letter(changes(old, new, **rest), words=words)
    return " ".join(letter_text(letter, width=88).split())


def remade(**values: Any) -> Answer:
    answer = made_answer()
    return replace(answer, made_by=replace(answer.made_by, **values))


@pytest.mark.parametrize(
    ("values", "expected"),
    [
        ({"tables": "x"}, "Behind it now: another edition of the tables; nothing in the answer"),
        ({"tables": "x", "model": "y", "version": "z"},
         "another version of loamshift, model and edition of the tables"),
        ({"seed": 5}, "Behind it now: other settings of the forecast"),
        ({"tables": "x", "seed": 5},
         "another edition of the tables and other settings of the forecast"),
    ],
)  # fmt: skip
def test_causes_are_named(values: dict[str, Any], expected: str) -> None:
    case = {"soil": {"ph": 7}}
    assert expected in said(made_answer(), remade(**values), old_case=case, new_case=case)


def test_two_causes_at_once_are_not_told_apart_unless_somebody_worked_it_out() -> None:
    old_case, new_case = {"soil": {"ph": 7}}, {"soil": {"ph": 6}}
    new = replace(remade(tables="x"), cautions=())
    cases = {"old_case": old_case, "new_case": new_case}
    assert "cannot tell how much is due to which" in said(made_answer(), new, **cases)
    with_middle = said(made_answer(), new, **cases, between=bare_answer())
    assert "cannot tell" not in with_middle and "same case, now" in with_middle


def test_quantities_and_days_are_said_in_the_readers_units() -> None:
    old = {"bed": {"area": "20 m2", "depth": "15 cm", "planted": False}, "today": "2026-04-12",
           "water": {"weekly": "25 mm", "alkalinity": "150 mg/L CaCO3"}}  # fmt: skip
    new = {"bed": {"area": "25 m2", "depth": "30 cm", "planted": True}, "today": "2026-99-12",
           "water": {"weekly": "20 mm"}}  # fmt: skip
    text = said(made_answer(), made_answer(), old_case=old, new_case=new)
    for part in (
        "bed.area 20 m² 25 m²", "bed.planted no yes", "today 12 April 2026 2026-99-12",
        "water.alkalinity 150 mg/L CaCO3 –", "kept per area, so it moves with the area",
    ):  # fmt: skip
        assert part in text
    us = said(made_answer(), made_answer(), words=Words("us", "us"), old_case=old, new_case=new)
    assert "bed.depth 6 in 12 in" in us and "April 12, 2026" in us


def test_another_decision_comes_with_both_reasons() -> None:
    old = made_answer()
    verdict = replace(old.verdict, decision=Decision.LEAVE, because="the pH is right")
    text = said(old, replace(old, verdict=verdict))
    assert "changes from “go ahead” to “leave alone”" in text
    assert "Then: X." in text and "Now: The pH is right." in text


def test_what_is_not_compared_one_by_one_is_named() -> None:
    text = said(made_answer(), replace(made_answer(), findings=(), options=()))
    assert "Different as well: the checks and the ways compared" in text


def test_every_decision_has_its_words() -> None:
    assert set(DECISIONS) == set(Decision)


def test_amounts_of_one_material_are_added_up() -> None:
    answer = made_answer()
    (part,) = answer.applications
    known = replace(part, amount_g=600.0, material="gypsum")
    later = replace(known, date=part.date.replace(month=8), amount_g=400.0)
    assert amount_said(replace(answer, applications=(known, later)), words=METRIC) == (
        "1.0 kg gypsum, two parts"
    )
    assert amount_said(replace(answer, applications=(known, part)), words=METRIC) == (
        "600 g gypsum and 30 g/m² m"
    )
    assert amount_said(replace(answer, applications=()), words=METRIC) == ""
    first = replace(answer.verdict, decision=Decision.MEASURE_FIRST)
    assert amount_said(replace(answer, verdict=first), words=METRIC).startswith("if so, ")


def test_the_summary_counts() -> None:
    rows = (
        CaseRow(name="a", answer=made_answer(), words=METRIC, written="a.md"),
        CaseRow(name="b", fault="soil.ph: no"),
    )
    text = letter_text(summary_letter(rows, unreached=3, where="In x."), width=88)
    assert "1 of 5 answered, 1 to mend, 3 not begun. In x." in text
    assert "soil.ph: no" in text and "a.md" in text
    assert "0 of 2 answered, 2 not begun." in letter_text(summary_letter((), unreached=2))
