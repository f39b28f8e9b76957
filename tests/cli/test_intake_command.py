from __future__ import annotations

import csv
import io
import json
import tomllib
from datetime import date
from pathlib import Path

import pytest

from case.intake.made import xlsx
from loamshift.case.read import read_case

REPORT = """Sample,pH,OM %,CEC meq/100g,Date sampled,Depth,Clay
North border,5.9,3.2,12,2026-03-04,0-15 cm,18
South border,6.4,2.8,14,2026-03-04,0-15 cm,22
Average,6.1,3.0,13,,,
"""
TODAY = ("--today", "2026-11-01")


@pytest.fixture
def report(tmp_path: Path) -> Path:
    file = tmp_path / "report.csv"
    file.write_text(REPORT, encoding="utf-8")
    return file


def test_a_person_sees_columns_questions_and_findings(command, report: Path) -> None:
    result = command("intake", str(report), *TODAY)
    assert result.code == 0
    assert result.out.startswith("report.csv: 2 samples, of which 2 can be entered now.")
    assert "The unit % is printed with it." in result.out
    assert '--answer "pH: method=…"' in result.out
    assert "left out: 4." in result.out
    assert [one.name for one in report.parent.iterdir()] == ["report.csv"]


def test_a_program_gets_mapping_rows_and_findings_and_nothing_is_written(
    command, report: Path
) -> None:
    result = command("intake", str(report), "--json", *TODAY)
    found = json.loads(result.out)
    assert set(found) == {"mapping", "rows", "findings"}
    assert found["mapping"][1]["path"] == "soil.ph"
    assert found["rows"][0]["values"]["soil.organic_matter_pct"] == 3.2
    assert {"code", "severity", "said", "question", "key", "choices", "places", "count"} == set(
        found["findings"][0]
    )
    assert len(list(report.parent.iterdir())) == 1


def test_cases_are_written_read_and_checked(command, report: Path, tmp_path: Path) -> None:
    folder = tmp_path / "beds"
    result = command(
        "intake", str(report), "--answer", "pH: method=water 1:2.5", "--as", "cases", "--to",
        str(folder), *TODAY,
    )  # fmt: skip
    assert result.code == 0, result.err
    files = sorted(folder.iterdir())
    assert [one.name for one in files] == ["north-border.toml", "south-border.toml"]
    case = read_case(files[0])
    assert case.name == "North border"
    assert case.soil.ph is not None and (case.soil.ph.ph, case.soil.ph.method) == (
        5.9,
        "water 1:2.5",
    )
    assert case.soil.sampled == date(2026, 3, 4) and case.soil.sample_depth_cm == 15.0
    checked = command("check", *map(str, files))
    assert checked.code == 0


def test_nothing_is_ever_overwritten(command, report: Path, tmp_path: Path) -> None:
    folder = tmp_path / "beds"
    folder.mkdir()
    (folder / "north-border.toml").write_text("mine", encoding="utf-8")
    result = command("intake", str(report), "--as", "cases", "--to", str(folder), *TODAY)
    assert result.code == 1 and "holds files already" in result.err
    assert [one.read_text() for one in folder.iterdir()] == ["mine"]
    table = tmp_path / "table.csv"
    table.write_text("mine", encoding="utf-8")
    result = command("intake", str(report), "--as", "csv", "--to", str(table), *TODAY)
    assert result.code == 1 and table.read_text() == "mine"


def test_a_stop_half_way_leaves_no_folder(
    command, report: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: Path, goal: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "rename", full)
    result = command("intake", str(report), "--as", "cases", "--to", str(tmp_path / "b"), *TODAY)
    assert result.code != 0
    assert [one.name for one in tmp_path.iterdir()] == ["report.csv"]


def test_one_table_has_a_column_for_each_key(command, report: Path) -> None:
    result = command("intake", str(report), "--as", "csv", *TODAY)
    rows = list(csv.DictReader(io.StringIO(result.out)))
    assert [row["name"] for row in rows] == ["North border", "South border"]
    assert rows[1]["soil.cec_cmolc_kg"] == "14.0" and rows[1]["row"] == "3"


def test_a_map_remembers_answers_and_collects_questions(
    command, report: Path, tmp_path: Path
) -> None:
    file = tmp_path / "riverside.toml"
    command("intake", str(report), "--map", str(file), *TODAY)
    text = file.read_text(encoding="utf-8")
    assert tomllib.loads(text) == {"answers": {}}
    assert '# "pH: method" = "water 1:1"' in text
    own = text.replace('# "pH: method" = "water 1:1"', '"pH: method" = "CaCl2"') + "# mine\n"
    file.write_text(own, encoding="utf-8")
    result = command("intake", str(report), "--map", str(file), "--json", *TODAY)
    assert json.loads(result.out)["rows"][0]["values"]["soil.ph_method"] == "CaCl2"
    assert file.read_text(encoding="utf-8") == own, "what a person wrote stays"
    other = tmp_path / "autumn.csv"
    other.write_text(REPORT.replace("Sample,pH,", "Sample,PH ,"), encoding="utf-8")
    result = command("intake", str(other), "--map", str(file), "--json", *TODAY)
    assert json.loads(result.out)["rows"][0]["values"]["soil.ph_method"] == "CaCl2"


