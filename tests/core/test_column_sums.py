"""What the column answers beside the pH, against hand arithmetic: nitrogen, lows, what is left."""

from __future__ import annotations

import numpy as np
import pytest

from core.column_cases import event, everything, members, run, soil, sulfur, weather
from loamshift.core import buffer
from loamshift.core.column_layout import ColumnSoil, EventKind, FloatArray, MemberParameters
from loamshift.tables import model

NITROGEN_MMOL_M2 = 700.0
"""About 10 g of nitrogen per m2."""
REALISED = 0.8
GIVEN_BACK = 0.3
"""Base given back per nitrate, of that share [mol/mol]."""


def base_held(the_soil: ColumnSoil, ph: FloatArray) -> float:
    """Base in the layers, from the buffer curve itself [mmolc/m2]."""
    content = buffer.base_content_mmolc_kg(
        ph, clay_pct=18.0, organic_carbon_pct=1.5, params=model.buffer_parameters()
    )
    return float((the_soil.mass_kg_m2 * content).sum())


def sealed(**changed: float) -> MemberParameters:
    """A soil that nothing comes into or goes out of by itself."""
    still = {"background_mmolc_m2_year": 0.0, "weathering_mmolc_m2_year": 0.0}
    return members(1, seed=None, **(still | {"realised_frac": REALISED} | changed))


@pytest.mark.parametrize(
    ("kind", "acid_per_n"),
    [
        (EventKind.AMMONIUM, 2.0),
        (EventKind.UREA, 1.0),
        (EventKind.AMMONIA, 1.0),
        (EventKind.ORGANIC_NITROGEN, 1.0),
    ],
)
def test_nitrogen_leaves_its_share_of_the_acid_of_the_textbook(
    kind: EventKind, acid_per_n: float
) -> None:
    """Two of acid for each ammonium that becomes nitrate, one where ammonia came first, less the
    base given back for the nitrate."""
    the_soil = soil(6.5)
    fast = sealed(
        nitrification_rate_per_d=0.2,
        urea_rate_per_d=0.5,
        decay_half_time_d=10.0,
        nitrate_uptake_mol_mol=GIVEN_BACK,
    )
    result = run(
        the_soil,
        fast,
        weather(730, mean_c=22.0, swing_c=0.0, drainage_mm_year=0.0),
        [event(kind, NITROGEN_MMOL_M2)],
    )
    lost = base_held(the_soil, np.full(3, 6.5)) - base_held(the_soil, result.end_ph[0])
    left = acid_per_n * REALISED - GIVEN_BACK
    assert lost == pytest.approx(left * NITROGEN_MMOL_M2, rel=0.02)
    assert result.balance_error.max() < 1e-10


def test_nitrate_that_is_taken_up_leaves_its_base() -> None:
    the_soil = soil(5.5)
    result = run(
        the_soil,
        sealed(nitrate_uptake_mol_mol=0.5),
        weather(730, mean_c=22.0, swing_c=0.0, drainage_mm_year=0.0),
        [event(EventKind.NITRATE, NITROGEN_MMOL_M2)],
    )
    gained = base_held(the_soil, result.end_ph[0]) - base_held(the_soil, np.full(3, 5.5))
    assert gained == pytest.approx(0.5 * NITROGEN_MMOL_M2, rel=0.02)
    assert result.balance_error.max() < 1e-10


