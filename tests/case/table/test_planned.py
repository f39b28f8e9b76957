"""Rows that bring a plan: its forecast is that of the bed alone, and its faults are told."""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np

from case.table.test_judge_block import DAY, SOIL, judged
from loamshift.case.intake.entered import case_tree
from loamshift.case.read import case_from_tree
from loamshift.case.table.judge_block import Ahead, row_seed
from loamshift.core.ensemble import quantile_bands
from loamshift.domain.answer import Application
from loamshift.services.belief.column_inputs import forecast_inputs
from loamshift.services.belief.column_runs import run
from loamshift.services.context.build_context import build_context
from loamshift.tables.materials import load_materials

AHEAD = Ahead(members=5, years=1)
BED = {**SOIL, "soil.ph": "6.9", "aim.plant": "highbush blueberry"}
PART = {
    "planned[1].material": "elemental sulfur, powder",
    "planned[1].rate": "60 g/m2",
    "planned[1].date": "2026-04-20",
    "planned[1].incorporated": "15 cm",
}
OTHER = {**SOIL, "soil.ph": "5.2", "aim.plant": "cabbage"}
LIME = {
    "planned[1].material": "ground limestone",
    "planned[1].rate": "400",
    "planned[1].date": "2026-05-01",
}


def alone_ph(values: dict[str, Any], plan: tuple[Application, ...], key: str) -> list[float]:
    """The bands at the end of one bed's own run of the column."""
    case = case_from_tree(case_tree({"case": 1, **values}), source=key, today=DAY)
    inputs = forecast_inputs(
        build_context(case), plan, years=1, seed=row_seed(key, 1), members=AHEAD.members
    )
    bands = quantile_bands(run(inputs, inputs.events).ph[:, -1:])
    return [float(one) for one in bands[[0, 2, 4], 0]]


def test_the_forecast_of_a_plan_is_that_of_the_bed_alone() -> None:
    rows = [{**BED, **PART, "id": "a"}, {**OTHER, **LIME, "id": "b"}]
    together = judged(rows, ahead=AHEAD).table.to_pylist()
    plans = (
        ("elemental sulfur, powder", 60.0, date(2026, 4, 20), 15.0),
        ("ground limestone, calcitic", 400.0, date(2026, 5, 1), 0.0),
    )
    for found, values, (material, rate, on, depth) in zip(
        together, (BED, OTHER), plans, strict=True
    ):
        part = Application(
            date=on,
            material=material,
            rate_g_m2=rate,
            amount_g=None,
            incorporate_cm=depth,
            only_if=None,
        )
        wanted = alone_ph(values, (part,), found["key"])
        told = [found[name] for name in ("ph_lo90", "ph_mid", "ph_hi90")]
        assert np.allclose(told, wanted, rtol=0.0, atol=0.0005 + 1e-9)
        assert found["forecast_on"] == date(2027, 4, 11)
        assert found["share_in_range"] is None
    single = judged([rows[1]], ahead=AHEAD).table.drop(["row"]).to_pylist()
    assert single == [{k: v for k, v in together[1].items() if k != "row"}]


def test_faults_of_a_plan_are_told_with_their_place_and_stop_no_other_row() -> None:
    readings = {
        "reading[1].date": "2024-04-01",
        "reading[1].ph": "6.4",
        "reading[1].ph_method": "water 1:1",
        "soil.sampled": "2026-04-01",
    }
    rows = [
        {**BED, **PART, "id": "past", "planned[1].date": "2026-03-01"},
        {**BED, **PART, "id": "unknown", "planned[1].material": "moonstone"},
        {**BED, **PART, **readings, "id": "read before"},
        {**BED, **PART, "id": "good"},
        {**BED, **PART, "id": "no pH", "soil.ph": None},
    ]
    found = judged(rows, ahead=AHEAD)
    assert found.table.column("key").to_pylist() == ["good", "no pH"]
    assert [value is None for value in found.table.column("ph_mid").to_pylist()] == [False, True]
    places = {(one.key, one.path) for one in found.problems}
    assert places == {
        ("past", "planned[1].date"),
        ("unknown", "planned[1].material"),
        ("read before", ""),
    }
    said = {one.key: one.problem for one in found.problems}
    assert "before today" in said["past"] and "earlier pH readings" in said["read before"]


def test_limits_and_cautions_of_a_plan_stand_beside_a_verdict_that_knows_nothing_of_it() -> None:
    """Planted ground takes 0.7 lb of sulfur per 100 sq ft a year, 34.18 g/m2 (gu-crouse-2010)."""
    bed = {**BED, "bed.planted": "yes", "soil.carbonate_pct": "0"}
    sulfur = {"material": "elemental sulfur, powder", "rate": "20 g/m2", "incorporated": "0 cm"}
    parts = {
        f"planned[{n}].{key}": value
        for n, on in ((1, "2026-05-01"), (2, "2026-09-01"))
        for key, value in {**sulfur, "date": on}.items()
    }
    once = {path: value for path, value in parts.items() if path.startswith("planned[1]")}
    rows = [
        {**bed, **once, "id": "once"},
        {**bed, **parts, "id": "twice"},
        {**bed, **LIME, "planned[1].rate": "2 kg/m2", "id": "lime"},
        {**bed, "id": "none"},
    ]
    first, twice, lime, none = judged(rows, ahead=AHEAD).table.to_pylist()
    s_frac = load_materials()["elemental sulfur, powder"].elemental_s_frac
    assert abs(first["planned_limit_times"] - 20.0 * s_frac / 34.18) < 0.001
    assert abs(twice["planned_limit_times"] - 40.0 * s_frac / 34.18) < 0.001
    assert twice["verdict"] == first["verdict"] and twice["plan_g_m2"] == first["plan_g_m2"]
    assert "sulfur-dust" in twice["planned_cautions"]
    assert lime["planned_limit_times"] > 1.0 and lime["planned_ends"] == "above"
    assert lime["ph_mid"] > lime["ph_high"]
    assert none["planned_limit_times"] is None and not none["planned_cautions"]
    assert not none["planned_ends"]


def test_a_table_without_plans_has_no_columns_of_them() -> None:
    names = judged([{**BED, "id": "a"}], ahead=AHEAD).table.column_names
    assert not [name for name in names if name.startswith("planned")]
