"""Whole runs of the column: balance, agreement with NumPy, and what the trade knows of sulfur."""

from __future__ import annotations

import importlib
import importlib.util
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest

from core.column_cases import (
    EDGES_CM,
    PASTILLE_GRAINS,
    PRILLS,
    SULFUR_ACID_MMOLC_G,
    event,
    everything,
    laws,
    members,
    run,
    soil,
    sulfur,
    weather,
)
from loamshift.core import buffer
from loamshift.core.climate import soil_temperature_c
from loamshift.core.column import run_column
from loamshift.core.column_events import column_events
from loamshift.core.column_layout import ColumnSoil, EventKind, FloatArray
from loamshift.core.sulfur_course import DAYS_IN_YEAR, Prills, oxidised_course
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables import model
from loamshift.tables.places import find_place
from loamshift.units import SULFUR_G_PER_MMOLC

ROOT = Path(__file__).resolve().parents[2]
SANDY = {"clay_pct": 5.0, "organic_carbon_pct": 0.9}
COLD_C = -5.0
SULFUR_G = 20.0 * SULFUR_ACID_MMOLC_G * SULFUR_G_PER_MMOLC
"""What 20 g/m2 comes to where a gram makes a round 62.4 mmolc [g/m2]."""


def numpy_column() -> ModuleType:
    """The plain NumPy column that the benchmarks keep."""
    path = ROOT / "benchmarks" / "numpy_column.py"
    spec = importlib.util.spec_from_file_location("numpy_column", path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("ph", "carbonate_pct", "mean_c", "drainage_mm_year"),
    [(6.5, 0.0, 12.0, 200.0), (7.1, 2.0, 12.0, 100.0), (6.3, 0.2, 4.0, 300.0), (4.4, 0, 15, 700)],
)
def test_the_kernel_agrees_with_plain_numpy_over_a_year(
    ph: float, carbonate_pct: float, mean_c: float, drainage_mm_year: float
) -> None:
    the_soil = soil(ph, carbonate_pct=carbonate_pct)
    the_members = members(12, seed=3, coarse_carbonate_frac=0.3)
    days = weather(
        mean_c=mean_c,
        drainage_mm_year=drainage_mm_year,
        irrigation_mm_week=20.0,
        alkalinity_mmolc_l=4.0,
    )
    rows = everything()
    plain = numpy_column().NumpyColumn(
        the_soil, the_members, days, column_events(rows, n_layers=3), laws()
    )
    kernel = run(the_soil, the_members, days, rows, stride_days=1)
    assert np.ptp(kernel.ph) > 0.5
    np.testing.assert_allclose(kernel.ph, plain.run(2, 1), rtol=0.0, atol=1e-9)


@pytest.mark.parametrize("carbonate_pct", [0.0, 2.0])
def test_the_acid_balance_closes_with_everything_on(carbonate_pct: float) -> None:
    rows = [row for year in range(8) for row in everything(year)]
    result = run(
        soil(7.4, carbonate_pct=carbonate_pct),
        members(20, seed=5),
        weather(8 * 365, irrigation_mm_week=25.0, alkalinity_mmolc_l=5.0),
        rows,
    )
    assert result.balance_error.max() < 1e-10
    assert result.water_base_mmolc_m2.min() > 50_000.0
    assert np.abs(result.drained_base_mmolc_m2).min() > 10.0


def test_the_balance_would_see_a_leak() -> None:
    """Half the irrigation kept from the account must show: the balance can fail."""
    days = weather(irrigation_mm_week=25.0, alkalinity_mmolc_l=5.0)
    result = run(soil(), members(), days)
    held = soil_base(soil(), result.end_ph[0]) - soil_base(soil(), np.full(3, 6.5))
    held += float(result.carbonate_mmolc_m2.sum())
    flows = result.water_base_mmolc_m2 - result.background_acid_mmolc_m2
    change = flows - result.drained_base_mmolc_m2
    assert held == pytest.approx(float(change[0]), rel=2e-3)
    assert abs(held - float(change[0]) / 2.0) > 0.4 * held


