"""Edges of sulfur and lime, of laboratory equations, and of what formulas are read as."""

from __future__ import annotations

import math
from typing import Any

import pytest

from loamshift.core.acidity import acid_parts_molc_kg, product_kg_per_kg_sulfur
from loamshift.core.formula import acid_mol_per_mol, element_counts
from loamshift.core.lime import (
    LimeParameters,
    fineness_frac,
    lime_dissolved_frac,
    lime_requirement_caco3_g_m2_from_buffer_ph,
    product_g_m2_from_caco3_g_m2,
    shares_from_passing,
)
from loamshift.core.sulfur import left_frac, surface_loss
from loamshift.core.sulfur_course import days_until_frac
from loamshift.core.sulfur_rate import SulfurParameters, ph_factor, temperature_factor
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values
from loamshift.units import g_m2_from_lb_acre

SULFUR = SulfurParameters(**parameter_values("sulfur"))
LIME = LimeParameters(**parameter_values("lime"))


def test_warm_moist_sulfur_of_grown_oxidisers_loses_its_rate_a_day() -> None:
    p = SULFUR
    for before, grown in ((False, p.grown_first_frac), (True, p.grown_again_frac)):
        loss = surface_loss([25.0] * 200, params=p, sulfur_before=before)
        behind = -math.log(grown) / p.growth_per_d
        assert loss[-1] == pytest.approx(p.rate_ug_cm2_d * (200.0 - behind))
        double = surface_loss([25.0] * 200, params=p, sulfur_before=before, k_scale=2.0)
        assert double == pytest.approx(2.0 * loss)
    with pytest.raises(OutOfRangeError, match="k_scale -1 must be above 0"):
        surface_loss([25.0], params=p, k_scale=-1.0)
    acid = surface_loss([25.0] * 20, params=p, ph_water=p.acid_soil_ph)
    assert acid == pytest.approx(p.acid_soil_factor * surface_loss([25.0] * 20, params=p))


def test_the_coldest_day_that_counts_and_the_rate_by_arrhenius() -> None:
    p = SULFUR
    full = p.ramp_from_c + p.ramp_width_c
    cold, mild = temperature_factor([full, 15.0], p)
    per_k = p.activation_energy_kj_mol / 8.314462618e-3
    assert mild == pytest.approx(math.exp(per_k * (1.0 / 298.15 - 1.0 / 288.15)))
    assert cold == pytest.approx(math.exp(per_k * (1.0 / 298.15 - 1.0 / (273.15 + full))))
    assert temperature_factor([p.ramp_from_c, p.ramp_from_c - 10.0], p).tolist() == [0.0, 0.0]
    assert [ph_factor(ph, p) for ph in (2.0, 11.0)] == [p.acid_soil_factor, 1.0]


def test_a_sphere_shrinks_by_twice_the_loss_over_its_density() -> None:
    eaten_um = 2.0 * 500.0 / SULFUR.density_ug_cm3 * 1e4
    for diameter in (1.5 * eaten_um, 4.0 * eaten_um):
        left = left_frac(500.0, sizes=[(diameter, diameter, 1.0)], params=SULFUR)
        assert float(left) == pytest.approx((1.0 - eaten_um / diameter) ** 3, rel=1e-9)


def test_one_loss_below_nothing_is_refused() -> None:
    assert left_frac(0.0, sizes=[(10.0, 75.0, 1.0)], params=SULFUR) == pytest.approx(1.0)
    with pytest.raises(OutOfRangeError, match="it only grows with time"):
        left_frac([10.0, -1.0], sizes=[(10.0, 75.0, 1.0)], params=SULFUR)


@pytest.mark.parametrize(
    ("sizes", "match"),
    [
        ([(0.0, 75.0, 1.0)], "0 < lower <= upper <= 20000"),
        ([(80.0, 75.0, 1.0)], "0 < lower <= upper <= 20000"),
        ([(10.0, 20000.1, 1.0)], "0 < lower <= upper <= 20000"),
        ([(10.0, 75.0, 1.1), (75.0, 90.0, -0.1)], "share of mass 1.1"),
        ([(75.0, 90.0, -0.1), (10.0, 75.0, 1.1)], "share of mass -0.1"),
        ([(10.0, 75.0, 0.99)], "add up to 0.99"),
        ([(10.0, 75.0, 0.6), (75.0, 90.0, 0.41)], "add up to 1.01"),
    ],
)
def test_grains_that_cannot_be_are_refused(
    sizes: list[tuple[float, float, float]], match: str
) -> None:
    with pytest.raises(OutOfRangeError, match=match):
        left_frac(10.0, sizes=sizes, params=SULFUR)


