"""One case, the whole answer: what comes with a forecast, and what all of it agrees on."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from loamshift.case.answer import answer_from_json, answer_to_dict, answer_to_json
from loamshift.domain.answer import Decision
from loamshift.services.advise import MODEL, LookAhead, advise
from services.beds import bed
from wording import read

SOIL = """ph = 7.0
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 0"""
FEW = LookAhead(members=60, seed=3, years=2)
HARD = '[water]\nalkalinity = 300\nweekly = "30 mm"\n'
BEDS = {
    "plan": bed(SOIL),
    "probe": bed(SOIL.replace("water 1:1", "probe")),
    "lime": bed(SOIL.replace("7.0", "5.2"), aim='plant = "cabbage"'),
    "left": bed(SOIL.replace("7.0", "5.0")),
    "limy": bed(SOIL.replace("7.0", "7.9").replace("carbonate_pct = 0", "carbonate_pct = 6")),
    "water": bed(SOIL.replace("7.0", "5.2"), more=HARD),
    "apart": bed(SOIL, aim='plant = ["highbush blueberry", "asparagus"]'),
    "sodic": bed(SOIL + "\nsodium_pct = 20"),
    "no aim": bed(SOIL, aim=""),
}
EVERY = [(name, ahead) for name in BEDS for ahead in (None, FEW)]


def test_a_forecast_says_what_made_it() -> None:
    case = bed(SOIL)
    static, ahead = advise(case), advise(case, look_ahead=FEW)
    assert static.forecast is None and static.balance_error is None
    assert ahead.forecast is not None
    assert ahead.balance_error is not None and ahead.balance_error < 1e-9
    assert (ahead.made_by.seed, ahead.made_by.members, ahead.made_by.years) == (3, 60, 2)
    assert ahead.dose == static.dose and ahead.dose.by_forecast is None
    assert ahead.findings[:-1] == static.findings


@pytest.mark.parametrize("name", BEDS)
def test_the_six_words_agree_with_and_without_the_column(name: str) -> None:
    static, ahead = advise(BEDS[name]), advise(BEDS[name], look_ahead=FEW)
    assert ahead.verdict.decision == static.verdict.decision
    assert ahead.verdict.reason == static.verdict.reason


@pytest.mark.parametrize(("name", "ahead"), EVERY)
def test_only_a_decision_to_act_carries_a_plan_and_ways_to_it(
    name: str, ahead: LookAhead | None
) -> None:
    answer = advise(BEDS[name], look_ahead=ahead)
    if answer.verdict.decision in (Decision.STOP, Decision.LEAVE, Decision.ELSEWHERE):
        assert answer.plan is None and answer.applications == () and answer.options == ()
        assert answer.retest == () and answer.too_early_before is None
    if answer.plan is not None:
        assert answer.dose.direction.value in ("acidify", "lime") and answer.options
        assert answer.dose.provisional is (answer.verdict.decision is Decision.MEASURE_FIRST)


@pytest.mark.parametrize("name", ["plan", "lime"])
def test_a_label_of_half_the_strength_doubles_the_product_and_no_more(name: str) -> None:
    product = "elemental sulfur, powder" if name == "plan" else "ground limestone, calcitic"
    hand = f'[[on_hand]]\nmaterial = "{product}"\npurity_pct = '
    case = BEDS[name]
    full, half = (
        advise(replace(case, on_hand=bed(SOIL, more=hand + pct).on_hand), look_ahead=LookAhead())
        for pct in ("98", "49")
    )
    assert full.verdict.decision == half.verdict.decision
    assert full.plan is not None and half.plan is not None
    whole, double = (sum(part.rate_g_m2 for part in one.plan.parts) for one in (full, half))
    # amounts near the limit are tried an eighth apart, and both stop short of it by up to 5 g
    assert double == pytest.approx(2.0 * whole, rel=0.125)
    # the lines of the table may be cut elsewhere, for as many beds in the range
    assert half.plan.share_in_range == pytest.approx(full.plan.share_in_range, abs=0.01)


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
    assert answer.made_by.model == MODEL
    (told,) = [row for row in answer.findings if row.check == "reach of the forecast"]
    assert not told.passed and "there is none" in read(told.comment)
    assert len(answer.claims) == 1
    assert answer.verdict.decision == advise(case).verdict.decision


@pytest.mark.parametrize("ahead", [None, FEW])
def test_the_answer_reads_back_as_it_was_written(ahead: LookAhead | None) -> None:
    text = answer_to_json(advise(bed(SOIL), look_ahead=ahead))
    assert answer_to_json(answer_from_json(text)) == text


def test_an_older_answer_without_the_new_keys_still_reads() -> None:
    plain = answer_to_dict(advise(bed(SOIL), look_ahead=FEW))
    del plain["dose"]["by_forecast"], plain["forecast"]["width"], plain["plan"], plain["branches"]
    del plain["verdict"]["reason"]
    back = answer_from_json(json.dumps(plain))
    assert back.dose.by_forecast is None and back.plan is None and back.branches == ()
    assert back.verdict.reason is None
    assert back.forecast is not None and back.forecast.width == ()


def test_earlier_readings_are_set_aside_on_request() -> None:
    earlier = '[[reading]]\ndate = 2024-04-01\nph = 7.2\nph_method = "water 1:1"\n'
    sulfur = '[[applied]]\ndate = 2024-04-20\nmaterial = "flowers of sulphur"\nrate = "60 g/m2"\n'
    case = bed(SOIL, more=earlier + sulfur)
    used, aside = (advise(case, look_ahead=replace(FEW, refit=on)) for on in (True, False))
    assert used.refit is not None and aside.refit is not None
    assert used.refit.used and not aside.refit.used
    assert used.refit.acid_scale.now.mid > 1.1 * aside.refit.acid_scale.now.mid
    assert advise(bed(SOIL), look_ahead=FEW).refit is None
    # without a forecast the readings are weighed by one layer, and teach about as much
    quick, plain = advise(case).refit, advise(case, refit=False).refit
    assert quick is not None and quick.used and plain is not None and not plain.used
    assert quick.acid_scale.now.mid == pytest.approx(used.refit.acid_scale.now.mid, rel=0.15)