def soil_base(the_soil: ColumnSoil, ph: FloatArray) -> float:
    """Base held, from the buffer curve itself [mmolc/m2]."""
    content = buffer.base_content_mmolc_kg(
        ph, clay_pct=18.0, organic_carbon_pct=1.5, params=model.buffer_parameters()
    )
    return float((the_soil.mass_kg_m2 * content).sum())


@pytest.mark.parametrize("log10_k", [-0.4, 0.0, 0.4])
@pytest.mark.parametrize("clay_pct", [5.0, 40.0])
def test_acid_at_once_moves_the_ph_along_the_buffer_curve(log10_k: float, clay_pct: float) -> None:
    the_soil = soil(6.8, clay_pct=clay_pct)
    still = members(log10_k=log10_k, background_mmolc_m2_year=0.0, weathering_mmolc_m2_year=0.0)
    acid_mmolc_kg = 25.0
    row = event(EventKind.ACID, acid_mmolc_kg * the_soil.mass_kg_m2[:2].sum())
    result = run(the_soil, still, weather(7, drainage_mm_year=0.0), [row])
    expected = buffer.ph_after_acid(
        6.8,
        acid_mmolc_kg,
        clay_pct=clay_pct,
        organic_carbon_pct=1.5,
        params=model.buffer_parameters(),
        k=10.0**log10_k,
    )
    assert result.ph[0, 0] == pytest.approx(6.8, abs=1e-9)
    assert result.ph[0, 1] == pytest.approx(expected, abs=2e-3)


def test_sulfur_follows_the_clock_of_the_static_answer() -> None:
    days = weather(200)
    result = run(soil(7.0, clay_pct=40.0), members(), days, [sulfur(20.0)], stride_days=1)
    clock = oxidised_course(
        days.soil_temp_c[:, 0],
        sizes=((10.0, 75.0, 1.0),),
        params=model.sulfur_parameters(),
        wetness=0.8,
        sulfur_g_kg=SULFUR_G / soil(7.0, clay_pct=40.0).mass_kg_m2[:2].sum(),
    )
    np.testing.assert_allclose(result.oxidised_frac[0, 1:], clock, atol=1e-6)


@pytest.mark.parametrize("on_surface", [False, True])
def test_prills_follow_the_clock_of_the_static_answer(on_surface: bool) -> None:
    """Break-up of a year or so, through a winter in which nothing reacts."""
    the_soil, days = soil(7.0, clay_pct=40.0), weather(700, mean_c=7.0, swing_c=12.0)
    pastilles = sulfur(
        20.0,
        depth_cm=0.0 if on_surface else 15.0,
        sizes=PASTILLE_GRAINS,
        intact_um=3000.0,
        on_surface=on_surface,
        **PRILLS,
    )
    result = run(the_soil, members(), days, [pastilles], stride_days=1)
    params = model.sulfur_parameters()
    top = PRILLS["break_up_top" if on_surface else "break_up_dug_in"][0]
    clock = oxidised_course(
        days.soil_temp_c[:, 0],
        sizes=PASTILLE_GRAINS,
        params=params,
        wetness=0.8,
        prills=Prills(
            diameter_um=3000.0, break_up_per_year=top * DAYS_IN_YEAR, on_surface=on_surface
        ),
        sulfur_g_kg=SULFUR_G / the_soil.mass_kg_m2[: 1 if on_surface else 2].sum(),
    )
    np.testing.assert_allclose(result.oxidised_frac[0, 1:], clock, atol=1e-6)


def test_slow_and_fast_prills_differ_by_their_own_width() -> None:
    pastilles = sulfur(20.0, sizes=PASTILLE_GRAINS, intact_um=3000.0, **PRILLS)
    usual, slow, fast = (
        run(soil(), members(break_up_z=z), weather(365), [pastilles]).oxidised_frac[0, -1]
        for z in (0.0, -2.0, 2.0)
    )
    assert slow < 0.7 * usual < 0.7 * fast


