"""Humus that rots in the column: hand arithmetic, conservation, and nothing where nothing rots."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.column_cases import laws, members, soil, weather
from loamshift.core.column import run_column
from loamshift.core.column_events import column_events
from loamshift.core.column_layout import ColumnEvent, ColumnResult, EventKind
from loamshift.core.column_organic import carbon_left, rotted_frac
from loamshift.core.humus import humus_nitrogen_mmol_kg, labile_frac_left, settled_frac
from loamshift.core.nitrogen_share import humus_rest
from loamshift.errors import OutOfRangeError
from loamshift.tables.parameters import parameter_values
from loamshift.tables.soils import topsoil_parameters
from tries import tries

EDGES_CM = (0.0, 23.0)
STILL: dict[str, Any] = {
    "background_mmolc_m2_year": 0.0,
    "weathering_mmolc_m2_year": 0.0,
    "realised_frac": 1.0,
    "nitrate_uptake_mol_mol": 0.0,
    "log10_k": 0.0,
}
"""A soil that nothing else moves, all nitrogen leaving as nitrate."""
TURF: dict[str, Any] = {
    "humus_labile_mmol_kg": 60.0,
    "humus_slow_mmol_kg": 90.0,
    "humus_labile_per_year": 0.126,
    "humus_slow_per_year": 0.017,
    "humus_carbon_per_mmol_kg": 0.9 / 150.0,
}
DRY: dict[str, Any] = {"drainage_mm_year": 0.0}


def run(
    years: float = 1.0,
    *,
    ph: float = 6.0,
    carbon_pct: float = 2.0,
    edges_cm: tuple[float, ...] = EDGES_CM,
    steps: int = 1,
    events: tuple[ColumnEvent, ...] = (),
    climate: Mapping[str, Any] = DRY,
    pool: Mapping[str, Any] = MappingProxyType({}),
) -> ColumnResult:
    layers = len(edges_cm) - 1
    return run_column(
        soil(ph, organic_carbon_pct=carbon_pct, edges_cm=edges_cm),
        members(**(STILL | dict(pool))),
        weather(round(365 * years), n_layers=layers, **dict(climate)),
        column_events(list(events), n_layers=layers),
        laws=laws(),
        sample_depth_cm=edges_cm[-1],
        steps_per_day=steps,
    )


def test_a_pool_halves_in_its_half_life() -> None:
    assert rotted_frac(math.log(2.0) / 5.5 * 5.5) == pytest.approx(0.5)
    assert rotted_frac(0.0) == 0.0


def test_bare_drain_gauges_lost_45_kg_of_nitrogen_from_a_pool_of_two_and_a_half_tonnes() -> None:
    rate = parameter_values("humus")["slow_rate_bare_per_year"]
    first = sum(2600.0 * math.exp(-rate * y) * rotted_frac(rate) for y in range(7)) / 7.0
    assert first == pytest.approx(45.0, abs=5.0)
    assert math.log(2.0) / rate == pytest.approx(41.0, rel=0.02)


def test_half_of_the_decline_after_ploughing_takes_five_and_a_half_years() -> None:
    rate = parameter_values("humus")["labile_rate_per_year"]
    assert 1.0 - math.exp(-5.5 * rate) == pytest.approx(0.5, abs=0.01)
    assert 1.0 - math.exp(-18.0 * rate) == pytest.approx(0.9, abs=0.01)


@pytest.mark.parametrize(("ph", "net_mol_kg"), [(6.0, 4.5), (5.0, 5.4)])
def test_a_kilogram_of_carbon_that_rots_leaves_so_much_acid(ph: float, net_mol_kg: float) -> None:
    """Per kg of carbon 6.8 mol of nitrogen at a ratio of 10.5, less what its humus held."""
    carbon_g_kg, lost = 20.0, 0.005
    nitrogen = lost * carbon_g_kg / 10.5 / 14.007e-3
    pool = {
        "humus_labile_mmol_kg": nitrogen,
        "humus_labile_per_year": 40.0,
        "humus_carbon_per_mmol_kg": lost / nitrogen,
        "nitrification_rate_per_d": 100.0,
        "flux_pco2_atm": 1e-9,
    }
    gone = run(3.0, ph=ph, pool=pool)
    curve = soil(ph, organic_carbon_pct=2.0, edges_cm=EDGES_CM)
    store = curve.shape_mmolc_kg + curve.solution_mmolc_kg
    before, after = np.interp((ph, gone.ph[0, -1]), curve.curve_ph, store)
    assert (before - after) / (lost * carbon_g_kg) == pytest.approx(net_mol_kg, abs=0.35)


def test_nothing_rots_where_there_is_no_humus_to_rot_or_the_soil_is_frozen() -> None:
    none = TURF | {"humus_labile_mmol_kg": 0.0, "humus_slow_mmol_kg": 0.0}
    assert np.array_equal(run(2.0).ph, run(2.0, pool=none).ph)
    frozen = DRY | {"mean_c": -20.0, "swing_c": 5.0}
    assert np.array_equal(run(climate=frozen).ph, run(climate=frozen, pool=TURF).ph)


def test_turf_dug_in_makes_a_soil_more_acid_and_bare_ground_more_than_that() -> None:
    alone = run(10.0).ph[0, -1]
    labile = run(10.0, pool=(TURF | {"humus_slow_mmol_kg": 0.0})).ph[0, -1]
    both = run(10.0, pool=TURF).ph[0, -1]
    assert alone > labile > both


@tries(12)
@given(
    labile=st.floats(1.0, 120.0),
    more=st.floats(1.05, 2.0),
    ph=st.floats(4.6, 7.0),
    realised=st.floats(0.5, 1.0),
)
def test_more_humus_that_rots_never_leaves_a_soil_less_acid(
    labile: float, more: float, ph: float, realised: float
) -> None:
    pool = TURF | {"humus_slow_mmol_kg": 0.0, "realised_frac": realised}
    less = run(3.0, ph=ph, pool=(pool | {"humus_labile_mmol_kg": labile})).ph[0, -1]
    much = run(3.0, ph=ph, pool=(pool | {"humus_labile_mmol_kg": more * labile})).ph[0, -1]
    assert much < less + 1e-9


def test_old_turf_makes_planted_ground_acid_too_for_acid_and_base_count_alike() -> None:
    """Half of the nitrogen is washed out, as under plants; of fertiliser, half would count."""
    rest = float(humus_rest(realised=0.5, unreturned=0.5))
    planted = TURF | {
        "realised_frac": 0.5,
        "nitrate_uptake_mol_mol": 0.25,
        "humus_rest_mol_mol": rest,
    }
    open_ground = TURF | {"realised_frac": 1.0, "nitrate_uptake_mol_mol": 0.5}
    alone = run(10.0, ph=6.0).ph[0, -1]
    found = [run(10.0, ph=6.0, pool=pool).ph[0, -1] for pool in (planted, open_ground)]
    assert found[0] == pytest.approx(found[1], abs=0.02) and max(found) < alone - 0.05
    assert run(10.0, ph=6.0, pool=planted).balance_error.max() < 1e-9


def test_acid_is_kept_account_of_with_humus_lime_tillage_and_rain() -> None:
    edges = (0.0, 5.0, 15.0, 30.0)
    share = (1.0, 0.0, 0.0)
    every = tuple(
        ColumnEvent(kind=EventKind.TILLAGE, day=day, layer_share=(1.0, 1.0, 1.0))
        for day in range(200, 3600, 365)
    )
    given_lime = ColumnEvent(kind=EventKind.LIME, day=400, layer_share=share, amount=5000.0)
    result = run(
        10.0, edges_cm=edges, events=(given_lime, *every), climate={"swing_c": 18.0}, pool=TURF
    )
    assert float(result.balance_error.max()) < 1e-9


def test_the_step_hardly_matters() -> None:
    once, four = run(5.0, pool=TURF).ph[0, -1], run(5.0, steps=4, pool=TURF).ph[0, -1]
    assert once == pytest.approx(four, abs=2e-3)


def test_carbon_goes_with_the_nitrogen_and_never_below_nothing() -> None:
    assert carbon_left(50.0 * 0.004) == pytest.approx(0.8)
    assert carbon_left(500.0 * 0.004) == 0.0
    assert float(
        humus_nitrogen_mmol_kg(organic_carbon_pct=2.0, carbon_nitrogen=10.5, settled_frac=1.0)
    ) == pytest.approx(20.0 / 10.5 / 0.014007, rel=1e-4)
    with pytest.raises(OutOfRangeError):
        humus_nitrogen_mmol_kg(organic_carbon_pct=2.0, carbon_nitrogen=0.0, settled_frac=1.0)


def test_ground_settles_as_its_humus_goes_and_its_labile_share_falls() -> None:
    loose = settled_frac(
        mineral_g_cm3=1.5, organic_matter_pct=5.0, lost_frac=0.4, params=topsoil_parameters()
    )
    assert 0.85 < float(loose) < 1.0
    shares = labile_frac_left(
        labile_frac=0.4, years=np.arange(30.0), labile_per_year=0.126, slow_per_year=0.017
    )
    assert shares[0] == pytest.approx(0.4)
    assert np.all(np.diff(shares) < 0.0)
