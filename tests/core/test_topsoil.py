"""Density, carbon and water of a topsoil nobody weighed."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.core.topsoil import (
    bulk_density_g_cm3,
    mineral_density_from_bulk_g_cm3,
    mineral_density_g_cm3,
    organic_log10_k,
    usual_sand_pct,
    water_contents_frac,
)
from loamshift.errors import OutOfRangeError
from loamshift.tables.soils import soil_water_parameters, topsoil_parameters

P = topsoil_parameters()
WATER = soil_water_parameters()


@given(mineral=st.floats(1.1, 1.8), om=st.floats(0.0, 100.0))
def test_the_volumes_of_the_parts_add_up(mineral: float, om: float) -> None:
    density = bulk_density_g_cm3(mineral_g_cm3=mineral, organic_matter_pct=om, params=P)
    one_gram = om / 100.0 / P.organic_density_g_cm3 + (1.0 - om / 100.0) / mineral
    assert density * one_gram == pytest.approx(1.0)
    assert P.organic_density_g_cm3 <= density * (1.0 + 1e-12) <= mineral * (1.0 + 1e-9)


def test_the_form_of_federer() -> None:
    """Db = Dbm Dbo / (Fo Dbm + (1 - Fo) Dbo), as printed in the abstract of Federer 1993."""
    for mineral, share in ((1.45, 0.05), (1.6, 0.3), (2.19, 0.8)):
        organic = P.organic_density_g_cm3
        printed = mineral * organic / (share * mineral + (1.0 - share) * organic)
        found = bulk_density_g_cm3(
            mineral_g_cm3=mineral, organic_matter_pct=100.0 * share, params=P
        )
        assert found == pytest.approx(printed)


@given(density=st.floats(1.0, 1.6), om=st.floats(0.0, 8.0))
def test_there_and_back(density: float, om: float) -> None:
    mineral = mineral_density_from_bulk_g_cm3(
        bulk_density_g_cm3=density, organic_matter_pct=om, params=P
    )
    back = bulk_density_g_cm3(mineral_g_cm3=mineral, organic_matter_pct=om, params=P)
    assert back == pytest.approx(density)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="between 0 and 100"):
        bulk_density_g_cm3(mineral_g_cm3=1.5, organic_matter_pct=100.1, params=P)
    with pytest.raises(OutOfRangeError, match="more room"):
        mineral_density_from_bulk_g_cm3(bulk_density_g_cm3=1.5, organic_matter_pct=60.0, params=P)


@given(om=st.floats(0.0, 99.0), sand=st.floats(0.0, 100.0), share=st.floats(0.0, 1.0))
def test_more_humus_is_lighter_and_nothing_jumps(om: float, sand: float, share: float) -> None:
    clay = share * (100.0 - sand)
    mineral = mineral_density_g_cm3(sand_pct=sand, clay_pct=clay, params=P)
    here, more = (
        bulk_density_g_cm3(mineral_g_cm3=mineral, organic_matter_pct=value, params=P)
        for value in (om, om + 0.01)
    )
    assert here > more > 0.999 * here


def test_the_scale_of_humous_soils_joins_the_ordinary_one() -> None:
    at = P.organic_fitted_carbon_pct
    assert organic_log10_k(organic_carbon_pct=at, params=P) == (0.0, 0.0)
    just = organic_log10_k(organic_carbon_pct=at * (1.0 + 1e-9), params=P)
    assert just == pytest.approx((0.0, 0.0), abs=1e-8)
    shifts = [organic_log10_k(organic_carbon_pct=at + i, params=P) for i in range(0, 47)]
    assert np.all(np.diff([mean for mean, _ in shifts]) < 0.0)
    assert np.all(np.diff([sd for _, sd in shifts]) > 0.0)
    # Raw peat was measured at 0.63 of linear growth: within two sd of what is believed there.
    mean, sd = organic_log10_k(organic_carbon_pct=48.0, params=P)
    assert abs(np.log10(0.63) - mean) < 2.0 * sd


@given(sand=st.floats(0.0, 100.0), share=st.floats(0.0, 1.0), om=st.floats(0.0, 100.0))
def test_water_contents_can_be(sand: float, share: float, om: float) -> None:
    clay = share * (100.0 - sand)
    field, wilting = water_contents_frac(
        sand_pct=sand, clay_pct=clay, organic_matter_pct=om, params=WATER
    )
    assert 0.0 < field < 0.6
    assert wilting < field


@given(clay=st.floats(0.0, 100.0))
def test_sand_leaves_room_for_the_clay(clay: float) -> None:
    assert 0.0 <= usual_sand_pct(clay_pct=clay, params=P) <= 100.0 - clay
