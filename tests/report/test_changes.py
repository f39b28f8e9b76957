"""The comparison in words: causes, what followed, and the summary of many."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from case.test_answer import bare_answer, made_answer
from loamshift.domain.answer import Answer, Decision, Reason
from loamshift.domain.letter import Table
from loamshift.report.changes import changes_letter
from loamshift.report.summary import (
    CaseRow,
    amount_said,
    answered_row,
    decision_said,
    summary_letter,
)
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.changes import changes
from report.answers import rule

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
        ({"tables": "x"}, "Since then: another edition of the tables. Nothing in the answer"),
        ({"tables": "x", "model": "y", "version": "z"},
         "another version of loamshift, another model and another edition of the tables"),
        ({"seed": 5}, "Since then: other settings of the forecast"),
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
    assert "cannot show how much is due to which" in said(made_answer(), new, **cases)
    with_middle = said(made_answer(), new, **cases, between=bare_answer())
    assert "cannot show" not in with_middle and "Same case, now" in with_middle


def test_quantities_and_days_are_said_in_the_readers_units() -> None:
    old = {"bed": {"area": "20 m2", "depth": "15 cm", "planted": False}, "today": "2026-04-12",
           "water": {"weekly": "25 mm", "alkalinity": "150 mg/L CaCO3"}}  # fmt: skip
    new = {"bed": {"area": "25 m2", "depth": "30 cm", "planted": True}, "today": "2026-99-12",
           "water": {"weekly": "20 mm"}}  # fmt: skip
    text = said(made_answer(), made_answer(), old_case=old, new_case=new)
    for part in (
        "bed.area 20 m² 25 m²", "bed.planted no yes", "today 12 April 2026 2026-99-12",
        "water.alkalinity 150 mg/L CaCO3 –", "kept per area, so it changes with the area",
    ):  # fmt: skip
        assert part in text
    us = said(made_answer(), made_answer(), words=Words("us", "us"), old_case=old, new_case=new)
    assert "bed.depth 6 in 12 in" in us and "April 12, 2026" in us


def test_another_decision_comes_with_both_reasons() -> None:
    old = made_answer()
    verdict = replace(old.verdict, decision=Decision.LEAVE, because="The pH is right.")
    text = said(old, replace(old, verdict=verdict))
    assert "changes from “go ahead” to “leave alone”" in text
    assert "Then: x" in text and "Now: The pH is right." in text


def test_what_is_not_compared_one_by_one_is_named() -> None:
    text = said(made_answer(), replace(made_answer(), findings=(), options=()))
    assert "These changed as well: the checks and the products compared" in text


def test_every_decision_has_its_words() -> None:
    said = [decision_said(decision, METRIC) for decision in Decision]
    assert len(set(said)) == len(Decision) and "with effort" in said


def test_amounts_of_one_material_are_added_up() -> None:
    answer = replace(made_answer(), plan=None)
    (part,) = answer.applications
    known = replace(part, amount_g=600.0, material="gypsum")
    later = replace(known, date=part.date.replace(month=8), amount_g=400.0)
    assert amount_said(replace(answer, applications=(known, later)), words=METRIC) == (
        "1.0 kg gypsum, two applications"
    )
    assert amount_said(replace(answer, applications=(known, part)), words=METRIC) == (
        "600 g gypsum and 30 g/m² m"
    )
    assert amount_said(replace(answer, applications=()), words=METRIC) == ""
    first = replace(answer.verdict, decision=Decision.MEASURE_FIRST)
    assert amount_said(replace(answer, verdict=first), words=METRIC).startswith("if so, ")


def test_where_a_test_decides_only_what_goes_on_first_is_counted() -> None:
    answer, _ = rule()
    assert amount_said(answer, words=METRIC) == "720 g sulphur powder, then a test decides"
    assert answer.plan is not None
    alone = replace(answer, plan=replace(answer.plan, decides=()))
    assert amount_said(alone, words=METRIC) == "1.25 kg sulphur powder, two applications"


def test_a_plan_that_changed_is_compared_line_by_line() -> None:
    old, _ = rule()
    assert old.plan is not None
    first, *others = old.plan.decides
    new = replace(
        old,
        plan=replace(
            old.plan, decides=(replace(first, part_g_m2=70.0), *others), share_in_range=0.7,
            share_harmed=0.003, median_ph=5.3,
        ),
        verdict=replace(old.verdict, reason=Reason.PARTS),
    )  # fmt: skip
    letter = changes_letter(changes(old, new), words=METRIC)
    rows = {r[0]: r[1:] for s in letter.sections for b in s.blocks if isinstance(b, Table)
            for r in b.rows}  # fmt: skip
    lines = "6.4 or more: add {} g/m². 5.9 to 6.3: add 45 g/m². 5.5 to 5.8: add nothing yet; test "
    lines += "again. 5.4 or less: add nothing more."
    assert rows == {
        "Why": ("within reach", "more applications than usual"),
        "What the next test decides": (lines.format(84), lines.format(70)),
        "Best estimate of the pH": ("5.4 on 20 April 2029", "5.3 on 20 April 2029"),
        "Of 100 such beds, in the range": ("about 62", "about 70"),
        "Of 100 such beds, harmed": ("about 3", "fewer than 1"),
    }


def test_a_plan_beside_an_answer_of_0_1_0_stands_alone() -> None:
    new, _ = rule()
    old = replace(new, plan=None, verdict=replace(new.verdict, reason=None))
    text = said(old, new)
    assert "Of 100 such beds, in the range – about 62" in text and "Why – within reach" in text


def test_the_summary_counts() -> None:
    rows = (
        answered_row("a", made_answer(), words=METRIC).with_letter("a.md"),
        CaseRow(name="b", fault="soil.ph: no"),
    )
    text = letter_text(summary_letter(rows, unreached=3, where="In x."), width=88)
    assert "1 of 5 answered, 1 with a problem, 3 not begun. In x." in text
    assert "soil.ph: no" in text and "a.md" in text
    assert "0 of 2 answered, 2 not begun." in letter_text(summary_letter((), unreached=2))
