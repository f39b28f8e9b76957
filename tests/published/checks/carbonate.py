"""Carbonate chemistry against cases solved by a general geochemistry library."""

from __future__ import annotations

import csv
from pathlib import Path

from loamshift.core.carbonate import calcite_solution, rain_ph
from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.irrigation import ionic_strength_from_alkalinity, water_acid_mmolc_l
from loamshift.core.water_acids import IrrigationParameters
from loamshift.tables.parameters import parameter_values
from published.check import Check, Kind

CASES = Path(__file__).parent.parent / "cases"
PH_LIMIT = 0.02
ACID_LIMIT_PCT = 3.0
GROUPS = {
    "rain": "rain in balance with carbon dioxide",
    "calcite_CO2": "calcite and carbon dioxide",
    "calcite_gypsum_CO2": "calcite, gypsum and carbon dioxide",
    "calcite_CaCl2_CO2": "calcite in 0.01 M calcium chloride",
}


def rows(name: str) -> list[dict[str, str]]:
    with (CASES / f"{name}.csv").open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


def checks() -> list[Check]:
    return [*(_ph_check(group) for group in GROUPS), _irrigation_check(), _rain_on_lime()]


def _ph_check(group: str) -> Check:
    params = CarbonateParameters(**parameter_values("carbonate"))
    cases = [row for row in rows("carbonate") if row["group"] == group]
    worst = 0.0
    for row in cases:
        p_co2, temp = float(row["p_co2_atm"]), float(row["temp_c"])
        if group == "rain":
            ph = rain_ph(p_co2_atm=p_co2, temp_c=temp, params=params)
        else:
            ph = calcite_solution(
                p_co2_atm=p_co2,
                temp_c=temp,
                params=params,
                gypsum=row["gypsum"] == "yes",
                cacl2_mmol_l=float(row["cacl2_mmol_l"]),
            ).ph
        worst = max(worst, abs(ph - float(row["ph"])))
    return Check(
        topic="carbonate",
        kind=Kind.SOLVER,
        claim=f"pH of {GROUPS[group]}",
        source=cases[0]["source"],
        n=len(cases),
        figure=f"largest difference {worst:.4f} pH",
        limit=f"{PH_LIMIT} pH",
        passed=worst <= PH_LIMIT,
    )


def _irrigation_check() -> Check:
    carbonate = CarbonateParameters(**parameter_values("carbonate"))
    irrigation = IrrigationParameters(**parameter_values("irrigation"))
    cases = rows("irrigation_acid")
    worst = 0.0
    for row in cases:
        alkalinity = float(row["alkalinity_mmolc_l"])
        acid = water_acid_mmolc_l(
            alkalinity_mmolc_l=alkalinity,
            ph_start=float(row["ph_start"]),
            ph_target=float(row["ph_target"]),
            temp_c=float(row["temp_c"]),
            ionic_strength=ionic_strength_from_alkalinity(alkalinity, irrigation),
            params=carbonate,
        )
        worst = max(worst, abs(100.0 * (acid / float(row["acid_mmolc_l"]) - 1.0)))
    return Check(
        topic="carbonate",
        kind=Kind.SOLVER,
        claim="acid for irrigation water in a closed line",
        source=cases[0]["source"],
        n=len(cases),
        figure=f"largest difference {worst:.1f} %",
        limit=f"{ACID_LIMIT_PCT:g} %",
        passed=worst <= ACID_LIMIT_PCT,
        note="ionic strength estimated from the alkalinity alone; ion pairs left out",
    )


def _rain_on_lime() -> Check:
    params = CarbonateParameters(**parameter_values("carbonate"))
    air = {"p_co2_atm": params.p_co2_air_atm, "params": params}
    readings = [rain_ph(temp_c=temp, **air) for temp in (5.0, 15.0, 25.0)]
    limy = [calcite_solution(temp_c=temp, **air).ph for temp in (5.0, 15.0, 25.0)]
    acid_century = 100.0 * 700.0 * 1000.0 * 10.0 ** -readings[0]
    lime_1_pct = 200.0 * 10.0 * 15.0 * 1.3
    share = acid_century / lime_1_pct
    return Check(
        topic="carbonate",
        kind=Kind.PRACTICE,
        claim="rain reads 5.5-5.6 and yet does not acidify a limy soil",
        source="common practice, no source",
        n=6,
        figure=(
            f"rain {min(readings):.2f}-{max(readings):.2f}; the same air over lime "
            f"{min(limy):.2f}-{max(limy):.2f}; a century of 700 mm uses {100 * share:.1f} % "
            "of the lime of a soil with 1 % in 15 cm"
        ),
        limit="rain rounds to 5.5-5.6, over lime above 8, under 5 % of the lime",
        passed=(
            all(5.5 <= round(ph, 1) <= 5.6 for ph in readings) and min(limy) > 8.0 and share < 0.05
        ),
        note="clean rain in open air; the acid that matters is made in the soil",
    )
