"""Stoichiometry: two independent ways to the same acid, and what must be exactly zero."""

from __future__ import annotations

import math

import pytest

from loamshift.core.acidity import (
    LEAST_FAST_ACID_MOLC_KG,
    UptakeConvention,
    acid_parts_molc_kg,
    equivalent_acidity_kg_caco3_per_100_kg,
    lasting_acid_molc_kg,
    product_kg_per_kg_sulfur,
)
from loamshift.core.formula import (
    ATOMIC_MASS_G_MOL,
    acid_mol_per_mol,
    acid_molc_kg,
    element_counts,
    formula_mass_g_mol,
)
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.parameters import parameter_values
from loamshift.units import CACO3_G_MOL, NITROGEN_G_MOL, SULFUR_G_MOL

N_KG = 1000.0 / NITROGEN_G_MOL


@pytest.mark.parametrize(
    ("formula", "mass"),
    [
        ("Al2(SO4)3.18H2O", 666.41),
        ("FeSO4.7H2O", 278.01),
        ("CaMg(CO3)2", 184.40),
        ("5Ca(NO3)2.NH4NO3.10H2O", 1080.62),
        ("(NH4)2SO4", 132.14),
    ],
)
def test_formula_masses(formula: str, mass: float) -> None:
    assert formula_mass_g_mol(formula) == pytest.approx(mass, abs=0.03)


def test_nested_brackets_and_leading_numbers_are_counted() -> None:
    assert element_counts("(Ca(OH)2)3") == {"Ca": 3, "O": 6, "H": 6}
    assert element_counts("2NH4NO3") == {"N": 4, "H": 8, "O": 6}


@pytest.mark.parametrize("wrong", ["", "CaSO4)", "(CaSO4", "Xx2", "Ca*2", "H2O..", "caco3", "()2"])
def test_unreadable_formulas_are_refused(wrong: str) -> None:
    with pytest.raises(InputError, match="formula"):
        element_counts(wrong)


def test_atomic_masses_agree_with_the_units_module() -> None:
    assert ATOMIC_MASS_G_MOL["S"] == SULFUR_G_MOL
    assert ATOMIC_MASS_G_MOL["N"] == NITROGEN_G_MOL
    assert formula_mass_g_mol("CaCO3") == pytest.approx(CACO3_G_MOL, abs=0.005)


@pytest.mark.parametrize("u", [0.0, 0.3, 0.5, 1.0])
@pytest.mark.parametrize(
    ("formula", "nh4", "urea", "no3"),
    [
        ("(NH4)2SO4", 2, 0, 0),
        ("NH4NO3", 1, 0, 1),
        ("CO(NH2)2", 0, 2, 0),
        ("NH4Cl", 1, 0, 0),
        ("KNO3", 0, 0, 1),
        ("Ca(NO3)2.4H2O", 0, 0, 2),
        ("NH4H2PO4", 1, 0, 0),
    ],
)
def test_reactions_and_charge_balance_agree(
    formula: str, nh4: int, urea: int, no3: int, u: float
) -> None:
    mass = formula_mass_g_mol(formula)
    nitrogen = NITROGEN_G_MOL / mass
    parts = acid_parts_molc_kg(
        n_as_nh4_frac=nh4 * nitrogen,
        n_as_urea_frac=urea * nitrogen,
        n_as_no3_frac=no3 * nitrogen,
        n_uptake_frac=u,
    )
    assert lasting_acid_molc_kg(parts) == pytest.approx(
        acid_molc_kg(formula, n_uptake_frac=u), abs=1e-9
    )


@pytest.mark.parametrize(
    "formula", ["CaSO4.2H2O", "CaSO4", "MgSO4.7H2O", "K2SO4", "KCl", "K2SO4.2MgSO4"]
)
def test_neutral_salts_bring_exactly_no_acid(formula: str) -> None:
    assert acid_mol_per_mol(formula) == 0.0


@pytest.mark.parametrize(
    ("formula", "acid"),
    [("Al2(SO4)3.18H2O", 6.0), ("FeSO4.7H2O", 2.0), ("Fe2(SO4)3", 6.0), ("S", 2.0), ("H2SO4", 2.0)],
)
def test_acid_salts(formula: str, acid: float) -> None:
    assert acid_mol_per_mol(formula) == acid


