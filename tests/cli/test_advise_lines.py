"""Many cases for a program: a line of JSON or a row of CSV each, in the order of the cases."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from cli.kept import write_case
from loamshift.cli.batch_lines import COLUMNS

QUICK = ("--years", "0")


@pytest.fixture
def beds(tmp_path: Path) -> Path:
    """A folder with two cases and one between them that cannot be read."""
    folder = tmp_path / "beds"
    write_case(folder / "a.toml")
    (folder / "b.toml").write_text('case = 1\n[soil]\nph = 72\ntexture = "loan"\n', "utf-8")
    write_case(folder / "c.toml", ph=5.0)
    return folder


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_each_case_has_a_line_in_its_place(command, beds: Path, jobs: str) -> None:
    result = command("advise", str(beds), "--json", "--jobs", jobs, *QUICK)
    assert (result.code, result.err) == (1, "")
    lines = [json.loads(line) for line in result.out.splitlines()]
    assert [Path(line["case"]).name for line in lines] == ["a.toml", "b.toml", "c.toml"]
    assert {tuple(line) for line in lines} == {("case", "exit_code", "answer", "error", "files")}
    assert [line["exit_code"] for line in lines] == [0, 1, 0]
    alone = command("advise", str(beds / "a.toml"), "--json", *QUICK).out
    assert lines[0]["answer"] == json.loads(alone) and lines[0]["error"] is None
    error = command("advise", str(beds / "b.toml"), "--json", *QUICK).err
    assert lines[1]["error"] == json.loads(error) and lines[1]["answer"] is None
    assert [fault["line"] for fault in lines[1]["error"]["faults"]] == [3, 4]
    assert sorted(path.name for path in beds.iterdir()) == ["a.toml", "b.toml", "c.toml"]


def test_letters_are_written_beside_where_they_are_asked_for(command, beds: Path) -> None:
    out = beds.parent / "out"
    result = command("advise", str(beds), "--json", "--as", "md", "--out", str(out), *QUICK)
    lines = [json.loads(line) for line in result.out.splitlines()]
    assert lines[0]["files"] == [str(out / "a.md"), str(out / "a.json")]
    assert lines[1]["files"] == [] and (out / "c.md").exists()


def test_a_fault_of_ours_has_its_line(command, beds: Path, monkeypatch) -> None:
    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError("oh")

    monkeypatch.setattr("loamshift.services.advise.advise", fail)
    result = command("advise", str(beds), "--json", *QUICK)
    first = json.loads(result.out.splitlines()[0])
    assert result.code == 3 and first["exit_code"] == 3
    assert first["error"]["error"] == "program"
    assert "ZeroDivisionError" in json.dumps(first["error"]["faults"])


def test_a_table_has_a_row_for_each_case(command, beds: Path) -> None:
    result = command("advise", str(beds), "--csv", *QUICK)
    rows = list(csv.DictReader(io.StringIO(result.out)))
    assert result.code == 1 and tuple(rows[0]) == COLUMNS
    assert [row["exit_code"] for row in rows] == ["0", "1", "0"]
    assert rows[1]["path"] == "soil.ph" and rows[1]["line"] == "3" and rows[1]["faults"] == "2"
    assert rows[1]["decision"] == "" and rows[2]["decision"] == "leave"
    assert "soil.ph" not in result.err and "[soil] ph" in result.err
    assert sorted(path.suffix for path in beds.iterdir()) == [".toml"] * 3


def test_one_case_makes_a_table_too(command, beds: Path) -> None:
    lines = command("advise", str(beds / "c.toml"), "--csv", *QUICK).out.splitlines()
    assert len(lines) == 2


def test_a_line_for_a_program_or_a_table_not_both(command, beds: Path) -> None:
    assert command("advise", str(beds), "--json", "--csv").code == 2


def test_no_cell_of_the_table_is_a_formula(command, tmp_path: Path) -> None:
    write_case(tmp_path / "a.toml")
    path = tmp_path / "a.toml"
    path.write_text(
        'name = "=1+1"\n' + path.read_text("utf-8").replace("name =", "# name ="), "utf-8"
    )
    rows = list(csv.DictReader(io.StringIO(command("advise", str(path), "--csv", *QUICK).out)))
    assert rows[0]["name"] == "'=1+1"
