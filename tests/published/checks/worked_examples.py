"""Printed worked examples worked again: sums that agree, sums that differ, prints that are wrong.

All of them are conversions and conventions; those that a soil decides are in ``dose_examples``.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from loamshift.core.acidity import (
    CACO3_BASE_MOLC_KG,
    SULFUR_ACID_MOLC_KG,
    UptakeConvention,
    equivalent_acidity_kg_caco3_per_100_kg,
)
from loamshift.core.buffer import BufferParameters, acid_between_mmolc_kg
from loamshift.core.lime import (
    lime_requirement_caco3_g_m2_from_buffer_ph,
    product_g_m2_from_caco3_g_m2,
)
from loamshift.core.water_acids import (
    IrrigationParameters,
    acid_products,
    acid_strength_molc_l,
)
from loamshift.tables.parameters import parameter_values
from loamshift.units import (
    ACRE_M2,
    CACO3_G_PER_MMOLC,
    INCH_CM,
    OUNCE_G,
    POUND_G,
    SQUARE_FOOT_M2,
    US_GALLON_L,
    alkalinity_mg_l_as_caco3_from_mg_l_as_hco3,
    g_m2_from_lb_100ft2,
    g_m2_from_lb_acre,
    lb_100ft2_from_g_m2,
)
from published.check import Check, Kind
from published.checks.carbonate import rows

CACO3_PER_S = SULFUR_ACID_MOLC_KG / CACO3_BASE_MOLC_KG
PLOUGH_LAYER_LB_ACRE = 2.0e6
TON_LB = 2000.0


def checks() -> list[Check]:
    cases = {row["id"]: row for row in rows("worked_examples")}
    found = [_sum(cases[key], ours, decimals) for key, (ours, decimals) in _sums().items()]
    return found + [check(cases[key]) for key, check in CAUGHT.items()]


def _sums() -> dict[str, tuple[float, int]]:
    """Example to our figure and the decimals it is printed to."""
    rate = product_g_m2_from_caco3_g_m2(g_m2_from_lb_100ft2(5.0), effective_frac=0.70)
    nitrate = equivalent_acidity_kg_caco3_per_100_kg(n_as_nh4_frac=0.5, n_as_no3_frac=0.5)
    return {
        "W02": (_sulfuric_ml(), 0),
        "W04a": (150.0 * _per_nitrogen(n_as_urea_frac=1.0), 0),
        "W04b": (150.0 * _per_nitrogen(n_as_nh4_frac=1.0), 0),
        "W12a": (186.0 * nitrate / 100.0, -1),
        "W22": (lb_100ft2_from_g_m2(rate), 0),
        "W23": (0.005 * PLOUGH_LAYER_LB_ACRE / CACO3_PER_S / TON_LB, 1),
    }


def _sulfuric_ml() -> float:
    """93 % acid that takes 100 mg/L of alkalinity out of 100 US gallons [mL]."""
    irrigation = IrrigationParameters(**parameter_values("irrigation"))
    product = acid_products(irrigation)["sulfuric acid 93 %"]
    mmolc = 100.0 * 100.0 * US_GALLON_L / (1000.0 * CACO3_G_PER_MMOLC)
    return mmolc / acid_strength_molc_l(product, protons=2.0)


def _per_nitrogen(**form: float) -> float:
    """Our factor, rounded to the one decimal that the example uses [kg CaCO3 per kg N]."""
    convention = UptakeConvention.HALF
    ours = equivalent_acidity_kg_caco3_per_100_kg(**form, convention=convention) / 100.0
    return round(ours, 1)


def _sum(case: dict[str, str], ours: float, decimals: int) -> Check:
    printed = float(case["printed"])
    agrees = round(ours, decimals) == printed
    return Check(
        topic="worked examples",
        kind=Kind.ARITHMETIC,
        claim=f"{case['id']} {case['example']}",
        source=case["source"],
        n=1,
        figure=f"{ours:.4g} {case['unit']}, {printed:g} printed: {ours / printed:.2f} of it",
        limit="as printed",
        passed=agrees is (case["verdict"] == "agrees"),
        differs=not agrees,
        note=case["note"],
    )


def _caught(case: dict[str, str], figure: str, limit: str, *, passed: bool) -> Check:
    return Check(
        topic="worked examples",
        kind=Kind.CAUGHT,
        claim=f"{case['id']} {case['example']}: the printed {case['printed']} is caught",
        source=case["source"],
        n=1,
        figure=figure,
        limit=limit,
        passed=passed and case["verdict"] in ("slip", "wrong"),
        note=case["note"],
    )


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


CAUGHT: Final[dict[str, Callable[[dict[str, str]], Check]]] = {
    "W01": _w01,
    "W07": _w07,
    "W09": _w09,
    "W12b": _w12b,
    "W13": _w13,
    "W19": _w19,
}
"""Prints that are wrong or rest on a slip, by example."""


def examples_not_worked() -> set[str]:
    """Examples of the table that no row works, and rows without an example."""
    return {row["id"] for row in rows("worked_examples")} ^ (set(_sums()) | set(CAUGHT))
