"""The loops as machine code against the same by NumPy and plain Python."""

from __future__ import annotations

import math

import numpy as np
import pytest

from loamshift.core.loops import PLAIN
from loamshift.core.many_loops import COMPILED
from loamshift.core.mixed_layer import MixedLayer
from loamshift.core.need import Need
from loamshift.core.plan_goal import RuleGoal, bounds_of, fixed_plans, reachable
from loamshift.errors import InputError

BEDS = 70
"""More than two rows of lanes, the last of them half empty."""
STEPS = np.array([31.0, 28.0, 30.4] * 8)


def layers(rng: np.random.Generator) -> MixedLayer:
    """Beds of every kind: sour and limy, fine lime and coarse, fast and slow to drain."""
    curve_ph = np.linspace(2.0, 9.5, 76)
    lime = np.where(rng.random(BEDS) < 0.4, 0.0, rng.lognormal(7.0, 1.5, BEDS))
    coarse = rng.random(BEDS) < 0.5
    return MixedLayer(
        start_ph=rng.uniform(3.2, 9.3, BEDS),
        k=rng.lognormal(0.0, 0.4, BEDS),
        mass_kg_m2=rng.uniform(80.0, 300.0, BEDS),
        carbonate_mmolc_m2=lime,
        held_ph=rng.uniform(7.4, 8.4, BEDS),
        background_mmolc_m2_year=rng.uniform(0.0, 800.0, BEDS),
        background_rise_per_ph=rng.uniform(0.1, 0.9, BEDS),
        weathering_mmolc_m2_year=rng.uniform(0.0, 90.0, BEDS),
        air_mmolc_m2_year=rng.uniform(0.0, 60.0, BEDS),
        drained_mm_year=rng.uniform(0.0, 700.0, BEDS),
        bicarbonate_mmol2_l2=rng.uniform(1e-7, 1e-6, BEDS),
        anions_mmolc_l=rng.uniform(0.3, 8.0, BEDS),
        lime_per_d=rng.uniform(0.001, 0.4, BEDS),
        lime_acid_exponent=rng.uniform(0.0, 0.6, BEDS),
        lime_full_above_ph=np.full(BEDS, 7.0),
        is_coarse=coarse,
        curve_ph=curve_ph,
        shape_mmolc_kg=np.cumsum(rng.uniform(0.5, 6.0, curve_ph.size)),
        reference_ph=5.5,
        highest_ph=7.2,
        leaching_factor=1.1,
        bicarbonate_highest_mmolc_l=6.0,
        suspension_mmolc_l=1.26,
    )


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_layers_go_the_same_way_by_machine_code(seed: int) -> None:
    rng = np.random.default_rng(seed)
    beds = layers(rng)
    acid = rng.normal(0.0, 400.0, (3, BEDS, STEPS.size))
    ph, lime = PLAIN.layers(beds, acid, step_days=STEPS)
    ph_many, lime_many = COMPILED.layers(beds, acid, step_days=STEPS)
    assert ph_many.shape == ph.shape
    assert float(np.abs(ph_many - ph).max()) < 1e-9
    assert np.allclose(lime_many, lime, rtol=1e-9, atol=1e-6)
    one, _ = COMPILED.layers(beds, acid[1], step_days=STEPS)
    assert np.array_equal(one, ph_many[1]), "a plan does not hang on the plans beside it"


def test_steps_and_acid_must_be_as_many() -> None:
    beds = layers(np.random.default_rng(1))
    with pytest.raises(InputError, match="one column per step"):
        COMPILED.layers(beds, np.zeros((BEDS, 3)), step_days=STEPS)


def test_the_bucket_holds_the_same_bits() -> None:
    rng = np.random.default_rng(4)
    supply = np.where(rng.random((6, 365)) < 0.3, rng.gamma(0.8, 9.0, (6, 365)), 0.0)
    potential = 2.0 + 1.8 * np.sin(np.linspace(0.0, 2.0 * math.pi, 365))
    frozen = np.array([True, True, *[False] * 9, True])
    lengths = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    found = []
    for loops in (PLAIN, COMPILED):
        days, snow = np.zeros((3, 365)), np.zeros(12)
        loops.bucket(supply, potential, frozen, lengths, np.array([80.0, 40.0]), days, snow)
        found.append((days, snow))
    assert found[0][0][1].sum() > 0.0
    assert np.array_equal(found[0][0], found[1][0])
    assert np.array_equal(found[0][1], found[1][1])


