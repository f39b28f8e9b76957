from __future__ import annotations

from datetime import date

import pytest

from loamshift.case.read import parse_case
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.what_if import WhatIf, what_if

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


def surface(ph: float, plant: str) -> tuple[WhatIf | None, float]:
    case = parse_case(CASE.format(ph=ph, plant=plant), today=date(2026, 4, 12))
    answer = advise(case, look_ahead=LookAhead(members=40, years=1))
    found = what_if(build_context(case), answer.dose, answer.applications, members=40, years=1)
    band = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    return found, 0.0 if band is None else band.mid


@pytest.mark.parametrize(
    ("ph", "plant", "sign"), [(6.6, "highbush blueberry", 1), (5.2, "cabbage", -1)]
)
def test_more_of_the_plan_moves_the_ph_further(ph: float, plant: str, sign: int) -> None:
    found, mid = surface(ph, plant)
    assert found is not None
    ends = [sign * course.ph.q50[-1] for course in found.whole_plan]
    assert ends == sorted(ends, reverse=True) and ends[0] > ends[-1] + 0.2
    assert len(found.dates) == len(found.whole_plan[0].ph.q05) == 53
    at_aim = min(found.aims, key=lambda step: abs(step.ph_aim - found.ph_aim))
    if abs(at_aim.ph_aim - found.ph_aim) < 1e-9:
        assert at_aim.mid_g_m2 == pytest.approx(mid, rel=1e-6)
    doses = [step.mid_g_m2 for step in found.aims]
    assert doses == sorted(doses, reverse=sign > 0)


def test_nothing_to_ask_where_nothing_goes_on() -> None:
    found, _ = surface(5.0, "highbush blueberry")
    assert found is None