def test_the_finest_and_coarsest_grains_and_an_empty_class_are_let_through() -> None:
    sizes = [(1e-3, 10.0, 0.5), (20000.0, 20000.0, 0.5), (30.0, 40.0, 0.0)]
    assert float(left_frac(1000.0, sizes=sizes, params=SULFUR)) == pytest.approx(0.5, abs=0.01)


@pytest.mark.parametrize(
    ("course", "frac", "days"),
    [
        ([0.5, 1.0], 1.0, 2.0),
        ([0.2, 0.6], 0.4, 1.5),
        ([0.1, 0.2, 0.4], 0.3, 2.5),
        ([0.4, 0.4], 0.1, 0.25),
        ([0.1, 0.3], 0.3, 2.0),
        ([0.1, 0.3], 0.301, math.inf),
    ],
)
def test_days_to_a_share_by_hand(course: list[float], frac: float, days: float) -> None:
    assert days_until_frac(course, frac) == pytest.approx(days)


@pytest.mark.parametrize("frac", [0.0, -0.1, 1.01])
def test_a_share_of_nothing_or_more_than_all_has_no_day(frac: float) -> None:
    with pytest.raises(OutOfRangeError, match="above 0 and up to 1"):
        days_until_frac([0.5, 1.0], frac)


@pytest.mark.parametrize("course", [[], [[0.1, 0.2]], [0.1, 0.3, 0.2]])
def test_a_course_is_one_row_that_never_falls(course: list[float]) -> None:
    with pytest.raises(OutOfRangeError, match="one row of shares that never falls"):
        days_until_frac(course, 0.1)


def test_sieves_pass_all_or_nothing_and_the_rest_is_refused() -> None:
    assert shares_from_passing([1.0, 1.0, 0.0]) == (0.0, 0.0, 1.0, 0.0)
    for passing in ([1.01, 0.5], [0.5, -0.01], [0.4, 0.5]):
        with pytest.raises(OutOfRangeError, match="must fall from the coarsest"):
            shares_from_passing(passing)


@pytest.mark.parametrize(
    ("masses", "effects", "match"),
    [
        ([1.0], [1.1], "effectiveness_fracs holds 1.1"),
        ([1.0], [-0.1], "effectiveness_fracs holds -0.1"),
        ([1.1, -0.1], [1.0, 1.0], "mass_fracs holds 1.1"),
        ([0.5, 0.5], [1.0], "2 sieve classes adding to 1 against 1 factors"),
        ([0.5, 0.49], [1.0, 1.0], "together 1"),
        ([0.5, 0.51], [1.0, 1.0], "together 1"),
    ],
)
def test_sieve_classes_that_cannot_be_are_refused(
    masses: list[float], effects: list[float], match: str
) -> None:
    with pytest.raises(OutOfRangeError, match=match):
        fineness_frac(masses, effects)


def test_weaker_lime_takes_more_of_it() -> None:
    for worth, product in ((0.5, 200.0), (2.6, 100.0 / 2.6), (0.01, 10_000.0)):
        found = product_g_m2_from_caco3_g_m2(100.0, effective_frac=worth)
        assert found == pytest.approx(product)
    for worth in (0.0, -0.5, 2.61):
        with pytest.raises(OutOfRangeError, match=r"above 0 and up to 2\.6"):
            product_g_m2_from_caco3_g_m2(100.0, effective_frac=worth)


def test_one_wrong_time_size_or_share_of_dissolving_lime_is_refused() -> None:
    fine = [(0.0, 150.0, 1.0)]
    for times in ([1.0, -1.0], [1.0, math.nan], math.inf):
        with pytest.raises(OutOfRangeError, match="t_days must be 0 or more"):
            lime_dissolved_frac(times, sizes=fine, params=LIME)
    odd = [(0.0, 150.0, 1.5), (150.0, 250.0, -0.5)]
    with pytest.raises(OutOfRangeError, match=r"shares of the size classes holds 1\.5"):
        lime_dissolved_frac(1.0, sizes=odd, params=LIME)
    for total in (0.99, 0.5):
        with pytest.raises(OutOfRangeError, match="must add to 1"):
            lime_dissolved_frac(1.0, sizes=[(0.0, 150.0, total)], params=LIME)


def test_a_single_size_lies_in_the_class_that_begins_with_it() -> None:
    for size, factor in ((0.0, 1.0), (149.9, 1.0), (150.0, 2.0), (250.0, 6.0), (2000.0, None)):
        found = lime_dissolved_frac(25.0, sizes=[(size, size, 1.0)], params=LIME)
        slow = LIME.half_time_factor_5 if factor is None else factor
        assert found == pytest.approx(1.0 - 2.0 ** (-25.0 / (LIME.half_time_d * slow)))


def lab(form: str, coefficients: tuple[float, ...], **given: float | None) -> float:
    usual: dict[str, Any] = {
        "buffer_ph": 6.0,
        "ph_water": 5.0,
        "target_ph": 6.5,
        "depth_cm": 20.0,
        "method_depth_cm": 20.0,
    }
    return lime_requirement_caco3_g_m2_from_buffer_ph(form, coefficients, **{**usual, **given})


