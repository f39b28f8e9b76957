"""Printed worked examples worked again: right ones agree to the digit, wrong ones are caught."""

from __future__ import annotations

from loamshift.core.acidity import (
    CACO3_BASE_MOLC_KG,
    SULFUR_ACID_MOLC_KG,
    UptakeConvention,
    equivalent_acidity_kg_caco3_per_100_kg,
)
from loamshift.core.buffer import BufferParameters, acid_between_mmolc_kg
from loamshift.core.formula import formula_mass_g_mol
from loamshift.core.lime import (
    lime_requirement_caco3_g_m2_from_buffer_ph,
    product_g_m2_from_caco3_g_m2,
)
from loamshift.tables.parameters import parameter_values
from loamshift.units import (
    ACRE_M2,
    CACO3_G_PER_MMOLC,
    INCH_CM,
    OUNCE_G,
    POUND_G,
    SQUARE_FOOT_M2,
    US_FLUID_OUNCE_ML,
    US_GALLON_L,
    alkalinity_mg_l_as_caco3_from_mg_l_as_hco3,
    g_m2_from_lb_100ft2,
    g_m2_from_lb_acre,
    g_m2_from_t_ha,
    lb_100ft2_from_g_m2,
)
from published.check import Check
from published.checks.carbonate import rows

CACO3_PER_S = SULFUR_ACID_MOLC_KG / CACO3_BASE_MOLC_KG
PLOUGH_LAYER_LB_ACRE = 2.0e6
TON_LB = 2000.0
PRINTED_SULFURIC_ML = 0.23
"""mL of 93 % acid per mg/L CaCO3 per 100 US gallons, as the sheet prints it."""


def checks() -> list[Check]:
    cases = {row["id"]: row for row in rows("worked_examples")}
    return [
        *(_agrees(cases[key], ours, decimals) for key, (ours, decimals) in _agreeing().items()),
        _w01(cases["W01"]),
        _w07(cases["W07"]),
        _w09(cases["W09"]),
        _w10a(cases["W10a"]),
        _w12b(cases["W12b"]),
        _w13(cases["W13"]),
        _w19(cases["W19"]),
        _every_example(cases),
    ]


def _agreeing() -> dict[str, tuple[float, int]]:
    """Example to our figure and the decimals it is printed to."""
    half_lb_per_ft2 = 0.6 / 10.0 * ((7.0 - 6.5) / 0.5) * 20.0
    rate = product_g_m2_from_caco3_g_m2(g_m2_from_lb_100ft2(5.0), effective_frac=0.70)
    nitrate = equivalent_acidity_kg_caco3_per_100_kg(n_as_nh4_frac=0.5, n_as_no3_frac=0.5)
    return {
        "W02": (PRINTED_SULFURIC_ML * (250.0 - 150.0), 0),
        "W03": (g_m2_from_t_ha(1.1), 0),
        "W04a": (150.0 * _per_nitrogen(n_as_urea_frac=1.0), 0),
        "W04b": (150.0 * _per_nitrogen(n_as_nh4_frac=1.0), 0),
        "W10b": (100.0 * 85.0 / 90.0, 1),
        "W12a": (186.0 * nitrate / 100.0, -1),
        "W15a": (half_lb_per_ft2, 1),
        "W15b": (half_lb_per_ft2 * 1.5, 1),
        "W15c": (half_lb_per_ft2 * 2.0 / 3.0, 1),
        "W17": (g_m2_from_t_ha(8.0 * (7.5 - 6.0)) * 20.0 / 1000.0, 0),
        "W18a": (100.0 * 0.5 / 0.1, 0),
        "W18b": (100.0 * 1.0 / 0.1, 0),
        "W22": (lb_100ft2_from_g_m2(rate), 0),
        "W23": (0.5 * 3.0, 1),
    }


def _per_nitrogen(**form: float) -> float:
    """Our factor, rounded to the one decimal that the example uses [kg CaCO3 per kg N]."""
    convention = UptakeConvention.HALF
    ours = equivalent_acidity_kg_caco3_per_100_kg(**form, convention=convention) / 100.0
    return round(ours, 1)


def _agrees(case: dict[str, str], ours: float, decimals: int) -> Check:
    printed = float(case["printed"])
    note = {"W02": _w02_note(), "W23": _w23_note()}.get(case["id"], case["note"])
    return Check(
        topic="worked examples",
        claim=f"{case['id']} {case['example']}",
        source=case["source"],
        n=1,
        figure=f"{ours:.4g} {case['unit']}, {printed:g} printed",
        limit="as printed",
        passed=case["verdict"] == "agrees" and round(ours, decimals) == printed,
        note=note,
    )


def _caught(case: dict[str, str], figure: str, limit: str, *, passed: bool) -> Check:
    return Check(
        topic="worked examples",
        claim=f"{case['id']} {case['example']}: the printed {case['printed']} is caught",
        source=case["source"],
        n=1,
        figure=figure,
        limit=limit,
        passed=passed and case["verdict"] in ("slip", "wrong"),
        note=case["note"],
    )


def _w02_note() -> str:
    grams = 100.0 * 100.0 * US_GALLON_L / 1000.0 / (1000.0 * CACO3_G_PER_MMOLC)
    pure = grams * formula_mass_g_mol("H2SO4") / 2.0
    exact_ml = pure / 0.93 / 1.83
    ounces = PRINTED_SULFURIC_ML * 100.0 / US_FLUID_OUNCE_ML
    return (
        f"{ounces:.3f} US fl oz, printed 0.77. Full stoichiometry at 1.83 g/mL asks "
        f"{exact_ml:.1f} mL."
    )


