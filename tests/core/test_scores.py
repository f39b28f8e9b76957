from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import binom, binomtest, norm

from loamshift.core.scores import (
    chance_interval,
    crps,
    share_below,
    share_interval,
    skill,
    values_from_quantiles,
)
from loamshift.errors import OutOfRangeError
from reference_scores import theirs

LEVELS = (0.05, 0.25, 0.5, 0.75, 0.95)


def drawn(count: int = 40) -> np.ndarray:
    return np.sort(np.random.default_rng(7).normal(5.6, 0.4, count))


@pytest.mark.parametrize("read_ph", [4.0, 5.5, 5.61, 7.2])
def test_the_score_of_an_ensemble_is_that_of_scoringrules(read_ph: float) -> None:
    values = drawn()
    their_score = float(theirs.crps_ensemble(read_ph, values, estimator="nrg"))
    assert crps(values, read_ph=read_ph) == pytest.approx(their_score, abs=1e-12)


@pytest.mark.parametrize("error_sd", [0.05, 0.18, 0.6])
def test_the_score_with_an_error_is_that_of_scoringrules(error_sd: float) -> None:
    values = drawn()
    their_score = theirs.crps_mixnorm(5.1, values, np.full(values.size, error_sd))
    assert crps(values, read_ph=5.1, error_sd=error_sd) == pytest.approx(
        float(their_score), abs=1e-12
    )


def test_a_score_worked_by_hand() -> None:
    # values 5 and 6, read 5.25: (0.25 + 0.75) / 2 - (0 + 1 + 1 + 0) / 8 = 0.25
    assert crps([5.0, 6.0], read_ph=5.25) == pytest.approx(0.25, abs=1e-15)
    # a normal forecast read at its middle: sd (sqrt(2) - 1) / sqrt(pi), Gneiting and Raftery 2007
    at_middle = 0.3 * (np.sqrt(2.0) - 1.0) / np.sqrt(np.pi)
    assert crps([5.5], read_ph=5.5, error_sd=0.3) == pytest.approx(at_middle, abs=1e-12)


@pytest.mark.parametrize("read_ph", [5.0, 5.5, 6.3])
def test_quantiles_of_a_normal_forecast_give_nearly_its_score(read_ph: float) -> None:
    quantiles = norm.ppf(LEVELS, 5.5, 0.4)
    values = values_from_quantiles(quantiles, levels_frac=LEVELS)
    their_score = float(theirs.crps_normal(read_ph, 5.5, 0.4))
    assert crps(values, read_ph=read_ph) == pytest.approx(their_score, abs=0.002)
    assert share_below(values, read_ph=read_ph) == pytest.approx(
        norm.cdf(read_ph, 5.5, 0.4), abs=0.01
    )


def test_values_keep_the_quantiles_they_come_from() -> None:
    quantiles = (4.6, 5.2, 5.3, 5.9, 6.8)
    values = values_from_quantiles(quantiles, levels_frac=LEVELS, count=2001)
    assert np.quantile(values, LEVELS) == pytest.approx(quantiles, abs=0.003)
    assert np.all(np.diff(values) >= 0.0)


def test_a_band_without_width_is_one_value() -> None:
    values = values_from_quantiles([5.0] * 5, levels_frac=LEVELS)
    assert crps(values, read_ph=5.4) == pytest.approx(0.4)
    assert share_below(values, read_ph=5.0) == pytest.approx(0.5)


def test_an_error_of_the_reading_draws_the_share_to_the_middle() -> None:
    values = values_from_quantiles((5.0, 5.2, 5.3, 5.4, 5.6), levels_frac=LEVELS)
    sure = share_below(values, read_ph=5.7)
    unsure = share_below(values, read_ph=5.7, error_sd=0.5)
    assert sure > 0.95
    assert 0.5 < unsure < 0.9


def test_a_good_forecast_takes_every_share_equally_often() -> None:
    rng = np.random.default_rng(3)
    values = values_from_quantiles(norm.ppf(LEVELS, 5.5, 0.4), levels_frac=LEVELS)
    truth = rng.normal(5.5, 0.4, 4000) + rng.normal(0.0, 0.3, 4000)
    shares = [share_below(values, read_ph=read, error_sd=0.3) for read in truth]
    inside = np.mean([abs(share - 0.5) <= 0.45 for share in shares])
    assert inside == pytest.approx(0.9, abs=0.015)  # 3 sd of a binomial share of 4,000


def test_skill_is_the_share_saved() -> None:
    assert skill([0.1, 0.3], against_ph=[0.4, 0.4]) == pytest.approx(0.5)
    assert skill([0.5], against_ph=[0.25]) == pytest.approx(-1.0)


def test_the_interval_of_a_share_is_the_exact_one() -> None:
    # Clopper and Pearson 1934: each end leaves a chance of 0.025 to so many hits or beyond
    low, high = share_interval(9, 10)
    assert 10 * low**9 * (1 - low) + low**10 == pytest.approx(0.025, abs=1e-9)
    assert 1 - high**10 == pytest.approx(0.025, abs=1e-9)
    theirs = binomtest(27, 31).proportion_ci(0.9, method="exact")
    assert share_interval(27, 31, level_frac=0.9) == pytest.approx((theirs.low, theirs.high))
    assert share_interval(0, 3)[0] == 0.0
    assert share_interval(3, 3)[1] == 1.0


@pytest.mark.parametrize(("share", "of"), [(0.1, 3), (0.5, 30), (0.9, 20), (0.9, 1), (1.0, 4)])
def test_what_chance_gives_is_the_interval_of_scipy(share: float, of: int) -> None:
    low, high = binom.interval(0.9, of, share)
    assert chance_interval(share, of) == pytest.approx((low / of, high / of))


def test_chance_gives_nine_shares_in_ten_within_its_interval() -> None:
    rng = np.random.default_rng(11)
    low, high = chance_interval(0.5, 30)
    shares = rng.binomial(30, 0.5, 5000) / 30
    assert np.mean((shares >= low) & (shares <= high)) >= 0.9


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: values_from_quantiles([5.0], levels_frac=[0.5]),
        lambda: values_from_quantiles([5.0, 4.9], levels_frac=[0.2, 0.8]),
        lambda: values_from_quantiles([5.0, 5.5], levels_frac=[0.8, 0.2]),
        lambda: values_from_quantiles([5.0, 5.5], levels_frac=[0.0, 0.5]),
        lambda: crps([], read_ph=5.0),
        lambda: crps([5.0], read_ph=5.0, error_sd=-0.1),
        lambda: share_below([5.0], read_ph=5.0, error_sd=float("nan")),
        lambda: skill([], against_ph=[]),
        lambda: skill([0.1], against_ph=[0.0]),
        lambda: share_interval(4, 3),
        lambda: share_interval(0, 0),
        lambda: chance_interval(1.2, 5),
        lambda: chance_interval(0.5, 0),
    ],
)
def test_what_cannot_be_scored_is_refused(wrong: object) -> None:
    assert callable(wrong)
    with pytest.raises(OutOfRangeError):
        wrong()
