"""A mixed sample in which the lime of one depth meets the acid of another."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.column_cases import members, run, soil, weather
from loamshift.core.column_curve import stand_on
from loamshift.core.column_kernel import room_for
from loamshift.core.column_numbers import (
    BASE,
    CARBON,
    CARBONATE,
    MASS,
    PH_NOW,
    PLATEAU,
    PLATEAU_GYPSUM,
    SULFATE,
    law,
    rate,
)
from loamshift.core.column_reading import mix_sample, react_in_sample

SLOPE_MMOLC_KG_PH = 50.0
PLATEAU_PH = 7.7
STEP_PH = 0.01
CURVE = np.zeros((1001, 3))
CURVE[:, 1] = SLOPE_MMOLC_KG_PH * STEP_PH * np.arange(1001)


@dataclass(frozen=True)
class Mixed:
    """A sample at once and when it is read, and the sums of base and lime [mmolc/m2]."""

    ph_at_once: float
    ph: float
    base_before: float
    base: float
    lime_before: float
    lime: float


def mixed(
    ph: tuple[float, ...],
    lime: tuple[float, ...],
    *,
    mass: tuple[float, ...] = (60.0, 120.0),
    sulfate: float = 0.0,
    speed: float = 1.0,
) -> Mixed:
    """Layers of a straight curve, 50 mmolc/kg to the pH, mixed and left wet."""
    number, cell, sample, _, _, _, work, _ = room_for(layers=len(ph), doses=0, sizes=1)
    number[rate("k")] = 1.0
    number[rate("curve_step_ph")] = STEP_PH
    number[rate("carbonate_exponent")] = 0.5
    number[rate("carbonate_rate")], number[rate("step_d")] = speed, 1.0
    number[law("sample_wet_d")], number[law("gypsum_full_mmolc_kg")] = 1.0, 40.0
    cell[:, MASS], cell[:, CARBON] = mass, 1.0
    cell[:, BASE] = SLOPE_MMOLC_KG_PH * np.array(ph)
    cell[:, PLATEAU] = SLOPE_MMOLC_KG_PH * PLATEAU_PH
    cell[:, PLATEAU_GYPSUM] = SLOPE_MMOLC_KG_PH * (PLATEAU_PH - 0.35)
    cell[:, CARBONATE], cell[:, SULFATE] = lime, sulfate
    sample[0, CARBON] = 1.0
    stand_on(sample, CURVE, number, 0, 0, 500)
    layers = cell.copy()
    mix_sample(cell, CURVE, number, work, sample, len(ph), 1, 0)
    at_once, before = float(work[PH_NOW]), float(sample[0, BASE] * sample[0, MASS])
    react_in_sample(cell, CURVE, number, work, sample, len(ph), 1)
    assert np.array_equal(cell, layers), "a sample that is taken changes no bed"
    return Mixed(
        ph_at_once=at_once,
        ph=float(work[PH_NOW]),
        base_before=before,
        base=float(sample[0, BASE] * sample[0, MASS]),
        lime_before=sum(lime),
        lime=float(sample[0, CARBONATE]),
    )


LAYERS = st.tuples(st.floats(4.0, 7.7), st.floats(4.0, 7.7))
LIMES = st.tuples(st.floats(0.0, 5e4), st.floats(0.0, 5e4))


@given(ph=LAYERS, lime=LIMES, speed=st.floats(0.0, 9.0), sulfate=st.floats(0.0, 1e4))
def test_mixing_makes_and_loses_no_alkalinity(
    ph: tuple[float, float], lime: tuple[float, float], speed: float, sulfate: float
) -> None:
    """Base in the soil and in lime, before and after; and no more lime goes than there is."""
    found = mixed(ph, lime, speed=speed, sulfate=sulfate)
    before, after = found.base_before + found.lime_before, found.base + found.lime
    assert after == pytest.approx(before, rel=1e-12)
    assert 0.0 <= found.lime <= found.lime_before
    assert found.ph_at_once - 1e-9 <= found.ph <= max(found.ph_at_once, PLATEAU_PH) + 1e-9


@given(ph=LAYERS, lime=st.floats(0.0, 5e4), more=st.floats(0.0, 5e4))
def test_more_lime_in_one_layer_reads_no_lower(
    ph: tuple[float, float], lime: float, more: float
) -> None:
    assert mixed(ph, (lime + more, 0.0)).ph >= mixed(ph, (lime, 0.0)).ph - 1e-9


@given(ph=LAYERS)
def test_acid_beside_lime_of_its_own_gains_nothing_by_mixing(ph: tuple[float, float]) -> None:
    """Peat or vinegar dug into limy soil is read as sour as it is, not a day later."""
    found = mixed(ph, (5e4, 5e4), speed=9.0)  # 50 mmolc/kg/pH in 120 kg: 2e4 mmolc at the most
    assert found.ph == pytest.approx(found.ph_at_once, abs=1e-12)
    assert found.lime == found.lime_before


def test_lime_of_the_top_meets_the_acid_below() -> None:
    """60 kg at 7.7 and 120 kg at 5.0 mix to 5.9: 1.8 pH of 50 mmolc/kg in 180 kg, 16,200 mmolc."""
    plenty = mixed((7.7, 5.0), (50_000.0, 0.0), speed=50.0)
    assert plenty.ph_at_once == pytest.approx(5.9, abs=1e-6)
    assert plenty.ph == pytest.approx(7.7, abs=1e-6)
    assert plenty.lime == pytest.approx(50_000.0 - 16_200.0, abs=1e-3)
    little = mixed((7.7, 5.0), (4_500.0, 0.0), speed=50.0)
    assert little.ph == pytest.approx(6.4, abs=1e-6)  # half a pH unit is 25 mmolc/kg in 180 kg
    assert little.lime == 0.0
    assert mixed((7.7, 5.0), (0.0, 0.0)).ph == pytest.approx(5.9, abs=1e-6)


@pytest.mark.parametrize("lime", [20_000.0, 400_000.0])
def test_how_much_lime_is_left_over_changes_no_reading(lime: float) -> None:
    """PHREEQC, cases F04 and F05: 101 and 21 mmol of calcite left beside clay, pH 7.299 in both."""
    assert mixed((7.7, 5.0), (lime, 0.0), speed=50.0).ph == pytest.approx(7.7, abs=1e-6)


def test_lime_lying_beside_the_acid_is_read_as_the_bed_stands() -> None:
    """Lime in soil at pH 6, in every layer: the reading follows the bed, from what was found on."""
    rest = members(
        2,
        plateau_ph=7.6,
        carbonate_rate_per_d=0.02,
        coarse_carbonate_frac=0.0,
        background_mmolc_m2_year=0.0,
        weathering_mmolc_m2_year=0.0,
    )
    limy = run(soil(6.0, carbonate_pct=5.0), rest, weather(3, drainage_mm_year=0.0), stride_days=1)
    bare = run(soil(6.0), rest, weather(3, drainage_mm_year=0.0), stride_days=1)
    np.testing.assert_allclose(limy.ph[:, 0], bare.ph[:, 0], atol=1e-9)
    np.testing.assert_allclose(limy.ph[:, -1], limy.end_ph[:, 0], atol=0.1)
    assert np.all(np.diff(limy.ph, axis=1) > 0.02)