@pytest.mark.parametrize(
    ("zero", "low", "high", "log_sd"),
    [(1.0, 0.0, 0.0, 0.0), (0.4, 20.0, 900.0, 0.0), (0.0, 60.0, 60.0, 0.3), (0.0, 60.0, 60.0, 0.0)],
)
def test_a_need_is_the_same_by_machine_code(
    zero: float, low: float, high: float, log_sd: float
) -> None:
    need = Need(
        curve_mmolc_kg=np.array([0.0, 3.0, 9.0, 14.0, 20.0, 26.0, 31.0]),
        curve_weight=np.array([0.01, 0.04, 0.2, 0.5, 0.2, 0.04, 0.01]),
        zero_weight=zero,
        carbonate_low_mmolc_kg=low,
        carbonate_high_mmolc_kg=high,
        log10_k_mean=0.1,
        log10_k_sd=0.22,
        carbonate_log_sd=log_sd,
    )
    for probability in (0.05, 0.5, 0.95):
        plain = PLAIN.need(need, probability)
        assert plain > 0.0
        assert COMPILED.need(need, probability) == pytest.approx(plain, rel=1e-12)
        assert need.probability_at_most(plain) == pytest.approx(probability, abs=1e-9)


@pytest.mark.parametrize(("sign", "knots"), [(1.0, 4), (-1.0, 4), (1.0, 2)])
def test_a_surface_is_the_same_by_machine_code(sign: float, knots: int) -> None:
    rng = np.random.default_rng(knots)
    days, amounts = 40, np.linspace(0.0, 90.0, knots)
    alone = 6.6 - 0.2 * sign * np.linspace(0.0, 1.0, days) + rng.normal(0.0, 0.3, (BEDS, 1))
    strong = rng.lognormal(-3.6, 0.5, (BEDS, 1))
    runs = tuple(
        alone - sign * (1.0 - np.exp(-strong * amount)) * np.linspace(0.0, 2.0, days)
        for amount in amounts
    )
    later = tuple(runs[1] - sign * np.linspace(0.0, share, days) for share in (0.4, 0.7))
    plain, many = (
        loops.surface(
            amounts,
            runs,
            later_ph=later,
            later_from=(12, 25),
            reference_g_m2=30.0,
            sign=sign,
            spells=(slice(0, 12), slice(11, 25), slice(24, 40)),
        )
        for loops in (PLAIN, COMPILED)
    )
    for name in ("amounts_g_m2", "ph", "worth", "furthest_ph", "furthest_worth"):
        assert np.allclose(getattr(many, name), getattr(plain, name), rtol=0.0, atol=1e-12), name
    goal = RuleGoal(
        range_low_ph=5.4,
        range_high_ph=6.2,
        harmful_ph=4.9 if sign > 0.0 else 7.6,
        on=20,
        hold=35,
        tests=(11, 24),
        reading_sd_ph=0.2,
        first_g_m2=np.linspace(0.0, 90.0, 7),
        later_g_m2=np.linspace(0.0, 60.0, 5),
        seasons=3,
        most_harmed_frac=0.04,
        lines=4,
        worth_a_test_frac=0.03,
    )
    mixed = (np.linspace(0.0, 60.0, BEDS), 20.0)
    for one, other in ((bounds_of(plain, goal), bounds_of(many, goal)),):
        for plan in (fixed_plans(goal, BEDS), mixed):
            assert np.array_equal(one.in_range(*plan), other.in_range(*plan))
            assert np.array_equal(one.harmed(*plan), other.harmed(*plan))
    assert 0 < int(reachable(plain, goal).sum()) < BEDS
    assert np.array_equal(reachable(plain, goal), reachable(many, goal))


def test_a_surface_by_machine_code_asks_for_runs_that_fit() -> None:
    flat = np.zeros((2, 3))
    for amounts, later_from in ((np.array([5.0, 9.0]), ()), (np.array([0.0, 9.0]), (1,))):
        with pytest.raises(InputError):
            COMPILED.surface(
                amounts,
                (flat, flat),
                later_ph=(),
                later_from=later_from,
                reference_g_m2=1.0,
                sign=1.0,
                spells=(slice(0, 3),),
            )