def test_a_typed_answer_is_kept_in_the_map(command, report: Path, tmp_path: Path) -> None:
    file = tmp_path / "riverside.toml"
    command(
        "intake", str(report), "--map", str(file), "--answer", "pH: method=KCl", *TODAY
    )  # fmt: skip
    assert tomllib.loads(file.read_text(encoding="utf-8"))["answers"] == {"pH: method": "KCl"}


@pytest.mark.parametrize(
    ("answer", "says"),
    [
        ("pH: method=CaCl", "“CaCl2”"),
        ("OM %: unit=furlongs", "“g/kg”"),
        ("pH: meaning=alkali", "“buffer_ph”"),
        ("pH CaCl2", "is not an answer"),
        ("dates: order=backwards", "“day first”"),
    ],
)
def test_an_answer_that_is_none_is_refused_with_what_can_be_said(
    command, report: Path, answer: str, says: str
) -> None:
    result = command("intake", str(report), "--answer", answer)
    assert result.code == 1
    assert says in result.err


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[answers\n", "not TOML"),
        ("colour = 1\n", "more than a mapping file"),
        ('[answers]\n"pH: method" = "soup"\n', "not an answer"),
    ],
)
def test_a_broken_map_is_named(command, report: Path, tmp_path: Path, text: str, says: str) -> None:
    file = tmp_path / "map.toml"
    file.write_text(text, encoding="utf-8")
    result = command("intake", str(report), "--map", str(file))
    assert result.code == 1 and says in result.err and "map.toml" in result.err
    assert file.read_text(encoding="utf-8") == text


def test_a_file_that_cannot_be_read_offers_typing(command, tmp_path: Path) -> None:
    file = tmp_path / "scan.pdf"
    file.write_bytes((Path(__file__).parents[1] / "case/intake/files/scan.pdf").read_bytes())
    result = command("intake", str(file), "--json")
    assert result.code == 1
    error = json.loads(result.err.splitlines()[-1])
    assert "Type the figures in yourself" in error["faults"][0]["mend"]


def test_nothing_to_enter_is_said(command, tmp_path: Path) -> None:
    file = tmp_path / "report.csv"
    file.write_text("Sample,pH,pH\nA,5.4,6.6\nB,5.9,6.7\n", encoding="utf-8")
    result = command("intake", str(file), "--as", "cases", "--to", str(tmp_path / "beds"))
    assert result.code == 1 and "Answer the questions first" in result.err
    assert not (tmp_path / "beds").exists()


def test_formulas_and_macros_are_told(command, tmp_path: Path) -> None:
    file = tmp_path / "report.xlsx"
    file.write_bytes(xlsx({"Results": [["Sample", "pH (CaCl2)"], ["A", "=5+1"], ["B", 6.2]]}))
    result = command("intake", str(file), *TODAY)
    assert result.code == 0
    assert "The formula in B2 of sheet “Results” has no stored value" in result.out


@pytest.fixture
def beds(tmp_path: Path) -> Path:
    folder = tmp_path / "beds"
    folder.mkdir()
    for name in ("North border", "South border", "North lawn"):
        text = f'# my own note\ncase = 1\nname = "{name}"\ntoday = 2026-10-01\n[soil]\nph = 6.0\n'
        (folder / f"{name.replace(' ', '-').lower()}.toml").write_text(text, encoding="utf-8")
    return folder


NOTES = """Bed,Date,pH,Method,Depth
north BORDER,2026-09-10,5.9,probe,0-15 cm
South border,2026-09-10,6.4,CaCl2,0-15 cm
North,2026-09-10,6.6,probe,0-15 cm
South border,,6.4,probe,0-15 cm
"""


def test_field_notes_are_matched_by_name_and_doubtful_names_are_asked(
    command, beds: Path, tmp_path: Path
) -> None:
    file = tmp_path / "notes.csv"
    file.write_text(NOTES, encoding="utf-8")
    result = command("intake", str(file), "--beds", str(beds), "--json", *TODAY)
    found = json.loads(result.out)
    assert [(one["bed"], one["values"]["ph_method"]) for one in found["readings"]] == [
        ("North border", "probe"),
        ("South border", "CaCl2"),
    ]
    asked = next(one for one in found["findings"] if one["code"] == "bed-unknown")
    assert asked["choices"] == ["North border", "North lawn", "none"]
    assert any(one["code"] == "reading-undated" for one in found["findings"])


def test_readings_go_into_copies_of_the_cases(command, beds: Path, tmp_path: Path) -> None:
    file, to = tmp_path / "notes.csv", tmp_path / "after"
    file.write_text(NOTES, encoding="utf-8")
    before = {one.name: one.read_text() for one in beds.iterdir()}
    result = command(
        "intake", str(file), "--beds", str(beds), "--answer", "North: bed=North lawn",
        "--to", str(to), *TODAY,
    )  # fmt: skip
    assert result.code == 0, result.err
    assert {one.name: one.read_text() for one in beds.iterdir()} == before
    assert len(list(to.iterdir())) == 3
    text = (to / "north-lawn.toml").read_text(encoding="utf-8")
    assert text.startswith("# my own note")
    reading = read_case(to / "north-lawn.toml").readings[0]
    assert (reading.ph, reading.method, reading.taken, reading.depth_cm) == (
        6.6,
        "probe",
        date(2026, 9, 10),
        15.0,
    )
