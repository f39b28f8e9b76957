"""The worth of a test against brute force: another way to the same figure, by its own code."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm

from core.test_plan_rule import AMOUNTS, BEDS, START, goal, surface
from loamshift.core.information import (
    OUTCOMES,
    decided_by_outcome,
    normal_middles,
    outcome_shares,
    some_of,
)
from loamshift.errors import InputError

SPREAD = 0.35
LOW, HIGH = 5.2, 5.8
READING_SD = 0.2
HALF = np.arange(BEDS) % 2 == 0


def needs(beds: int = BEDS, spread: float = SPREAD) -> np.ndarray:
    """Log need of each straight bed, as ``surface`` lays them out."""
    z = norm.ppf((np.arange(beds) + 0.5) / beds)
    order = np.argsort(np.sin(1e4 * (np.arange(beds) + 1.0)), kind="stable")
    return (np.log(60.0) + spread * z)[order]


def gain(
    sd: float,
    *,
    seasons: int,
    outcomes: int,
    spread: float = SPREAD,
    seen: np.ndarray | None = None,
) -> float:
    """Beds that a test of the log need brings into the range."""
    plain = surface(spread=spread)
    read = needs(spread=spread) if seen is None else seen
    now, then = decided_by_outcome(
        plain,
        goal(seasons=seasons, most_harmed_frac=1.0),
        [np.ones((BEDS, 1)), outcome_shares(read, sd=sd, outcomes=outcomes)],
        chosen_on=HALF,
        first_g_m2=50.0,
        harm_price=0.0,
    )
    return float(then.in_range.sum() - now.in_range.sum())


def in_range(total: np.ndarray, log_need: np.ndarray) -> np.ndarray:
    """By the straight line itself: pH 7 - total / need."""
    ph = START - total[None, :] / np.exp(log_need)[:, None]
    return (ph >= LOW) & (ph <= HIGH)


def test_one_season_agrees_with_full_enumeration() -> None:
    """Every reading of a fine grid, every amount, every bed: the best of each, summed."""
    sd = 0.15
    log_need = needs()
    good = in_range(AMOUNTS[[0, 1, 2, 4, 5, 6]], log_need)
    good = np.concatenate((good, in_range(np.array([50.0]), log_need)), axis=1)
    read = np.linspace(log_need.min() - 4 * sd, log_need.max() + 4 * sd, 2001)
    density = norm.pdf(read[:, None], loc=log_need[None, :], scale=sd) / BEDS
    best = np.trapezoid((density @ good).max(axis=1), read)
    expected = float(best - good.mean(axis=0).max())
    assert expected > 0.1
    assert gain(sd, seasons=1, outcomes=40) == pytest.approx(expected, abs=0.015)
    assert gain(sd, seasons=1, outcomes=OUTCOMES) == pytest.approx(expected, abs=0.03)


def test_two_seasons_agree_with_nested_monte_carlo() -> None:
    """True beds and both readings drawn; the plan is chosen anew by weights for each draw."""
    sd, draws = 0.15, 400
    rng = np.random.default_rng(7)
    log_need = needs()
    amounts = AMOUNTS[[0, 2, 3, 4, 6]]
    firsts = AMOUNTS[[0, 1, 2, 3, 4, 5, 6]]
    later = in_range(np.add.outer(firsts, amounts).ravel(), log_need)
    later = later.reshape(BEDS, firsts.size, amounts.size)

    def plan(weight: np.ndarray) -> tuple[int, np.ndarray, np.ndarray]:
        """Best first amount, edges of its test and the second amount of each bin."""
        found = []
        for one, first in enumerate(firsts):
            ph = START - first / np.exp(log_need)
            edges = np.arange(ph.min() - 0.5, ph.max() + 0.5, 0.2)
            below = norm.cdf((edges[None, :] - ph[:, None]) / READING_SD)
            share = np.diff(np.hstack((np.zeros((BEDS, 1)), below, np.ones((BEDS, 1)))), axis=1)
            value = (weight[:, None] * share).T @ later[:, one]
            found.append((value.max(axis=1).sum(), one, edges, value.argmax(axis=1)))
        _, one, edges, second = max(found, key=lambda row: row[0])
        return one, edges, second

    def fares(one: int, edges: np.ndarray, second: np.ndarray, bed: int) -> float:
        """Chance that a bed under this plan comes into the range."""
        ph = START - firsts[one] / np.exp(log_need[bed])
        share = np.diff([0.0, *norm.cdf((edges - ph) / READING_SD), 1.0])
        return float(share @ later[bed, one, second])

    now = plan(np.full(BEDS, 1.0 / BEDS))
    gains = []
    for bed in rng.integers(0, BEDS, draws):
        weight = norm.pdf(rng.normal(log_need[bed], sd), loc=log_need, scale=sd)
        gains.append(fares(*plan(weight / weight.sum()), bed) - fares(*now, bed))
    expected, error = np.mean(gains), np.std(gains) / np.sqrt(draws)
    assert error < 0.02
    assert gain(sd, seasons=2, outcomes=20) == pytest.approx(expected, abs=0.02 + 2.0 * error)


@pytest.mark.parametrize("seasons", [1, 2, 3])
def test_a_test_that_tells_nothing_gains_nothing(seasons: int) -> None:
    """Law: a gain is not below 0, within the error of a finite number of beds."""
    noise = np.random.default_rng(3).normal(size=BEDS)
    for sd in (1e-3, 1.0, 10.0):
        told = gain(sd, seasons=seasons, outcomes=6, seen=noise)
        assert -0.05 < told < 0.015
    assert gain(50.0, seasons=seasons, outcomes=6) == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize("seasons", [1, 2, 3])
def test_a_perfect_test_gains_the_most(seasons: int) -> None:
    """Law: the smaller the error the greater the gain, and no test beats perfect knowledge."""
    gains = [gain(sd, seasons=seasons, outcomes=12) for sd in (0.02, 0.15, 0.3, 0.6)]
    assert gains == sorted(gains, reverse=True)
    assert gains[0] > 0.0
    plain = surface()
    now, known = decided_by_outcome(
        plain,
        goal(seasons=seasons, most_harmed_frac=1.0),
        [np.ones((BEDS, 1)), outcome_shares(needs(), sd=1e-3, outcomes=100)],
        chosen_on=HALF,
        first_g_m2=50.0,
        harm_price=0.0,
    )
    assert gains[0] <= float(known.in_range.sum() - now.in_range.sum()) + 0.02


@pytest.mark.parametrize("seasons", [1, 2])
def test_what_is_known_already_is_worth_little(seasons: int) -> None:
    """Law: on beds that a test was made of, the same test gains about nothing."""
    before = gain(0.1, seasons=seasons, outcomes=12)
    known = gain(0.1, seasons=seasons, outcomes=12, spread=0.03)
    assert known < 0.2 * before
    assert abs(known) < 0.01


def test_more_tests_to_come_leave_less_to_gain() -> None:
    """A plan with tests of its own learns by itself what another test would tell."""
    single, once = (gain(0.15, seasons=count, outcomes=12) for count in (1, 2))
    assert once < single


def test_harm_is_weighed() -> None:
    """With a heavy price of harm no outcome calls for what harms."""
    plain = surface()
    strict = goal(seasons=1, harmful_ph=LOW - 0.05)
    shares = [np.ones((BEDS, 1))]
    free, careful = (
        decided_by_outcome(
            plain, strict, shares, chosen_on=HALF, first_g_m2=50.0, harm_price=price
        )[0]
        for price in (0.0, 64.0)
    )
    assert careful.in_range.sum() < free.in_range.sum()


def test_outcomes_are_about_as_likely_and_sure_where_the_test_is() -> None:
    shares = outcome_shares(needs(), sd=0.2, outcomes=8)
    assert shares.sum(axis=1) == pytest.approx(np.ones(BEDS))
    assert shares.mean(axis=0) == pytest.approx(np.full(8, 0.125), abs=0.01)
    with pytest.raises(InputError, match="above 0"):
        outcome_shares(needs(), sd=0.0, outcomes=8)


def test_every_bed_must_be_spoken_of() -> None:
    with pytest.raises(InputError, match="each of 600 beds"):
        decided_by_outcome(
            surface(),
            goal(),
            [np.ones((BEDS - 1, 1))],
            chosen_on=HALF,
            first_g_m2=50.0,
            harm_price=0.0,
        )


def test_small_parts() -> None:
    assert normal_middles(3)[1] == pytest.approx(0.0, abs=1e-6)
    assert normal_middles(64).std() == pytest.approx(1.0, abs=0.03)
    assert some_of(np.array([0.0, 5.0]), 6).tolist() == [0.0, 5.0]
