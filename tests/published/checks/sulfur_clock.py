"""The sulfur clock against published shares oxidised, and against what the trade knows."""

from __future__ import annotations

import dataclasses
import math

import numpy as np

from loamshift.core.climate import ClimateParameters, days_from, soil_temperature_c
from loamshift.core.sulfur import days_until_frac, oxidised_course
from loamshift.core.sulfur_rate import SulfurParameters
from loamshift.tables.parameters import load_parameters, parameter_values
from published.check import Check
from published.checks.carbonate import rows

SEED = 1
N_DRAWS = 400
DAY_1_APRIL, DAY_1_OCTOBER = 91, 274
GRADES = {"flowers or dusting, 10-75 um": (10.0, 75.0), "100 mesh, 40-150 um": (40.0, 150.0)}


def checks() -> list[Check]:
    return [_published_shares(), _cold_autumn()]


def _predicted_pct(params: SulfurParameters, row: dict[str, str]) -> float:
    day = np.arange(float(row["days"]))
    swing = float(row["temp_amplitude_c"]) * np.sin(2.0 * np.pi * day / 365.25)
    wetness = 1.0 - params.moisture_width * math.sqrt(1.0 - float(row["wetness_factor"]))
    course = oxidised_course(
        float(row["temp_mean_c"]) + swing,
        sizes=[(float(row["low_um"]), float(row["high_um"]), 1.0)],
        params=params,
        wetness=wetness,
    )
    return 100.0 * float(course[-1])


def _draw(rng: np.random.Generator, params: SulfurParameters) -> SulfurParameters:
    spread = load_parameters()["sulfur"]

    def lognormal(name: str) -> float:
        row = spread[name]
        assert row.low is not None and row.high is not None
        sd = math.log(row.high / row.low) / (2.0 * 1.96)
        return row.value * math.exp(sd * float(rng.standard_normal()))

    energy = spread["activation_energy_kj_mol"]
    assert energy.sd is not None and energy.low is not None and energy.high is not None
    drawn = energy.value + energy.sd * float(rng.standard_normal())
    return dataclasses.replace(
        params,
        rate_ug_cm2_d=lognormal("rate_ug_cm2_d"),
        roughness=lognormal("roughness"),
        lag_d=lognormal("lag_d"),
        activation_energy_kj_mol=min(energy.high, max(energy.low, drawn)),
    )


def _published_shares() -> Check:
    params = SulfurParameters(**parameter_values("sulfur"))
    cases = rows("sulfur_oxidation")
    observed = np.array([float(row["observed_pct"]) for row in cases])
    medians = np.array([_predicted_pct(params, row) for row in cases])
    rng = np.random.default_rng(SEED)
    drawn = [_draw(rng, params) for _ in range(N_DRAWS)]
    runs = np.array([[_predicted_pct(one, row) for row in cases] for one in drawn])
    low, high = np.percentile(runs, [5.0, 95.0], axis=0)
    inside = int(np.sum((low <= observed) & (observed <= high)))
    gap = medians - observed
    field = np.array([row["case"].startswith("field") for row in cases])
    laboratory_rmse = float(np.sqrt(np.mean(gap[~field] ** 2)))
    field_rmse = float(np.sqrt(np.mean(gap[field] ** 2)))
    return Check(
        topic="sulfur",
        claim="share of sulfur oxidised lies in the 90 % band of the clock",
        source="Degryse 2016, Nor & Tabatabai 1977, Boswell 1997 (abstracts)",
        n=len(cases),
        figure=f"{inside} of {len(cases)} rows inside; mean width {float(np.mean(high - low)):.0f} "
        "points",
        limit="8 of 9",
        passed=inside >= 8,
        note=f"no limit is promised for the medians: RMSE {laboratory_rmse:.0f} points in the "
        f"laboratory, {field_rmse:.0f} in the cool field, where coarse sulfur is forecast "
        f"{-gap[-1]:.0f} points slow. Not an independent check: the activation energy was lowered "
        "after seeing these rows, the three powder rows are one published rate, and sizes and "
        "field climate are assumed",
    )


def _cold_autumn() -> Check:
    params = SulfurParameters(**parameter_values("sulfur"))
    climate = ClimateParameters(**parameter_values("climate"))
    air = [float(row["air_temp_c"]) for row in rows("minneapolis_climate")]
    year = soil_temperature_c(air, depth_cm=7.5, params=climate)
    figures, winter_shares, half_days, summer_shares = [], [], [], []
    for name, (low, high) in GRADES.items():
        sizes = [(low, high, 1.0)]
        autumn = oxidised_course(
            days_from(year, start_day=DAY_1_OCTOBER, n_days=500), sizes=sizes, params=params
        )
        spring = oxidised_course(
            days_from(year, start_day=DAY_1_APRIL, n_days=153), sizes=sizes, params=params
        )
        winter_shares.append(float(autumn[181]))
        half_days.append(days_until_frac(autumn, 0.5))
        summer_shares.append(float(spring[-1]))
        figures.append(
            f"{name}: {100 * winter_shares[-1]:.0f} % from October to April, half after "
            f"{half_days[-1]:.0f} days, {100 * summer_shares[-1]:.0f} % from April to September"
        )
    return Check(
        topic="sulfur",
        claim="little sulfur reacts in cold soil: at Minneapolis autumn sulfur waits for summer",
        source="common practice, no source",
        n=len(GRADES),
        figure="; ".join(figures),
        limit="under 20 % in the winter half-year, half not before May, three times as much in "
        "the summer half-year",
        passed=(
            max(winter_shares) < 0.20
            and min(half_days) > 212
            and all(s > 3.0 * w for s, w in zip(summer_shares, winter_shares, strict=True))
        ),
        note="climate of 1961-1990; soil at field capacity; coarser grades wait for the second "
        "summer. With a lag that holds all reaction back, rather than a rate that rises over it, "
        "nothing reacts before April at all",
    )
