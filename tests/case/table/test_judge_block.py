"""A row of many gets the answer that its case gets alone, or every reason why it has none."""

from __future__ import annotations

from datetime import date
from typing import Any

import pyarrow as pa
import pytest

from loamshift.case.intake.entered import case_tree
from loamshift.case.read import case_from_tree
from loamshift.case.table.block import Block
from loamshift.case.table.equal_rows import EqualRows
from loamshift.case.table.judge_block import Ahead, Judged, Order, judge_block, row_seed
from loamshift.case.table.open_table import columns_of
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.many.outcome import outcome_of

DAY = date(2026, 4, 12)
SOIL = {"soil.ph_method": "water 1:1", "soil.texture": "loam", "soil.organic_matter_pct": "3"}


def judged(
    rows: list[dict[str, Any]],
    *,
    ahead: Ahead | None = None,
    carried: tuple[str, ...] = (),
    equal: EqualRows | None = None,
) -> Judged:
    names = list(dict.fromkeys(name for row in rows for name in row))
    cells = pa.table({name: [row.get(name) for row in rows] for name in names})
    columns = columns_of(names, file="a", named={}, carried=carried)
    order = Order(columns=columns, today=DAY, seed=1, ahead=ahead, words=Words())
    block = Block(
        number=0, start=0, end=9, next_row=9, rows=tuple(range(2, len(rows) + 2)), cells=cells
    )
    return judge_block(block, order, equal)


def test_units_may_differ_from_row_to_row() -> None:
    row = {**SOIL, "soil.ph": "7.0", "aim.plant": "highbush blueberry"}
    areas = ("100 m2", "1076.391 sq ft", "0.01 ha", "100", "1,076.391 ft²")
    found = judged([{**row, "id": f"{n}", "bed.area": area} for n, area in enumerate(areas)])
    assert not found.problems
    rows = found.table.drop(["row", "key"]).to_pylist()
    assert all(one == rows[0] for one in rows)


def test_a_row_is_the_answer_to_its_case() -> None:
    row = {**SOIL, "soil.ph": "5,2", "aim.plant": "cabbage; leek", "id": "A"}
    (found,) = judged([row]).table.to_pylist()
    values = {**SOIL, "soil.ph": "5.2", "aim.plant": ["cabbage", "leek"]}
    case = case_from_tree(case_tree({"case": 1, **values}), source="a", today=DAY)
    alone = outcome_of(advise(case), key="A")
    assert found["verdict"] == alone.verdict.value
    assert found["need_mid_g_m2"] == round(alone.need_mid_g_m2 or 0.0, 3)
    assert found["questions"] == "; ".join(alone.questions)
    assert found["why"].startswith("pH 5.2")


def test_every_fault_of_a_row_is_told_with_its_place() -> None:
    bad = {**SOIL, "id": "x", "soil.ph": "65", "bed.area": "-3 m2", "aim.plant": "moon tree"}
    good = {**SOIL, "id": "y", "soil.ph": "6.5", "aim.plant": "cabbage"}
    found = judged([bad, good])
    assert found.table.column("key").to_pylist() == ["y"]
    assert {(one.row, one.path) for one in found.problems} == {
        (2, "soil.ph"),
        (2, "bed.area"),
        (2, "aim.plant"),
    }
    assert all(one.problem and one.key == "x" for one in found.problems)


def test_entries_close_up_and_carried_cells_stay() -> None:
    put_on = {"material": "ground limestone", "rate": "100 g/m2", "date": date(2026, 3, 1)}
    row = {**SOIL, "soil.ph": 5.5, "aim.plant": "cabbage", "id": 7.0, "phone": "=1+1"}
    row |= {"applied[1].rate": None} | {f"applied[3].{key}": one for key, one in put_on.items()}
    found = judged([row], carried=("phone",))
    assert not found.problems
    (told,) = found.table.to_pylist()
    assert told["key"] == "7" and told["phone"] == "=1+1"


