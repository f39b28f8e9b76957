from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from scipy.stats import norm

from loamshift.case.read import parse_case
from loamshift.domain.answer import DoNothing, Forecast, ForecastPh
from loamshift.domain.history import LetterSent, Outcome, TestRead
from loamshift.domain.score import IssuedAs, IssuedForecast
from loamshift.services.history import dated_tests, scores_of
from loamshift.services.score.pairs import scored_pairs

DAY = date(2025, 4, 1)


def letter(day: date, *, low: float, high: float, weeks: int = 60) -> LetterSent:
    dates = tuple(day + timedelta(weeks=week) for week in range(weeks))
    falling = tuple(low - 0.01 * week for week in range(weeks))
    middle = tuple((low + high) / 2 for _ in dates)
    flat = tuple(high for _ in dates)
    ph = ForecastPh(q05=falling, q25=falling, q50=middle, q75=flat, q95=flat)
    return LetterSent(
        key=str(day),
        title="Plan",
        sent_on=day,
        day=day,
        decision="go",
        forecast=Forecast(dates=dates, ph=ph, do_nothing=DoNothing(q50=middle)),
    )


def read(*tests: tuple[date, float, str]) -> tuple[TestRead, ...]:
    text = "case = 1\ntoday = 2027-01-01\n" + "".join(
        f'[[reading]]\ndate = {day}\nph = {ph}\nph_method = "{method}"\n'
        for day, ph, method in tests
    )
    return dated_tests(parse_case(text))


def test_tests_are_in_order_and_in_water_with_their_error() -> None:
    later, earlier = (date(2026, 5, 1), 5.0, "CaCl2"), (date(2025, 5, 1), 6.0, "water 1:1")
    first, second = read(later, earlier)
    assert first.ph_water == pytest.approx(6.0)
    assert second.ph_water > 5.3
    assert second.lo90 < second.ph_water < second.hi90


def test_a_reading_without_a_day_stands_on_none() -> None:
    assert dated_tests(parse_case("case = 1\ntoday = 2027-01-01\n[soil]\nph = 6\n")) == ()


@pytest.mark.parametrize(
    ("ph", "method", "outcome"),
    [
        (6.0, "water 1:1", Outcome.INSIDE),
        (6.9, "water 1:1", Outcome.ABOVE),
        (5.1, "water 1:1", Outcome.BELOW),
        (6.9, "probe", Outcome.TOO_ROUGH),
    ],
)
def test_a_later_test_hits_or_misses(ph: float, method: str, outcome: Outcome) -> None:
    tests = read((DAY + timedelta(weeks=10), ph, method))
    (score,) = scores_of(tests, [letter(DAY, low=5.5, high=6.5)])
    assert score.outcome is outcome
    assert (score.low, score.high) == (pytest.approx(5.4), 6.5)


def test_between_two_weeks_the_band_lies_between() -> None:
    tests = read((DAY + timedelta(days=10), 6.0, "water 1:1"))
    (score,) = scores_of(tests, [letter(DAY, low=5.5, high=6.5)])
    assert score.low == pytest.approx(5.5 - 0.01 * 10 / 7)


def test_the_last_forecast_before_a_test_is_the_one_that_counts() -> None:
    letters = [letter(DAY, low=4, high=5), letter(DAY + timedelta(weeks=8), low=5.8, high=6.5)]
    tests = read((DAY + timedelta(weeks=10), 6.0, "water 1:1"))
    (score,) = scores_of(tests, letters)
    assert score.letter is letters[1] and score.outcome is Outcome.INSIDE


def test_a_test_of_the_letters_own_day_or_beyond_its_forecast_is_not_scored() -> None:
    tests = read((DAY, 6.0, "water 1:1"), (DAY + timedelta(weeks=70), 6.0, "water 1:1"))
    assert scores_of(tests, [letter(DAY, low=5.5, high=6.5)]) == ()


MIDDLE, SD, CAREFUL_SD = 6.0, 0.4, 0.18


def normal_forecast() -> ForecastPh:
    q05, q25, q50, q75, q95 = (
        (float(norm.ppf(level, MIDDLE, SD)),) * 60 for level in (0.05, 0.25, 0.5, 0.75, 0.95)
    )
    return ForecastPh(q05=q05, q25=q25, q50=q50, q75=q75, q95=q95)


@pytest.mark.parametrize("method", ["water 1:1", "CaCl2", "KCl"])
@pytest.mark.parametrize("ph", [4.2, 5.0, 5.4, 5.9, 6.6, 6.9, 8.0])
def test_the_timeline_and_the_scores_of_the_office_say_the_same(method: str, ph: float) -> None:
    """The range is that of a sum of normal errors, as SciPy has it."""
    sent = letter(DAY, low=5.5, high=6.5)
    assert sent.forecast is not None
    forecast = replace(sent.forecast, ph=normal_forecast())
    sent = replace(sent, forecast=forecast, measured_sd=CAREFUL_SD)
    issued = IssuedForecast(
        key="one",
        title="Plan",
        issued_as=IssuedAs.LETTER,
        on=DAY,
        dates=forecast.dates,
        ph=forecast.ph,
        measured_ph=6.5,
        measured_sd=CAREFUL_SD,
    )
    case = parse_case(
        f"case = 1\ntoday = 2027-01-01\n[[reading]]\ndate = {DAY + timedelta(weeks=10)}\n"
        f'ph = {ph}\nph_method = "{method}"\n'
    )
    (test,) = dated_tests(case)
    (score,) = scores_of((test,), [sent])
    (pair,) = scored_pairs(case, [issued], bed="Border")
    assert (score.low, score.middle, score.high) == (pair.low, pair.middle, pair.high)
    assert (score.outcome is Outcome.INSIDE) is pair.is_inside_90
    spread = (SD**2 + max(test.ph_water_sd**2 - CAREFUL_SD**2, 0.0)) ** 0.5
    low, high = norm.interval(0.9, MIDDLE, spread)
    assert (score.low, score.high) == pytest.approx((low, high), abs=0.02)
    if abs(test.ph_water - low) > 0.02 and abs(test.ph_water - high) > 0.02:
        at = Outcome.BELOW if test.ph_water < low else Outcome.ABOVE
        inside = low < test.ph_water < high
        assert score.outcome is (Outcome.INSIDE if inside else at)
