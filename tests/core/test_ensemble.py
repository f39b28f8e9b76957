from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from loamshift.core.ensemble import (
    coverage,
    crps_ensemble,
    draw_members,
    median_course,
    quantile_bands,
    sample_median,
    sample_quantiles,
    variance_shares,
)
from loamshift.errors import InputError, OutOfRangeError


def draw(
    centre: float, spread: float, *, lognormal: bool = False, seed: int = 3, **bounds: float
) -> np.ndarray:
    return draw_members(
        [centre],
        [spread],
        lognormal=[lognormal],
        low=[bounds.get("low", -math.inf)],
        high=[bounds.get("high", math.inf)],
        n_members=2000,
        rng=np.random.default_rng(seed),
    )[:, 0]


def normal_cdf(z: np.ndarray) -> np.ndarray:
    return np.array([0.5 * (1.0 + math.erf(value / math.sqrt(2.0))) for value in z])


def test_one_member_lies_in_each_slice_of_the_prior() -> None:
    drawn = draw(5.0, 2.0)
    slices = np.floor(2000 * normal_cdf((drawn - 5.0) / 2.0)).astype(int)
    assert sorted(slices) == list(range(2000))


def test_lognormal_marginal_has_its_median_and_width() -> None:
    drawn = np.log(draw(18.0, 0.8, lognormal=True))
    assert drawn.mean() == pytest.approx(math.log(18.0), abs=1e-3)
    assert drawn.std() == pytest.approx(0.8, rel=3e-3)


def test_bounds_cut_the_prior_and_nothing_piles_up_there() -> None:
    drawn = draw(57.0, 13.0, low=40.0, high=95.0)
    assert drawn.min() >= 40.0
    assert drawn.max() <= 95.0
    assert len(np.unique(drawn)) == drawn.size
    inside = normal_cdf((np.array([40.0, 50.0, 95.0]) - 57.0) / 13.0)
    share = (inside[1] - inside[0]) / (inside[2] - inside[0])
    assert np.mean(drawn < 50.0) == pytest.approx(share, abs=1e-3)


def test_parameters_are_drawn_independently() -> None:
    drawn = draw_members(
        [0.0, 0.0],
        [1.0, 1.0],
        lognormal=[False, False],
        low=[-math.inf] * 2,
        high=[math.inf] * 2,
        n_members=4000,
        rng=np.random.default_rng(5),
    )
    assert abs(np.corrcoef(drawn.T)[0, 1]) < 0.05


def test_a_seed_gives_the_same_members_again() -> None:
    assert np.array_equal(draw(1.0, 1.0, seed=8), draw(1.0, 1.0, seed=8))
    assert not np.array_equal(draw(1.0, 1.0, seed=8), draw(1.0, 1.0, seed=9))


def test_without_spread_the_parameter_is_held() -> None:
    assert set(draw(0.4, 0.0)) == {0.4}


@pytest.mark.parametrize(
    ("centre", "spread", "lognormal", "low", "high"),
    [
        (-1.0, 0.5, True, 0.0, 9.0),
        (1.0, -0.5, False, 0.0, 9.0),
        (1.0, 0.5, False, 2.0, 9.0),
        (1.0, 0.5, False, 9.0, 0.0),
        (math.nan, 0.5, False, 0.0, 9.0),
    ],
)
def test_impossible_priors_are_refused(
    centre: float, spread: float, lognormal: bool, low: float, high: float
) -> None:
    with pytest.raises(OutOfRangeError):
        draw(centre, spread, lognormal=lognormal, low=low, high=high)


@pytest.mark.parametrize("observed", [-1.0, 0.0, 0.7, 3.0])
def test_crps_of_a_normal_sample_is_the_closed_form(observed: float) -> None:
    members = draw(0.0, 1.0)
    density = math.exp(-0.5 * observed**2) / math.sqrt(2.0 * math.pi)
    below = 0.5 * (1.0 + math.erf(observed / math.sqrt(2.0)))
    closed = observed * (2.0 * below - 1.0) + 2.0 * density - 1.0 / math.sqrt(math.pi)
    assert float(crps_ensemble(members, observed)) == pytest.approx(closed, abs=1e-3)