def test_chance_comes_from_the_key_alone() -> None:
    row = {**SOIL, "soil.ph": "6.9", "soil.carbonate_pct": "0", "aim.plant": "potato"}
    two = [{**row, "id": "A"}, {**row, "id": "B"}]
    ahead = Ahead(members=12, years=1)
    both = judged(two, ahead=ahead).table.to_pylist()
    (alone,) = judged(two[1:], ahead=ahead).table.to_pylist()
    assert {**both[1], "row": 2} == alone
    case = case_from_tree(case_tree({"case": 1, **row}), source="a", today=DAY)
    look = LookAhead(members=12, years=1, seed=row_seed("B", 1))
    outcome = outcome_of(advise(case, look_ahead=look), key="B")
    assert alone["ph_mid"] == round(outcome.ph_mid or 0.0, 3)
    assert row_seed("A", 1) != row_seed("B", 1) != row_seed("B", 2)


def test_an_error_of_ours_stops_no_other_row(monkeypatch: Any) -> None:
    import loamshift.case.table.judge_block as module

    def broken(case: Any, *, key: str, loops: Any) -> Any:
        if key == "x":
            raise ZeroDivisionError
        return outcome_of(advise(case), key=key)

    monkeypatch.setattr(module, "outcome_of_bed", broken)
    monkeypatch.setattr(module, "judge_alike", lambda rows, **_: {})
    row = {**SOIL, "soil.ph": "6.5", "aim.plant": "cabbage"}
    found = judged([{**row, "id": "x"}, {**row, "id": "y"}])
    assert found.table.column("key").to_pylist() == ["y"]
    assert "ZeroDivisionError" in found.problems[0].problem


def test_rows_that_differ_in_figures_only_are_judged_as_each_alone() -> None:
    """Figures without and with a unit, a decimal comma, an impossible one and none at all."""
    figures = ("7.0", "6.4", "6,4", "65", "", "5.25")
    areas = ("20", "20 m2", "35", "35", "35", "-3")
    row = {**SOIL, "aim.plant": "highbush blueberry"}
    rows = [
        {**row, "id": f"{n}", "soil.ph": ph, "bed.area": area}
        for n, (ph, area) in enumerate(zip(figures, areas, strict=True))
    ]
    together, alone = judged(rows), [judged([one]) for one in rows]
    told = [{**one, "row": 2} for one in together.table.to_pylist()]
    assert told == [one for each in alone for one in each.table.to_pylist()]
    assert len(told) == 4 and {one.path for one in together.problems} == {"soil.ph", "bed.area"}


def test_a_cell_that_holds_a_table_or_a_list_is_refused_by_itself() -> None:
    """Parquet takes any type for a column; the row beside it is answered."""
    row = {**SOIL, "soil.ph": "6.5", "aim.plant": "cabbage"}
    odd = judged([{**row, "id": "a", "bed.kind": {"of": [1]}}, {**row, "id": "b"}])
    assert odd.table.column("key").to_pylist() == ["b"]
    assert {one.path for one in odd.problems} == {"bed.kind"}
    listed = judged([{**row, "id": "c", "soil.fizz": ["none"]}])
    assert not listed.table.num_rows and listed.problems[0].path == "soil.fizz"


def test_equal_rows_are_judged_once_over_blocks(monkeypatch: pytest.MonkeyPatch) -> None:
    import loamshift.case.table.judge_block as module

    judged_keys: list[str] = []
    whole = module.judge_alike

    def counted(rows: Any, **more: Any) -> Any:
        judged_keys.extend(key for key, _ in rows)
        return whole(rows, **more)

    monkeypatch.setattr(module, "judge_alike", counted)
    row = {**SOIL, "soil.ph": "6.5", "aim.plant": "cabbage"}
    equal = EqualRows()
    first = judged([{**row, "id": "a"}, {**row, "id": "b"}], equal=equal)
    second = judged([{**row, "id": "c"}, {**row, "id": "d", "soil.ph": "6.6"}], equal=equal)
    assert judged_keys == ["a", "d"]
    assert first.table.column("key").to_pylist() == ["a", "b"]
    assert second.table.column("key").to_pylist() == ["c", "d"]
    alone = judged([{**row, "id": "c"}])
    assert second.table.slice(0, 1).drop(["row"]).equals(alone.table.drop(["row"]))
