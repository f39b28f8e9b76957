"""The forecast of a trial: kept with a digest, and what peat does to a limy soil."""

from datetime import date
from itertools import pairwise

import pytest

from invented_trials import TWO, plan, rows, trial
from loamshift.case.trial_forecast import forecast_from_json, forecast_json
from loamshift.domain.trial import Prediction
from loamshift.domain.trial_result import Shown, Trouble
from loamshift.services.trial.analyse import analyse
from loamshift.services.trial.expect import digest_of, doses_to_span, predict


@pytest.fixture(scope="module")
def limy() -> Prediction:
    found = predict(trial(), today=date(2026, 4, 10), version="0", members=40)
    assert found is not None
    return found


def test_peat_in_a_limy_soil_falls_at_once_and_is_gone_in_days(limy: Prediction) -> None:
    """Common practice, no source: peat dug into chalk is sour for days, not for seasons."""
    change = {day: limy.of("peat", day).change for day in (0, 1, 9, 30, 90)}  # type: ignore[union-attr]
    assert change[0] == 0.0
    assert change[1] < -0.2
    assert all(abs(change[day]) < 0.05 for day in (9, 30, 90))
    assert limy.days_advised[:4] == (0, 1, 3, 9)


def test_pots_made_up_from_the_forecast_come_out_so(limy: Prediction) -> None:
    made = plan()

    def as_forecast(name: str, day: int) -> float:
        return limy.of(name, day).ph  # type: ignore[union-attr]

    result = analyse(made, rows(made, as_forecast), prediction=limy)
    met, of = result.predicted_well
    assert of == 10 and met >= 9
    by_day = {day.day: {row.treatment: row for row in day.rows} for day in result.days}
    assert by_day[1]["peat"].shown is Shown.DIFFERS
    assert by_day[30]["peat"].shown is not Shown.DIFFERS


def test_a_forecast_is_kept_whole(limy: Prediction) -> None:
    assert forecast_from_json(forecast_json(limy), source="x") == limy


def test_a_forecast_for_another_trial_is_not_compared(limy: Prediction) -> None:
    other = plan("replicates = 4")
    result = analyse(other, rows(other, lambda name, day: 7.8), prediction=limy)
    assert result.prediction is None
    assert Trouble.OTHER_FORECAST in [problem.kind for problem in result.problems]


def test_the_digest_follows_what_is_forecast_and_not_its_name() -> None:
    assert digest_of(trial()) != digest_of(trial("replicates = 4"))
    assert digest_of(trial()) != digest_of(trial(treatments=TWO.replace("100 g/m2", "90 g/m2")))
    assert digest_of(trial()) == digest_of(trial("blind = true"))


def test_doses_reach_past_what_is_asked() -> None:
    acid = """
[bed]
area = "0.03 m2"
depth = "15 cm"
[soil]
ph = 6.5
ph_method = "water 1:2.5"
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"
"""
    series = (
        '[[treatment]]\nname = "nothing"\n[[treatment]]\nname = "1"\n'
        'material = "elemental sulfur, powder"\nrate = "1 g/m2"\n'
    )
    made = trial('design = "dose series"', series, acid)
    rates = doses_to_span(made, ph_to=5.5, count=5)
    assert rates[0] == 0.0 and len(rates) == 5
    steps = [later - earlier for earlier, later in pairwise(rates)]
    assert max(steps) - min(steps) <= 0.1 * max(steps)
    assert doses_to_span(made, ph_to=7.5, count=5) == ()