def test_crps_is_the_mean_over_all_pairs() -> None:
    rng = np.random.default_rng(2)
    members, observed = rng.normal(size=(7, 3)), rng.normal(size=3)
    pairs = np.abs(members[:, None, :] - members[None, :, :]).mean(axis=(0, 1))
    expected = np.abs(members - observed).mean(axis=0) - 0.5 * pairs
    assert crps_ensemble(members, observed) == pytest.approx(expected)


def test_crps_of_one_member_is_its_error() -> None:
    assert crps_ensemble([[5.0, 6.0]], [5.5, 5.5]).tolist() == [0.5, 0.5]


@given(
    hnp.arrays(np.float64, (9, 4), elements=st.floats(3.0, 9.0)),
    hnp.arrays(np.float64, 4, elements=st.floats(3.0, 9.0)),
)
def test_crps_is_never_negative(members: np.ndarray, observed: np.ndarray) -> None:
    assert np.all(crps_ensemble(members, observed) >= -1e-12)


def test_coverage_of_an_exact_sample_is_the_probability_of_the_band() -> None:
    observed = draw(0.0, 1.0, seed=1)
    low, high = quantile_bands(draw(0.0, 1.0, seed=2), probabilities=(0.05, 0.95))
    held = coverage(observed, low=np.full(2000, low), high=np.full(2000, high))
    assert held == pytest.approx(0.9, abs=2e-3)


def test_bands_are_in_order_at_every_time() -> None:
    bands = quantile_bands(np.random.default_rng(4).normal(size=(50, 6)))
    assert bands.shape == (5, 6)
    assert np.all(np.diff(bands, axis=0) >= 0.0)


def test_shares_find_the_cause_and_add_up() -> None:
    x = np.random.default_rng(6).normal(size=(3000, 3))
    shares = variance_shares(x, 3.0 * x[:, 0] + 1.0 * x[:, 1])
    assert shares.sum() == pytest.approx(1.0)
    assert shares[0] == pytest.approx(0.9, abs=0.03)
    assert shares[2] < 0.01


def test_shares_do_not_care_about_a_scale_that_keeps_the_order() -> None:
    x = np.random.default_rng(6).normal(size=(300, 2))
    outcome = x[:, 0] + x[:, 1]
    assert variance_shares(x, outcome) == pytest.approx(variance_shares(np.exp(x), outcome**3))


def test_what_is_held_has_no_share() -> None:
    x = np.column_stack([np.arange(10.0), np.ones(10)])
    assert variance_shares(x, x[:, 0]).tolist() == [1.0, 0.0]
    assert variance_shares(x, np.ones(10)).tolist() == [0.0, 0.0]


def test_nonsense_is_refused() -> None:
    with pytest.raises(InputError):
        quantile_bands([1.0, math.nan])
    with pytest.raises(InputError):
        crps_ensemble([[1.0, 2.0]], [1.0])
    with pytest.raises(InputError):
        coverage([1.0], low=[2.0], high=[0.0])
    with pytest.raises(InputError):
        variance_shares([[1.0]], [1.0])


@pytest.mark.parametrize("members", [1, 2, 7, 350])
def test_the_median_course_is_numpys_median_to_the_last_bit(members: int) -> None:
    values = np.random.default_rng(members).normal(6.5, 1.0, (members, 5))
    assert np.array_equal(median_course(values), np.median(values, axis=0))


@pytest.mark.parametrize("count", [1, 2, 7, 350])
def test_middles_and_quantiles_of_some_values_are_those_of_numpy(count: int) -> None:
    rng = np.random.default_rng(count)
    shares = (0.0, 0.005, 0.2, 1.0 / 3.0, 0.5, 0.995, 1.0)
    for _ in range(20):
        values = rng.normal(6.0, 1.0, count).round(int(rng.integers(1, 9)))
        assert sample_median(values) == np.median(values)
        assert sample_quantiles(values, shares) == pytest.approx(
            np.quantile(values, shares), rel=1e-14
        )
