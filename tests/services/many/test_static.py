"""Columns of figures beside one case: each row is what its own case file would come to."""

from __future__ import annotations

from dataclasses import fields
from datetime import date
from typing import Any

import numpy as np
import pytest

from loamshift.case.read import case_from_tree
from loamshift.core.loops import PLAIN
from loamshift.errors import InputError
from loamshift.services.advise import advise
from loamshift.services.many.outcome import Outcome, outcome_of
from loamshift.services.many.static import COVERED, covered_rows, judge

ROWS: dict[str, list[float]] = {
    "soil.ph": [7.4, 5.1, 6.2, float("nan"), 8.1],
    "soil.clay_pct": [12.0, 30.0, float("nan"), 20.0, 45.0],
    "soil.organic_matter_pct": [2.0, 6.5, 3.0, 3.0, float("nan")],
    "soil.carbonate_pct": [float("nan"), float("nan"), 0.0, 1.0, 6.0],
    "bed.area": [12.0, 400.0, 33.0, 8.0, 25.0],
    "bed.depth": [20.0, 15.0, float("nan"), 20.0, 30.0],
    "water.alkalinity": [250.0, float("nan"), 40.0, 0.0, 120.0],
}
"""Five beds, one of them without a pH."""


def shared() -> dict[str, Any]:
    """What they have in common."""
    return {
        "case": 1,
        "today": date(2026, 4, 12),
        "place": {"name": "Edinburgh"},
        "soil": {"ph": 6.0, "ph_method": "CaCl2"},
        "aim": {"plant": "highbush blueberry"},
    }


def own_case(row: int) -> dict[str, Any]:
    """The same row as a case file of its own."""
    tree = shared()
    for path, column in ROWS.items():
        table, name = path.split(".")
        if not np.isnan(column[row]):
            tree.setdefault(table, {})[name] = column[row]
        elif path == "soil.ph":
            del tree["soil"]["ph"], tree["soil"]["ph_method"]
    return tree


def test_every_row_is_what_its_case_file_comes_to() -> None:
    columns = {path: np.array(column) for path, column in ROWS.items()}
    judged = judge(case_from_tree(shared(), source="shared"), columns, loops=PLAIN)
    assert judged.covered.all()
    for row, found in enumerate(judged.outcomes):
        whole = outcome_of(advise(case_from_tree(own_case(row), source="row")), key=str(row))
        assert found is not None
        for field in fields(Outcome):
            one, other = getattr(whole, field.name), getattr(found, field.name)
            same = one == pytest.approx(other) if isinstance(one, float) else one == other
            assert same, f"row {row}, {field.name}: {one} is not {other}"


def test_rows_with_figures_that_are_none_are_left_to_the_reader() -> None:
    columns = {
        "soil.ph": np.array([6.5, 65.0, 6.5]),
        "soil.clay_pct": np.array([20.0, 20.0, 70.0]),
        "soil.sand_pct": np.array([40.0, 40.0, 60.0]),
    }
    judged = judge(case_from_tree(shared(), source="shared"), columns, loops=PLAIN)
    assert judged.covered.tolist() == [True, False, False]
    assert judged.outcomes[1] is None and judged.outcomes[2] is None


def test_three_shares_that_come_to_no_whole_are_left_to_the_reader() -> None:
    columns = {
        "soil.ph": np.full(3, 6.5),
        "soil.sand_pct": np.array([40.0, 42.0, 42.0]),
        "soil.silt_pct": np.array([40.0, 7.0, np.nan]),
        "soil.clay_pct": np.array([20.0, 5.7, 5.7]),
    }
    bed = case_from_tree(shared(), source="shared")
    assert covered_rows(bed, columns).tolist() == [True, False, True]


def test_an_amount_on_the_whole_bed_is_no_rate_of_another_area() -> None:
    tree = shared()
    tree["bed"] = {**tree.get("bed", {}), "area": 10.0}
    lime = {"date": date(2026, 1, 2), "material": "ground limestone, calcitic", "amount": "900 g"}
    columns = {"soil.ph": np.full(2, 6.5), "bed.area": np.array([10.0, 30.0])}
    for put_on, covered in (([], [True, True]), ([lime], [True, False])):
        bed = case_from_tree({**tree, "applied": put_on}, source="shared")
        assert covered_rows(bed, columns).tolist() == covered


def test_a_column_of_outcomes_has_gaps_where_a_row_has_none() -> None:
    columns = {"soil.ph": np.array([7.5, 65.0])}
    judged = judge(case_from_tree(shared(), source="shared"), columns, loops=PLAIN)
    assert judged.column("verdict")[0] != "" and judged.column("verdict")[1] == ""
    assert judged.column("need_mid_g_m2")[0] > 0.0
    assert np.isnan(judged.column("need_mid_g_m2")[1])
    assert judged.column("first_on").dtype.kind in "Mf"
    assert "; " in judged.column("questions")[0]


def test_an_unknown_column_is_named_with_those_there_are() -> None:
    bed = case_from_tree(shared(), source="shared")
    with pytest.raises(InputError, match=r"soil\.colour.*soil\.ph"):
        judge(bed, {"soil.colour": np.zeros(1)}, loops=PLAIN)
    with pytest.raises(InputError, match="one length"):
        judge(bed, {"soil.ph": np.zeros(1), "bed.area": np.ones(2)}, loops=PLAIN)


def test_limits_lie_within_those_of_the_case_file() -> None:
    """At either limit of a column the reader of case files finds no fault."""
    for path, limits in COVERED.items():
        for figure in limits:
            tree = shared()
            table, name = path.split(".")
            tree.setdefault(table, {})[name] = figure
            case_from_tree(tree, source=f"{path} {figure}")
