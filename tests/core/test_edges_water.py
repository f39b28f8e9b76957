"""Edges of irrigation water and its acids, of water chemistry, and of nitrogen feeds."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from loamshift.core.equilibrium import (
    CarbonateParameters,
    activity_coefficient,
    constants,
    require_p_co2,
)
from loamshift.core.feed import FeedChoice, choose_feed
from loamshift.core.irrigation import (
    ionic_strength_from_alkalinity,
    ionic_strength_from_ec,
    water_acid_mmolc_l,
    water_base_mmolc_m2,
)
from loamshift.core.nitrogen import (
    NitrogenParameters,
    nitrification_ph_factor,
    nitrification_rate_per_d,
    nitrogen_course,
    urea_rate_per_d,
)
from loamshift.core.water_acids import (
    AcidProduct,
    IrrigationParameters,
    acid_products,
    acid_strength_molc_l,
    product_per_100_l,
    protons_released,
)
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values

WATER = CarbonateParameters(**parameter_values("carbonate"))
IRRIGATION = IrrigationParameters(**parameter_values("irrigation"))
NITROGEN = NitrogenParameters(**parameter_values("nitrogen"))


def sold(name: str) -> AcidProduct:
    return acid_products(IRRIGATION)[name]


def acid(**given: float) -> float:
    usual = {
        "alkalinity_mmolc_l": 4.0,
        "ph_start": 7.5,
        "ph_target": 6.0,
        "temp_c": 25.0,
        "ionic_strength": 0.0,
    }
    return water_acid_mmolc_l(**{**usual, **given}, params=WATER)


def test_water_at_freezing_and_at_forty_degrees_has_constants_and_beyond_none() -> None:
    for temp_c in (0.0, 40.0):
        assert constants(temp_c, WATER).kw > 0.0
    for temp_c in (-0.01, 40.01):
        with pytest.raises(OutOfRangeError, match="outside 0 to 40 degC"):
            constants(temp_c, WATER)


def test_air_from_the_thinnest_to_the_thickest_is_let_through() -> None:
    for p_co2_atm in (1e-5, 0.3):
        require_p_co2(p_co2_atm)
    for p_co2_atm in (0.99e-5, 0.301):
        with pytest.raises(OutOfRangeError, match=r"outside 1e-5 to 0\.3 atm"):
            require_p_co2(p_co2_atm)


@pytest.mark.parametrize(
    ("charge", "gamma"), [(0, 10.0**0.01), (1, 10.0**-0.107), (2, 10.0**-0.428), (-2, 10.0**-0.428)]
)
def test_activity_at_a_tenth_molal_by_hand(charge: int, gamma: float) -> None:
    """0.509 z2 (0.3162/1.3162 - 0.03) is 0.107 z2."""
    found = activity_coefficient(charge=charge, ionic_strength=0.1, davies_a=0.509, params=WATER)
    assert found == pytest.approx(gamma, rel=1e-3)


def test_activity_is_known_to_half_a_mole_and_not_beyond() -> None:
    for strength in (0.0, 0.5):
        activity_coefficient(charge=1, ionic_strength=strength, davies_a=0.5, params=WATER)
    for strength in (-1e-6, 0.5001):
        with pytest.raises(OutOfRangeError, match=r"outside 0 to 0\.5"):
            activity_coefficient(charge=1, ionic_strength=strength, davies_a=0.5, params=WATER)


def test_acid_turns_bicarbonate_to_carbon_dioxide_in_the_share_of_the_first_constant() -> None:
    """Between pH 6 and 7.5 hydroxide and carbonate are too little to see."""
    k1 = 10.0**-6.352
    share_start, share_end = (1.0 / (1.0 + 10.0**-ph / k1) for ph in (7.5, 6.0))
    expected = 4.0 * (1.0 - share_end / share_start)
    assert acid() == pytest.approx(expected, abs=0.01)


def test_salt_makes_carbonic_acid_stronger_so_that_less_acid_is_needed() -> None:
    """The first constant as concentrations at 0.1 mol/kg: over gamma squared, 0.78 each."""
    k1 = 10.0**-6.352 * 10.0**0.01 / 0.7816**2
    share_start, share_end = (1.0 / (1.0 + 10.0**-ph / 0.7816 / k1) for ph in (7.5, 6.0))
    expected = 4.0 * (1.0 - share_end / share_start)
    assert acid(ionic_strength=0.1) == pytest.approx(expected, abs=0.01)
    assert acid(ionic_strength=0.1) < acid() - 0.1


def test_salt_makes_bicarbonate_a_stronger_acid_too() -> None:
    """At 0.1 mol/kg, from pH 10 to 8: gamma 0.7816 of one charge and 0.3732 of two."""
    one, two = 0.7816, 0.3732
    k1, k2 = 10.0**-6.352 * 10.0**0.01 / one, 10.0**-10.329 * one / two

    def charge(ph: float) -> float:
        acid_side, base_side = 10.0**-ph / k1, k2 / 10.0**-ph
        return float((1.0 + 2.0 * base_side) / (1.0 + base_side + acid_side))

    hydroxide = 0.1 / one
    dissolved = (4.0 - hydroxide) / charge(10.0)
    expected = 4.0 - dissolved * charge(8.0) - 0.01 * hydroxide
    found = acid(ph_start=10.0, ph_target=8.0, ionic_strength=0.1)
    assert found == pytest.approx(expected, abs=0.005)


def test_a_target_beyond_all_water_is_told_its_limits() -> None:
    for target in (4.49, 10.5):
        with pytest.raises(OutOfRangeError, match=r"ph_target .* outside 4\.5 to 10 pH"):
            acid(ph_start=10.0, ph_target=target)


def test_pure_water_of_a_ph_holds_the_alkalinity_of_its_hydroxide_alone() -> None:
    hydroxide_mmolc_l = 1000.0 * constants(25.0, WATER).kw * 10.0**9.0
    found = acid(alkalinity_mmolc_l=1.001 * hydroxide_mmolc_l, ph_start=9.0, ph_target=7.0)
    assert found == pytest.approx(hydroxide_mmolc_l, rel=2e-3)
    with pytest.raises(OutOfRangeError, match="holds hydroxide, not bicarbonate"):
        acid(alkalinity_mmolc_l=0.999 * hydroxide_mmolc_l, ph_start=9.0, ph_target=7.0)


def test_acid_of_an_acid_water_without_alkalinity_is_its_free_acid() -> None:
    """To pH 5, with hardly any carbonate: 10 umol/L."""
    found = acid(alkalinity_mmolc_l=0.0, ph_start=6.95, ph_target=5.0)
    assert found == pytest.approx(0.01, rel=2e-3)


def test_ionic_strength_by_hand() -> None:
    assert ionic_strength_from_alkalinity(0.0, IRRIGATION) == pytest.approx(0.0005)
    assert ionic_strength_from_alkalinity(10.0, IRRIGATION) == pytest.approx(0.0165)
    assert ionic_strength_from_ec(2.0, IRRIGATION) == pytest.approx(0.0254)


def test_no_water_or_soft_water_leaves_no_base() -> None:
    assert water_base_mmolc_m2(alkalinity_mmolc_l=4.0, water_mm=0.0) == 0.0
    assert water_base_mmolc_m2(alkalinity_mmolc_l=0.0, water_mm=500.0) == 0.0
    for wrong in ({"alkalinity_mmolc_l": -0.1}, {"water_mm": -0.1}):
        with pytest.raises(OutOfRangeError, match=f"{next(iter(wrong))} -0.1 must be 0 or more"):
            water_base_mmolc_m2(**{"alkalinity_mmolc_l": 4.0, "water_mm": 10.0, **wrong})


@pytest.mark.parametrize(
    ("name", "protons", "molc_l"),
    [
        ("sulfuric acid 93 %", 2.0, 34.7),
        ("sulfuric acid 98 %", 2.0, 36.7),
        ("sulfuric acid 35 %", 2.0, 9.0),
        ("nitric acid 63 %", 1.0, 13.8),
        ("nitric acid 67 %", 1.0, 14.9),
        ("phosphoric acid 75 %", 1.0, 12.1),
        ("phosphoric acid 85 %", 1.0, 14.6),
    ],
)
def test_strength_of_acids_as_sold(name: str, protons: float, molc_l: float) -> None:
    found = acid_strength_molc_l(sold(name), protons=protons)
    assert found == pytest.approx(molc_l, rel=0.01)


def test_a_strong_acid_gives_up_its_first_proton_even_in_the_sourest_water() -> None:
    assert protons_released(sold("nitric acid 63 %"), 2.0) == pytest.approx(1.0, abs=1e-4)
    assert protons_released(sold("nitric acid 67 %"), 2.0) == pytest.approx(1.0, abs=1e-4)
    sulfuric = protons_released(sold("sulfuric acid 93 %"), IRRIGATION.sulfuric_pk2 + 0.1)
    assert sulfuric == pytest.approx(1.0 + 1.0 / (1.0 + 10.0**-0.1), abs=1e-4)


def test_half_of_each_proton_is_given_up_at_its_exponent() -> None:
    citric = sold("citric acid")
    for pk in citric.pka:
        others = sum(1.0 / (1.0 + 10.0 ** (other - pk)) for other in citric.pka if other != pk)
        assert protons_released(citric, pk) == pytest.approx(0.5 + others)


def test_protons_are_counted_from_ph_2_to_10_and_not_beyond() -> None:
    for ph in (2.0, 10.0):
        assert protons_released(sold("citric acid"), ph) > 0.0
    for ph in (1.99, 10.01):
        with pytest.raises(OutOfRangeError, match="outside 2 to 10"):
            protons_released(sold("citric acid"), ph)


@pytest.mark.parametrize("name", ["sulfuric acid 93 %", "citric acid"])
def test_no_acid_wanted_is_none_poured_and_weaker_acid_takes_more(name: str) -> None:
    product = sold(name)
    assert product_per_100_l(acid_mmolc_l=0.0, product=product, protons=1.0) == 0.0
    full, weak = (
        product_per_100_l(acid_mmolc_l=2.0, product=product, protons=protons)
        for protons in (1.0, 0.01)
    )
    assert weak == pytest.approx(100.0 * full)
    with pytest.raises(OutOfRangeError, match="nothing to add"):
        product_per_100_l(acid_mmolc_l=-1e-6, product=product, protons=1.0)
    with pytest.raises(OutOfRangeError, match="gives up nothing"):
        product_per_100_l(acid_mmolc_l=2.0, product=product, protons=0.0)


def test_a_dry_acid_is_weighed_by_its_mass_per_proton_and_its_purity() -> None:
    """Citric acid with its water: 210.14 g for three protons."""
    citric = sold("citric acid")
    pure, half = (
        product_per_100_l(acid_mmolc_l=3.0, product=product, protons=3.0)
        for product in (citric, replace(citric, purity_frac=0.5))
    )
    assert pure == pytest.approx(21.014, rel=1e-4)
    assert half == pytest.approx(2.0 * pure)


def feed(feeds: list[float], **given: Any) -> FeedChoice:
    usual = {
        "nitrogen_g_m2_year": 10.0,
        "other_acid_mmolc_m2_year": 0.0,
        "wanted_acid_mmolc_m2_year": 0.0,
    }
    return choose_feed(feeds, **{**usual, **given})


@pytest.mark.parametrize(
    ("feeds", "wanted", "nitrogen"),
    [
        ([0.0, 50.0, 110.0], 500.0, [0.0, 10.0, 0.0]),
        ([0.0, 20.0, 100.0], 200.0, [8.0, 0.0, 2.0]),
        ([20.0, 20.0, 20.0], 200.0, [10.0, 0.0, 0.0]),
    ],
)
def test_between_equals_the_square_of_the_place_decides(
    feeds: list[float], wanted: float, nitrogen: list[float]
) -> None:
    choice = feed(feeds, wanted_acid_mmolc_m2_year=wanted)
    assert choice.nitrogen_g_m2_year == pytest.approx(nitrogen, abs=1e-5)
    assert choice.net_acid_mmolc_m2_year == pytest.approx(wanted)


def test_of_a_range_of_nitrogen_fewer_grams_win_between_equals() -> None:
    choice = feed(
        [50.0, 100.0],
        nitrogen_g_m2_year=2.0,
        nitrogen_high_g_m2_year=20.0,
        wanted_acid_mmolc_m2_year=500.0,
    )
    assert choice.nitrogen_g_m2_year == pytest.approx([0.0, 5.0], abs=1e-5)


def test_the_most_nitrogen_is_not_passed_though_the_wish_is_further() -> None:
    choice = feed(
        [50.0, 30.0],
        nitrogen_g_m2_year=2.0,
        nitrogen_high_g_m2_year=8.0,
        wanted_acid_mmolc_m2_year=5000.0,
        max_share_frac=[0.75, 1.0],
    )
    assert choice.nitrogen_g_m2_year == pytest.approx([6.0, 2.0])
    assert choice.misfit_mmolc_m2_year == pytest.approx(360.0 - 5000.0)


def test_the_least_nitrogen_is_given_though_the_wish_is_less() -> None:
    choice = feed(
        [50.0, 30.0],
        nitrogen_g_m2_year=2.0,
        nitrogen_high_g_m2_year=8.0,
        max_share_frac=[1.0, 0.25],
    )
    assert choice.nitrogen_g_m2_year == pytest.approx([1.5, 0.5])


@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_one_feed_without_a_figure_is_refused(wrong: float) -> None:
    with pytest.raises(InputError, match="finite number for one feed or more"):
        feed([50.0, wrong])


@pytest.mark.parametrize(
    "amounts",
    [
        {"nitrogen_g_m2_year": -0.1},
        {"nitrogen_high_g_m2_year": 9.9},
        {"nitrogen_high_g_m2_year": math.inf},
        {"nitrogen_g_m2_year": math.inf},
    ],
)
def test_nitrogen_that_does_not_rise_from_nothing_to_an_end_is_refused(
    amounts: dict[str, float],
) -> None:
    with pytest.raises(OutOfRangeError, match="must rise from 0 up"):
        feed([50.0], **amounts)


@pytest.mark.parametrize("name", ["other_acid_mmolc_m2_year", "wanted_acid_mmolc_m2_year"])
def test_a_ledger_or_a_wish_without_end_is_refused(name: str) -> None:
    with pytest.raises(OutOfRangeError, match="must be finite numbers"):
        feed([50.0], **{name: math.inf})


@pytest.mark.parametrize("shares", [[1.0, 1.2], [1.0, -0.1], [0.4, 0.5]])
def test_one_share_that_cannot_be_or_too_little_together_is_refused(shares: list[float]) -> None:
    with pytest.raises(OutOfRangeError, match="each be 0 to 1 and together at least 1"):
        feed([50.0, 20.0], nitrogen_g_m2_year=0.5, max_share_frac=shares)


def test_shares_of_a_whole_are_enough_and_none_is_needed_without_nitrogen() -> None:
    halves = feed([50.0, 20.0], max_share_frac=[0.5, 0.5])
    assert halves.nitrogen_g_m2_year == pytest.approx([5.0, 5.0])
    none = feed([50.0, 20.0], nitrogen_g_m2_year=0.0, max_share_frac=[0.4, 0.0])
    assert none.nitrogen_g_m2_year.tolist() == [0.0, 0.0]


def test_urea_splits_by_arrhenius_and_in_proportion_to_water_below_its_mark() -> None:
    p = NITROGEN
    kelvin = 1.0 / 298.15 - 1.0 / 283.15
    expected = p.urea_rate_per_d * math.exp(
        p.urea_activation_energy_kj_mol / 8.314462618e-3 * kelvin
    )
    assert urea_rate_per_d([10.0], params=p)[0] == pytest.approx(expected, rel=1e-6)
    half = urea_rate_per_d([10.0], params=p, wetness=0.5 * p.moisture_full)
    assert half[0] == pytest.approx(0.5 * expected, rel=1e-6)
    full = urea_rate_per_d([10.0], params=p, wetness=[p.moisture_full])
    assert full[0] == pytest.approx(expected, rel=1e-6)


def test_nothing_reacts_at_freezing_and_something_just_above() -> None:
    temps = [NITROGEN.nitrification_lowest_c, NITROGEN.nitrification_lowest_c + 0.01]
    for rates in (
        urea_rate_per_d(temps, params=NITROGEN),
        nitrification_rate_per_d(temps, ph_water=7.0, params=NITROGEN),
    ):
        assert rates[0] == 0.0 < rates[1]


def test_nitrification_is_its_rate_at_25_degrees_and_doubles_as_its_q10_says() -> None:
    p = NITROGEN
    rates = nitrification_rate_per_d([15.0, 25.0], ph_water=7.0, params=p)
    assert rates[1] == pytest.approx(p.nitrification_rate_per_d)
    assert rates[1] / rates[0] == pytest.approx(p.nitrification_q10)
    for wetness in (p.moisture_full, 0.5 * (1.0 + p.moisture_full), 1.0):
        moist = nitrification_rate_per_d([25.0], ph_water=7.0, params=p, wetness=wetness)
        assert moist[0] == pytest.approx(p.nitrification_rate_per_d)


def test_ph_slows_nitrification_in_straight_lines_between_three_points() -> None:
    p = NITROGEN
    low, middle, full = (
        p.nitrification_ph_low, p.nitrification_ph_middle, p.nitrification_ph_full,
    )  # fmt: skip
    half = nitrification_ph_factor(0.5 * (low + middle), p)
    factors = p.nitrification_factor_low, p.nitrification_factor_middle
    assert half == pytest.approx(0.5 * sum(factors))
    assert nitrification_ph_factor(0.5 * (middle + full), p) == pytest.approx(
        0.5 * (1.0 + factors[1])
    )
    assert [nitrification_ph_factor(ph, p) for ph in (2.0, 11.0)] == [factors[0], 1.0]
    for ph in (1.99, 11.01):
        with pytest.raises(OutOfRangeError, match="outside 2 to 11"):
            nitrification_ph_factor(ph, p)


def test_urea_and_ammonium_given_together_add_their_courses() -> None:
    days = [5.0, 15.0, 25.0, 20.0]
    mixed, urea, ammonium = (
        nitrogen_course(days, urea_frac=share, ph_water=6.5, params=NITROGEN)
        for share in (0.3, 1.0, 0.0)
    )
    for name in ("as_urea", "as_ammonium", "nitrified"):
        parts = 0.3 * getattr(urea, name) + 0.7 * getattr(ammonium, name)
        assert getattr(mixed, name) == pytest.approx(parts, abs=1e-12)
    assert ammonium.as_urea.tolist() == [0.0] * 4
    assert np.all(np.diff(urea.as_urea) < 0.0)


def test_ammonium_alone_falls_by_the_days_own_rates() -> None:
    temps = [5.0, 15.0, 25.0]
    rates = nitrification_rate_per_d(temps, ph_water=6.5, params=NITROGEN)
    course = nitrogen_course(temps, urea_frac=0.0, ph_water=6.5, params=NITROGEN)
    assert course.as_ammonium == pytest.approx(np.exp(-np.cumsum(rates)))
    assert course.nitrified == pytest.approx(1.0 - np.exp(-np.cumsum(rates)))


def test_days_of_more_than_one_bed_at_a_time_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="one row of days"):
        nitrogen_course([[20.0], [21.0]], urea_frac=0.5, ph_water=6.5, params=NITROGEN)