def _w23_note() -> str:
    exact = 0.005 * PLOUGH_LAYER_LB_ACRE / CACO3_PER_S / TON_LB
    return f"Full stoichiometry on 2 million lb of soil asks {exact:.2f} ton."


def _w01(case: dict[str, str]) -> Check:
    need = lime_requirement_caco3_g_m2_from_buffer_ph(
        "mehlich-nc", (6.6, 4.0), buffer_ph=6.3, ph_water=5.0, target_ph=6.0, depth_cm=20.0
    )
    tons = need / g_m2_from_lb_acre(TON_LB)
    printed = float(case["printed"])
    return _caught(
        case,
        f"{tons:.4f} ton/acre",
        "0.75, and further from the print than half its last digit",
        passed=round(tons, 2) == 0.75 and abs(tons - printed) > 0.005,
    )


def _w07(case: dict[str, str]) -> Check:
    lime_ton = 0.01 * PLOUGH_LAYER_LB_ACRE / TON_LB
    ours, theirs = lime_ton / CACO3_PER_S, lime_ton / 3.08
    return _caught(
        case,
        f"{ours:.2f} ton; {theirs:.2f} with 3.08",
        "3.20, and the print comes from 3.08",
        passed=round(lime_ton) == 10
        and round(ours, 2) == 3.20
        and round(theirs, 2) == float(case["printed"]),
    )


def _w09(case: dict[str, str]) -> Check:
    litres = 30.0 * INCH_CM / 100.0 * ACRE_M2 * 1000.0
    bicarbonate_lb = 300.0 * litres / 1000.0 / POUND_G
    lime_mg_l = alkalinity_mg_l_as_caco3_from_mg_l_as_hco3(300.0)
    lime_ton = lime_mg_l * litres / 1000.0 / POUND_G / TON_LB
    return _caught(
        case,
        f"{bicarbonate_lb:.0f} lb/acre of bicarbonate, {lime_ton:.2f} ton/acre of lime",
        "2040 lb, 0.84 ton, and less than two thirds of the print",
        passed=round(bicarbonate_lb, -1) == 2040
        and round(lime_ton, 2) == 0.84
        and lime_ton < 2.0 / 3.0 * float(case["printed"]),
    )


def _w10a(case: dict[str, str]) -> Check:
    cents = 100.0 * 41.0 / 80.0
    return _caught(
        case,
        f"{cents:.2f} cents per unit",
        "51.25, and further from the print than half a cent",
        passed=cents == 51.25 and abs(cents - float(case["printed"])) > 0.5,
    )


def _w12b(case: dict[str, str]) -> Check:
    most, half = (
        2.0 * equivalent_acidity_kg_caco3_per_100_kg(n_as_nh4_frac=1.0, convention=convention)
        for convention in (UptakeConvention.FULL, UptakeConvention.HALF)
    )
    return _caught(
        case,
        f"{half:.0f} kg with half taken up, {most:.0f} kg at the very most",
        "the print lies above the very most",
        passed=float(case["printed"]) > most > half,
    )


def _w13(case: dict[str, str]) -> Check:
    rule_oz_ft2 = 4.7
    pounds = 5.0 * 70.0 * rule_oz_ft2 * 0.5 / 16.0
    sulfur_g_m2 = g_m2_from_lb_acre(0.01 * PLOUGH_LAYER_LB_ACRE) / CACO3_PER_S
    plough_oz_ft2 = sulfur_g_m2 * SQUARE_FOOT_M2 / OUNCE_G
    return _caught(
        case,
        f"{pounds:.1f} lb by the rule; a plough layer holds {plough_oz_ft2:.2f} oz/sq ft per 1 %",
        "the sum as printed, the rule 1.9 to 2.1 times stoichiometry",
        passed=round(pounds) == float(case["printed"]) and 1.9 < rule_oz_ft2 / plough_oz_ft2 < 2.1,
    )


def _w19(case: dict[str, str]) -> Check:
    params = BufferParameters(**parameter_values("buffer"))
    acid = acid_between_mmolc_kg(5.0, 6.0, clay_pct=11.0, organic_carbon_pct=1.1, params=params)
    printed = g_m2_from_lb_100ft2(float(case["printed"]))
    return _caught(
        case,
        f"{acid:.0f} mmolc/kg of acid from pH 5 to 6; {printed:.0f} g/m2 printed",
        "negative: base is needed",
        passed=acid < 0.0,
    )


def _every_example(cases: dict[str, dict[str, str]]) -> Check:
    caught = {key for key, row in cases.items() if row["verdict"] != "agrees"}
    worked = set(_agreeing()) | {"W01", "W07", "W09", "W10a", "W12b", "W13", "W19"}
    return Check(
        topic="worked examples",
        claim="every printed example read is worked again",
        source="the examples above",
        n=len(cases),
        figure=f"{len(worked)} worked, {len(caught)} of them slips or wrong in print",
        limit="all",
        passed=worked == set(cases) and caught == worked - set(_agreeing()),
        note="A sheet that gives a quarter pound of dolomite per plant as 2 ton/acre prints no "
        "area for a plant, so it cannot be worked; it implies 2.7 sq ft.",
    )
