"""Slips of a sign, a factor or an edge that the tests of each topic would let pass."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from loamshift.core.acidity import acid_parts_molc_kg
from loamshift.core.buffer import (
    SOLVE_HIGH_PH,
    SOLVE_LOW_PH,
    BufferParameters,
    acid_between_mmolc_kg,
    ph_after_acid,
)
from loamshift.core.carbonate import calcite_solution
from loamshift.core.ensemble import coverage
from loamshift.core.equilibrium import CarbonateParameters, activity_coefficient, constants
from loamshift.core.formula import ATOMIC_MASS_G_MOL, acid_mol_per_mol
from loamshift.core.irrigation import water_acid_mmolc_l
from loamshift.core.lime import (
    lime_requirement_caco3_g_m2_from_buffer_ph,
)
from loamshift.core.nitrogen import (
    NitrogenParameters,
    nitrification_rate_per_d,
    nitrogen_course,
)
from loamshift.core.salinity import SalinityParameters, ec_rise_ds_m
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values

BUFFER = BufferParameters(**parameter_values("buffer"))
WATER = CarbonateParameters(**parameter_values("carbonate"))
NITROGEN = NitrogenParameters(**parameter_values("nitrogen"))
SALT = SalinityParameters(**parameter_values("salinity"))


def ec_rise(*, depth_cm: float = 15.0, density: float = 1.3, water: float = 0.4) -> float:
    return ec_rise_ds_m(
        salt_mmolc_m2=80.0,
        depth_cm=depth_cm,
        bulk_density_g_cm3=density,
        saturation_water_kg_kg=water,
        params=SALT,
    )


def water_acid(*, alkalinity: float = 4.0, start: float = 8.0, target: float = 6.0) -> float:
    return water_acid_mmolc_l(
        alkalinity_mmolc_l=alkalinity,
        ph_start=start,
        ph_target=target,
        temp_c=20.0,
        ionic_strength=0.0,
        params=WATER,
    )


def nitrified(urea_frac: float) -> float:
    course = nitrogen_course([20.0], urea_frac=urea_frac, ph_water=6.5, params=NITROGEN)
    return float(course.nitrified[0])


def lime(
    *,
    buffer_ph: float = 6.3,
    depth_cm: float = 20.0,
    ph: float = 5.0,
    method_depth_cm: float | None = None,
) -> float:
    return lime_requirement_caco3_g_m2_from_buffer_ph(
        "linear-lti",
        (1000.0, 1.0),
        buffer_ph=buffer_ph,
        ph_water=ph,
        target_ph=11.0,
        depth_cm=depth_cm,
        method_depth_cm=method_depth_cm,
    )


EDGES = [
    (lambda x: ec_rise(depth_cm=x), 0.5, 100.0),
    (lambda x: ec_rise(density=x), 0.02, 2.2),
    (lambda x: ec_rise(water=x), 0.1, 15.0),
    (lambda x: water_acid(alkalinity=x, start=7.0), 0.0, 20.0),
    (lambda x: water_acid(start=x, target=5.5), 5.5, 10.0),
    (lambda x: water_acid(start=10.0, target=x), 4.5, 10.0),
    (lambda x: lime(ph=x), 2.0, 11.0),
    (nitrified, 0.0, 1.0),
    (lambda x: acid_parts_molc_kg(n_as_nh4_frac=0.2, n_uptake_frac=x).ammonium, 0.0, 1.0),
    (lambda x: acid_parts_molc_kg(caco3_eq_frac=x, n_uptake_frac=0.0).lime, 0.0, 2.6),
]


@pytest.mark.parametrize(("call", "low", "high"), EDGES)
def test_the_edge_is_allowed_and_a_hair_beyond_is_not(
    call: Callable[[float], float], low: float, high: float
) -> None:
    for edge, beyond in ((low, low - 1e-6), (high, high + 1e-6)):
        assert abs(call(edge)) >= 0.0
        with pytest.raises(OutOfRangeError):
            call(beyond)


def test_edges_of_a_laboratory_equation() -> None:
    assert lime(buffer_ph=3.0) > lime(buffer_ph=9.0) > 0.0
    for buffer_ph in (3.0 - 1e-6, 9.0 + 1e-6):
        with pytest.raises(InputError, match="between 3 and 9"):
            lime(buffer_ph=buffer_ph)
    assert lime(depth_cm=200.0) > 0.0
    for depth_cm in (0.0, 200.1):
        for call in ({"depth_cm": depth_cm}, {"method_depth_cm": depth_cm}):
            with pytest.raises(OutOfRangeError, match="between 0 and 200"):
                lime(**call)
    acidity = {"form": "penn-state-acidity", "coefficients": (1000.0,), "depth_cm": 20.0}
    for given, allowed in ((0.0, True), (100.0, True), (-1e-6, False), (100.001, False)):
        call = {**acidity, "exchangeable_acidity_cmolc_kg": given, "buffer_ph": None}
        if allowed:
            lime_requirement_caco3_g_m2_from_buffer_ph(ph_water=5.0, target_ph=6.5, **call)
        else:
            with pytest.raises(InputError, match="0 to 100"):
                lime_requirement_caco3_g_m2_from_buffer_ph(ph_water=5.0, target_ph=6.5, **call)


def test_a_band_with_an_edge_too_short_is_refused() -> None:
    for low, high in (([0.0], [1.0, 1.0]), ([0.0, 0.0], [1.0])):
        with pytest.raises(InputError, match="same number"):
            coverage([0.5, 0.5], low=low, high=high)


def test_two_charges_of_carbonate_count_twice() -> None:
    """Alkaline water, where much of the alkalinity is carbonate; dilute, so without activities."""
    k = constants(20.0, WATER)

    def share(ph: float) -> float:
        h = 10.0**-ph
        return (1.0 + 2.0 * k.k2 / h) / (1.0 + h / k.k1 + k.k2 / h)

    oh = 1000.0 * k.kw * 10.0**10.0
    dissolved = (4.0 - oh) / share(10.0)
    expected = 4.0 - dissolved * share(8.0) - 1000.0 * (k.kw * 1e8 - 1e-8)
    assert share(10.0) > 1.2
    assert water_acid(start=10.0, target=8.0) == pytest.approx(expected, rel=1e-5)


def test_the_strength_of_a_limy_solution_is_half_the_sum_of_squared_charges() -> None:
    """With gypsum nearly all of it is calcium and sulfate, so that the rest can be left out."""
    for p_co2_atm in (4e-4, 1e-3):
        found = calcite_solution(p_co2_atm=p_co2_atm, temp_c=25.0, params=WATER, gypsum=True)
        k = constants(25.0, WATER)
        one, two = (
            activity_coefficient(
                charge=charge,
                ionic_strength=found.ionic_strength,
                davies_a=k.davies_a,
                params=WATER,
            )
            for charge in (1, 2)
        )
        bicarbonate_act = k.k1 * k.kh * p_co2_atm / 10.0**-found.ph
        calcium_act = k.k_calcite / (k.k2 * bicarbonate_act / 10.0**-found.ph)
        sulfate = k.k_gypsum / calcium_act / two
        strength = 2.0 * (calcium_act / two + sulfate) + 0.5 * bicarbonate_act / one
        assert found.ionic_strength == pytest.approx(strength, rel=2e-3)


@pytest.mark.parametrize(
    ("formula", "acid"),
    [
        ("H2SO4", 2), ("HCl", 1), ("KCl", 0), ("NaCl", 0), ("K2SO4", 0), ("MgSO4", 0),
        ("CaCl2", 0), ("Na2CO3", -2), ("KOH", -1), ("MgO", -2), ("CaCO3", -2), ("H3PO4", 1),
    ],
)  # fmt: skip
def test_neutral_salts_leave_nothing_and_acids_and_bases_their_charge(
    formula: str, acid: int
) -> None:
    assert acid_mol_per_mol(formula) == pytest.approx(acid)


def test_atomic_masses_add_up_to_molar_masses_of_handbooks() -> None:
    """Printed with one or two decimals, from another source than ours."""
    for element, mass in {"K": 39.10, "Na": 22.99, "Ca": 40.08, "Mg": 24.31, "S": 32.06,
                          "P": 30.97, "N": 14.01, "O": 16.00, "C": 12.01, "Cl": 35.45,
                          "Fe": 55.85, "Al": 26.98, "Zn": 65.4, "Cu": 63.55, "Mn": 54.94,
                          "Si": 28.09, "H": 1.008}.items():  # fmt: skip
        assert ATOMIC_MASS_G_MOL[element] == pytest.approx(mass, abs=0.03)


@pytest.mark.parametrize("limit_ph", [SOLVE_LOW_PH, SOLVE_HIGH_PH])
def test_acid_to_the_last_ph_of_the_curve_is_solved_and_more_is_refused(limit_ph: float) -> None:
    loam = {"clay_pct": 18.0, "organic_carbon_pct": 1.5, "params": BUFFER}
    to_edge = acid_between_mmolc_kg(7.0, limit_ph, **loam)
    assert ph_after_acid(7.0, to_edge * (1.0 - 1e-9), **loam) == pytest.approx(limit_ph, abs=1e-5)
    with pytest.raises(OutOfRangeError, match="outside the buffer curve"):
        ph_after_acid(7.0, to_edge * (1.0 + 1e-6), **loam)


def test_acid_of_less_than_the_lime_moves_nothing_and_more_moves_the_rest() -> None:
    loam = {"clay_pct": 18.0, "organic_carbon_pct": 1.5, "params": BUFFER}
    for acid in (0.05, 10.0):
        assert ph_after_acid(7.0, acid, carbonate_mmolc_kg=10.0, **loam) == 7.0
    rest = ph_after_acid(7.0, 10.05, carbonate_mmolc_kg=10.0, **loam)
    assert rest == pytest.approx(ph_after_acid(7.0, 0.05, **loam), abs=1e-9)
    assert rest < 7.0


def test_the_strength_of_calcium_chloride_is_three_times_its_concentration() -> None:
    plain, salty = (
        calcite_solution(p_co2_atm=4e-4, temp_c=25.0, params=WATER, cacl2_mmol_l=mmol_l)
        for mmol_l in (0.0, 10.0)
    )
    assert salty.ionic_strength == pytest.approx(0.030, abs=0.0015)
    assert plain.ionic_strength < 0.003


def test_nitrification_half_way_to_its_hottest_and_wettest() -> None:
    p = NITROGEN
    half_c = 0.5 * (p.nitrification_flat_to_c + p.nitrification_highest_c)
    temps = [p.nitrification_flat_from_c, p.nitrification_flat_to_c, half_c]
    low, high, half = nitrification_rate_per_d(temps, ph_water=7.0, params=p)
    assert low == high
    assert half == pytest.approx(0.5 * high)
    beyond = nitrification_rate_per_d([p.nitrification_highest_c + 1.0], ph_water=7.0, params=p)
    assert beyond[0] == 0.0
    moist, wet, flooded = (
        nitrification_rate_per_d([20.0], ph_water=7.0, params=p, wetness=1.0 + share)[0]
        for share in (0.0, 0.5 * p.moisture_wet_width, p.moisture_wet_width)
    )
    assert (wet, flooded) == pytest.approx((0.75 * moist, 0.0))
    dry = nitrification_rate_per_d([20.0], ph_water=7.0, params=p, wetness=0.5 * p.moisture_full)
    assert dry[0] == pytest.approx(0.5 * moist)
