from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.core.mixed_layer import MixedLayer, aged_layer, mixed_layer_course
from loamshift.errors import InputError

BEDS = 4
SLOPE = 30.0
"""Buffering of the made-up straight curve at k = 1 [mmolc/kg per pH]."""
MASS = 200.0
BICARBONATE = 1000.0 * 10.0**-7.82 * 0.008
"""Of water under 0.008 atm of carbon dioxide [mmol2/L2]; Plummer and Busenberg 1982."""
CURVE_PH = np.linspace(2.0, 9.5, 76)
MONTHS = np.full(12, 365.25 / 12.0)


def layer(
    *,
    start: float = 6.5,
    k: float = 1.0,
    carbonate: float = 0.0,
    load: float = 0.0,
    drained_mm: float = 0.0,
    lime_per_d: float = 0.0,
    coarse: bool = False,
) -> MixedLayer:
    """Beds with a straight curve, so that every answer can be worked out by hand."""
    every = np.ones(BEDS)
    return MixedLayer(
        start_ph=start * every,
        k=k * every,
        mass_kg_m2=MASS * every,
        carbonate_mmolc_m2=carbonate * every,
        held_ph=7.7 * every,
        background_mmolc_m2_year=load * every,
        background_rise_per_ph=0.0 * every,
        weathering_mmolc_m2_year=0.0 * every,
        air_mmolc_m2_year=np.zeros(BEDS),
        drained_mm_year=drained_mm * every,
        bicarbonate_mmol2_l2=BICARBONATE * every,
        lime_per_d=lime_per_d * every,
        lime_acid_exponent=0.0 * every,
        lime_full_above_ph=7.0 * every,
        is_coarse=np.full(BEDS, coarse),
        curve_ph=CURVE_PH,
        shape_mmolc_kg=SLOPE * CURVE_PH,
        reference_ph=5.0,
        highest_ph=7.0,
        leaching_factor=1.0,
        anions_mmolc_l=every,
        bicarbonate_highest_mmolc_l=6.0,
        suspension_mmolc_l=1.26,
    )


def run(beds: MixedLayer, a_month: float) -> np.ndarray:
    acid = np.full((BEDS, MONTHS.size), a_month)
    return mixed_layer_course(beds, acid, step_days=MONTHS)


def test_left_alone_nothing_moves() -> None:
    assert np.allclose(run(layer(), 0.0), 6.5)


@given(st.floats(-800.0, 800.0), st.floats(0.5, 2.0))
def test_acid_moves_the_ph_by_acid_over_buffering(a_month: float, k: float) -> None:
    """Acid over k x slope x mass, while the curve lasts and no lime falls out."""
    course = run(layer(k=k), a_month)
    moved = 12.0 * a_month / (k * SLOPE * MASS)
    ends = min(6.5 - moved, 7.7)
    assert np.allclose(course[:, -1], ends, atol=1e-9)
    assert np.all(np.diff(course, axis=1) * np.sign(a_month) <= 1e-12)


def test_free_lime_takes_the_acid_first_where_it_holds_the_soil() -> None:
    beds = layer(start=7.7, carbonate=3000.0)
    course = run(beds, 500.0)
    assert np.allclose(course[:, :7], 7.7), "six months of 500 are the 3000 of the lime"
    assert course[0, -1] == pytest.approx(7.7 - 3000.0 / (SLOPE * MASS))


def test_a_unit_below_it_lime_takes_nothing_up() -> None:
    """Grains that a soil so acid has left are coated or coarse."""
    with_lime, without = (
        run(layer(start=6.6, carbonate=5000.0), 100.0),
        run(layer(start=6.6), 100.0),
    )
    assert np.allclose(with_lime, without)
    near = run(layer(start=7.2, carbonate=5000.0), 100.0)
    assert near[0, -1] > run(layer(start=7.2), 100.0)[0, -1] + 0.05


def test_base_above_what_lime_holds_falls_out_and_is_there_again() -> None:
    """Base in plenty, then acid: what fell out is taken up before the pH moves."""
    acid = np.concatenate((np.full((BEDS, 6), -2000.0), np.full((BEDS, 6), 500.0)), axis=1)
    course = mixed_layer_course(layer(start=7.5), acid, step_days=MONTHS)
    assert np.allclose(course[:, 6:], 7.7)
    spent = np.concatenate((acid, np.full((BEDS, 30), 500.0)), axis=1)
    longer = mixed_layer_course(layer(start=7.5), spent, step_days=np.full(42, 30.0))
    # in all 36 x 500 acid against 6 x 2000 base: 6000 over from pH 7.5
    assert np.allclose(longer[:, -1], 7.5 - (36 * 500.0 - 12_000.0) / (SLOPE * MASS))