def test_mehlich_by_hand_and_defined_up_to_its_reference() -> None:
    for target, share in ((6.5, 1.5 / 1.6), (6.6, 1.0), (5.5, 0.5 / 1.6)):
        found = lab("mehlich-nc", (6.6, 4.0), target_ph=target)
        assert found == pytest.approx(g_m2_from_lb_acre(2000.0 * 4.0 * 0.6 * share))
    for given, what in (
        ({"buffer_ph": 6.6}, "buffer pH 6.6"),
        ({"ph_water": 6.6, "target_ph": 6.9}, "soil pH 6.6"),
        ({"target_ph": 6.61}, "target pH 6.61"),
    ):
        with pytest.raises(OutOfRangeError, match=f"{what} lies at or beyond 6.6"):
            lab("mehlich-nc", (6.6, 4.0), **given)


def test_a_linear_equation_holds_to_its_own_zero() -> None:
    assert lab("linear-lti", (60.0, 1.0), buffer_ph=6.0) == 0.0
    half_ton = lab("linear-lti", (60.5, 1.0), buffer_ph=6.0)
    assert half_ton == pytest.approx(g_m2_from_lb_acre(1000.0))
    with pytest.raises(OutOfRangeError, match=r"above 5\.99, where"):
        lab("linear-lti", (59.9, 1.0), buffer_ph=6.0)


def test_an_equation_of_one_target_holds_within_a_twentieth_of_ph() -> None:
    woodruff = ("woodruff", (7.0, 1000.0))
    for target in (6.46, 6.54):
        assert lab(*woodruff, target_ph=target, method_target_ph=6.5) > 0.0
    for target in (6.44, 6.56):
        with pytest.raises(OutOfRangeError, match=r"limes to pH 6\.5 only"):
            lab(*woodruff, target_ph=target, method_target_ph=6.5)


@pytest.mark.parametrize(
    ("ph", "target", "tenths"), [(6.5, 6.5, 0), (6.6, 6.5, 0), (6.4, 6.5, 10), (2.0, 11.0, 10)]
)
def test_a_soil_at_its_target_needs_nothing_and_below_it_all(
    ph: float, target: float, tenths: int
) -> None:
    found = lab("woodruff", (7.0, 1000.0), ph_water=ph, target_ph=target)
    assert found == pytest.approx(g_m2_from_lb_acre(1000.0 * tenths))


def test_lime_is_reckoned_for_depths_above_nothing_to_two_metres() -> None:
    woodruff = ("woodruff", (7.0, 1000.0))
    per_cm = lab(*woodruff) / 20.0
    for depth in (0.5, 200.0):
        assert lab(*woodruff, depth_cm=depth) == pytest.approx(per_cm * depth)
        assert lab(*woodruff, method_depth_cm=depth) == pytest.approx(per_cm * 400.0 / depth)
    for depth in (0.0, -1.0, 200.1):
        with pytest.raises(OutOfRangeError, match="between 0 and 200"):
            lab(*woodruff, depth_cm=depth)
        with pytest.raises(OutOfRangeError, match="between 0 and 200"):
            lab(*woodruff, method_depth_cm=depth)


@pytest.mark.parametrize("coefficients", [(math.nan, 1000.0), (7.0, math.inf), (7.0,), (7.0, 1, 1)])
def test_coefficients_short_or_without_end_are_refused(coefficients: tuple[float, ...]) -> None:
    with pytest.raises(InputError, match="form “woodruff” takes reference buffer pH"):
        lab("woodruff", coefficients)


@pytest.mark.parametrize(("name", "low", "high"), [("ph_water", 2, 11), ("target_ph", 2, 11)])
def test_a_soil_or_a_target_of_no_soil_ph_is_refused(name: str, low: float, high: float) -> None:
    for value in (low - 0.01, high + 0.01):
        with pytest.raises(OutOfRangeError, match=f"{name} = .* must lie between 2 and 11"):
            lab("woodruff", (7.0, 1000.0), **{name: value})


@pytest.mark.parametrize(
    "name",
    ["elemental_s_frac", "n_as_nh4_frac", "n_as_urea_frac", "n_as_no3_frac", "n_organic_frac"],
)
def test_a_share_of_a_product_may_be_all_of_it_and_not_more(name: str) -> None:
    whole: dict[str, float] = {name: 1.0, "n_uptake_frac": 0.25}
    assert sum(acid_parts_molc_kg(**whole)) != 0.0
    with pytest.raises(OutOfRangeError, match=f"{name} = 1.1 must lie between 0 and 1;"):
        acid_parts_molc_kg(**{name: 1.1})
    with pytest.raises(OutOfRangeError, match=f"{name} = -0.01 must lie between 0 and 1;"):
        acid_parts_molc_kg(**{name: -0.01})


