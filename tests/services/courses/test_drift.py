"""The drift a letter tells is that of its forecast, and without one that of the beds judged."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from loamshift.case.read import parse_case
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.cheap_belief import cheap_belief
from loamshift.services.courses.drift import drift_ph_year
from loamshift.services.verdict.judge import days_needed


def sand(ph: float, *, target: float = 7.0, more: str = "") -> str:
    return f"""case = 1
today = 2026-04-12
[place]
name = "Manchester"
[bed]
area = "20 m2"
planted = true
[soil]
ph = {ph}
ph_method = "water 1:2.5"
texture = "sand"
organic_matter_pct = 2
carbonate_pct = 0
[aim]
target_ph = {target}
{more}"""


CASES = (sand(7.0), sand(6.0, target=6.8), sand(7.0, target=6.0), sand(6.4, target=6.4))


@pytest.mark.parametrize("text", CASES)
@pytest.mark.parametrize("years", [1, 3, 5])
def test_with_a_forecast_it_is_that_of_the_bed_left_as_it_is(text: str, years: int) -> None:
    answer = advise(parse_case(text), look_ahead=LookAhead(members=60, years=years))
    assert answer.forecast is not None and answer.upkeep is not None
    dates, ph = answer.forecast.dates, answer.forecast.do_nothing.q50
    end = max(i for i, day in enumerate(dates) if day <= dates[0] + timedelta(days=1096))
    fell = (ph[end] - ph[0]) / ((dates[end] - dates[0]).days / 365.25)
    assert answer.upkeep.drift_ph_year == pytest.approx(fell, abs=1e-9)


@pytest.mark.parametrize("text", CASES)
def test_without_one_it_is_that_of_the_beds_judged(text: str) -> None:
    case = parse_case(text)
    context = build_context(case)
    beds = cheap_belief(context, days_ahead=days_needed(context)).beds
    median = np.median(beds.run(()).ph, axis=0)
    keeping = advise(case).upkeep
    assert keeping is not None
    assert keeping.drift_ph_year == pytest.approx(drift_ph_year(beds.days, median.tolist()))
    assert keeping.drift_ph_year == pytest.approx((median[36] - median[0]) / 3.0, abs=0.01)


def test_it_is_the_mean_of_three_years_whatever_comes_after() -> None:
    days = [date(2026, 1, 1) + timedelta(days=30 * month) for month in range(60)]
    ph = [7.0 - 0.01 * min(month, 36) for month in range(60)]
    assert drift_ph_year(days, ph) == pytest.approx(-0.1217, abs=1e-3)