def test_tillage_keeps_prills_and_what_has_broken_up() -> None:
    """Dug in half way, they go on as before but at the speed of what is dug in."""
    still = members(background_mmolc_m2_year=0.0, weathering_mmolc_m2_year=0.0)
    lying = sulfur(
        60.0,
        depth_cm=0.0,
        sizes=PASTILLE_GRAINS,
        intact_um=3000.0,
        rate_factor=0.5,
        on_surface=True,
        **PRILLS,
    )
    dug = event(EventKind.TILLAGE, day=200)
    before = run(soil(), still, weather(200), [lying]).sulfur_left_mmolc_m2[0]
    after = run(soil(), still, weather(201), [lying, dug])
    later = run(soil(), still, weather(565), [lying, dug])
    lies = run(soil(), still, weather(565), [lying])
    assert after.sulfur_left_mmolc_m2[0] == pytest.approx(before, rel=0.01)
    assert after.balance_error[0] < 1e-9 and later.balance_error[0] < 1e-9
    assert later.sulfur_left_mmolc_m2[0] < after.sulfur_left_mmolc_m2[0]
    assert later.sulfur_left_mmolc_m2[0] != pytest.approx(lies.sulfur_left_mmolc_m2[0], rel=0.01)


def test_the_reading_is_that_of_the_mean_base_not_the_mean_ph() -> None:
    two = replace(soil(), start_ph=np.array([4.0, 7.0, 7.0]))
    reading = run(two, members(), weather(7), depth_cm=15.0).ph[0, 0]
    content = buffer.base_content_mmolc_kg(
        np.array([4.0, 7.0, reading]),
        clay_pct=18.0,
        organic_carbon_pct=1.5,
        params=model.buffer_parameters(),
    )
    assert content[2] == pytest.approx(content[0] / 3.0 + content[1] * 2.0 / 3.0, abs=0.05)
    assert reading != pytest.approx(6.0, abs=0.05)


def test_tillage_mixes_and_keeps_every_pool() -> None:
    still = members(background_mmolc_m2_year=0.0, weathering_mmolc_m2_year=0.0)
    cold = weather(14, mean_c=COLD_C, swing_c=0.0, drainage_mm_year=0.0)
    rows = [sulfur(60.0, depth_cm=0.0), event(EventKind.TILLAGE, day=7)]
    two = replace(soil(), start_ph=np.array([5.0, 7.0, 7.0]))
    result = run(two, still, cold, rows)
    assert result.end_ph[0, 0] == pytest.approx(result.end_ph[0, 1], abs=1e-12)
    assert result.end_ph[0, 2] == pytest.approx(7.0, abs=1e-9)
    assert result.sulfur_left_mmolc_m2[0] == pytest.approx(60.0 * 62.4, rel=1e-12)
    assert result.ph[0, 2] == pytest.approx(result.ph[0, 0], abs=1e-9)


def test_flowers_of_sulfur_show_within_four_to_sixteen_weeks() -> None:
    """Common practice, no source: warm moist soil, a fall of 0.3 in 4 to 16 weeks."""
    warm = weather(365, mean_c=18.0, swing_c=4.0)
    result = run(soil(6.8), members(), warm, [sulfur(60.0)], stride_days=1)
    fall = result.ph[0, 0] - result.ph[0]
    first = int(np.argmax(fall >= 0.3))
    assert 28 <= first <= 112
    assert result.oxidised_frac[0, -1] > 0.85


def test_coarse_sulfur_is_slower_and_whole_prills_slowest() -> None:
    grades = (
        sulfur(60.0),
        sulfur(60.0, sizes=((40.0, 150.0, 1.0),)),
        sulfur(60.0, sizes=((250.0, 500.0, 1.0),)),
        sulfur(60.0, intact_um=3000.0),
    )
    days = weather(365)
    done = [run(soil(), members(), days, [grade]).oxidised_frac[0, -1] for grade in grades]
    assert done == sorted(done, reverse=True) and len(set(done)) == 4
    assert done[3] < 0.1


