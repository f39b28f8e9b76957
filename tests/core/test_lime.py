"""Lime: strength, fineness rules, dissolving, and laboratory equations with their limits."""

from __future__ import annotations

import math

import numpy as np
import pytest

from loamshift.core.lime import (
    LimeParameters,
    caco3_eq_frac_from_formula,
    fineness_frac,
    lime_dissolved_frac,
    lime_requirement_caco3_g_m2_from_buffer_ph,
    product_g_m2_from_caco3_g_m2,
    shares_from_passing,
)
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values
from loamshift.units import g_m2_from_lb_acre

P = LimeParameters(**parameter_values("lime"))
TON_ACRE_G_M2 = g_m2_from_lb_acre(2000.0)


def test_an_acid_salt_has_negative_strength_and_a_neutral_one_none() -> None:
    assert caco3_eq_frac_from_formula("FeSO4.7H2O") == pytest.approx(-0.36, abs=0.001)
    assert caco3_eq_frac_from_formula("CaSO4.2H2O") == 0.0
    assert caco3_eq_frac_from_formula("CaCO3") == 1.0


def test_finer_is_never_worth_less() -> None:
    rule = [
        P.fineness_minnesota_over_8_mesh,
        P.fineness_minnesota_8_20_mesh,
        P.fineness_minnesota_20_60_mesh,
        P.fineness_minnesota_under_60_mesh,
    ]
    worth = [fineness_frac(np.eye(4)[i].tolist(), rule) for i in range(4)]
    assert worth == sorted(worth) == rule


def test_dissolving_halves_by_class() -> None:
    for low, high, factor in ((0, 150, 1), (150, 250, 2), (250, 850, 6), (850, 2000, 25)):
        half = lime_dissolved_frac(25.0 * factor, sizes=[(low, high, 1.0)], params=P)
        assert half == pytest.approx(0.5)


def test_a_wide_class_is_split_over_its_diameter() -> None:
    wide = lime_dissolved_frac(60.0, sizes=[(0.0, 250.0, 1.0)], params=P)
    parts = lime_dissolved_frac(60.0, sizes=[(0.0, 150.0, 0.6), (150.0, 250.0, 0.4)], params=P)
    assert wide == pytest.approx(parts)
    single = lime_dissolved_frac(60.0, sizes=[(850.0, 850.0, 1.0)], params=P)
    assert single == pytest.approx(1.0 - 2.0 ** (-60.0 / 625.0))


def test_dissolving_keeps_shape_and_rises() -> None:
    share = lime_dissolved_frac(np.arange(0.0, 400.0, 50.0), sizes=[(0, 850, 1.0)], params=P)
    assert share[0] == 0.0
    assert np.all(np.diff(share) > 0.0)
    assert share[-1] < 1.0


def test_coarse_grains_hardly_change_in_three_years() -> None:
    assert lime_dissolved_frac(1100.0, sizes=[(2000.0, 4000.0, 1.0)], params=P) < 0.3


@pytest.mark.parametrize(
    "sizes",
    [[(0.0, 150.0, 0.5)], [(300.0, 100.0, 1.0)], [(-1.0, 150.0, 1.0)], [(0.0, math.inf, 1.0)]],
)
def test_impossible_sizes_are_refused(sizes: list[tuple[float, float, float]]) -> None:
    with pytest.raises(OutOfRangeError):
        lime_dissolved_frac(10.0, sizes=sizes, params=P)
    with pytest.raises(OutOfRangeError, match="t_days"):
        lime_dissolved_frac(-1.0, sizes=[(0, 150, 1.0)], params=P)


def test_impossible_fineness_and_products_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="fall"):
        shares_from_passing([0.5, 0.8])
    with pytest.raises(OutOfRangeError, match="together 1"):
        fineness_frac([0.5, 0.4], [0.5, 1.0])
    with pytest.raises(OutOfRangeError, match="share from 0 to 1"):
        fineness_frac([50.0, 50.0], [0.5, 1.0])
    with pytest.raises(OutOfRangeError, match="divided"):
        product_g_m2_from_caco3_g_m2(100.0, effective_frac=70.0)
    with pytest.raises(OutOfRangeError, match="0 or more"):
        product_g_m2_from_caco3_g_m2(-1.0, effective_frac=0.7)


