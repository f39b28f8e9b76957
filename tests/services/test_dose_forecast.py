from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from loamshift.case.answer import answer_from_json, answer_to_dict, answer_to_json
from loamshift.domain.answer import Answer, DoseByForecast, DoseLimit
from loamshift.domain.case import Case
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.forecast.outlook import forecast
from loamshift.services.plan.dose import dose
from loamshift.services.plan.dose_bench import bench_of
from loamshift.services.plan.dose_forecast import look_ahead
from loamshift.services.verdict.decide import decide
from loamshift.tables.materials import load_materials
from loamshift.tables.model import lime_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from services.beds import bed

MEMBERS = 240
ACID_LOAM = 'ph = 5.2\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3'
LOAM = """ph = 6.2
ph_method = "water 1:1"
texture = "loam"
clay_pct = 20
sand_pct = 40
silt_pct = 40
organic_matter_pct = 3
carbonate_pct = 0"""
SAND = """ph = 6.4
ph_method = "water 1:1"
texture = "sand"
organic_matter_pct = 1.5
carbonate_pct = 0"""
LIMY = """ph = 7.9
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 0.3"""
POT = 'kind = "container"\ncount = 4\narea = "0.2 m2"\ndepth = 25'
PEAT = 'ph = 6.4\nph_method = "water 1:1"\nmedium = "peat mix"'
HARD = '[water]\nalkalinity = 300\nweekly = "30 mm"\n'
WIDE = "target_ph = 5.6"

BEDS: dict[str, Callable[[], Case]] = {
    "loam": lambda: bed(LOAM),
    "sand": lambda: bed(SAND),
    "acid": lambda: bed(ACID_LOAM, aim='plant = "cabbage"'),
    "lawn": lambda: bed(ACID_LOAM, bed='kind = "lawn"\narea = "100 m2"', aim="target_ph = 6.2"),
    "limy": lambda: bed(LIMY, aim="target_ph = 6.5"),
    "pot": lambda: bed(PEAT, bed=POT),
    "water": lambda: bed(LOAM, more=HARD),
    "planted": lambda: bed(LOAM, bed='area = "20 m2"\nplanted = true'),
}


@cache
def answer_to(name: str) -> Answer:
    return advise(BEDS[name](), look_ahead=LookAhead(members=MEMBERS))


def by_forecast(case: Case, **how: int) -> DoseByForecast:
    told = advise(case, look_ahead=LookAhead(members=MEMBERS, **how)).dose.by_forecast
    assert told is not None
    return told


def amount(told: DoseByForecast) -> float:
    found = told.sulfur_as_s_g_m2 if told.lime_as_caco3_g_m2 is None else told.lime_as_caco3_g_m2
    assert found is not None
    return found


@pytest.mark.parametrize("name", BEDS)
def test_neither_decision_nor_static_dose_moves(name: str) -> None:
    static, ahead = advise(BEDS[name]()), answer_to(name)
    assert ahead.verdict.decision == static.verdict.decision
    assert replace(ahead.dose, by_forecast=None) == static.dose
    assert static.dose.by_forecast is None


