"""A CSV in blocks: every row is given once, and every line that is no row has its reason."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from loamshift.case.mend import Refused
from loamshift.case.table.block import Block
from loamshift.case.table.csv_blocks import CsvTable, open_csv

HEAD = "id,soil.ph,soil.texture\n"


def written(folder: Path, text: str | bytes) -> CsvTable:
    path = folder / "a.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return open_csv(path)


def all_blocks(table: CsvTable, rows: int) -> list[Block]:
    return list(table.blocks(table.begin, used=table.headings, rows=rows))


def ids(blocks: list[Block]) -> list[str]:
    return [one for block in blocks for one in block.cells["id"].to_pylist()]


def reasons(blocks: list[Block]) -> dict[int, str]:
    return {one.row: one.said.key for block in blocks for one in block.unreadable}


@pytest.mark.parametrize("rows", [1, 2, 7, 100])
def test_blocks_hold_every_row_once_whatever_their_size(tmp_path: Path, rows: int) -> None:
    table = written(tmp_path, HEAD + "".join(f"{n},6.{n},loam\n" for n in range(20)))
    blocks = all_blocks(table, rows)
    assert ids(blocks) == [str(n) for n in range(20)]
    assert [row for block in blocks for row in block.rows] == list(range(2, 22))
    assert blocks[-1].end == table.length


def test_a_run_goes_on_behind_any_block(tmp_path: Path) -> None:
    text = HEAD + 'a,6.1,"loam"\nb,6.2\n\n"c",6.3,clay\nd,"6,4",sand\n'
    table = written(tmp_path, text)
    for rows in (1, 2, 3):
        whole = all_blocks(table, rows)
        for n, before in enumerate(whole[:-1]):
            from loamshift.case.table.block import Place

            place = Place(number=before.number + 1, start=before.end, row=before.next_row)
            rest = list(table.blocks(place, used=table.headings, rows=rows))
            assert [(b.number, b.rows, b.start, b.cells.to_pylist()) for b in rest] == [
                (b.number, b.rows, b.start, b.cells.to_pylist()) for b in whole[n + 1 :]
            ]


def test_a_broken_row_stops_no_other(tmp_path: Path) -> None:
    text = (
        HEAD
        + "a,6.1,loam\n"
        + "b,6.2\n"
        + 'c,"6.3,loam\n'
        + "d,6.4,loam,more\n"
        + "e,6.5,loam,,\n"
        + HEAD
        + "\n"
        + 'f,6.6,"two\nlines"\n'
        + "g,6.7,clay\n"
    )
    blocks = all_blocks(written(tmp_path, text), 100)
    assert ids(blocks) == ["a", "e", "f", "g"]
    assert blocks[0].rows == (2, 6, 9, 11)
    assert reasons(blocks) == {
        3: "table-row-width",
        4: "table-row-broken",
        5: "table-row-width",
        7: "table-row-heading",
    }


def test_a_tenth_of_the_rows_broken_leaves_the_others_as_they_are(tmp_path: Path) -> None:
    dice = random.Random(5)
    lines, sound = [], []
    breaks = ("{n},6.1", '{n},"6.1,loam', "{n},6.1,loam,x", "{n}")
    for n in range(3000):
        if dice.random() < 0.1:
            lines.append(dice.choice(breaks).format(n=n))
        else:
            lines.append(f"{n},6.1,loam")
            sound.append(n)
    blocks = all_blocks(written(tmp_path, HEAD + "\n".join(lines) + "\n"), 250)
    told = set(reasons(blocks))
    given = {int(one) for one in ids(blocks)}
    assert given | {row - 2 for row in told} == set(range(3000))
    assert given <= set(sound)
    assert len(given) > 0.97 * len(sound)  # a mark that is never closed may take its neighbour


def test_a_column_that_ends_half_way_is_told_row_by_row(tmp_path: Path) -> None:
    text = HEAD + "a,6.1,loam\n" * 3 + "b,6.1\n" * 4
    blocks = all_blocks(written(tmp_path, text), 2)
    assert ids(blocks) == ["a", "a", "a"]
    assert set(reasons(blocks)) == {5, 6, 7, 8}


@pytest.mark.parametrize(
    "data",
    [
        b"\xef\xbb\xbf" + HEAD.encode() + "höhe,6.1,loam\n".encode(),
        (HEAD + "höhe,6.1,loam\n").encode("cp1252"),
        ("sep=;\n" + HEAD.replace(",", ";") + "höhe;6.1;loam\n").encode(),
        ("\n\n" + HEAD.replace(",", "\t") + "höhe\t6.1\tloam").encode(),
        (HEAD + "höhe,6.1,loam\n").replace("\n", "\r\n").encode(),
    ],
)
def test_what_programs_write_is_read(tmp_path: Path, data: bytes) -> None:
    blocks = all_blocks(written(tmp_path, data), 10)
    assert blocks[0].cells.to_pylist() == [{"id": "höhe", "soil.ph": "6.1", "soil.texture": "loam"}]


def test_two_bytes_a_character_are_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="UTF-16"):
        written(tmp_path, (HEAD + "a,6.1,loam\n").encode("utf-16"))


def test_a_large_file_is_never_held(tmp_path: Path) -> None:
    """Five gigabytes that take no room on the disk: rows, then nothing, read from behind."""
    path = tmp_path / "large.csv"
    with path.open("wb") as file:
        file.write(HEAD.encode() + b"a,6.1,loam\n" * 300)
        file.seek(5_000_000_000)
        file.write(b"\nz,6.2,clay\n")
    table = open_csv(path)
    assert table.length > 5_000_000_000
    first = next(table.blocks(table.begin, used=table.headings, rows=50))
    assert len(first.rows) == 50 and first.end == len(HEAD) + 50 * 11
