from __future__ import annotations

import math

import pytest

from loamshift.core.salinity import (
    SalinityParameters,
    al_saturation_frac,
    ec_rise_ds_m,
    ece_from_ec,
    saturation_water_kg_kg,
)
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values

P = SalinityParameters(**parameter_values("salinity"))


def rise(salt: float, *, gypsum_only: bool = False, depth: float = 15.0) -> float:
    return ec_rise_ds_m(
        salt_mmolc_m2=salt,
        depth_cm=depth,
        bulk_density_g_cm3=1.3,
        saturation_water_kg_kg=0.4,
        params=P,
        gypsum_only=gypsum_only,
    )


def test_ten_mmolc_per_litre_of_paste_water_make_one_ds_m() -> None:
    litres = 10.0 * 15.0 * 1.3 * 0.4
    assert rise(10.0 * litres) == pytest.approx(1.0)


def test_gypsum_stops_at_its_own_solubility() -> None:
    assert rise(50000.0, gypsum_only=True) == P.gypsum_ec_ds_m
    assert rise(500.0, gypsum_only=True) == rise(500.0)


def test_shallow_mixing_is_saltier() -> None:
    assert rise(800.0, depth=5.0) == pytest.approx(3.0 * rise(800.0))


@pytest.mark.parametrize(("saturation", "factor"), [(0.30, 12.56), (0.45, 9.19), (0.75, 6.50)])
def test_one_to_five_by_texture(saturation: float, factor: float) -> None:
    estimate = ece_from_ec(1.0, method="1:5", saturation_water_kg_kg=saturation, params=P)
    assert estimate.mid_ds_m == pytest.approx(factor, abs=0.01)
    assert estimate.low_ds_m < estimate.mid_ds_m < estimate.high_ds_m


def test_one_to_one_and_paste() -> None:
    one = ece_from_ec(1.0, method="1:1", saturation_water_kg_kg=0.4, params=P)
    assert (one.low_ds_m, one.high_ds_m) == (1.9, 3.35)
    paste = ece_from_ec(1.7, method="paste", saturation_water_kg_kg=0.4, params=P)
    assert paste == (1.7, 1.7, 1.7)


def test_unknown_extract_is_refused_with_the_known_ones() -> None:
    with pytest.raises(InputError, match="1:1, 1:5"):
        ece_from_ec(1.0, method="1:2", saturation_water_kg_kg=0.4, params=P)


def test_aluminium_comes_below_ph_5() -> None:
    shares = al_saturation_frac([4.05, 4.5, 5.0, 5.5], p_al=4.05, n_al=1.7)
    assert shares[0] == pytest.approx(0.5)
    assert shares[1] == pytest.approx(0.147, abs=0.001)
    assert shares[2] < P.al_harmless_frac
    assert shares[3] < 0.005


def test_saturation_water_of_a_loam() -> None:
    water = saturation_water_kg_kg(field_capacity_frac=0.3, bulk_density_g_cm3=1.3, params=P)
    assert water == pytest.approx(0.46, abs=0.005)


def test_impossible_inputs_are_refused() -> None:
    with pytest.raises(OutOfRangeError):
        rise(-1.0)
    with pytest.raises(OutOfRangeError):
        rise(100.0, depth=0.0)
    with pytest.raises(OutOfRangeError, match="uS/cm"):
        ece_from_ec(450.0, method="paste", saturation_water_kg_kg=0.4, params=P)
    with pytest.raises(OutOfRangeError):
        al_saturation_frac([math.nan], p_al=4.05, n_al=1.7)
