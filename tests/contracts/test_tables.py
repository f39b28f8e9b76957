"""Every shipped table says what it is, where its figures come from, and can be built again."""

from __future__ import annotations

import csv
import re
import tomllib
from pathlib import Path

import build
import pytest

from loamshift.domain.evidence import Evidence
from loamshift.tables.references import load_references
from loamshift.tables.rows import data_folder, read_rows

DATA = data_folder()
TABLES = sorted(path.stem for path in DATA.glob("*.csv"))
REPOSITORY = Path(build.__file__).resolve().parents[2]
WITHOUT_SOURCES = {
    "materials": "names and words of ours; the figures stand in material_figures",
    "climate_points": "one source for the whole table, named in its toml",
    "towns": "one source for the whole table, named in its toml",
}
GRADES = {"standard", "journal", "institution", "book", "trade", "popular", "own"}


def source_keys(table: str) -> set[str]:
    return {
        key
        for row in read_rows(table)
        for column, cell in row.items()
        if column.endswith(("source_key", "source_keys"))
        for key in cell.split("|")
        if key
    }


def descriptions() -> list[dict[str, str]]:
    return [tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8")) for name in TABLES]


@pytest.mark.parametrize("table", TABLES)
def test_the_toml_beside_it_describes_it(table: str) -> None:
    about = tomllib.loads((DATA / f"{table}.toml").read_text(encoding="utf-8"))
    with (DATA / f"{table}.csv").open(encoding="utf-8", newline="") as handle:
        columns = next(csv.reader(handle))
    assert about["columns"] == columns
    assert len(columns) == len(set(columns))
    assert about["title"]
    assert about["licence"]
    assert (REPOSITORY / about["script"]).is_file()


def test_every_toml_has_its_table() -> None:
    assert {path.stem for path in DATA.glob("*.toml")} == {*TABLES, "references"}


@pytest.mark.parametrize("table", TABLES)
def test_every_row_names_a_source_that_is_listed(table: str) -> None:
    rows = read_rows(table)
    assert rows
    if table in WITHOUT_SOURCES:
        assert not source_keys(table)
        return
    assert all(row["source_key"] for row in rows)
    assert source_keys(table) <= set(load_references())


@pytest.mark.parametrize("table", sorted(set(TABLES) - set(WITHOUT_SOURCES)))
def test_every_row_has_a_mark_of_evidence(table: str) -> None:
    marks = {mark.value for mark in Evidence}
    assert {row["evidence"] for row in read_rows(table)} <= marks


def test_no_reference_stands_unused() -> None:
    used = set().union(*(source_keys(table) for table in TABLES))
    used |= {about["source_key"] for about in descriptions() if "source_key" in about}
    code = "\n".join(
        path.read_text(encoding="utf-8")
        for folder in ("src", "tests/published")
        for suffix in ("*.py", "*.csv")
        for path in (REPOSITORY / folder).rglob(suffix)
        if DATA not in path.parents
    )
    unused = {
        key
        for key in set(load_references()) - used
        if not re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", code)
    }
    assert not unused


def test_references_are_graded_and_cited() -> None:
    for reference in load_references().values():
        assert reference.grade in GRADES, reference.key
        assert reference.citation.endswith((".", ")", "…")) or len(reference.citation) > 20
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", reference.key), reference.key


def test_building_again_gives_the_same_bytes(tmp_path: Path) -> None:
    build.build_all(tmp_path)
    shipped = {path.name: path.read_bytes() for path in DATA.iterdir() if path.is_file()}
    built = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert sorted(built) == sorted(shipped)
    assert [name for name in shipped if shipped[name] != built[name]] == []
