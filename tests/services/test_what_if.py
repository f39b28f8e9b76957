from __future__ import annotations

from datetime import date

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.what_if import WhatIf, what_if

CASE = """
case = 1
[place]
name = "Minneapolis"
[bed]
area = "20 m2"
depth = "15 cm"
planted = false
[soil]
ph = {ph}
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 0
[aim]
plant = "{plant}"
"""


FEW = LookAhead(members=100, years=1)


def asked(ph: float, plant: str) -> tuple[WhatIf | None, Answer]:
    case = parse_case(CASE.format(ph=ph, plant=plant), today=date(2026, 4, 12))
    found = what_if(build_context(case), members=FEW.members, seed=FEW.seed, years=FEW.years)
    return found, advise(case, look_ahead=FEW)


@pytest.mark.parametrize(
    ("ph", "plant", "sign"), [(6.6, "highbush blueberry", 1), (5.2, "cabbage", -1)]
)
def test_more_of_the_plan_moves_the_ph_further(ph: float, plant: str, sign: int) -> None:
    found, answer = asked(ph, plant)
    assert found is not None and answer.forecast is not None
    assert found.dates == answer.forecast.dates
    for courses in (found.whole_plan, found.first_part):
        ends = [sign * course.ph.q50[-1] for course in courses]
        assert ends == sorted(ends, reverse=True) and ends[0] > ends[-1] + 0.2
        shares = [course.share for course in courses]
        assert shares == sorted(shares) and shares[0] == 0.0 and 1.0 in shares


@pytest.mark.parametrize(("ph", "plant"), [(6.6, "highbush blueberry"), (5.2, "cabbage")])
def test_the_whole_plan_is_the_forecast_and_nothing_of_it_the_bed_left_alone(
    ph: float, plant: str
) -> None:
    found, answer = asked(ph, plant)
    assert found is not None and answer.forecast is not None
    course = {one.share: one.ph for one in found.whole_plan}
    assert course[1.0] == answer.forecast.ph
    assert course[0.0].q50 == answer.forecast.do_nothing.q50
    assert {one.share: one.ph for one in found.first_part}[1.0] == answer.forecast.ph


@pytest.mark.parametrize(
    ("ph", "plant", "sign"), [(6.6, "highbush blueberry", 1), (5.2, "cabbage", -1)]
)
def test_a_step_farther_takes_more_and_the_aim_takes_what_the_letter_says(
    ph: float, plant: str, sign: int
) -> None:
    found, answer = asked(ph, plant)
    assert found is not None
    amounts = [step.mid_g_m2 for step in found.aims]
    assert amounts == sorted(amounts, reverse=sign > 0)
    (own,) = [step for step in found.aims if step.ph_aim == found.ph_aim]
    band = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    assert band is not None and own.mid_g_m2 == pytest.approx(band.mid, rel=1e-6)


@pytest.mark.parametrize(
    ("ph", "plant"), [(5.0, "highbush blueberry"), (10.5, "highbush blueberry")]
)
def test_nothing_to_ask_where_nothing_goes_on(ph: float, plant: str) -> None:
    case = parse_case(CASE.format(ph=ph, plant=plant), today=date(2026, 4, 12))
    assert what_if(build_context(case), members=25, seed=1, years=1) is None