def test_the_lowest_ph_is_that_of_any_layer_on_any_day() -> None:
    """Acid on the last day counts; so does a low that lime has long mended."""
    still = weather(120, drainage_mm_year=0.0)
    late = run(soil(6.0), sealed(), still, [event(EventKind.ACID, 900.0, day=119, depth_cm=5.0)])
    assert late.lowest_ph[0] == pytest.approx(late.end_ph[0].min())
    assert late.end_ph[0, 0] < late.end_ph[0, 1] == pytest.approx(6.0, abs=0.02)
    mended = run(
        soil(6.0),
        sealed(),
        weather(1460, drainage_mm_year=0.0),
        [
            event(EventKind.ACID, 900.0, day=3, depth_cm=5.0),
            event(
                EventKind.LIME, 6000.0, day=30, depth_cm=5.0, lime_frac=(0.0, 0.0, 0.0, 0.0, 1.0)
            ),
        ],
    )
    assert mended.lowest_ph[0] == pytest.approx(late.lowest_ph[0], abs=0.05)
    assert mended.end_ph[0].min() > mended.lowest_ph[0] + 0.5


def test_what_is_left_of_sulfur_and_lime_is_what_has_not_worked() -> None:
    """In frost nothing works but the lime that water dissolves; what went on is all there."""
    frost = weather(60, mean_c=-6.0, swing_c=0.0, drainage_mm_year=0.0)
    rows = [
        sulfur(50.0),
        event(EventKind.LIME, 2000.0, lime_frac=(0.0, 0.0, 0.0, 0.0, 1.0), depth_cm=15.0),
    ]
    result = run(soil(6.0), sealed(lime_half_time_d=1e9), frost, rows)
    assert result.sulfur_left_mmolc_m2[0] == pytest.approx(50.0 * 62.4)
    efficiency = model.lime_parameters().field_efficiency
    assert result.lime_left_mmolc_m2[0] == pytest.approx(2000.0 * efficiency, rel=1e-3)
    assert not result.oxidised_frac.any()


@pytest.mark.parametrize("power", [0.5, 1.9])
def test_lime_that_may_be_better_or_worse_counts_by_a_power_of_the_efficiency(power: float) -> None:
    frost = weather(60, mean_c=-6.0, swing_c=0.0, drainage_mm_year=0.0)
    coarse = (0.0, 0.0, 0.0, 0.0, 1.0)
    rows = [
        event(EventKind.LIME, 2000.0, lime_frac=coarse, depth_cm=15.0, efficiency_power=power),
        event(EventKind.LIME, 300.0, lime_frac=coarse, depth_cm=15.0),
    ]
    result = run(soil(6.0), sealed(lime_half_time_d=1e9, lime_field_efficiency=0.7), frost, rows)
    assert result.lime_left_mmolc_m2[0] == pytest.approx(2000.0 * 0.7**power + 210.0, rel=1e-3)
    assert result.balance_error.max() < 1e-9


@pytest.mark.parametrize("carbonate_pct", [0.0, 0.05])
def test_the_balance_closes_with_everything_on_for_a_few_beds(carbonate_pct: float) -> None:
    rows = [row for year in range(2) for row in everything(year)]
    days = weather(2 * 365, irrigation_mm_week=15.0, alkalinity_mmolc_l=4.0)
    result = run(soil(6.4, carbonate_pct=carbonate_pct), members(3, seed=3), days, rows)
    assert result.balance_error.max() < 1e-10
    assert (result.lowest_ph <= result.end_ph.min(axis=1)).all()


def test_the_water_brings_alkalinity_times_depth() -> None:
    """4 mmolc/L in 15 mm a week for a year is 4 x 15 x 365/7 of base per m2."""
    days = weather(365, irrigation_mm_week=15.0, alkalinity_mmolc_l=4.0)
    result = run(soil(6.4), members(), days)
    assert result.water_base_mmolc_m2[0] == pytest.approx(4.0 * 15.0 * 365.0 / 7.0)


def test_background_less_weathering_is_what_a_still_soil_loses() -> None:
    """At pH 5 and 200 mm of drainage the yearly loads stand as they are."""
    result = run(
        soil(5.0),
        members(background_mmolc_m2_year=100.0, weathering_mmolc_m2_year=30.0),
        weather(365, drainage_mm_year=200.0),
    )
    assert result.background_acid_mmolc_m2[0] == pytest.approx(70.0, rel=0.05)
