"""Products that are known by their label alone, where a letter asks what is in them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.letter import FigureKind
from loamshift.report.figures import FIGURES
from loamshift.report.letter_decides import decision_tables
from report.drawn import UK, seen_ahead
from services.beds import bed

PRODUCTS = """
[[on_hand]]
material = "Weak Granules"
label = { s_element_pct = 30, filler_pct = 70 }
[[on_hand]]
material = "Green Prills"
label = { nv_as_caco3_pct = 90 }
"""


def planned_with(place: int) -> tuple[Answer, Case]:
    """The bed of the rule, its plan made with a product that is known by its label."""
    answer, case = seen_ahead("rule")
    assert answer.plan is not None
    on_hand = bed(more=PRODUCTS).on_hand
    key = on_hand[place].material.key
    parts = tuple(replace(part, material=key) for part in answer.plan.parts)
    plan = replace(answer.plan, material=key, parts=parts)
    return replace(answer, plan=plan), replace(case, on_hand=on_hand)


@pytest.mark.parametrize(("place", "what"), [(0, "sulphur"), (1, "lime")])
def test_what_is_still_working_is_known_by_the_label(place: int, what: str) -> None:
    answer, case = planned_with(place)
    (table,) = decision_tables(answer, case, words=UK)
    assert f"nothing now, as the {what} is still working" in str(table.rows)


def test_what_the_case_does_not_know_is_only_said_to_work() -> None:
    answer, case = planned_with(0)
    (table,) = decision_tables(answer, replace(case, on_hand=()), words=UK)
    assert "nothing now, as it is still working" in str(table.rows)


def test_what_goes_on_first_is_marked_in_the_dose_by_what_the_label_says() -> None:
    """60 g/m2 of granules, 30 % of them sulfur."""
    figure = FIGURES[FigureKind.DOSE](*planned_with(0), words=UK)
    assert figure is not None
    own, first, printed = figure.data[0].rows
    assert (own[0], first[0], printed[0]) == ("own", "first", "printed")
    assert first[3] == pytest.approx(18.0)