@pytest.mark.parametrize("peat", [0.25, 0.5, 0.75])
@pytest.mark.parametrize("lime_pct", [3.0, 10.0])
def test_peat_in_a_limy_soil_drops_at_once_and_is_soon_back(peat: float, lime_pct: float) -> None:
    """Common practice, no source: above 7 within a day, near 7.7 within about nine days."""
    earth_kg_l, peat_kg_l = 1.2 * (1.0 - peat), 0.08 * peat
    density = earth_kg_l + peat_kg_l
    mineral, organic = mix_curves()
    shape = (earth_kg_l * mineral.shape_mmolc_kg + peat_kg_l * organic.shape_mmolc_kg) / density
    content = shape + mineral.solution_mmolc_kg
    start = earth_kg_l * at(mineral, 7.7) + peat_kg_l * at(organic, 3.9)
    start_ph = float(np.interp(start / density, content, mineral.curve_ph))
    lime = 2000.0 * lime_pct * earth_kg_l * EDGES_CM[2]
    mixed = replace(
        soil(start_ph, bulk_density_g_cm3=density),
        organic_mmolc_kg=np.zeros_like(shape),
        rest_mmolc_kg=shape,
        carbonate_mmolc_m2=lime * np.array([1.0, 2.0, 3.0]) / 3.0,
    )
    result = run(mixed, members(plateau_ph=7.7), weather(14), stride_days=1)
    assert result.ph[0, 0] < 7.3
    assert result.ph[0, 1] > 7.0
    assert result.ph[0, 9] > 7.65


def mix_curves() -> tuple[ColumnSoil, ColumnSoil]:
    """A clay loam, and moss peat at its own scale 0.63 of the organic term."""
    peat = soil(3.9, organic_carbon_pct=50.0, organic_only=True, bulk_density_g_cm3=0.08)
    own = replace(peat, organic_mmolc_kg=0.63 * peat.organic_mmolc_kg)
    return soil(7.7, clay_pct=20.0, organic_carbon_pct=2.0), own


def at(the_soil: ColumnSoil, ph: float) -> float:
    """Base content of a curve at a pH [mmolc/kg]."""
    content = the_soil.shape_mmolc_kg + the_soil.solution_mmolc_kg
    return float(np.interp(ph, the_soil.curve_ph, content))


def test_hard_water_turns_the_top_of_a_peat_bed_in_half_a_year() -> None:
    """Common practice, no source: 250 mg/L at 50 mm a week; deeper layers follow slowly."""
    peat = soil(4.5, organic_carbon_pct=50.0, organic_only=True, bulk_density_g_cm3=0.08)
    days = weather(183, drainage_mm_year=600.0, irrigation_mm_week=50.0, alkalinity_mmolc_l=5.0)
    result = run(peat, members(log10_k=float(np.log10(0.63))), days)
    top, middle, low = result.end_ph[0]
    assert 7.0 < top < 7.8
    assert top > middle + 0.5 > low + 0.5
    assert result.carbonate_mmolc_m2[0, 0] > 500.0


def test_a_heavy_dose_on_poor_sand_overshoots() -> None:
    """Common practice, no source: 600 g/m2 without lime ends below pH 4.5."""
    result = run(soil(6.5, **SANDY), members(), weather(365), [sulfur(600.0)])
    assert result.ph[0, -1] < 4.5
    assert result.lowest_ph[0] > 2.5