def test_shares_of_sulfur_and_nitrogen_come_to_all_of_a_product_at_most() -> None:
    parts = {"n_as_nh4_frac": 0.2, "n_as_urea_frac": 0.2, "n_as_no3_frac": 0.2}
    whole = acid_parts_molc_kg(elemental_s_frac=0.2, n_organic_frac=0.2, **parts)
    assert whole.sulfur == pytest.approx(0.2 * 62.38, abs=0.01)
    for more in ({"elemental_s_frac": 0.21}, {"n_organic_frac": 0.21}):
        shares = {"elemental_s_frac": 0.2, "n_organic_frac": 0.2, **parts, **more}
        with pytest.raises(OutOfRangeError, match=r"together are 1\.01 of the product"):
            acid_parts_molc_kg(**shares)


def test_acid_and_base_of_a_kilogram_are_let_through_to_their_ends() -> None:
    for name, low in (
        ("fast_acid_molc_kg", -60.0),
        ("ash_alkalinity_molc_kg", 0.0),
        ("organic_acid_molc_kg", 0.0),
    ):
        for edge, beyond in ((low, low - 0.01), (100.0, 100.01)):
            assert max(abs(part) for part in acid_parts_molc_kg(**{name: edge})) == abs(edge)
            with pytest.raises(OutOfRangeError, match=f"{name} = .* between {low:g} and 100"):
                acid_parts_molc_kg(**{name: beyond})


def test_pure_lime_takes_up_two_charges_a_mole() -> None:
    for strength, base in ((1.0, 19.98), (1.5, 29.97)):
        parts = acid_parts_molc_kg(caco3_eq_frac=strength)
        assert parts.lime == pytest.approx(-base, abs=0.01)
        assert sum(parts) == parts.lime


def test_a_weak_acid_stands_in_for_sulfur_with_more_of_it() -> None:
    assert product_kg_per_kg_sulfur(0.5) == pytest.approx(124.77, abs=0.01)
    for acid in (0.0, -1.0, math.inf, math.nan):
        with pytest.raises(OutOfRangeError, match="cannot stand in for sulfur"):
            product_kg_per_kg_sulfur(acid)


@pytest.mark.parametrize(
    ("formula", "counts"),
    [
        ("H2O", {"H": 2, "O": 1}),
        ("C12H22O11", {"C": 12, "H": 22, "O": 11}),
        ("Fe2(SO4)3", {"Fe": 2, "S": 3, "O": 12}),
        ("K2SO4·2MgSO4", {"K": 2, "S": 3, "O": 12, "Mg": 2}),
        ("3Ca(OH)2", {"Ca": 3, "O": 6, "H": 6}),
        ("NH4(NH4)2", {"N": 3, "H": 12}),
        ("Mg(NH4(SO4)2)2", {"Mg": 1, "N": 2, "H": 8, "S": 4, "O": 16}),
    ],
)
def test_atoms_are_counted(formula: str, counts: dict[str, int]) -> None:
    assert element_counts(formula) == counts


@pytest.mark.parametrize(
    ("wrong", "match"),
    [
        ("H2O2 3", "cannot be read at “ ”"),
        ("(2H)", "cannot be read at “2”"),
        ("CaXy", "cannot be read at “Xy”"),
        ("SO4)", "closes a bracket that was never opened"),
        ("(SO4", "leaves a bracket open"),
        ("H2O.", "is empty or leaves"),
        ("H22)", "closes a bracket"),
    ],
)
def test_formulas_that_cannot_be_read_say_where(wrong: str, match: str) -> None:
    with pytest.raises(InputError, match=match):
        element_counts(wrong)


def test_nitrate_taken_up_by_the_share_leaves_that_much_less_acid() -> None:
    for share, acid in ((0.0, 2.0), (0.25, 1.5), (1.0, 0.0)):
        assert acid_mol_per_mol("NH4NO3", n_uptake_frac=share) == pytest.approx(acid)
    for share in (-0.01, 1.01):
        with pytest.raises(InputError, match="must be a share from 0 to 1"):
            acid_mol_per_mol("NH4NO3", n_uptake_frac=share)


@pytest.mark.parametrize("formula", ["S0", "Ca0", "0CaCO3", "CaCO3\n", "Ca(OH)0"])
def test_a_count_of_nothing_and_a_stray_line_end_are_refused(formula: str) -> None:
    with pytest.raises(InputError, match="cannot be read"):
        element_counts(formula)


@pytest.mark.parametrize("course", [[math.nan], [0.1, math.nan], [math.nan, 0.4]])
def test_a_course_with_a_gap_is_refused(course: list[float]) -> None:
    with pytest.raises(OutOfRangeError, match="never falls"):
        days_until_frac(course, 0.5)
