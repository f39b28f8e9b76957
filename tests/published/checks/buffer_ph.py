"""Buffer pH as a measurement of a soil's curve, on soils and fields that set no coefficient."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.core.buffer_acidity import acidity_mmolc_kg, reading_log10_sd
from loamshift.core.buffer_prior import scale_log10_sd
from loamshift.tables.laboratory import load_buffer_ph_methods
from loamshift.tables.model import buffer_parameters, buffer_scale_spread
from loamshift.tables.soils import soil_values
from published.check import NOT_IN_VIEW, Check, Kind
from published.checks.carbonate import rows

METHODS = load_buffer_ph_methods()
NINE_IN_TEN = 1.6449
IOWA = {"smp": 6.44, "sikora": 6.38, "mehlich": 5.78}
"""Mean readings of all samples of 14 Iowa fields, as printed in the abstract."""


class Step(NamedTuple):
    """log10 of measured over usual acid, and the sd expected of it."""

    log10_k: float
    sd: float


def checks() -> list[Check]:
    return [*_wisconsin(), _iowa()]


def _step(
    key: str, *, reading: float, ph: float, clay_pct: float, carbon_pct: float
) -> Step | None:
    method = METHODS[key]
    target = method.target_ph or soil_values()["buffer_target_ph"]
    acid = acidity_mmolc_kg(
        method.form,
        method.coefficients,
        reading=reading,
        ph_water=ph,
        target_ph=target,
        bulk_density_g_cm3=1.3,
        slice_kg_m2=method.slice_kg_m2,
        field_allowance=method.field_allowance,
    )
    if acid <= 0.0:
        return None
    params = buffer_parameters()
    usual = acid_between_mmolc_kg(
        target, ph, clay_pct=clay_pct, organic_carbon_pct=carbon_pct, params=params
    )
    reading_sd = reading_log10_sd(
        method.form,
        method.coefficients,
        reading=reading,
        reading_sd=soil_values()["buffer_ph_sd"],
    )
    low, high = params.slope_window_low_ph, params.slope_window_high_ph
    window = acid_between_mmolc_kg(
        high, low, clay_pct=clay_pct, organic_carbon_pct=carbon_pct, params=params
    )
    curve_sd = scale_log10_sd(
        slope_mmolc_kg_ph=window / (high - low),
        carbon_known=True,
        clay_measured=True,
        spread=buffer_scale_spread(),
    )
    sd = math.sqrt(
        method.log10_sd**2
        + reading_sd**2
        + curve_sd**2
        + (params.step_ph_sd / (target - ph) / math.log(10.0)) ** 2
    )
    return Step(math.log10(acid / usual), sd)


def _wisconsin() -> list[Check]:
    found = [
        _step(
            "sikora",
            reading=float(row["sikora_ph"]),
            ph=float(row["ph_water"]),
            clay_pct=float(row["clay_pct"]),
            carbon_pct=float(row["organic_matter_pct"]) / 1.724,
        )
        for row in rows("wisconsin_sikora")
    ]
    steps = [step for step in found if step is not None]
    logs = np.array([step.log10_k for step in steps])
    inside = np.array([abs(step.log10_k) <= NINE_IN_TEN * step.sd for step in steps])
    source = "Braus and Whitman 2021, Soil Biology and Biochemistry 160 108323 (data, MIT licence)"
    note = (
        "Acid by the Sikora reading over acid by the curve with nothing fitted, samples below pH "
        f"6.2; {len(found) - len(steps)} more samples, poor sands, read where the equation finds "
        "no acidity. Most are subsoils; samples of one pit are alike. The factor 1.5 that a lime "
        "rate adds to the acidity comes from another method and was not set with these soils."
    )
    return [
        Check(
            topic="buffer pH",
            kind=Kind.SOIL,
            claim="a Sikora buffer pH agrees with the curve in the mean",
            source=source,
            n=len(steps),
            figure=f"log10 bias {logs.mean():+.3f}, sd {logs.std():.3f}",
            limit="bias within 0.10, half the error given to the curve",
            passed=abs(float(logs.mean())) <= 0.10,
            in_view=NOT_IN_VIEW,
            note=note,
        ),
        Check(
            topic="buffer pH",
            kind=Kind.SOIL,
            claim="the errors given to a Sikora buffer pH and to the curve are wide enough",
            source=source,
            n=len(steps),
            figure=f"{int(inside.sum())} of {len(steps)} within their own ninety-per-cent range",
            limit="8 in 10 and more",
            passed=float(inside.mean()) >= 0.8,
            in_view=NOT_IN_VIEW,
            note=note,
        ),
    ]


def _iowa() -> Check:
    acids = {
        key: acidity_mmolc_kg(
            METHODS[key].form,
            METHODS[key].coefficients,
            reading=reading,
            ph_water=5.8,
            target_ph=METHODS[key].target_ph or 6.5,
            bulk_density_g_cm3=1.3,
            slice_kg_m2=METHODS[key].slice_kg_m2,
            field_allowance=METHODS[key].field_allowance,
        )
        for key, reading in IOWA.items()
    }
    pairs = [("smp", "sikora"), ("smp", "mehlich"), ("sikora", "mehlich")]
    z = [
        abs(math.log10(acids[a] / acids[b])) / math.hypot(METHODS[a].log10_sd, METHODS[b].log10_sd)
        for a, b in pairs
    ]
    listed = ", ".join(f"{key} {acid:.0f}" for key, acid in acids.items())
    return Check(
        topic="buffer pH",
        kind=Kind.SOIL,
        claim="SMP, Sikora and Mehlich readings of the same fields stand for like acidity",
        source="Soil pH and lime management for corn and soybean (abstract): 14 Iowa fields",
        n=len(IOWA),
        figure=f"{listed} mmolc/kg; the widest pair {max(z):.1f} sd apart",
        limit="within 2 sd of the errors given to the two methods",
        passed=max(z) <= 2.0,
        in_view=NOT_IN_VIEW,
        note="Mean readings only. The mean pH of the samples is not printed; taken as 5.8, which "
        "decides what share of Mehlich's acidity counts.",
    )
