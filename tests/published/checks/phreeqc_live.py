"""Carbonate chemistry against the geochemistry library itself, on random cases.

The library is a development dependency: without it this module fails to import, and so does the
run of all checks. It is never passed over in silence.
"""

from __future__ import annotations

import math

import numpy as np
from phreeqc import Phreeqc

from loamshift.core.carbonate import calcite_solution, rain_ph
from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.irrigation import ionic_strength_from_alkalinity, water_acid_mmolc_l
from loamshift.core.water_acids import IrrigationParameters
from loamshift.tables.parameters import parameter_values
from published.check import Check, Kind

SEED = 20260412
N_CASES = 50
N_WATERS = 20
PH_LIMIT = 0.02
ACID_LIMIT_PCT = 3.0
KINDS = ("rain", "calcite", "gypsum", "cacl2")
PUNCH = """
SELECTED_OUTPUT 1
 -reset false
USER_PUNCH 1
 -headings ph alk
 10 PUNCH -LA("H+"), ALK * 1000
"""


def checks() -> list[Check]:
    own, newer = _engine("wateq4f.dat"), _engine("phreeqc.dat")
    worst_own, mean_own = _ph_gaps(own, coldest=0.0, hottest=40.0, seed=SEED)
    worst, mean = _ph_gaps(newer, coldest=0.0, hottest=30.0, seed=SEED + 1)
    worst_hot, _ = _ph_gaps(newer, coldest=30.0, hottest=40.0, seed=SEED + 2)
    claim = "pH of random cases of rain, calcite, gypsum and calcium chloride"
    mixture = "1e-5 to 0.3 atm carbon dioxide, up to 20 mmol/L calcium chloride"
    return [
        Check(
            topic="carbonate",
            kind=Kind.SOLVER,
            claim=f"{claim}, 0-30 degC",
            source=_source("phreeqc.dat"),
            n=N_CASES,
            figure=f"largest difference {worst:.4f} pH, mean {mean:.4f}",
            limit=f"{PH_LIMIT} pH",
            passed=worst <= PH_LIMIT,
            note=f"{mixture}. From 30 to 40 degC the difference grows to {worst_hot:.3f}: this "
            "database has newer fits for calcite, CO2 and CaHCO3+ than the constants of Plummer "
            "and Busenberg used here; see the line below",
        ),
        Check(
            topic="carbonate",
            kind=Kind.SOLVER,
            claim=f"{claim}, 0-40 degC, same constants",
            source=_source("wateq4f.dat"),
            n=N_CASES,
            figure=f"largest difference {worst_own:.4f} pH, mean {mean_own:.4f}",
            limit=f"{PH_LIMIT} pH",
            passed=worst_own <= PH_LIMIT,
            note=f"{mixture}. What is left is the activity model and fewer ion pairs",
        ),
        _random_water(newer),
    ]


def _engine(database: str) -> Phreeqc:
    engine = Phreeqc()
    if engine.LoadBuiltInDatabase(database) != 0:
        raise RuntimeError(engine.GetErrorString())
    return engine


def _source(database: str) -> str:
    return f"PHREEQC {Phreeqc.GetVersionString()}, {database}, run live"


def _run(engine: Phreeqc, text: str) -> tuple[float, float]:
    """PH and alkalinity after the last step."""
    if engine.RunString(PUNCH + text + "\nEND\n") != 0:
        raise RuntimeError(engine.GetErrorString())
    table = engine.GetSelectedOutput()
    return float(table["ph"][-1]), float(table["alk"][-1])


def _ph_gaps(engine: Phreeqc, *, coldest: float, hottest: float, seed: int) -> tuple[float, float]:
    """Largest and mean difference in pH over random cases."""
    params = CarbonateParameters(**parameter_values("carbonate"))
    rng = np.random.default_rng(seed)
    gaps = []
    for number in range(N_CASES):
        kind = KINDS[number % len(KINDS)]
        temp = float(rng.uniform(coldest, hottest))
        p_co2 = float(10.0 ** rng.uniform(-5.0, math.log10(0.3)))
        cacl2 = float(rng.uniform(0.0, 20.0)) if kind == "cacl2" else 0.0
        phases = [f"CO2(g) {math.log10(p_co2):.10f} 100"]
        if kind != "rain":
            phases.append("Calcite 0 10")
        if kind == "gypsum":
            phases.append("Gypsum 0 10")
        chloride = f" Ca {cacl2:.8f}\n Cl {2.0 * cacl2:.8f}" if cacl2 else ""
        theirs, _ = _run(
            engine,
            f"SOLUTION 1\n temp {temp:.8f}\n units mmol/kgw\n pH 7 charge\n{chloride}\n"
            "EQUILIBRIUM_PHASES 1\n " + "\n ".join(phases),
        )
        if kind == "rain":
            ours = rain_ph(p_co2_atm=p_co2, temp_c=temp, params=params)
        else:
            ours = calcite_solution(
                p_co2_atm=p_co2,
                temp_c=temp,
                params=params,
                gypsum=kind == "gypsum",
                cacl2_mmol_l=cacl2,
            ).ph
        gaps.append(abs(ours - theirs))
    return max(gaps), sum(gaps) / len(gaps)


def _random_water(engine: Phreeqc) -> Check:
    carbonate = CarbonateParameters(**parameter_values("carbonate"))
    irrigation = IrrigationParameters(**parameter_values("irrigation"))
    rng = np.random.default_rng(SEED + 3)
    worst = 0.0
    for _ in range(N_WATERS):
        temp = float(rng.uniform(5.0, 30.0))
        alkalinity = float(rng.uniform(1.0, 6.0))
        start, target = float(rng.uniform(7.0, 8.2)), float(rng.uniform(5.5, 6.5))
        calcium, sodium = 0.4 * alkalinity, 0.2 * alkalinity + 0.5
        _, left = _run(
            engine,
            f"SOLUTION 1\n temp {temp:.8f}\n units mmol/kgw\n pH {start:.8f}\n"
            f" Ca {calcium:.8f}\n Na {sodium:.8f}\n Cl 0.5\n Alkalinity {alkalinity:.8f}\n"
            "SAVE solution 1\nEND\n"
            "PHASES\nFix_H+\n H+ = H+\n log_k 0\nUSE solution 1\n"
            f"EQUILIBRIUM_PHASES 2\n Fix_H+ {-target:.8f} H2SO4 10",
        )
        theirs = alkalinity - left
        ours = water_acid_mmolc_l(
            alkalinity_mmolc_l=alkalinity,
            ph_start=start,
            ph_target=target,
            temp_c=temp,
            ionic_strength=ionic_strength_from_alkalinity(alkalinity, irrigation),
            params=carbonate,
        )
        worst = max(worst, abs(100.0 * (ours / theirs - 1.0)))
    return Check(
        topic="carbonate",
        kind=Kind.SOLVER,
        claim="acid for random irrigation waters in a closed line",
        source=_source("phreeqc.dat"),
        n=N_WATERS,
        figure=f"largest difference {worst:.1f} %",
        limit=f"{ACID_LIMIT_PCT:g} %",
        passed=worst <= ACID_LIMIT_PCT,
        note="calcium bicarbonate waters of 1 to 6 mmolc/L, pH 7.0-8.2 to 5.5-6.5",
    )
