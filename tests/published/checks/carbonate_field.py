"""Free lime that meets acid: limy loess given sulfur in pots, and the reactive share of lime."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from statistics import mean

import numpy as np

from loamshift.core.column import run_column
from loamshift.core.column_events import column_events
from loamshift.core.column_layout import ColumnResult, ColumnWeather, FloatArray
from loamshift.domain.soil import Soil
from loamshift.services.belief.column_layers import soil_layers
from loamshift.services.belief.column_parts import PutOn, events_of
from loamshift.services.belief.column_priors import draw_soil_members
from loamshift.services.belief.column_runs import shared_laws
from loamshift.tables.materials import find_material
from loamshift.tables.parameters import load_parameters, parameter_values
from loamshift.tables.places import find_place
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT
from published.check import NOT_IN_VIEW, Check, Kind
from published.checks.carbonate import rows
from published.courses import Course, believed, soil_entry

TOPIC = "free lime and acid"
MEMBERS = 400
SEED = 1
EDGES_CM = np.array([0.0, 20.0])
DENSITY_G_CM3 = 1.5
"""3,000 t of soil to the hectare, the usual reckoning of rates per hectare in pots."""
TEMP_C = 20.0
WETNESS = 0.8
MOST_BIAS_PH = 0.3
MOST_WIDTH_PH = 1.2
ASSUMED = (
    "the abstract does not give grade, temperature, texture figures or soil per pot: powder, 20 "
    "degC, 18 % clay, 1.5 % carbon and 3,000 t/ha are assumed"
)
G_M2_PER_T_HA = 100.0


def checks() -> list[Check]:
    """The pots, then the share."""
    return [_pots_ph(), _pots_lime(), _reactive_share()]


def _loess(ph: float, carbonate_pct: float) -> Soil:
    start = date(2001, 4, 15)
    entry = soil_entry(ph, texture="silt loam", clay_pct=18.0, carbon_pct=1.5, taken=start)
    entry = replace(entry, carbonate_pct=carbonate_pct, bulk_density_g_cm3=DENSITY_G_CM3)
    return believed(
        Course(
            name="loess",
            entry=entry,
            place=find_place("Minneapolis"),
            land_use="unfed",
            start=start,
            dressings=(),
            readings=(),
        )
    )


def _pot(row: dict[str, str]) -> tuple[ColumnResult, FloatArray, float]:
    """The run, the error of a reading, and the mass of soil [kg/m2]."""
    days = int(row["days"])
    soil = _loess(float(row["ph_start"]), float(row["caco3_start_pct"]))
    layers = soil_layers(soil, edges_cm=EDGES_CM)
    drawn = draw_soil_members(
        soil, members=MEMBERS, rng=np.random.default_rng(SEED), land_use="unfed", in_pot=True
    )
    material = find_material("elemental sulfur, powder")
    rate = float(row["sulfur_t_ha"]) * G_M2_PER_T_HA / material.elemental_s_frac
    put = PutOn(material=material, rate_g_m2=rate, day=0, depth_cm=float(EDGES_CM[-1]))
    weather = ColumnWeather(
        soil_temp_c=np.full((days, 1), TEMP_C),
        wetness=np.full((days, 1), WETNESS),
        drainage_mm=np.zeros(days),
        irrigation_mm=np.zeros(days),
        alkalinity_mmolc_l=0.0,
        leaching_factor=0.0,
    )
    # What is left is told against the same first figure, so its own error falls out.
    members = replace(
        drawn.parameters, carbonate_factor=np.full(MEMBERS, float(row["caco3_start_pct"]))
    )
    result = run_column(
        layers,
        members,
        weather,
        column_events(list(events_of(put, edges_cm=EDGES_CM)), n_layers=1),
        laws=shared_laws(),
        sample_depth_cm=float(EDGES_CM[-1]),
        stride_days=1,
    )
    return result, soil.ph.ph_water_sd * drawn.reading_z, float(layers.mass_kg_m2.sum())


def _pots_ph() -> Check:
    parts, passed = [], True
    cases = [row for row in rows("carbonate_loess") if row["ph"]]
    for row in cases:
        result, error, _ = _pot(row)
        low, middle, high = np.quantile(result.ph[:, -1] + error, (0.05, 0.5, 0.95))
        observed = float(row["ph"])
        passed = passed and low <= observed <= high and high - low <= MOST_WIDTH_PH
        passed = passed and abs(middle - observed) <= MOST_BIAS_PH
        parts.append(
            f"{row['sulfur_t_ha']} t: {middle:.2f} ({low:.2f}-{high:.2f}) against {observed:g}"
        )
    return Check(
        topic=TOPIC,
        kind=Kind.SOIL,
        claim="pH of limy loess 16 weeks after 4 and 6 t of sulfur to the hectare",
        source=cases[0]["source"],
        n=len(cases),
        figure="; ".join(parts),
        limit=f"in a 90 % band no wider than {MOST_WIDTH_PH:g}, median within {MOST_BIAS_PH:g}",
        passed=bool(passed),
        note=ASSUMED,
        in_view=NOT_IN_VIEW,
    )


def _pots_lime() -> Check:
    (row,) = [row for row in rows("carbonate_loess") if row["caco3_pct"]]
    result, _, mass = _pot(row)
    held = result.carbonate_mmolc_m2.sum(axis=1) + result.lime_left_mmolc_m2
    left = held / mass / CARBONATE_MMOLC_KG_PER_PCT
    low, middle, high = np.quantile(left, (0.05, 0.5, 0.95))
    observed = float(row["caco3_pct"])
    return Check(
        topic=TOPIC,
        kind=Kind.SOIL,
        claim="free lime left in that loess after 76 weeks, % of CaCO3",
        source=row["source"],
        n=1,
        figure=f"{middle:.2f} ({low:.2f}-{high:.2f}) against {observed:g}, from "
        f"{float(row['caco3_start_pct']):g}",
        limit="in the 90 % band widened by 0.1 for two printed digits",
        passed=bool(low - 0.1 <= observed <= high + 0.1),
        note=f"{row['note']}; {ASSUMED}",
        in_view=NOT_IN_VIEW,
    )


def _reactive_share() -> Check:
    by_profile: dict[str, list[float]] = {}
    for row in rows("carbonate_reactive"):
        share = float(row["reactive_pct"]) / float(row["total_pct"])
        by_profile.setdefault(row["profile"], []).append(share)
    means = {name: mean(shares) for name, shares in by_profile.items()}
    missed = [
        abs(own - mean(other for name, other in means.items() if name != out))
        for out, own in means.items()
    ]
    prior = load_parameters()["column"]["reactive_carbonate_frac"]
    low, high = prior.low or 0.0, prior.high or 1.0
    inside = sum(low <= own <= high for shares in by_profile.values() for own in shares)
    n = sum(len(shares) for shares in by_profile.values())
    return Check(
        topic=TOPIC,
        kind=Kind.SOIL,
        claim="reactive share of carbonate, each profile forecast from the other two",
        source="Rowley et al. 2019, nineteen horizons of three profiles",
        n=n,
        figure=f"profiles {', '.join(f'{own:.2f}' for own in means.values())}; missed by "
        f"{mean(missed):.2f} in the mean; {inside} of {n} horizons in our 95 % range",
        limit="each profile missed by at most half of our 95 % range",
        passed=max(missed) <= 0.5 * (high - low),
        note="our prior rests on these rows, so only the profile left out is a test; "
        f"our middle is {parameter_values('column')['reactive_carbonate_frac']:g}",
        in_view="these rows, for the prior; each profile left out in turn here",
    )
