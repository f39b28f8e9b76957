"""Forecasts of a trial against its readings, by arithmetic done here."""

from datetime import date, timedelta

import pytest

from invented_trials import plan, rows
from loamshift.domain.score import IssuedAs, LeftOut
from loamshift.domain.trial import Expected, Prediction, TrialPlan
from loamshift.domain.trial_result import TrialResult
from loamshift.services.score.trials import trial_pairs
from loamshift.services.trial.analyse import analyse
from loamshift.services.trial.expect import digest_of


def result(*, made_on: date, wide: float = 0.3) -> TrialResult:
    """Peat is forecast to fall by 0.6 and does; sulfur by as much and does not."""
    made: TrialPlan = plan("days = [0, 1, 9]\n")
    said = [
        Expected(
            treatment=one.name, day=day, ph=ph, ph_low=ph - wide, ph_high=ph + wide,
            change=ph - 7.8, change_low=ph - 7.8 - wide, change_high=ph - 7.8 + wide,
        )
        for one in made.trial.treatments
        for day in made.trial.days
        for ph in [7.8 if one.name == "nothing" or day == 0 else 7.2]
    ]  # fmt: skip
    prediction = Prediction(
        digest=digest_of(made.trial), made_on=made_on, version="0", seed=1, rows=tuple(said),
        days_advised=(0, 1),
    )  # fmt: skip
    read = rows(made, lambda name, day: 7.2 if name == "peat" and day else 7.8)
    return analyse(made, read, prediction=prediction)


def test_each_treatment_and_day_is_a_pair_and_counts_once() -> None:
    start = plan().trial.start
    pairs = trial_pairs(result(made_on=start - timedelta(days=3)), bed="Bed")
    assert [(p.bed, p.read.on - start) for p in pairs[:2]] == [
        ("Bed: nothing", timedelta(days=1)), ("Bed: nothing", timedelta(days=9))
    ]  # fmt: skip
    assert [p.left_out for p in pairs] == [None, LeftOut.AGAIN] * 3
    assert {p.issued.issued_as for p in pairs} == {IssuedAs.TRIAL}
    first = {p.bed.removeprefix("Bed: "): p for p in pairs if p.left_out is None}
    assert first["peat"].is_inside_90 and abs(first["peat"].error) < 0.1
    assert first["sulfur"].error == pytest.approx(0.6, abs=0.1)
    assert not first["sulfur"].is_inside_90
    assert first["nothing"].lead_days == 4


def test_a_forecast_made_after_the_readings_scores_nothing() -> None:
    start = plan().trial.start
    later = trial_pairs(result(made_on=start + timedelta(days=5)), bed="Bed")
    assert {p.read.on for p in later} == {start + timedelta(days=9)}
    assert not trial_pairs(result(made_on=start + timedelta(days=9)), bed="Bed")
