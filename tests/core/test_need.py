from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.core.need import (
    Need,
    carbonate_nodes,
    reading_nodes,
    weighted_quantile,
)
from loamshift.errors import OutOfRangeError


def need(*, curve: float = 50.0, sd: float = 0.24, zero: float = 1.0, low: float = 0.05,
         high: float = 0.5) -> Need:  # fmt: skip
    return Need(
        curve_mmolc_kg=np.array([curve]),
        curve_weight=np.ones(1),
        zero_weight=zero,
        carbonate_low_mmolc_kg=200.0 * low,
        carbonate_high_mmolc_kg=200.0 * high,
        log10_k_mean=0.0,
        log10_k_sd=sd,
    )


def test_without_lime_or_reading_error_it_is_a_lognormal() -> None:
    found = need()
    assert found.quantile(0.5) == pytest.approx(50.0, rel=1e-9)
    assert found.quantile(0.95) == pytest.approx(50.0 * 10 ** (0.24 * 1.6448536), rel=1e-6)


@given(
    curve=st.just(0.0) | st.floats(1e-6, 200.0),
    sd=st.floats(0.03, 0.4),
    zero=st.sampled_from((0.0, 0.3, 1.0)),
    high=st.sampled_from((0.05, 0.5, 3.0)),
    p=st.sampled_from((0.05, 0.25, 0.5, 0.95)),
)
def test_the_bracket_changes_no_bit_of_the_bisection(
    curve: float, sd: float, zero: float, high: float, p: float
) -> None:
    found = need(curve=curve, sd=sd, zero=zero, high=high)
    lower, upper = 0.0, 1.0
    if found.probability_at_most(lower) >= p:
        assert found.quantile(p) == 0.0
        return
    while found.probability_at_most(upper) < p:
        upper *= 2.0
    for _ in range(60):
        middle = 0.5 * (lower + upper)
        if found.probability_at_most(middle) < p:
            lower = middle
        else:
            upper = middle
    assert found.quantile(p) == 0.5 * (lower + upper)


def test_measured_lime_comes_on_top() -> None:
    found = need(zero=0.0, low=1.0, high=1.0)
    assert found.quantile(0.5) == pytest.approx(250.0, rel=1e-9)


@pytest.mark.parametrize("carbonate_pct", [0.01, 0.1, 0.5, 2.0, 10.0, 40.0])
@pytest.mark.parametrize("curve", [2.0, 40.0, 150.0])
def test_a_measured_lime_with_its_error_agrees_with_a_random_sample(
    carbonate_pct: float, curve: float
) -> None:
    rng = np.random.default_rng(11)
    n = 400_000
    sample = curve * 10 ** rng.normal(0.0, 0.24, n) + 200.0 * carbonate_pct * np.exp(
        rng.normal(0.0, 0.28, n)
    )
    found = replace(
        need(curve=curve, zero=0.0, low=carbonate_pct, high=carbonate_pct), carbonate_log_sd=0.28
    )
    for p in (0.05, 0.5, 0.95):
        assert found.quantile(p) == pytest.approx(np.quantile(sample, p), rel=0.005)


@given(pct=st.floats(1e-7, 30.0), curve=st.floats(0.5, 200.0), p=st.sampled_from((0.05, 0.5, 0.95)))
def test_more_measured_lime_needs_more_acid_without_a_jump(
    pct: float, curve: float, p: float
) -> None:
    def at(value: float) -> float:
        zero = 1.0 if value == 0.0 else 0.0
        return replace(
            need(curve=curve, zero=zero, low=value, high=value), carbonate_log_sd=0.28
        ).quantile(p)

    here, more = at(pct), at(pct * 1.001)
    assert -1e-4 * here <= more - here <= 0.002 * 200.0 * pct + 1e-4 * here
    assert at(1e-9) == pytest.approx(at(0.0), abs=1e-6)


def test_nodes_of_a_measured_lime_keep_its_median_and_spread() -> None:
    values, weights = carbonate_nodes(
        zero_weight=0.0, low_pct=2.0, high_pct=2.0, mmolc_kg_per_pct=200.0, log_sd=0.28
    )
    assert weighted_quantile(values.tolist(), weights.tolist(), 0.5) == pytest.approx(400.0)
    logs = np.log(values)
    mean = float(logs @ weights)
    assert math.sqrt(float((logs - mean) ** 2 @ weights)) == pytest.approx(0.28)
    most = carbonate_nodes(
        zero_weight=0.0, low_pct=80.0, high_pct=80.0, mmolc_kg_per_pct=1.0, log_sd=0.28
    )[0]
    assert most.max() == 100.0