def test_stoichiometry_rows_of_the_table_are_what_the_code_does() -> None:
    table = parameter_values("acidity")
    assert acid_mol_per_mol("S") == table["sulfur_acid_mol_mol"]
    assert acid_mol_per_mol("Al2(SO4)3") / 2 == table["aluminium_acid_mol_mol"]
    assert acid_mol_per_mol("FeSO4") == table["iron_acid_mol_mol"]
    assert -acid_mol_per_mol("CaCO3") == table["caco3_base_mol_mol"]
    for name, field in (
        ("ammonium", "n_as_nh4_frac"),
        ("urea", "n_as_urea_frac"),
        ("nitrate", "n_as_no3_frac"),
    ):
        parts = acid_parts_molc_kg(**{field: 1.0}, n_uptake_frac=0.0)
        assert sum(parts) / N_KG == pytest.approx(table[f"{name}_acid_mol_mol"])
    assert UptakeConvention.FULL.value == table["n_uptake_full_frac"]
    assert UptakeConvention.HALF.value == table["n_uptake_half_frac"]
    assert UptakeConvention.ALL.value == table["n_uptake_all_frac"]


@pytest.mark.parametrize(
    ("form", "full", "half", "everything"),
    [
        ("n_as_nh4_frac", 7.15, 5.36, 3.57),
        ("n_as_urea_frac", 3.57, 1.79, 0.0),
        ("n_as_no3_frac", 0.0, -1.79, -3.57),
        ("n_organic_frac", 3.57, 1.79, 0.0),
    ],
)
def test_lime_per_kg_of_nitrogen(form: str, full: float, half: float, everything: float) -> None:
    for convention, expected in (
        (UptakeConvention.FULL, full),
        (UptakeConvention.HALF, half),
        (UptakeConvention.ALL, everything),
    ):
        found = equivalent_acidity_kg_caco3_per_100_kg(**{form: 1.0}, convention=convention)
        assert found / 100.0 == pytest.approx(expected, abs=0.005)


def test_sulfur_and_its_stand_ins() -> None:
    assert equivalent_acidity_kg_caco3_per_100_kg(elemental_s_frac=1.0) == pytest.approx(
        312.2, abs=0.1
    )
    aluminium = product_kg_per_kg_sulfur(acid_molc_kg("Al2(SO4)3.18H2O"))
    iron = product_kg_per_kg_sulfur(acid_molc_kg("FeSO4.7H2O"))
    assert (round(aluminium, 1), round(iron, 1)) == (6.9, 8.7)


@pytest.mark.parametrize(("formula", "n_mol_mol"), [("NH3", 1.0), ("(NH4)2HPO4", 2.0)])
def test_ammonia_and_its_phosphate_take_up_a_proton_first(formula: str, n_mol_mol: float) -> None:
    """One base at once and ammonium later add up to the charge balance of the formula."""
    mol_kg = 1000.0 / formula_mass_g_mol(formula)
    parts = acid_parts_molc_kg(
        fast_acid_molc_kg=-mol_kg, n_as_nh4_frac=n_mol_mol * mol_kg / N_KG, n_uptake_frac=0.0
    )
    assert parts.fast < 0.0 < lasting_acid_molc_kg(parts)
    assert lasting_acid_molc_kg(parts) == pytest.approx(acid_molc_kg(formula), rel=1e-9)


def test_the_least_fast_acid_lets_pure_ammonia_through_and_little_more() -> None:
    ammonia = -1000.0 / formula_mass_g_mol("NH3")
    assert acid_parts_molc_kg(fast_acid_molc_kg=ammonia).fast == ammonia
    assert LEAST_FAST_ACID_MOLC_KG < ammonia < 0.97 * LEAST_FAST_ACID_MOLC_KG


def test_organic_acid_does_not_last_and_ash_limes() -> None:
    leaves = acid_parts_molc_kg(organic_acid_molc_kg=0.4, ash_alkalinity_molc_kg=0.6)
    assert leaves.organic_temporary == 0.4
    assert lasting_acid_molc_kg(leaves) == pytest.approx(-0.6)


def test_a_neutral_product_is_plain_zero() -> None:
    parts = acid_parts_molc_kg()
    assert all(part == 0.0 and math.copysign(1.0, part) == 1.0 for part in parts)


@pytest.mark.parametrize(
    "wrong",
    [
        {"n_as_nh4_frac": 21.0},
        {"elemental_s_frac": -0.1},
        {"caco3_eq_frac": 98.0},
        {"n_uptake_frac": 1.5},
        {"fast_acid_molc_kg": math.nan},
        {"fast_acid_molc_kg": -60.1},
        {"fast_acid_molc_kg": 100.1},
        {"fast_acid_molc_kg": -6425.0},
        {"ash_alkalinity_molc_kg": -0.1},
        {"organic_acid_molc_kg": -0.1},
        {"elemental_s_frac": 0.9, "n_as_urea_frac": 0.3},
    ],
)
def test_impossible_products_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError):
        acid_parts_molc_kg(**wrong)
    with pytest.raises(OutOfRangeError, match="cannot stand in"):
        product_kg_per_kg_sulfur(0.0)
    with pytest.raises(InputError, match="n_uptake_frac"):
        acid_mol_per_mol("NH4NO3", n_uptake_frac=-0.1)