def need(form: str, coefficients: tuple[float, ...], **given: float | None) -> float:
    arguments: dict[str, float | None] = {
        "buffer_ph": 6.0,
        "ph_water": 5.0,
        "target_ph": 6.5,
        "depth_cm": 20.0,
    }
    return lime_requirement_caco3_g_m2_from_buffer_ph(form, coefficients, **{**arguments, **given})


def test_mehlich_as_north_carolina_prints_it() -> None:
    found = need("mehlich-nc", (6.6, 4.0), buffer_ph=6.3, target_ph=6.0)
    assert found == pytest.approx(1.2 * 0.625 * TON_ACRE_G_M2)


@pytest.mark.parametrize(
    "given", [{"buffer_ph": 6.6}, {"buffer_ph": 7.0}, {"target_ph": 6.8}, {"ph_water": 6.7}]
)
def test_mehlich_is_undefined_from_6_6_up(given: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError, match=r"6\.6"):
        need("mehlich-nc", (6.6, 4.0), **{"target_ph": 6.9, **given})


def test_linear_equation_its_zero_and_its_only_target() -> None:
    found = need("linear-lti", (60.4, 0.87), buffer_ph=6.5, method_target_ph=6.5)
    assert found == pytest.approx((60.4 - 0.87 * 65.0) * TON_ACRE_G_M2)
    as_caco3 = need("linear-lti", (60.4, 0.87, 0.9), buffer_ph=6.5)
    assert as_caco3 == pytest.approx(0.9 * found)
    with pytest.raises(OutOfRangeError, match="crosses zero"):
        need("linear-lti", (60.4, 0.87), buffer_ph=7.0)
    with pytest.raises(OutOfRangeError, match=r"6\.5 only"):
        need("linear-lti", (60.4, 0.87), target_ph=6.0, method_target_ph=6.5)


def test_woodruff_is_a_thousand_pounds_per_tenth() -> None:
    found = need("woodruff", (7.0, 1000.0), buffer_ph=6.4, target_ph=7.0)
    assert found == pytest.approx(g_m2_from_lb_acre(6000.0))
    with pytest.raises(OutOfRangeError, match="at or above 7"):
        need("woodruff", (7.0, 1000.0), buffer_ph=7.0)


def test_penn_state_keeps_its_jump() -> None:
    to_seven = need(
        "penn-state-acidity",
        (1000.0,),
        buffer_ph=None,
        target_ph=7.0,
        exchangeable_acidity_cmolc_kg=5.0,
    )
    assert to_seven == pytest.approx(g_m2_from_lb_acre(5000.0))
    rule = (840.0, 4.0, 2000.0)
    below = need("penn-state-acidity", rule, exchangeable_acidity_cmolc_kg=4.0)
    above = need("penn-state-acidity", rule, exchangeable_acidity_cmolc_kg=4.01)
    assert below == pytest.approx(g_m2_from_lb_acre(2000.0))
    assert above == pytest.approx(g_m2_from_lb_acre(840.0 * 4.01))
    with pytest.raises(InputError, match="exchangeable acidity"):
        need("penn-state-acidity", rule)


def test_lime_goes_with_depth_and_none_is_needed_at_the_target() -> None:
    deep = need("woodruff", (7.0, 1000.0), depth_cm=35.56, method_depth_cm=17.78)
    assert deep == pytest.approx(2.0 * g_m2_from_lb_acre(10_000.0))
    assert need("mehlich-nc", (6.6, 4.0), ph_water=6.5) == 0.0


def test_unknown_forms_and_missing_numbers_are_refused() -> None:
    with pytest.raises(InputError, match="mehlich-nc"):
        need("smp-table", (1.0,))
    with pytest.raises(InputError, match="takes"):
        need("mehlich-nc", (6.6,))
    with pytest.raises(InputError, match="buffer pH"):
        need("woodruff", (7.0, 1000.0), buffer_ph=None)
    with pytest.raises(OutOfRangeError, match="depth"):
        need("woodruff", (7.0, 1000.0), depth_cm=0.0)
    with pytest.raises(OutOfRangeError, match="target_ph"):
        need("woodruff", (7.0, 1000.0), target_ph=65.0)
