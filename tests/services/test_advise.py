from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.case.answer import answer_to_json
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.plan.dose import dose
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.words import verdict
from services.beds import bed

SOIL = """ph = 7.0
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 0"""
FEW = LookAhead(members=60, seed=3, years=2)


def test_the_forecast_changes_neither_the_decision_nor_the_static_dose() -> None:
    case = bed(SOIL)
    static, ahead = advise(case), advise(case, look_ahead=FEW)
    assert static.forecast is None and static.balance_error is None
    assert ahead.forecast is not None
    assert ahead.balance_error is not None and ahead.balance_error < 1e-9
    assert (ahead.made_by.seed, ahead.made_by.members, ahead.made_by.years) == (3, 60, 2)
    assert ahead.verdict.decision == static.verdict.decision
    assert static.dose.by_forecast is None and ahead.dose.by_forecast is not None
    assert replace(ahead.dose, by_forecast=None) == static.dose
    assert ahead.options == static.options
    assert ahead.findings[:-1] == static.findings


def test_sulfur_lowers_the_forecast_and_bands_are_in_order() -> None:
    forecast = advise(bed(SOIL), look_ahead=FEW).forecast
    assert forecast is not None
    ph = forecast.ph
    assert forecast.do_nothing.q50[52] - ph.q50[52] > 0.5
    for courses in zip(ph.q05, ph.q25, ph.q50, ph.q75, ph.q95, strict=True):
        assert list(courses) == sorted(courses)


def test_the_same_seed_gives_the_same_bits() -> None:
    case = bed(SOIL)
    one, two = (answer_to_json(advise(case, look_ahead=FEW)) for _ in range(2))
    assert one == two


def test_a_case_without_a_reading_has_no_forecast() -> None:
    assert advise(bed('texture = "loam"'), look_ahead=FEW).forecast is None


@pytest.mark.parametrize(("ph", "method"), [(9.1, "CaCl2"), (9.8, "water 1:1")])
def test_a_soil_beyond_the_forecast_is_answered_without_one(ph: float, method: str) -> None:
    claims = '[[claim]]\nmaterial = "gypsum"\nrate = "100 g/m2"'
    case = bed(SOIL.replace("7.0", str(ph)).replace("water 1:1", method), more=claims)
    answer = advise(case, look_ahead=FEW)
    assert answer.forecast is None and answer.balance_error is None
    assert answer.made_by.model == "static-1"
    (told,) = [row for row in answer.findings if row.check == "reach of the forecast"]
    assert not told.passed and "there is none for this soil" in told.comment
    assert len(answer.claims) == 1
    assert answer.verdict.decision == advise(case).verdict.decision


def test_the_verdict_names_no_number_of_parts_that_the_plan_does_not_have() -> None:
    context = build_context(bed(SOIL))
    outcome = decide(context)
    amount = dose(context, outcome)
    own = outcome.parts
    assert own is not None
    count = {1: "one part", 2: "two parts", 3: "three parts"}[own]
    for planned in (0, own):
        assert count in verdict(context, outcome, amount, planned_parts=planned).because
    other = verdict(context, outcome, amount, planned_parts=own + 1).because
    assert "in several parts" in other and count not in other


def test_what_would_settle_it_stands_under_its_label() -> None:
    case = bed("ph = 7.8\nph_method = 'water 1:1'\ntexture = 'loam'")
    said = advise(case).verdict
    assert said.decision.value == "measure-first"
    assert said.would_change_if.startswith("A fizz test")