def test_nodes_agree_with_a_large_random_sample() -> None:
    rng = np.random.default_rng(7)
    n = 400_000
    carbonate = np.where(
        rng.random(n) < 0.25, 0.0, np.exp(rng.uniform(math.log(0.05), math.log(10.0), n))
    )
    sample = 40.0 * 10 ** rng.normal(0.0, 0.24, n) + 200.0 * carbonate
    found = need(curve=40.0, zero=0.25, low=0.05, high=10.0)
    for p in (0.05, 0.5, 0.95):
        assert found.quantile(p) == pytest.approx(np.quantile(sample, p), rel=0.01)


def test_nothing_to_do_needs_nothing() -> None:
    found = need(curve=0.0)
    assert found.quantile(0.5) == 0.0
    assert found.probability_at_most(0.0) == 1.0


@given(st.floats(0.01, 0.99), st.floats(0.01, 0.99), st.floats(0.0, 1.0))
def test_quantiles_rise_and_come_back(p: float, q: float, zero: float) -> None:
    found = need(zero=zero)
    low, high = sorted((p, q))
    assert found.quantile(low) <= found.quantile(high)
    assert found.probability_at_most(found.quantile(p)) >= p - 1e-6


def test_reading_nodes_have_the_mean_and_sd_asked_for() -> None:
    values, weights = reading_nodes(ph=6.4, ph_sd=0.3)
    mean = float((values * weights).sum())
    assert mean == pytest.approx(6.4)
    assert float(((values - mean) ** 2 * weights).sum()) == pytest.approx(0.09)


@given(ph=st.floats(2.0, 11.0), sd=st.floats(0.0, 1.5))
def test_nodes_of_a_reading_stay_within_their_bounds(ph: float, sd: float) -> None:
    values, weights = reading_nodes(ph=ph, ph_sd=sd, low=2.0, high=11.0)
    assert values.min() >= 2.0 and values.max() <= 11.0
    assert np.all(np.diff(values) >= 0.0)
    assert weights.tolist() == reading_nodes(ph=ph, ph_sd=sd)[1].tolist()


@pytest.mark.parametrize(("ph", "sd"), [(3.3, 0.62), (2.2, 0.4), (10.6, 0.5), (6.5, 1.5)])
def test_nodes_of_a_cut_off_reading_have_the_mean_of_the_cut_off_distribution(
    ph: float, sd: float
) -> None:
    """Against the truncated normal distribution of scipy."""
    from scipy.stats import truncnorm

    values, weights = reading_nodes(ph=ph, ph_sd=sd, low=2.0, high=11.0)
    whole = truncnorm((2.0 - ph) / sd, (11.0 - ph) / sd, loc=ph, scale=sd)
    assert float(values @ weights) == pytest.approx(whole.mean(), abs=0.03 * sd)


def test_nodes_far_from_the_bounds_do_not_move_at_all() -> None:
    free = reading_nodes(ph=6.5, ph_sd=0.3)[0]
    assert reading_nodes(ph=6.5, ph_sd=0.3, low=2.0, high=11.0)[0].tolist() == free.tolist()
    near = reading_nodes(ph=6.5, ph_sd=0.65, low=2.0, high=11.0)[0]
    assert near == pytest.approx(reading_nodes(ph=6.5, ph_sd=0.65)[0], abs=1e-6)


def test_a_reading_beyond_its_bounds_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="between 2 and 11"):
        reading_nodes(ph=1.9, ph_sd=0.1, low=2.0, high=11.0)


def test_carbonate_nodes_hold_their_bounds_and_weight() -> None:
    values, weights = carbonate_nodes(
        zero_weight=0.5, low_pct=0.05, high_pct=0.5, mmolc_kg_per_pct=200.0
    )
    assert values[0] == 0.0 and weights[0] == 0.5
    assert 10.0 < values[1] < values[-1] < 100.0
    assert weights.sum() == pytest.approx(1.0)


def test_weighted_quantile_takes_the_step() -> None:
    assert weighted_quantile([0.0, 5.0], [0.5, 0.5], 0.5) == 0.0
    assert weighted_quantile([0.0, 5.0], [0.4, 0.6], 0.5) == 5.0
