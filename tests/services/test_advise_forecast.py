from __future__ import annotations

from dataclasses import replace

from loamshift.case.answer import answer_to_json
from loamshift.services.advise import LookAhead, advise
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
    assert ahead.verdict == static.verdict
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
