"""What the columns of a long table are, and which files are read."""

from __future__ import annotations

from pathlib import Path

import pyarrow as pa
import pyarrow.parquet as pq
import pytest
from openpyxl import Workbook

from loamshift.case.mend import Refused
from loamshift.case.table.heading_map import read_heading_map
from loamshift.case.table.open_table import columns_of, is_key, open_table


@pytest.mark.parametrize(
    ("path", "known"),
    [
        ("soil.ph", True),
        ("applied[2].rate", True),
        ("applied.rate", False),
        ("soil[1].ph", False),
        ("soil.pH", False),
        ("name", True),
        ("client", False),
    ],
)
def test_keys_of_the_case_file(path: str, known: bool) -> None:
    assert is_key(path) is known


def test_a_heading_that_is_nearly_a_key_is_asked_about() -> None:
    with pytest.raises(Refused) as caught:
        columns_of(["soil.pH", "soil.textur", "client"], file="a.csv", named={})
    told = str(caught.value)
    assert "soil.pH" in told and "ph" in told and "texture" in told and "client" not in told


def test_headings_twice_and_columns_that_are_not_there_are_told_together() -> None:
    headings = ["soil.ph", "soil.ph", "client"]
    with pytest.raises(Refused) as caught:
        columns_of(headings, file="a.csv", named={"pH": "soil.ph"}, key="id", carried=["phone"])
    told = str(caught.value)
    for word in ("soil.ph", "pH", "id", "phone"):
        assert word in told


def test_columns_have_each_their_use() -> None:
    headings = ["id", "client", "phone", "pH (H2O)", "aim.plant"]
    found = columns_of(headings, file="a", named={"pH (H2O)": "soil.ph"}, carried=["phone"])
    assert found.paths == {"pH (H2O)": "soil.ph", "aim.plant": "aim.plant"}
    assert (found.key, found.carried, found.unused) == ("id", ("phone",), ("client",))
    assert found.used == ("id", "phone", "pH (H2O)", "aim.plant")


def test_parquet_goes_on_within_and_between_row_groups(tmp_path: Path) -> None:
    path = tmp_path / "a.parquet"
    pq.write_table(pa.table({"id": range(25), "soil.ph": [6.5] * 25}), path, row_group_size=10)
    table = open_table(path)
    blocks = list(table.blocks(table.begin, used=("id",), rows=4))
    assert [len(block.rows) for block in blocks] == [4, 4, 2, 4, 4, 2, 4, 1]
    assert [row for block in blocks for row in block.rows] == list(range(1, 26))
    from loamshift.case.table.block import Place

    for n, one in enumerate(blocks[:-1]):
        place = Place(number=one.number + 1, start=one.end, row=one.next_row)
        rest = list(table.blocks(place, used=("id",), rows=4))
        assert [b.rows for b in rest] == [b.rows for b in blocks[n + 1 :]]
        assert [b.number for b in rest] == [b.number for b in blocks[n + 1 :]]


def test_a_cut_off_parquet_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "a.parquet"
    pq.write_table(pa.table({"soil.ph": [6.5] * 1000}), path)
    path.write_bytes(path.read_bytes()[:-20])
    with pytest.raises(Refused, match="damaged"):
        open_table(path)


def test_a_workbook_keeps_its_row_numbers(tmp_path: Path) -> None:
    book = Workbook()
    sheet = book.active
    for row in (["id", "soil.ph"], ["a", 6.5], [None, None], ["b", 7]):
        sheet.append(row)
    book.save(tmp_path / "a.xlsx")
    table = open_table(tmp_path / "a.xlsx")
    (block,) = table.blocks(table.begin, used=table.headings, rows=10)
    assert block.rows == (2, 4)
    assert block.cells.to_pylist() == [
        {"id": "a", "soil.ph": "6.5"},
        {"id": "b", "soil.ph": "7"},
    ]


@pytest.mark.parametrize("data", [b"", b"   \n\n", b"%PDF-1.7 nothing"])
def test_what_holds_no_rows_is_refused(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(data)
    with pytest.raises(Refused):
        open_table(path)


@pytest.mark.parametrize("text", ["[columns]\npH = 7\n", "columns = 3\n", "not toml"])
def test_a_mapping_that_is_none_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "map.toml"
    path.write_text(text)
    with pytest.raises(Refused):
        read_heading_map(path)
