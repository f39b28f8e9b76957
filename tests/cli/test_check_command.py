from __future__ import annotations

import json
from pathlib import Path

import pytest

GOOD = 'case = 1\nname = "Border"\n[soil]\nph = 7.2\n'
BAD = 'case = 1\n[soil]\nph = 72\nhumus = 3\n\n[bed]\narea = "20 furlongs"\n'


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, Path]:
    good, bad = tmp_path / "good.toml", tmp_path / "bad.toml"
    good.write_text(GOOD, encoding="utf-8")
    bad.write_text(BAD, encoding="utf-8")
    return good, bad


def test_a_file_that_can_be_used_is_named_and_nothing_is_answered(command, files) -> None:
    result = command("check", str(files[0]))
    assert result.code == 0
    assert result.out == f"{files[0]} can be used: Border.\n"


def test_every_fault_has_its_line_key_and_mend(command, files) -> None:
    result = command("check", *map(str, files))
    assert result.code == 1
    assert "can be used: Border." in result.out, "one bad file does not silence the others"
    lines = result.out.splitlines()
    assert any("bad.toml, line 3, [soil] ph:" in line and "7.2" in line for line in lines)
    assert any("line 4, [soil] humus" in line and "organic_matter_pct" in line for line in lines)
    assert any("line 7, [bed] area" in line for line in lines)


def test_a_program_gets_every_file_with_its_faults(command, files) -> None:
    result = command("check", *map(str, files), "--json")
    assert result.code == 1
    good, bad = json.loads(result.out)["files"]
    assert good == {"file": str(files[0]), "name": "Border", "noticed": [], "faults": []}
    assert [(fault["line"], fault["path"]) for fault in bad["faults"]] == [
        (3, "soil.ph"),
        (4, "soil.humus"),
        (7, "bed.area"),
    ]
    for fault in bad["faults"]:
        assert fault["given"] and fault["problem"] and fault["mend"]


def test_what_the_reader_noticed_is_told(command, tmp_path: Path) -> None:
    file = tmp_path / "bed.toml"
    text = 'case = 1\n[soil]\nph_method = "paste"\n'
    file.write_text(text, encoding="utf-8")
    result = command("check", str(file), "--json")
    (noticed,) = json.loads(result.out)["files"][0]["noticed"]
    assert "ph_method" in noticed or "method" in noticed


def test_a_material_is_shown_the_way_to_a_claim(command) -> None:
    result = command("check", "coffee grounds")
    assert result.code == 1
    assert 'loamshift claim "coffee grounds"' in result.out


@pytest.mark.parametrize(("form", "key"), [("case", "soil"), ("answer", "verdict")])
def test_a_schema_is_json_on_stdout(command, form: str, key: str) -> None:
    result = command("schema", form)
    assert result.code == 0 and not result.err
    schema = json.loads(result.out)
    assert schema["$schema"].endswith("2020-12/schema")
    assert schema["properties"][key]
    assert form in schema["title"].lower()


def test_a_schema_is_described_in_the_spelling_asked_for(command) -> None:
    assert "fertilizer" in command("schema", "case", "--words", "us").out.lower()
    assert "sulphur" in command("schema", "answer").out
