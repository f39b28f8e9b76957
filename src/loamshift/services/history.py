"""How has this bed gone? Tests beside the forecasts of their time, in words and on one line."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from statistics import NormalDist
from typing import Final

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.history import History, LetterSent, Outcome, PutOn, Score, TestRead
from loamshift.domain.ph import PhReading
from loamshift.services.context.readings import ph_belief
from loamshift.services.score.held import held_against

_NINE_IN_TEN_SD: Final = NormalDist().inv_cdf(0.95)


def history_of(case: Case, answer: Answer, letters: Sequence[LetterSent]) -> History:
    """The bed's life so far with the forecast of today.

    Parameters
    ----------
    letters
        Letters sent, in any order.

    Returns
    -------
    History
        Everything in the order of time; each careful test with the score of the last forecast
        made before it.
    """
    tests = dated_tests(case)
    ordered = tuple(sorted(letters, key=lambda letter: (letter.day, letter.sent_on)))
    return History(
        name=case.name,
        today=case.today,
        tests=tests,
        put_on=tuple(
            PutOn(
                on=entry.on,
                material=entry.material.key,
                rate_g_m2=entry.rate_g_m2,
                as_given=entry.as_given,
            )
            for entry in sorted(case.applied, key=lambda entry: entry.on)
        ),
        letters=ordered,
        scores=scores_of(tests, ordered),
        forecast=answer.forecast,
        is_planned=bool(answer.applications),
        wanted=answer.wanted,
        soil_temperature=answer.soil_temperature,
        undated=case.soil.ph is not None and case.soil.ph.taken is None,
    )


def dated_tests(case: Case) -> tuple[TestRead, ...]:
    """Every dated test of a bed as pH in water.

    Returns
    -------
    tuple of TestRead
        The earliest first; readings without a date are left out.
    """
    first = (case.soil.ph,) if case.soil.ph is not None else ()
    read = [_test(reading) for reading in (*first, *case.readings) if reading.taken is not None]
    return tuple(sorted(read, key=lambda test: test.on))


def scores_of(tests: Sequence[TestRead], letters: Sequence[LetterSent]) -> tuple[Score, ...]:
    """Later tests held against the forecast that was the last one made before each.

    Parameters
    ----------
    letters
        Letters in the order of their day.

    Returns
    -------
    tuple of Score
        One for each test that a forecast had foretold, by the day of the test.

    Notes
    -----
    A test is held against its forecast as the scores of the office hold it: where its method is
    less exact than the one that the forecast rests on, the range is as much wider. A letter that
    no longer says what it rested on is taken at its word. A test of the day of the letter went
    into its forecast and is not scored.
    """
    scores = []
    for test in tests:
        before = [
            letter
            for letter in letters
            if letter.forecast is not None and letter.day < test.on and _covers(letter, test.on)
        ]
        if before:
            scores.append(_score(test, before[-1]))
    return tuple(scores)


def _test(reading: PhReading) -> TestRead:
    belief = ph_belief(reading)
    assert reading.taken is not None
    half = _NINE_IN_TEN_SD * belief.ph_water_sd
    return TestRead(
        on=reading.taken,
        ph=reading.ph,
        method=reading.method,
        depth_cm=reading.depth_cm,
        ph_water=belief.ph_water,
        ph_water_sd=belief.ph_water_sd,
        lo90=belief.ph_water - half,
        hi90=belief.ph_water + half,
    )


def _covers(letter: LetterSent, day: date) -> bool:
    forecast = letter.forecast
    return forecast is not None and forecast.dates[0] <= day <= forecast.dates[-1]


def _score(test: TestRead, letter: LetterSent) -> Score:
    forecast = letter.forecast
    assert forecast is not None
    held = held_against(
        forecast.dates,
        forecast.ph,
        on=test.on,
        read_ph=test.ph_water,
        read_sd=test.ph_water_sd,
        held_sd=test.ph_water_sd if letter.measured_sd is None else letter.measured_sd,
    )
    if test.method.is_rough:
        outcome = Outcome.TOO_ROUGH
    elif held.is_inside_90:
        outcome = Outcome.INSIDE
    else:
        outcome = Outcome.ABOVE if held.share_below > 0.5 else Outcome.BELOW
    low, _, middle, _, high = held.ends
    return Score(test=test, letter=letter, low=low, middle=middle, high=high, outcome=outcome)
