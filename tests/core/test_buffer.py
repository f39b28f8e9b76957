"""The buffer curve: its figures, its inverse, its limits, and what jars teach about its scale."""

from __future__ import annotations

import math

import numpy as np
import pytest

from loamshift.core.buffer import (
    BufferParameters,
    acid_between_mmolc_kg,
    base_content_mmolc_kg,
    buffer_mmolc_kg_ph,
    combine_log10_k,
    log10_k_from_step,
    log10_k_from_titration,
    ph_after_acid,
)
from loamshift.errors import FitError, InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = BufferParameters(**parameter_values("buffer"))
LOAM = {"clay_pct": 18.0, "organic_carbon_pct": 1.5, "params": P}


@pytest.mark.parametrize(
    ("clay_pct", "organic_carbon_pct", "slope"),
    [(5.0, 0.9, 14), (11.0, 1.1, 18), (18.0, 1.5, 23), (32.0, 1.8, 30), (38.0, 1.9, 33)],
)
def test_mean_slope_over_ph_5_to_7(clay_pct: float, organic_carbon_pct: float, slope: int) -> None:
    acid = acid_between_mmolc_kg(
        7.0, 5.0, clay_pct=clay_pct, organic_carbon_pct=organic_carbon_pct, params=P
    )
    assert round(acid / 2.0) == slope


def test_each_slope_coefficient_is_the_mean_slope_over_its_window() -> None:
    dry = {"params": P}

    def window(clay: float, carbon: float) -> float:
        return acid_between_mmolc_kg(
            6.5, 4.5, clay_pct=clay, organic_carbon_pct=carbon, organic_only=True, **dry
        )

    bare = window(0.0, 0.0)
    assert (window(0.0, 1.0) - bare) / 2.0 == pytest.approx(10.0, abs=1e-9)
    assert window(50.0, 1.0) == window(0.0, 1.0)


def test_slope_is_the_derivative() -> None:
    for ph in (3.2, 4.0, 4.6, 5.5, 6.5, 7.5, 8.4):
        step = 1e-5
        numeric = acid_between_mmolc_kg(ph + step, ph - step, **LOAM) / (2 * step)
        assert buffer_mmolc_kg_ph(ph, **LOAM) == pytest.approx(numeric, rel=1e-6)


def test_buffering_doubles_or_trebles_in_the_aluminium_range() -> None:
    soil = {"clay_pct": 21.0, "organic_carbon_pct": 1.4, "params": P}
    least = min(buffer_mmolc_kg_ph(ph, **soil) for ph in (5.5, 6.0, 6.3))
    assert 1.8 < buffer_mmolc_kg_ph(4.5, **soil) / least < 3.0
    assert buffer_mmolc_kg_ph(4.0, **soil) == pytest.approx(73.0, abs=1.0)


def test_acid_then_the_same_base_returns() -> None:
    down = ph_after_acid(6.8, 45.0, **LOAM)
    assert down < 6.8
    assert ph_after_acid(down, -45.0, **LOAM) == pytest.approx(6.8, abs=1e-10)


def test_carbonate_goes_first_at_the_starting_ph() -> None:
    assert ph_after_acid(7.6, 99.0, carbonate_mmolc_kg=100.0, **LOAM) == 7.6
    assert ph_after_acid(7.6, 100.0, carbonate_mmolc_kg=100.0, **LOAM) == 7.6
    past = ph_after_acid(7.6, 120.0, carbonate_mmolc_kg=100.0, **LOAM)
    assert past == pytest.approx(ph_after_acid(7.6, 20.0, **LOAM), abs=1e-12)


def test_base_ignores_the_carbonate_that_is_there() -> None:
    with_lime = ph_after_acid(6.0, -20.0, carbonate_mmolc_kg=50.0, **LOAM)
    assert with_lime == ph_after_acid(6.0, -20.0, **LOAM)


def test_k_scales_the_acid_of_a_step() -> None:
    one = acid_between_mmolc_kg(7.0, 5.5, **LOAM)
    two = acid_between_mmolc_kg(7.0, 5.5, k=2.0, **LOAM)
    assert two == pytest.approx(2.0 * one, rel=2e-3)


def test_peat_takes_about_a_mole_per_kg_from_3_8_to_6_5() -> None:
    acid = acid_between_mmolc_kg(
        6.5, 3.8, clay_pct=0.0, organic_carbon_pct=50.0, params=P, k=0.63, organic_only=True
    )
    assert acid == pytest.approx(1000.0, rel=0.25)


def test_no_answer_beyond_the_curve() -> None:
    with pytest.raises(OutOfRangeError, match="above pH 11"):
        ph_after_acid(6.0, -1e6, **LOAM)
    with pytest.raises(OutOfRangeError, match="below pH 2"):
        ph_after_acid(6.0, 1e6, **LOAM)


@pytest.mark.parametrize(
    "wrong",
    [
        {"clay_pct": -1.0},
        {"clay_pct": 130.0},
        {"organic_carbon_pct": 75.0},
        {"k": 0.0},
        {"clay_pct": math.nan},
    ],
)
def test_impossible_soils_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError, match=next(iter(wrong))):
        base_content_mmolc_kg(6.0, **{**LOAM, **wrong})


