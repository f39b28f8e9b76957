from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.ph import PhMethod, PhReading
from loamshift.services.belief.expected import ExpectedReading
from loamshift.services.belief.refit_words import Learned, refit_words
from loamshift.services.context.readings import SeasonReading
from wording import read

DAY = date(2026, 4, 1)
READING = SeasonReading(
    day=DAY,
    ph_water=7.9,
    method_sd=0.1,
    readings=(PhReading(ph=7.9, method=PhMethod.WATER_1_1, taken=DAY),),
)
PLAIN = Learned(
    times=1.4,
    sd_left_frac=0.6,
    news=True,
    pressed_low=False,
    pressed_high=False,
    fits_no_bed=False,
    lime_open=False,
    doubted=(),
    only_rough=False,
    expected=ExpectedReading(day=DAY, read_ph=7.9, low=6.2, middle=6.6, high=7.1),
)


def said(learned: Learned) -> str:
    return read(refit_words(learned)[0])


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (1.4, "1.4 times as much as its texture suggests"),
        (2.0, "2.0 times as much"),
        (1.0, "about as much as its texture suggests"),
        (0.62, "only 62% as much as its texture suggests"),
    ],
)
def test_how_strongly_it_resists_is_said_by_the_number(times: float, words: str) -> None:
    assert words in said(replace(PLAIN, times=times))


def test_what_limits_the_answer_is_said_with_it() -> None:
    assert "even more than we can represent" in said(replace(PLAIN, pressed_high=True))
    assert "even less than we can represent" in said(replace(PLAIN, pressed_low=True))
    assert "fizz test" in said(replace(PLAIN, lime_open=True))
    assert "fizz test" not in said(replace(PLAIN, lime_open=True, times=0.8))
    assert "rough ones" in said(replace(PLAIN, only_rough=True))


def test_nothing_learned_is_said() -> None:
    assert "say little" in said(replace(PLAIN, news=False, times=1.0))


def test_a_doubted_reading_is_named_and_no_number_of_the_soil_is_given() -> None:
    words, doubted = refit_words(replace(PLAIN, doubted=(READING,)))
    assert "times as much" not in read(words) and "do not fit what was applied" in read(words)
    (told,) = doubted
    assert told.values["day"] == DAY
    assert read(told).startswith("The test of 1 April 2026, pH 7.9, fits no likely course")
    nothing, _ = refit_words(replace(PLAIN, doubted=(READING,), fits_no_bed=True))
    assert "do not fit each other" in read(nothing)