@pytest.mark.parametrize("name", BEDS)
def test_the_risk_holds_when_the_plan_is_run_again(name: str) -> None:
    answer = answer_to(name)
    told, wanted = answer.dose.by_forecast, answer.wanted
    if not answer.applications:
        pytest.skip("nothing goes on here")
    assert told is not None and wanted is not None
    again = forecast(build_context(BEDS[name]()), answer.applications, members=MEMBERS, years=6)
    last = max(told.by, answer.applications[-1].date + timedelta(days=730))
    course = again.bed_ph[:, : (last - answer.today).days // 7 + 1]
    past = (
        course.min(axis=1) < wanted.ph_low
        if told.lime_as_caco3_g_m2 is None
        else course.max(axis=1) > wanted.ph_high
    )
    assert past.mean() == pytest.approx(told.share_past_limit, abs=1.5 / MEMBERS)
    assert past.mean() < parameter_values("advice")["risk_share"]


@pytest.mark.parametrize("name", BEDS)
def test_the_plan_brings_just_the_amount_and_is_the_one_forecast(name: str) -> None:
    answer = answer_to(name)
    told = answer.dose.by_forecast
    assert told is not None and answer.forecast is not None
    if not answer.applications:
        return
    material = load_materials()[answer.applications[0].material]
    share = material.elemental_s_frac or material.caco3_eq_frac * lime_parameters().field_efficiency
    brought = sum(part.rate_g_m2 for part in answer.applications) * share
    assert brought == pytest.approx(amount(told), rel=1e-9)
    again = forecast(build_context(BEDS[name]()), answer.applications, members=MEMBERS)
    assert answer.forecast.ph.q50 == again.forecast.ph.q50
    assert answer.forecast.width == again.width_shares


@pytest.mark.parametrize("name", BEDS)
def test_an_unlimited_amount_has_its_median_at_the_aim(name: str) -> None:
    answer = answer_to(name)
    told, wanted = answer.dose.by_forecast, answer.wanted
    assert told is not None and wanted is not None
    if told.limited_by is DoseLimit.NONE:
        assert told.median_ph_by == pytest.approx(wanted.ph_aim, abs=0.05)
    else:
        short = told.median_ph_by - wanted.ph_aim
        assert short > 0.0 if told.lime_as_caco3_g_m2 is None else short < 0.0
        assert told.because


@pytest.mark.parametrize("name", BEDS)
def test_tests_follow_the_parts(name: str) -> None:
    answer = answer_to(name)
    if not answer.applications:
        assert answer.too_early_before is None
        return
    early = answer.too_early_before
    assert early is not None and early >= answer.applications[0].date
    assert all(day >= early for day in answer.retest)
    assert answer.retest[-1] > answer.applications[-1].date
    for part in answer.applications[1:]:
        assert part.only_if
        assert any(day < part.date for day in answer.retest)


def test_no_part_and_no_year_is_over_its_cap() -> None:
    answer = answer_to("planted")
    cap = cap_for(applies_to="sulfur", situation="planted", per="year").limit_g_m2
    share = load_materials()[answer.applications[0].material].elemental_s_frac
    for part in answer.applications:
        year = sum(
            other.rate_g_m2 * share
            for other in answer.applications
            if part.date <= other.date < part.date + timedelta(days=365)
        )
        assert year <= cap + 1e-6


def test_the_next_part_waits_for_what_has_oxidised() -> None:
    answer = answer_to("planted")
    if len(answer.applications) < 2:
        pytest.skip("one part is enough here")
    run = forecast(build_context(BEDS["planted"]()), answer.applications[:1], members=MEMBERS)
    week = (answer.applications[1].date - answer.today).days // 7
    assert run.oxidised_frac[week] >= parameter_values("advice")["part_reacted_share"] - 0.05


def test_free_lime_that_no_amount_can_beat_says_so() -> None:
    strong = LIMY.replace("carbonate_pct = 0.3", "carbonate_pct = 8")
    answer = advise(bed(strong), look_ahead=LookAhead(members=MEMBERS))
    told = answer.dose.by_forecast
    assert told is not None
    assert told.limited_by is DoseLimit.CAPS and told.share_in_range == 0.0
    assert told.median_in_range_on is None
    assert answer.applications == ()
    assert any("allow no more than this amount" in text for text in told.because)


def with_aim(case: Case, by: date) -> Case:
    return replace(case, aim=replace(case.aim, by=by))


def test_more_time_never_needs_more() -> None:
    case = bed(LOAM, aim=WIDE)
    amounts = [
        amount(by_forecast(with_aim(case, date(2026, 4, 12) + timedelta(days=days))))
        for days in (150, 250, 365, 600)
    ]
    for sooner, later in pairwise(amounts):
        assert later <= sooner * 1.03


def test_a_date_too_near_is_called_that_or_a_risk() -> None:
    told = by_forecast(with_aim(bed(LOAM), date(2026, 5, 20)))
    assert told.by == date(2026, 5, 20)
    assert told.limited_by in (DoseLimit.DATE, DoseLimit.RISK)
    assert told.median_ph_by > 5.5


def test_a_date_past_the_years_shown_is_still_met() -> None:
    case = with_aim(bed(LOAM), date(2030, 4, 12))
    told = by_forecast(case, years=1)
    answer = advise(case, look_ahead=LookAhead(members=MEMBERS, years=1))
    assert told.by == date(2030, 4, 12)
    assert answer.forecast is not None and answer.forecast.dates[-1] < date(2027, 4, 20)
    assert amount(told) > 0.0


def test_a_lower_aim_takes_more_and_a_stronger_soil_too() -> None:
    loam = amount(by_forecast(bed(LOAM, aim=WIDE)))
    lower = amount(by_forecast(bed(LOAM, aim="target_ph = 5.4")))
    humus = LOAM.replace("organic_matter_pct = 3", "organic_matter_pct = 6")
    assert lower > loam
    assert amount(by_forecast(bed(humus, aim=WIDE))) > loam


def test_water_that_lifts_the_bed_takes_more_sulfur_and_is_named() -> None:
    plain, watered = (by_forecast(bed(LOAM, aim=WIDE, more=more)) for more in ("", HARD))
    assert amount(watered) > amount(plain)
    if watered.limited_by is DoseLimit.NONE:
        assert any("water takes back" in text for text in watered.because)


def test_years_shown_do_not_change_the_amount() -> None:
    case = bed(LOAM)
    assert len({amount(by_forecast(case, years=years)) for years in (1, 3, 8)}) == 1


def test_no_dose_no_amount_by_forecast() -> None:
    context = build_context(bed("ph = 5.0\n" + LOAM.partition("\n")[2]))
    outcome = decide(context)
    static = dose(context, outcome)
    assert bench_of(context, outcome, static, members=30, seed=1, years=1) is None
    ahead = look_ahead(context, outcome, static, members=30, seed=1, years=1)
    assert ahead.by_forecast is None and ahead.plan.applications == ()
    assert np.allclose(ahead.outlook.bed_ph, ahead.outlook.control_ph)


def test_feed_that_gets_there_by_itself_leaves_nothing_to_put_on() -> None:
    feed = '[feed]\nn_g_m2_year = 30\nform = "ammonium"\n'
    answer = advise(
        bed(SAND.replace("6.4", "5.9"), more=feed), look_ahead=LookAhead(members=MEMBERS)
    )
    told = answer.dose.by_forecast
    assert told is not None and amount(told) == 0.0
    assert answer.applications == () and answer.too_early_before is None
    assert answer.retest == (told.by,)
    assert told.because[0].startswith("Left alone")


def test_an_older_answer_without_the_new_keys_still_reads() -> None:
    plain = answer_to_dict(answer_to("loam"))
    del plain["dose"]["by_forecast"], plain["forecast"]["width"]
    back = answer_from_json(json.dumps(plain))
    assert back.dose.by_forecast is None
    assert back.forecast is not None and back.forecast.width == ()


def test_the_answer_reads_back_as_it_was_written() -> None:
    text = answer_to_json(answer_to("loam"))
    assert answer_to_json(answer_from_json(text)) == text