def test_impossible_ph_acid_and_carbonate_are_refused() -> None:
    for ph in (0.5, 14.0, math.nan):
        with pytest.raises(OutOfRangeError, match="ph_water"):
            base_content_mmolc_kg(ph, **LOAM)
    with pytest.raises(OutOfRangeError, match="ph_start"):
        ph_after_acid(1.5, 0.0, **LOAM)
    with pytest.raises(OutOfRangeError, match="acid_mmolc_kg"):
        ph_after_acid(6.0, math.inf, **LOAM)
    with pytest.raises(OutOfRangeError, match="carbonate_mmolc_kg"):
        ph_after_acid(6.0, 1.0, carbonate_mmolc_kg=-1.0, **LOAM)


def test_one_number_gives_a_float_and_arrays_keep_their_shape() -> None:
    assert type(base_content_mmolc_kg(6.0, **LOAM)) is float
    assert type(ph_after_acid(6.0, 10.0, **LOAM)) is float
    ph = ph_after_acid(6.5, np.array([[0.0, 10.0], [20.0, 30.0]]), **LOAM)
    assert ph.shape == (2, 2)
    assert np.all(np.diff(ph.ravel()) < 0)
    assert acid_between_mmolc_kg(np.array([6.0, 7.0]), 5.0, **LOAM).shape == (2,)


def test_combining_weighs_by_precision() -> None:
    mean, sd = combine_log10_k(mean=0.0, sd=0.2, observed=[(0.3, 0.1), (0.3, 0.1)])
    assert mean == pytest.approx(0.3 * 200.0 / 225.0)
    assert sd == pytest.approx(1.0 / math.sqrt(225.0))
    assert combine_log10_k(mean=0.1, sd=0.2, observed=[]) == pytest.approx((0.1, 0.2))
    with pytest.raises(InputError, match="sd"):
        combine_log10_k(mean=0.0, sd=0.2, observed=[(0.1, 0.0)])


@pytest.mark.parametrize("k", [0.5, 1.0, 2.0])
def test_one_step_recovers_the_scale(k: float) -> None:
    acid = acid_between_mmolc_kg(6.9, 5.6, k=k, **LOAM)
    found = log10_k_from_step(acid_mmolc_kg=acid, ph_from=6.9, ph_to=5.6, **LOAM)
    assert found.mean == pytest.approx(math.log10(k), abs=1e-12)
    back = log10_k_from_step(acid_mmolc_kg=-acid, ph_from=5.6, ph_to=6.9, **LOAM)
    assert back.mean == pytest.approx(found.mean, abs=1e-12)
    assert back.sd == pytest.approx(found.sd)


def test_a_step_of_one_ph_is_worth_what_was_measured() -> None:
    acid = acid_between_mmolc_kg(6.5, 5.5, **LOAM)
    found = log10_k_from_step(acid_mmolc_kg=acid, ph_from=6.5, ph_to=5.5, **LOAM)
    assert 0.085 < found.sd < 0.12
    short = log10_k_from_step(acid_mmolc_kg=acid / 3, ph_from=6.5, ph_to=6.2, **LOAM)
    assert short.sd > 1.5 * found.sd


def test_steps_that_say_nothing_are_refused() -> None:
    with pytest.raises(InputError, match="acid is positive"):
        log10_k_from_step(acid_mmolc_kg=10.0, ph_from=5.0, ph_to=6.0, **LOAM)
    with pytest.raises(InputError, match="no larger than the error"):
        log10_k_from_step(acid_mmolc_kg=1.0, ph_from=6.05, ph_to=6.0, **LOAM)
    with pytest.raises(InputError, match="ph_sd"):
        log10_k_from_step(acid_mmolc_kg=10.0, ph_from=6.0, ph_to=5.0, ph_sd=0.0, **LOAM)


def test_a_jar_series_recovers_the_scale_through_reading_error() -> None:
    acid = np.linspace(-30.0, 60.0, 7)
    exact = ph_after_acid(6.2, acid, k=1.6, **LOAM)
    clean = log10_k_from_titration(acid, exact, **LOAM)
    assert 10**clean.mean == pytest.approx(1.6, rel=1e-6)
    rng = np.random.default_rng(7)
    draws = [
        log10_k_from_titration(acid, exact + rng.normal(0.0, P.step_ph_sd, acid.size), **LOAM)
        for _ in range(300)
    ]
    means = np.array([draw.mean for draw in draws])
    assert means.mean() == pytest.approx(math.log10(1.6), abs=0.01)
    reading_sd = math.sqrt(float(np.mean([d.sd**2 for d in draws])) - P.log10_k_floor_sd**2)
    assert means.std() == pytest.approx(reading_sd, rel=0.3)


def test_jar_series_that_cannot_be_fitted() -> None:
    with pytest.raises(InputError, match="two jars"):
        log10_k_from_titration([0.0], [6.0], **LOAM)
    with pytest.raises(InputError, match="two jars"):
        log10_k_from_titration([0.0, 10.0], [6.0], **LOAM)
    with pytest.raises(FitError, match="does not fall"):
        log10_k_from_titration([0.0, 10.0, 20.0], [5.0, 5.5, 6.0], **LOAM)
    with pytest.raises(FitError, match="span only"):
        log10_k_from_titration([0.0, 1.0, 2.0], [6.0, 6.01, 5.99], **LOAM)
