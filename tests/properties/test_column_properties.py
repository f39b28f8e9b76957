"""What must hold in every run of the column."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.column_cases import (
    event,
    everything,
    members,
    pick,
    run,
    same_result,
    soil,
    sulfur,
    weather,
)
from loamshift.core.column_events import shares_to_depth
from loamshift.core.column_layout import ColumnEvent, ColumnSoil, EventKind
from tries import tries

FEW = tries(25)
STILL = {"background_mmolc_m2_year": 0.0, "weathering_mmolc_m2_year": 0.0}


@FEW
@given(
    ph=st.floats(4.0, 8.0),
    clay_pct=st.floats(2.0, 60.0),
    carbonate_pct=st.sampled_from([0.0, 0.05, 2.0, 20.0]),
    seed=st.integers(0, 10_000),
    drainage=st.floats(0.0, 2000.0),
    water=st.floats(0.0, 100.0),
    mean_c=st.floats(-5.0, 28.0),
)
def test_the_balance_closes_and_the_ph_stays_possible(
    ph: float,
    clay_pct: float,
    carbonate_pct: float,
    seed: int,
    drainage: float,
    water: float,
    mean_c: float,
) -> None:
    days = weather(
        365,
        mean_c=mean_c,
        drainage_mm_year=drainage,
        irrigation_mm_week=water,
        alkalinity_mmolc_l=6.0,
    )
    the_soil = soil(ph, clay_pct=clay_pct, carbonate_pct=carbonate_pct)
    result = run(the_soil, members(4, seed=seed), days, everything())
    assert result.balance_error.max() < 1e-10
    assert np.isfinite(result.ph).all()
    assert result.carbonate_mmolc_m2.min() >= 0.0
    assert np.all((result.ph > 2.0) & (result.ph < 9.5))
    assert np.all((result.oxidised_frac >= 0.0) & (result.oxidised_frac <= 1.0))


@FEW
@given(
    ph=st.floats(4.5, 7.6),
    carbonate_pct=st.sampled_from([0.0, 0.1, 3.0]),
    low=st.floats(0.0, 200.0),
    more=st.floats(1.0, 200.0),
    seed=st.integers(0, 10_000),
)
def test_more_sulfur_never_raises_the_ph(
    ph: float, carbonate_pct: float, low: float, more: float, seed: int
) -> None:
    the_soil = soil(ph, carbonate_pct=carbonate_pct)
    spread = members(4, seed=seed)
    less_ph, more_ph = (
        run(the_soil, spread, weather(365), [sulfur(rate)]).ph for rate in (low, low + more)
    )
    assert np.all(more_ph <= less_ph + 1e-6)
    assert np.any(more_ph < less_ph - 1e-4)


@FEW
@given(
    ph=st.floats(4.2, 7.4),
    low=st.floats(0.0, 20_000.0),
    more=st.floats(100.0, 20_000.0),
    on_surface=st.booleans(),
    seed=st.integers(0, 10_000),
)
def test_more_lime_never_lowers_the_ph(
    ph: float, low: float, more: float, on_surface: bool, seed: int
) -> None:
    spread, depth_cm = members(4, seed=seed), 0.0 if on_surface else 15.0
    less_ph, more_ph = (
        run(
            soil(ph),
            spread,
            weather(365),
            [event(EventKind.LIME, amount, depth_cm=depth_cm, on_surface=on_surface)],
        ).ph
        for amount in (low, low + more)
    )
    assert np.all(more_ph >= less_ph - 1e-6)


@FEW
@given(
    ph=st.floats(4.5, 7.0),
    water=st.floats(20.0, 80.0),
    alkalinity=st.floats(2.0, 8.0),
    organic_carbon_pct=st.sampled_from([0.8, 3.0, 30.0]),
    seed=st.integers(0, 10_000),
)
def test_hard_water_takes_no_layer_past_its_plateau(
    ph: float, water: float, alkalinity: float, organic_carbon_pct: float, seed: int
) -> None:
    """What stands above the plateau falls out as lime: within a day's water of it at any time."""
    spread = replace(members(4, seed=seed), carbonate_rate_per_d=np.full(4, 1.0))
    days = weather(900, irrigation_mm_week=water, alkalinity_mmolc_l=alkalinity)
    the_soil = soil(ph, organic_carbon_pct=organic_carbon_pct)
    result = run(the_soil, spread, days, depth_cm=5.0)
    assert np.all(result.ph.max(axis=1) <= spread.plateau_ph + 0.15)
    assert result.balance_error.max() < 1e-10


@FEW
@given(ph=st.floats(3.5, 8.5), clay_pct=st.floats(2.0, 60.0), seed=st.integers(0, 10_000))
def test_nothing_moves_without_material_water_or_background(
    ph: float, clay_pct: float, seed: int
) -> None:
    spread = members(4, seed=seed, **STILL)
    spread = replace(spread, plateau_ph=np.full(4, 8.9))
    days = weather(200, drainage_mm_year=0.0)
    result = run(soil(ph, clay_pct=clay_pct), spread, days)
    assert np.array_equal(result.ph, np.repeat(result.ph[:, :1], result.ph.shape[1], axis=1))
    np.testing.assert_allclose(result.ph[:, 0], ph + spread.start_ph_shift, atol=1e-9)
    assert not result.balance_error.any()