@pytest.mark.parametrize("wetness", [0.7, 1.0])
def test_october_sulfur_waits_for_summer_and_april_sulfur_is_half_gone_by_september(
    wetness: float,
) -> None:
    """Common practice, no source: flowers of sulfur at Minneapolis."""
    year = soil_temperature_c(
        find_place("Minneapolis").air_temp_c, depth_cm=7.5, params=model.climate_parameters()
    )

    def oxidised(first_day: int) -> FloatArray:
        temp = np.roll(year, -first_day)
        days = replace(
            weather(365, wetness=wetness), soil_temp_c=np.repeat(temp[:, None], 3, axis=1)
        )
        return run(soil(), members(), days, [sulfur(60.0)], stride_days=1).oxidised_frac[0]

    october = oxidised(277)
    assert october[179] < 0.15
    assert 230 < int(np.argmax(october > 0.5)) < 340
    assert oxidised(104)[140] > 0.5


def test_lime_raises_and_does_not_pass_the_plateau() -> None:
    rows = [event(EventKind.LIME, 60_000.0, lime_frac=(1.0, 0.0, 0.0, 0.0, 0.0))]
    result = run(soil(4.5, **SANDY), members(), weather(365), rows, stride_days=1)
    assert result.ph[0, -1] > 7.0
    assert result.ph.max() < 7.7 + 1e-9
    assert result.lime_left_mmolc_m2[0] > 10_000.0


def test_what_lies_on_the_surface_waits_until_it_is_dug_in() -> None:
    """Lime and sulfur: the top alone feels them, more slowly, and tillage sets them going."""
    lime = {"amount": 10_000.0, "lime_frac": (1.0, 0.0, 0.0, 0.0, 0.0)}
    on_top = event(EventKind.LIME, depth_cm=0.0, on_surface=True, **lime)
    dug_in, tillage = event(EventKind.LIME, **lime), event(EventKind.TILLAGE, day=180)
    left = [
        run(soil(5.0), members(), weather(days), rows).lime_left_mmolc_m2[0]
        for days, rows in (
            (180, [on_top]),
            (180, [dug_in]),
            (270, [on_top]),
            (270, [on_top, tillage]),
        )
    ]
    assert left[0] > 2.0 * left[1]
    assert left[3] < 0.5 * left[2]
    top, middle, _ = run(soil(5.0), members(), weather(365), [on_top]).end_ph[0]
    assert top > 6.5 > 5.8 > middle
    powder = sulfur(60.0, depth_cm=0.0, rate_factor=0.5)
    done = [
        run(soil(), members(), weather(300), rows).oxidised_frac[0, -1]
        for rows in ([powder], [powder, event(EventKind.TILLAGE, day=20)], [sulfur(60.0)])
    ]
    assert done[0] + 0.02 < done[1] < done[2]


def test_sulfate_is_washed_down_and_lowers_the_plateau_below() -> None:
    """Sulfur on top of a limy soil: gypsum reaches the layer below with the water."""
    limy = soil(7.6, carbonate_pct=10.0)
    still = members(plateau_ph=7.6, background_mmolc_m2_year=0.0, weathering_mmolc_m2_year=0.0)
    row = sulfur(150.0, depth_cm=0.0)
    ends = [
        run(limy, still, weather(200, drainage_mm_year=mm), [row]).end_ph[0] for mm in (0.0, 200.0)
    ]
    assert ends[0][1] == pytest.approx(7.6, abs=1e-6)
    assert ends[1][1] < 7.5


def test_twice_the_alkalinity_is_twice_the_base() -> None:
    days = weather(irrigation_mm_week=10.0, alkalinity_mmolc_l=1.0)
    once, twice = (run(soil(5.0), members(alkalinity_factor=f), days) for f in (1.0, 2.0))
    assert twice.water_base_mmolc_m2[0] == pytest.approx(2.0 * once.water_base_mmolc_m2[0])
    assert twice.end_ph[0, 0] > once.end_ph[0, 0] + 0.05


