from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.answer import Answer, DoseByForecast, DoseLimit, Wanted
from loamshift.report.letter_ahead import by_forecast
from loamshift.report.letter_need import how_much
from loamshift.report.letter_plan import what_to_do
from loamshift.report.words import Words
from report.answers import go_acidify

UK, US = Words("uk", "metric"), Words("us", "us")
TOLD = DoseByForecast(
    sulfur_as_s_g_m2=60.0,
    lime_as_caco3_g_m2=None,
    by=date(2027, 5, 1),
    limited_by=DoseLimit.NONE,
    share_in_range=0.62,
    share_past_limit=0.04,
    median_ph_by=5.04,
    median_in_range_on=date(2026, 9, 1),
    because=("By then the water takes back about 0.3 pH.",),
)


def told(**changed: object) -> Answer:
    answer, _ = go_acidify()
    ahead = replace(TOLD, **changed)  # type: ignore[arg-type]
    return replace(
        answer,
        dose=replace(answer.dose, by_forecast=ahead),
        wanted=Wanted(ph_low=4.5, ph_high=5.5, ph_aim=5.0, names=()),
    )


def test_without_a_forecast_nothing_is_said_of_one() -> None:
    assert by_forecast(go_acidify()[0], UK) == ""


def test_both_amounts_stand_side_by_side_with_reason_and_chances() -> None:
    answer = told()
    band = answer.dose.sulfur_as_s_g_m2
    assert band is not None
    text = by_forecast(answer, UK)
    assert f"By the curve alone the middle is {UK.rate(band.mid)}" in text
    assert "**60 g/m²**" in text and "the water takes back about 0.3 pH" in text
    assert "62 % of all beds that fit" in text and "between pH 4.5 and 5.5" in text
    assert "4 % would at some time go below it" in text


def test_amounts_that_agree_are_said_once() -> None:
    band = go_acidify()[0].dose.sulfur_as_s_g_m2
    assert band is not None
    text = by_forecast(told(sulfur_as_s_g_m2=1.02 * band.mid, because=()), UK)
    assert text.startswith("The forecast agrees") and "curve alone" not in text


@pytest.mark.parametrize("limit", [DoseLimit.RISK, DoseLimit.CAPS, DoseLimit.DATE])
def test_a_plan_that_stops_short_says_so(limit: DoseLimit) -> None:
    answer = told(limited_by=limit)
    assert "the plan stops at **60 g/m²**" in by_forecast(answer, UK)
    section = what_to_do(answer, go_acidify()[1], words=UK)
    assert section is not None and "stops short of the aim on purpose" in str(section.blocks)


def test_a_plan_that_gets_there_does_not() -> None:
    section = what_to_do(told(), go_acidify()[1], words=UK)
    assert section is not None and "stops short" not in str(section.blocks)


def test_where_nothing_goes_on_only_the_limit_and_the_chance_are_said() -> None:
    answer = replace(
        told(limited_by=DoseLimit.CAPS, share_in_range=0.0, because=("The limits allow no more.",)),
        applications=(),
    )
    text = by_forecast(answer, UK)
    assert text.startswith("By the forecast the most that could go on is 60 g/m². The limits allow")
    assert "Hardly one possible bed in a hundred" in text
    assert "curve alone" not in text


def test_nothing_needed_is_said_plainly() -> None:
    answer = replace(told(sulfur_as_s_g_m2=0.0), applications=())
    assert by_forecast(answer, UK).startswith("By the forecast nothing need go on")


def test_us_readers_get_their_units() -> None:
    text = by_forecast(told(because=("No more than 98 g/m² may go on.",)), US)
    assert "g/m²" not in text and "lb/100 ft²" in text and "May 1, 2027" in text


def test_it_stands_under_how_much() -> None:
    section = how_much(told(), go_acidify()[1], words=UK)
    assert section is not None and "By the curve alone" in str(section.blocks)