def test_leaching_is_acid_at_the_reference_and_rises_with_the_ph() -> None:
    year = run(layer(start=5.0, load=300.0), 0.0)[0, -1]
    assert year == pytest.approx(5.0 - 300.0 / (SLOPE * MASS), abs=1e-9)
    steep = replace(layer(start=6.0, load=300.0), background_rise_per_ph=np.full(BEDS, 0.5))
    assert run(steep, 0.0)[0, 1] == pytest.approx(
        6.0 - np.exp(0.5) * 25.0 / (SLOPE * MASS), abs=1e-9
    )
    capped = replace(steep, start_ph=np.full(BEDS, 7.6))
    assert run(capped, 0.0)[0, 1] == pytest.approx(
        7.6 - np.exp(1.0) * 25.0 / (SLOPE * MASS), abs=1e-9
    )


def test_weathering_gives_back_and_drainage_scales_the_load() -> None:
    beds = replace(
        layer(load=300.0), weathering_mmolc_m2_year=np.full(BEDS, 150.0), leaching_factor=0.5
    )
    assert np.allclose(run(beds, 0.0), 6.5)


def test_beds_do_not_touch_each_other() -> None:
    mixed = replace(layer(), start_ph=np.array([5.0, 6.0, 7.0, 8.0]), k=np.array([0.5, 1, 2, 1]))
    together = run(mixed, 100.0)
    for bed, (start, k) in enumerate(zip((5.0, 6.0, 7.0, 8.0), (0.5, 1.0, 2.0, 1.0), strict=True)):
        assert np.allclose(together[bed], run(layer(start=start, k=k), 100.0)[0])


def test_acid_and_steps_must_be_as_many() -> None:
    with pytest.raises(InputError):
        mixed_layer_course(layer(), np.zeros((BEDS, 3)), step_days=np.full(4, 30.0))


def test_draining_water_carries_bicarbonate_out_of_a_soil_above_neutral() -> None:
    """The first step by hand, at pH 7.5: x = 10^-7.5 root((1 + b/x)/1.26), b/x is 2.35 mmolc/L."""
    course = run(layer(start=7.5, drained_mm=240.0), 0.0)
    content = 2.35
    x = BICARBONATE / content
    assert x == pytest.approx(10.0**-7.5 * ((1.0 + content) / 1.26) ** 0.5, rel=0.01)
    a_step = 20.0 * content / (SLOPE * MASS)
    assert course[0, 0] - course[0, 1] == pytest.approx(a_step, rel=0.05)
    assert np.all(np.diff(course, axis=1) < 0.0)


def test_no_water_carries_a_soil_past_the_ph_at_which_it_holds_no_base() -> None:
    """Bicarbonate and acid of the water are equal at half of log10 (1000 / b); the soil reads
    half of log10 of its salt over that of the suspension more."""
    x = np.sqrt(BICARBONATE / 1000.0)
    neutral = -np.log10(x) + 0.5 * np.log10((1.0 + BICARBONATE / x) / 1.26)
    flooded = run(layer(start=7.5, drained_mm=1e6), 0.0)[0]
    assert neutral < flooded[-1] < neutral + 0.2
    rained = run(layer(start=4.0, drained_mm=1e6), 0.0)[0]
    assert 4.0 < rained[-1] <= neutral + 1e-6


def test_fine_lime_brings_a_soil_to_the_ph_at_which_it_holds_it_while_it_lasts() -> None:
    plenty = run(layer(start=7.0, carbonate=1e5, lime_per_d=1.0), 0.0)[0]
    assert plenty[1] == pytest.approx(7.7, abs=1e-6)
    little = run(layer(start=7.0, carbonate=600.0, lime_per_d=1.0), 0.0)[0]
    assert little[-1] == pytest.approx(7.0 + 600.0 / (SLOPE * MASS))


def test_coarse_grains_give_a_share_of_what_is_left_of_them() -> None:
    """Half-time 365.25 d far below the plateau: half of 3000 mmolc/m2 in a year."""
    beds = layer(start=5.5, carbonate=3000.0, lime_per_d=np.log(2.0) / 365.25, coarse=True)
    course = run(beds, 0.0)[0]
    assert course[-1] == pytest.approx(5.5 + 1500.0 / (SLOPE * MASS), abs=1e-6)


def test_an_aged_layer_goes_on_where_the_steps_left_it() -> None:
    beds = layer(start=7.7, carbonate=3000.0, load=200.0)
    acid = np.full((BEDS, 24), 60.0)
    whole = mixed_layer_course(beds, acid, step_days=np.full(24, 30.0))
    half = aged_layer(beds, acid[:, :12], step_days=np.full(12, 30.0))
    rest = mixed_layer_course(half, acid[:, 12:], step_days=np.full(12, 30.0))
    assert np.allclose(rest, whole[:, 12:])
    assert np.all(half.carbonate_mmolc_m2 < 3000.0)
