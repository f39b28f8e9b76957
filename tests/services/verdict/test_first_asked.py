"""What a verdict waits for is the first thing that a letter asks for."""

from __future__ import annotations

from loamshift.case.read import parse_case
from loamshift.domain.answer import Decision
from loamshift.services.advise import advise

NOWHERE = """
case = 1
name = "Far away"
today = 2026-03-08
[bed]
area = "10 m2"
planted = false
[soil]
ph = 6.8
ph_method = "water 1:2.5"
texture = "loam"
organic_matter_pct = 4
fizz = "none"
fizz_acid = "HCl"
[aim]
plant = "highbush blueberry"
[water]
alkalinity = "300 mg/L CaCO3"
weekly = "25 mm"
"""


def test_the_test_that_decides_is_asked_for_before_all_else() -> None:
    answer = advise(parse_case(NOWHERE))
    assert answer.verdict.decision is Decision.MEASURE_FIRST
    assert answer.missing[0].field == "soil.carbonate_pct"