def test_a_limy_soil_at_its_plateau_stays_there() -> None:
    rest = members(3, plateau_ph=7.6, **STILL)
    result = run(soil(7.6, carbonate_pct=5.0), rest, weather(200, drainage_mm_year=0.0))
    np.testing.assert_allclose(result.ph, 7.6, atol=1e-9)


@pytest.mark.parametrize("temp_c", [0.0, -3.0])
@pytest.mark.parametrize(
    "kind",
    [
        EventKind.SULFUR,
        EventKind.UREA,
        EventKind.AMMONIUM,
        EventKind.NITRATE,
        EventKind.DECAY,
        EventKind.ORGANIC_NITROGEN,
    ],
)
def test_no_life_below_freezing(kind: EventKind, temp_c: float) -> None:
    row = sulfur(100.0) if kind is EventKind.SULFUR else event(kind, 3000.0)
    frozen = weather(100, mean_c=temp_c, swing_c=0.0, drainage_mm_year=0.0)
    thawed = weather(100, mean_c=15.0, swing_c=0.0, drainage_mm_year=0.0)
    still = run(soil(), members(2, **STILL), frozen, [row]).ph
    assert np.array_equal(still, np.full_like(still, still[0, 0]))
    assert np.ptp(run(soil(), members(2, **STILL), thawed, [row]).ph) > 0.02


@pytest.mark.parametrize("threads", [2, 3, 4, 40])
def test_the_same_bits_for_any_number_of_threads(threads: int) -> None:
    the_soil, spread = soil(7.2, carbonate_pct=0.5), members(21, seed=11)
    one = run(the_soil, spread, weather(400), everything(), threads=1)
    assert same_result(one, run(the_soil, spread, weather(400), everything(), threads=threads))


def test_a_batch_equals_its_single_members_and_any_split() -> None:
    the_soil, spread = soil(6.9, carbonate_pct=0.5), members(9, seed=12)
    whole = run(the_soil, spread, weather(400), everything()).ph
    for which in ([0, 3, 8], [5], [8, 7, 6, 5, 4, 3, 2, 1, 0]):
        part = run(the_soil, pick(spread, np.array(which)), weather(400), everything()).ph
        assert np.array_equal(part.view(np.int64), whole[which].view(np.int64))


@pytest.mark.parametrize("carbonate_pct", [0.0, 1.0])
def test_shorter_steps_converge(carbonate_pct: float) -> None:
    """Each halving of the step brings the answer nearer to that of a very short step."""
    the_soil, spread = soil(6.8, carbonate_pct=carbonate_pct), members(6, seed=13)
    days = weather(365, irrigation_mm_week=20.0, alkalinity_mmolc_l=4.0)
    fine = run(the_soil, spread, days, everything(), steps_per_day=32).ph
    off = [
        float(np.abs(run(the_soil, spread, days, everything(), steps_per_day=n).ph - fine).max())
        for n in (1, 2, 4, 8)
    ]
    assert off[0] < 0.05
    assert all(later < 0.7 * sooner for sooner, later in pairwise(off))


def cut(layers: int, edges: tuple[float, ...] = (0.0, 5.0, 15.0, 30.0)) -> tuple[float, ...]:
    """Every layer cut into so many."""
    parts = [np.linspace(a, b, layers + 1)[:-1] for a, b in pairwise(edges)]
    return (*(float(edge) for part in parts for edge in part), edges[-1])


def in_layers(rows: list[ColumnEvent], edges_cm: tuple[float, ...]) -> list[ColumnEvent]:
    return [replace(row, layer_share=shares_to_depth(edges_cm, 15.0)) for row in rows]


def cut_soil(edges_cm: tuple[float, ...]) -> ColumnSoil:
    return soil(6.6, edges_cm=edges_cm)


def test_thinner_layers_converge() -> None:
    """With draining water; a quarter of a day to the step, so that the layers are what is seen."""
    rows = [sulfur(80.0), event(EventKind.AMMONIUM, 500.0, day=30)]
    spread = members(4, seed=14)
    answers = []
    for parts in (1, 2, 4, 16):
        edges = cut(parts)
        days = weather(730, n_layers=len(edges) - 1, drainage_mm_year=400.0)
        result = run(cut_soil(edges), spread, days, in_layers(rows, edges), steps_per_day=4)
        answers.append(result.ph)
    off = [float(np.abs(answer - answers[-1]).max()) for answer in answers[:-1]]
    assert off[0] < 0.05
    assert off[1] < 0.7 * off[0]
    assert off[2] < 0.7 * off[1]


def test_cutting_layers_changes_nothing_where_no_water_drains() -> None:
    rows = [sulfur(80.0), event(EventKind.UREA, 500.0, day=30)]
    spread = members(4, seed=15, **STILL)
    ph = []
    for parts in (1, 3):
        edges = cut(parts)
        days = weather(365, n_layers=len(edges) - 1, drainage_mm_year=0.0)
        ph.append(run(cut_soil(edges), spread, days, in_layers(rows, edges)).ph)
    np.testing.assert_allclose(ph[0], ph[1], atol=1e-6)
