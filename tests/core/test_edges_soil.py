"""Edges of the buffer curve, of salt, and of what carbon dioxide and free lime hold."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from loamshift.core.buffer import (
    BufferParameters,
    acid_between_mmolc_kg,
    base_content_mmolc_kg,
    buffer_mmolc_kg_ph,
    combine_log10_k,
    log10_k_from_step,
    log10_k_from_titration,
    ph_after_acid,
)
from loamshift.core.buffer_curve import (
    shape_mmolc_kg,
    shape_slope_mmolc_kg_ph,
    solution_mmolc_kg,
)
from loamshift.core.carbonate import calcite_solution, plateau_ph, rain_ph
from loamshift.core.equilibrium import CarbonateParameters, activity_coefficient, constants
from loamshift.core.salinity import (
    SalinityParameters,
    al_saturation_frac,
    ec_rise_ds_m,
    ece_from_ec,
    saturation_water_kg_kg,
)
from loamshift.errors import FitError, InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values

BUFFER = BufferParameters(**parameter_values("buffer"))
SALT = SalinityParameters(**parameter_values("salinity"))
WATER = CarbonateParameters(**parameter_values("carbonate"))
LOAM: dict[str, Any] = {"clay_pct": 18.0, "organic_carbon_pct": 1.5, "params": BUFFER}


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("clay_pct", 0.0, 100.0), ("organic_carbon_pct", 0.0, 60.0), ("k", 1e-6, 1e6)],
)
def test_the_limits_of_what_a_soil_can_be_are_let_through(
    name: str, low: float, high: float
) -> None:
    for edge, beyond in ((low, low - 1e-7), (high, 1.0001 * high)):
        assert buffer_mmolc_kg_ph(6.0, **{**LOAM, name: edge}) > 0.0
        with pytest.raises(OutOfRangeError, match=f"{name} = .* lies outside {low:g} to"):
            buffer_mmolc_kg_ph(6.0, **{**LOAM, name: beyond})


def test_the_curve_is_drawn_from_ph_1_to_12_and_solved_from_2_to_11() -> None:
    assert base_content_mmolc_kg(1.0, **LOAM) < base_content_mmolc_kg(12.0, **LOAM)
    for ph in (0.99, 12.01):
        with pytest.raises(OutOfRangeError, match=r"ph_water = .* lies outside 1 to 12"):
            base_content_mmolc_kg(ph, **LOAM)
    assert [ph_after_acid(ph, 0.0, **LOAM) for ph in (2.0, 11.0)] == [2.0, 11.0]
    for ph in (1.99, 11.01):
        with pytest.raises(OutOfRangeError, match="ph_start must lie between 2 and 11"):
            ph_after_acid(ph, 0.0, **LOAM)


def test_one_wrong_figure_among_right_ones_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="clay_pct = 130"):
        base_content_mmolc_kg(np.array([6.0, 6.0]), **{**LOAM, "clay_pct": np.array([18.0, 130.0])})
    with pytest.raises(OutOfRangeError, match="acid_mmolc_kg must be a finite number"):
        ph_after_acid(6.0, np.array([1.0, math.nan]), **LOAM)
    with pytest.raises(OutOfRangeError, match="carbonate_mmolc_kg must be 0 or more"):
        ph_after_acid(6.0, np.array([1.0, 1.0]), carbonate_mmolc_kg=np.array([0.0, -1.0]), **LOAM)
    with pytest.raises(OutOfRangeError, match="ph_start must lie"):
        ph_after_acid(np.array([6.0, 1.5]), np.array([1.0, 1.0]), **LOAM)


@pytest.mark.parametrize(
    ("acid", "said"),
    [(1e6, "of acid would take this soil below pH 2"), (-1e6, "of base .* above pH 11")],
)
def test_too_much_is_named_as_the_acid_or_base_that_it_is(acid: float, said: str) -> None:
    with pytest.raises(OutOfRangeError, match=rf"^1e\+06 mmolc/kg {said}"):
        ph_after_acid(6.0, np.array([0.0, acid]), **LOAM)
    with pytest.raises(OutOfRangeError, match=r"^0\.5 mmolc/kg of acid"):
        ph_after_acid(2.0, 0.5, **LOAM)


@pytest.mark.parametrize("organic_only", [False, True])
@pytest.mark.parametrize("acid", [-60.0, -1.0, 1.0, 55.0])
def test_acid_solved_for_is_the_acid_put_on(acid: float, organic_only: bool) -> None:
    soil = {**LOAM, "k": 1.7, "organic_only": organic_only, "organic_carbon_pct": 8.0}
    after = ph_after_acid(6.2, acid, **soil)
    assert acid_between_mmolc_kg(6.2, after, **soil) == pytest.approx(acid, rel=1e-9)


def test_the_solution_is_bicarbonate_less_acid_less_three_times_aluminium() -> None:
    p = BUFFER
    for ph in (3.5, 5.0, 8.0):
        bicarbonate = p.curve_pco2_atm * 10.0 ** (p.bicarbonate_log10_k + ph)
        aluminium = 3.0 * 10.0 ** (p.al_solubility_log10_k - 3.0 * ph)
        expected = 1000.0 * p.solution_l_kg * (bicarbonate - 10.0**-ph - aluminium)
        found = solution_mmolc_kg(np.array(ph), params=p)
        assert float(found) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("k", [0.4, 2.5])
def test_two_jars_are_enough_and_as_sure_as_one_step(k: float) -> None:
    """At equal slopes the two ways differ by nothing but the words."""
    acid = acid_between_mmolc_kg(6.6, 5.4, k=k, **LOAM)
    jars = log10_k_from_titration([0.0, acid], [6.6, 5.4], **LOAM)
    step = log10_k_from_step(acid_mmolc_kg=acid, ph_from=6.6, ph_to=5.4, **LOAM)
    assert jars.mean == pytest.approx(math.log10(k), abs=1e-9)
    floor = BUFFER.log10_k_floor_sd
    readings = [math.sqrt(found.sd**2 - floor**2) for found in (jars, step)]
    assert readings[0] == pytest.approx(readings[1], rel=0.02)


def test_jars_that_scatter_are_less_sure_than_their_readings() -> None:
    """Readings 0.1 too high and too low in turn; by hand from a straight curve."""
    acid = np.array([-15.0, -5.0, 5.0, 15.0])
    exact = ph_after_acid(6.0, acid, **LOAM)
    error = np.array([0.1, -0.1, -0.1, 0.1])
    found = log10_k_from_titration(acid, exact + error, ph_sd=0.01, **LOAM)
    reading = math.sqrt(found.sd**2 - BUFFER.log10_k_floor_sd**2)
    by_hand = 0.2 / math.sqrt(2.0) / math.sqrt(float(np.sum((exact - exact.mean()) ** 2)))
    assert reading * math.log(10.0) == pytest.approx(by_hand, rel=0.05)
    assert found.mean == pytest.approx(0.0, abs=0.02)


def test_three_jars_show_their_scatter() -> None:
    """Off the line by 0.1, -0.2 and 0.1: with one free jar a scatter of the root of 0.06."""
    acid = np.array([-12.0, 0.0, 12.0])
    ph = ph_after_acid(6.0, acid, **LOAM) + np.array([0.1, -0.2, 0.1])
    found, sure = (log10_k_from_titration(acid, ph, ph_sd=sd, **LOAM) for sd in (0.05, 0.06**0.5))
    assert found.sd == pytest.approx(sure.sd, rel=0.02)


def test_jars_are_weighed_by_the_inverse_square_of_the_slope_of_the_curve() -> None:
    """Least squares of acid + solution = c - k shape, each row over its slope."""
    acid = np.array([-20.0, 0.0, 30.0, 60.0])
    ph = np.array([7.2, 6.6, 5.1, 4.3])
    soil: dict[str, Any] = {
        "clay_pct": np.array(18.0),
        "organic_carbon_pct": np.array(1.5),
        "params": BUFFER,
    }
    shape = shape_mmolc_kg(ph, organic_only=False, **soil)
    slope = shape_slope_mmolc_kg_ph(ph, organic_only=False, **soil)
    scaled = (acid + solution_mmolc_kg(ph, params=BUFFER)) / slope
    rows = np.column_stack([1.0 / slope, -shape / slope])
    k = np.linalg.lstsq(rows, scaled, rcond=None)[0][1]
    assert 10.0 ** log10_k_from_titration(acid, ph, **LOAM).mean == pytest.approx(k, rel=1e-9)


@pytest.mark.parametrize(
    ("acid", "ph_sd"),
    [([0.0, math.inf], 0.05), ([0.0, 20.0], 0.0), ([0.0, 20.0], -0.1), ([0.0, 20.0], math.inf)],
)
def test_jars_without_end_or_without_error_are_refused(acid: list[float], ph_sd: float) -> None:
    with pytest.raises(InputError, match="must be finite and ph_sd above 0"):
        log10_k_from_titration(acid, [6.5, 5.6], ph_sd=ph_sd, **LOAM)


def test_one_jar_or_a_jar_without_its_reading_is_no_series() -> None:
    for acid, ph in (([0.0], [6.0]), ([0.0, 10.0], [6.0]), ([[0.0, 10.0]], [[6.0, 5.0]])):
        with pytest.raises(InputError, match="two jars or more"):
            log10_k_from_titration(acid, ph, **LOAM)  # type: ignore[arg-type]


def test_jars_that_span_just_the_error_of_reading_are_refused() -> None:
    """Two jars a step apart stand half a step from their mean."""
    for step, refused in ((0.19, True), (0.21, False)):
        ph = [6.0 + step, 6.0]
        acid = [0.0, acid_between_mmolc_kg(ph[0], ph[1], **LOAM)]
        if refused:
            with pytest.raises(FitError, match="span only"):
                log10_k_from_titration(acid, ph, ph_sd=0.1, **LOAM)
        else:
            found = log10_k_from_titration(acid, ph, ph_sd=0.1, **LOAM)
            assert found.mean == pytest.approx(0.0, abs=1e-6)


def test_a_step_less_than_the_solution_alone_takes_up_is_refused() -> None:
    solution = solution_mmolc_kg(np.array([3.0, 2.6]), params=BUFFER)
    alone = float(solution[0] - solution[1])
    assert alone > 1.0
    step: dict[str, Any] = {"ph_from": 3.0, "ph_to": 2.6, **LOAM}
    for acid in (0.5 * alone, alone):
        with pytest.raises(InputError, match="less than the soil solution alone"):
            log10_k_from_step(acid_mmolc_kg=acid, **step)
    found = log10_k_from_step(acid_mmolc_kg=1.1 * alone, **step)
    assert math.isfinite(found.mean)


def test_a_step_needs_more_than_the_error_of_two_readings() -> None:
    error = 0.1
    for length, refused in ((0.141, True), (0.142, False)):
        given: dict[str, Any] = {"ph_from": 6.0, "ph_to": 6.0 - length, "ph_sd": error}
        if refused:
            with pytest.raises(InputError, match="no larger than the error"):
                log10_k_from_step(acid_mmolc_kg=3.0, **given, **LOAM)
        else:
            assert log10_k_from_step(acid_mmolc_kg=3.0, **given, **LOAM).sd > 0.3


@pytest.mark.parametrize("acid", [0.0, math.nan, math.inf, -10.0])
def test_a_step_down_without_acid_is_refused(acid: float) -> None:
    with pytest.raises(InputError, match="cannot take the pH from 6 to 5"):
        log10_k_from_step(acid_mmolc_kg=acid, ph_from=6.0, ph_to=5.0, **LOAM)


@pytest.mark.parametrize(("value", "sd"), [(math.nan, 0.1), (0.1, math.inf), (0.1, -0.1)])
def test_a_measurement_without_a_sure_figure_is_refused(value: float, sd: float) -> None:
    with pytest.raises(InputError, match="must be a positive number"):
        combine_log10_k(mean=0.0, sd=0.2, observed=[(value, sd)])


@pytest.mark.parametrize("ec", [0.0, 200.0])
@pytest.mark.parametrize("water", [0.1, 15.0])
def test_a_reading_and_a_paste_at_their_ends_are_let_through(ec: float, water: float) -> None:
    found = ece_from_ec(ec, method="paste", saturation_water_kg_kg=water, params=SALT)
    assert found == (ec, ec, ec)


@pytest.mark.parametrize(
    ("ec", "water", "name"),
    [(-0.1, 0.4, "ec_ds_m"), (200.1, 0.4, "ec_ds_m"), (1.0, 0.09, "saturation_water_kg_kg"),
     (1.0, 15.1, "saturation_water_kg_kg")],
)  # fmt: skip
def test_a_reading_or_a_paste_beyond_is_refused(ec: float, water: float, name: str) -> None:
    with pytest.raises(OutOfRangeError, match=f"{name} .* is outside"):
        ece_from_ec(ec, method="paste", saturation_water_kg_kg=water, params=SALT)


def test_the_likely_salt_of_one_to_one_lies_between_in_proportion() -> None:
    found = ece_from_ec(2.0, method="1:1", saturation_water_kg_kg=0.4, params=SALT)
    assert found.mid_ds_m / found.low_ds_m == pytest.approx(found.high_ds_m / found.mid_ds_m)
    assert found.low_ds_m == pytest.approx(2.0 * SALT.ec_1to1_low)
    five = ece_from_ec(2.0, method="1:5", saturation_water_kg_kg=0.4, params=SALT)
    assert five.high_ds_m == pytest.approx(SALT.ec_1to5_spread * five.mid_ds_m)
    assert five.low_ds_m == pytest.approx(five.mid_ds_m / SALT.ec_1to5_spread)


@pytest.mark.parametrize(
    ("capacity", "density"), [(0.001, 1.3), (1.0, 1.3), (0.3, 0.02), (0.3, 2.2)]
)
def test_a_paste_is_made_of_any_soil_to_its_ends(capacity: float, density: float) -> None:
    found = saturation_water_kg_kg(
        field_capacity_frac=capacity, bulk_density_g_cm3=density, params=SALT
    )
    twice = SALT.saturation_per_field_capacity * capacity / density
    assert found == pytest.approx(max(SALT.saturation_least_kg_kg, twice))


@pytest.mark.parametrize(
    ("capacity", "density"), [(0.0009, 1.3), (1.01, 1.3), (0.3, 0.019), (0.3, 2.21)]
)
def test_a_paste_of_no_soil_is_refused(capacity: float, density: float) -> None:
    with pytest.raises(OutOfRangeError, match="is outside"):
        saturation_water_kg_kg(
            field_capacity_frac=capacity, bulk_density_g_cm3=density, params=SALT
        )


def test_no_salt_raises_nothing_and_gypsum_stops_at_its_mark() -> None:
    bed: dict[str, Any] = {
        "depth_cm": 20.0,
        "bulk_density_g_cm3": 1.0,
        "saturation_water_kg_kg": 0.5,
        "params": SALT,
    }
    assert ec_rise_ds_m(salt_mmolc_m2=0.0, **bed) == 0.0
    to_mark = SALT.gypsum_ec_ds_m * SALT.mmolc_l_per_ds_m * 100.0
    for share, rise in ((0.99, 0.99), (1.01, 1.0)):
        found = ec_rise_ds_m(salt_mmolc_m2=share * to_mark, **bed, gypsum_only=True)
        assert found == pytest.approx(rise * SALT.gypsum_ec_ds_m)


def test_aluminium_of_soils_from_ph_2_to_11() -> None:
    ends = al_saturation_frac([2.0, 11.0], p_al=4.05, n_al=1.7)
    assert ends == pytest.approx([1.0 / (1.0 + 10.0 ** (1.7 * -2.05)), 0.0], abs=1e-9)
    for wrong in (1.99, 11.01):
        with pytest.raises(OutOfRangeError, match="between 2 and 11"):
            al_saturation_frac([6.0, wrong], p_al=4.05, n_al=1.7)
    assert al_saturation_frac([5.0], p_al=4.0, n_al=0.5)[0] == pytest.approx(1.0 / (1.0 + 10**0.5))
    for steepness in (0.0, -1.0):
        with pytest.raises(OutOfRangeError, match="must be above 0"):
            al_saturation_frac([6.0], p_al=4.05, n_al=steepness)


@pytest.mark.parametrize("p_co2_atm", [1e-5, 4e-4, 0.3])
def test_clean_rain_balances_hydrogen_with_bicarbonate_carbonate_and_hydroxide(
    p_co2_atm: float,
) -> None:
    """Single charges share one activity coefficient, which so drops out."""
    k = constants(25.0, WATER)
    h = 10.0 ** -rain_ph(p_co2_atm=p_co2_atm, temp_c=25.0, params=WATER)
    bicarbonate = k.k1 * k.kh * p_co2_atm / h
    negative = bicarbonate + 2.0 * k.k2 * bicarbonate / h + k.kw / h
    assert h == pytest.approx(negative, rel=1e-5)


def test_rain_of_more_carbon_dioxide_than_the_solvers_know_is_refused() -> None:
    for p_co2_atm in (0.99e-5, 0.301):
        with pytest.raises(OutOfRangeError, match="ppm divided by a million"):
            rain_ph(p_co2_atm=p_co2_atm, temp_c=25.0, params=WATER)


@pytest.mark.parametrize("gypsum", [False, True])
@pytest.mark.parametrize("cacl2_mmol_l", [0.0, 10.0])
@pytest.mark.parametrize("p_co2_atm", [1e-5, 0.01, 0.3])
def test_charges_calcium_and_alkalinity_of_a_limy_solution_add_up(
    p_co2_atm: float, cacl2_mmol_l: float, gypsum: bool
) -> None:
    """Every ion and pair from the pH and the strength found, one by one."""
    found = calcite_solution(
        p_co2_atm=p_co2_atm, temp_c=12.0, params=WATER, gypsum=gypsum, cacl2_mmol_l=cacl2_mmol_l
    )
    k = constants(12.0, WATER)
    none, one, two = (
        activity_coefficient(
            charge=charge,
            ionic_strength=found.ionic_strength,
            davies_a=k.davies_a,
            params=WATER,
        )
        for charge in (0, 1, 2)
    )
    h = 10.0**-found.ph
    oh, hco3 = k.kw / h, k.k1 * k.kh * p_co2_atm / h
    co3 = k.k2 * hco3 / h
    ca = k.k_calcite / co3
    so4 = k.k_gypsum / ca if gypsum else 0.0
    cahco3, caco3, caso4 = (
        k.k_cahco3 * ca * hco3 / one,
        k.k_caco3 * ca * co3 / none,
        k.k_caso4 * ca * so4 / none,
    )
    chloride = 0.002 * cacl2_mmol_l
    positive = 2.0 * ca / two + cahco3 + h / one
    negative = (hco3 + oh) / one + 2.0 * (co3 + so4) / two + chloride
    assert positive == pytest.approx(negative, rel=1e-8)
    calcium = ca / two + cahco3 + caco3 + caso4
    assert found.ca_mmol_l == pytest.approx(1000.0 * calcium, rel=1e-8)
    alkalinity = (hco3 + oh - h) / one + 2.0 * co3 / two + cahco3 + 2.0 * caco3
    assert found.alkalinity_mmolc_l == pytest.approx(1000.0 * alkalinity, rel=1e-8)
    strength = 2.0 * (ca + co3 + so4) / two + 0.5 * (cahco3 + (h + oh + hco3) / one + chloride)
    assert found.ionic_strength == pytest.approx(strength, rel=1e-8)


def test_the_ph_test_in_calcium_chloride_lowers_the_plateau_as_calcium_pushes() -> None:
    """More calcium leaves less carbonate: by half the logarithm of its rise, before activity."""
    plain, salty = (
        calcite_solution(p_co2_atm=4e-4, temp_c=25.0, params=WATER, cacl2_mmol_l=salt)
        for salt in (0.0, 10.0)
    )
    assert salty.ca_mmol_l - 10.0 == pytest.approx(0.5 * salty.alkalinity_mmolc_l, rel=1e-3)
    rise = 0.5 * math.log10(salty.ca_mmol_l / plain.ca_mmol_l)
    assert plain.ph - salty.ph == pytest.approx(rise, abs=0.16)
    assert plain.ph - salty.ph < rise
    assert plateau_ph(p_co2_atm=4e-4, temp_c=25.0, params=WATER, cacl2_mmol_l=10.0) == salty.ph


def test_no_salt_and_a_tenth_molar_are_let_through() -> None:
    for salt in (0.0, 100.0):
        assert plateau_ph(p_co2_atm=4e-4, temp_c=25.0, params=WATER, cacl2_mmol_l=salt) > 7.0
    for salt in (-0.1, 100.1):
        with pytest.raises(OutOfRangeError, match="outside 0 to 100 mmol/L"):
            plateau_ph(p_co2_atm=4e-4, temp_c=25.0, params=WATER, cacl2_mmol_l=salt)