def test_misfits_are_refused() -> None:
    fit = (soil(), members(), weather())
    with pytest.raises(OutOfRangeError, match="no edge"):
        run(*fit, depth_cm=10.0)
    with pytest.raises(InputError, match="layers"):
        run(soil(), members(), weather(n_layers=2))
    with pytest.raises(InputError, match="day 400"):
        run(*fit, [sulfur(10.0, day=400)])
    for name in ("threads", "stride_days", "steps_per_day"):
        counts = {"threads": 1, "stride_days": 7, "steps_per_day": 1} | {name: 0}
        with pytest.raises(OutOfRangeError, match=name):
            run_column(
                *fit,
                column_events([], n_layers=3),
                laws=laws(),
                sample_depth_cm=15.0,
                **counts,
            )
    with pytest.raises(OutOfRangeError, match="mass_factor"):
        members(mass_factor=0.0)
    with pytest.raises(InputError, match="adds to"):
        column_events([replace(sulfur(1.0), layer_share=(0.5, 0.0, 0.0))], n_layers=3)
    with pytest.raises(InputError, match="first layer"):
        column_events([event(EventKind.LIME, 10.0, on_surface=True)], n_layers=3)
    with pytest.raises(InputError, match="size classes"):
        column_events([sulfur(1.0, sizes=((10.0, 75.0, 0.5),))], n_layers=3)


def test_organic_acid_that_drains_takes_its_base_along() -> None:
    """2 mol of vinegar acid on poor sand: gone after a year, and it leaves nothing behind."""
    the_soil = soil(5.8, clay_pct=4.0, organic_carbon_pct=0.8)
    days = weather(730, drainage_mm_year=400.0)
    rows = [event(EventKind.ORGANIC_ACID, 40_000.0, day=60)]
    with_it, without = (run(the_soil, members(), days, put) for put in (rows, []))
    change = with_it.ph - without.ph
    assert change.min() < -1.5
    assert abs(change[0, -1]) < 0.1
    assert with_it.balance_error.max() < 1e-10


def test_unreacted_lime_of_a_soil_dissolves_slowly_and_lets_new_lime_work() -> None:
    acid = soil(5.7, carbonate_pct=0.2)
    kept = run(acid, members(), weather(365))
    coarse = run(acid, members(coarse_carbonate_frac=1.0), weather(365))
    assert kept.ph.max() > 7.0  # were it fine, as in a soil that its lime holds
    assert coarse.ph.max() < 6.6
    assert coarse.lime_left_mmolc_m2[0] > 0.4 * acid.carbonate_mmolc_m2.sum()
    dressing = [event(EventKind.LIME, 7840.0, lime_frac=(0.6, 0.1, 0.25, 0.05, 0.0))]
    limed = run(acid, members(coarse_carbonate_frac=1.0), weather(365), dressing)
    assert limed.ph[0, -1] > coarse.ph[0, -1] + 0.4
    assert limed.balance_error.max() < 1e-10


def test_sulfate_of_gypsum_moves_only_soil_held_by_lime() -> None:
    rows = [event(EventKind.SULFATE, 8000.0, depth_cm=5.0)]
    for ph, carbonate_pct, low, high in ((6.5, 0.0, 0.0, 0.0), (7.7, 3.0, -0.35, -0.1)):
        the_soil = soil(ph, carbonate_pct=carbonate_pct)
        with_it, without = (run(the_soil, members(), weather(60), put) for put in (rows, []))
        change = (with_it.ph - without.ph)[0]
        assert low <= change.min() <= high


def test_the_inner_loop_counts_no_arrays() -> None:
    """Counting arrays in and out of each call once took two thirds of the time of a run."""
    from numba.core.registry import CPUDispatcher

    names = ("kernel", "step", "flux", "lime", "load", "curve", "exp", "nitrogen", "organic",
             "reading", "sulfur", "sulfur_dose", "prills", "member", "events_step")  # fmt: skip
    modules = [importlib.import_module(f"loamshift.core.column_{name}") for name in names]
    made = {
        name: one
        for module in modules
        for name, one in vars(module).items()
        if isinstance(one, CPUDispatcher)
    }
    assert len(made) > 20
    counting = {name for name, one in made.items() if one.targetoptions.get("_nrt", True)}
    assert not counting
