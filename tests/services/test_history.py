from __future__ import annotations

from datetime import date, timedelta

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import DoNothing, Forecast, ForecastPh
from loamshift.domain.history import LetterSent, Outcome, TestRead
from loamshift.services.history import dated_tests, scores_of

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
