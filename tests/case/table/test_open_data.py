"""Open soil tables as long tables: every row gets an answer or a reason; none is shipped.

LimeSoDa 0.1.5 (CC BY-SA 4.0) and the horizons of the Dutch soil map in dutchsoils 0.3.3. A row of
each field in LimeSoDa and every fortieth horizon are judged here; the how-to says what all gave.
"""

from __future__ import annotations

import importlib.util
from datetime import date
from pathlib import Path

import pyarrow as pa
import pytest

from loamshift.case.table.block import FAULT, Block
from loamshift.case.table.intake_table import open_by_intake
from loamshift.case.table.judge_block import Order, judge_block
from loamshift.case.table.open_table import columns_of
from loamshift.report.words import Words

DAY = date(2026, 4, 12)
KEYS = {
    "pH": "soil.ph",
    "Clay": "soil.clay_pct",
    "SOC": "soil.organic_carbon_pct",
    "SOM": "soil.organic_matter_pct",
}
STEP = 40


def accounted_for(block: Block) -> tuple[set[int], set[int]]:
    """Rows of a block with an answer, and those with a reason."""
    columns = columns_of(block.cells.column_names, file="open", named={})
    order = Order(columns=columns, today=DAY, seed=1, ahead=None, words=Words())
    judged = judge_block(block, order)
    answered = set(judged.table.column("row").to_pylist())
    assert all(judged.table.column("why").to_pylist())
    return answered, {one.row for one in judged.problems if one.kind == FAULT and one.problem}


def test_a_row_of_each_field_has_its_answer_or_its_reason() -> None:
    soda = pytest.importorskip("LimeSoDa")
    rows = []
    for name in soda.list_datasets():
        if not name.startswith("Overview"):
            first = soda.load_dataset(name)["Dataset"].iloc[0]
            cells = {path: first.get(f"{word}_target") for word, path in KEYS.items()}
            rows.append({"id": name, "aim.target_ph": 6.5} | cells)
    assert len(rows) == 31
    numbers = tuple(range(2, len(rows) + 2))
    paths = ["id", "aim.target_ph", *KEYS.values()]
    cells = pa.table({path: [_plain(row[path]) for row in rows] for path in paths})
    block = Block(number=0, start=0, end=31, next_row=33, rows=numbers, cells=cells)
    answered, told = accounted_for(block)
    assert answered | told == set(numbers) and not answered & told
    in_grams = {rows[row - 2]["id"] for row in told}
    assert in_grams == {"MG.44", "SSP.58"}  # clay in g/kg, which no percentage can be


def test_the_dutch_horizons_go_through_intake() -> None:
    spec = importlib.util.find_spec("dutchsoils")
    if spec is None or spec.origin is None:
        pytest.skip("dutchsoils is not installed")
    path = Path(spec.origin).parent / "data" / "SoilHorizons.csv"
    answers = {"acidity: method": "KCl", "ztop: unit": "m", "zbottom: unit": "m"}
    answers |= {"calciccontent: unit": "%", "samples: date": "2025-10-01"}
    table = open_by_intake(path, answers, map_file=None, today=DAY)
    assert table.length == 1568
    few = type(table)(path=path, samples=table.samples[::STEP])
    (block,) = few.blocks(few.begin, used=few.headings, rows=1568)
    answered, told = accounted_for(block)
    assert answered | told == set(block.rows)
    assert len(block.rows) == 40


def _plain(cell: object) -> object:
    return None if cell is None else float(cell) if not isinstance(cell, str) else cell  # type: ignore[arg-type]
