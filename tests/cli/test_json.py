"""The contract with programs: every reading command speaks JSON, and so does every error."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.kept import write_case

KEYS = ["error", "exit_code", "source", "faults"]
FAULT_KEYS = ["path", "line", "given", "problem", "mend"]
BED = ("--ph", "7.2", "--target-ph", "5.5", "--texture", "loam")


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a case and its answer."""
    from loamshift.cli.answering import Wish, answered

    folder = tmp_path_factory.mktemp("beds")
    case = write_case(folder / "bed.toml")
    (folder / "bed.json").write_text(answered(case, Wish(years=0)).json(), encoding="utf-8")
    return folder


READING = [
    (("advise", "bed.toml", "--years", "0"), "verdict"),
    (("reprint", "bed.json"), "verdict"),
    (("compare-letters", "bed.json", "bed.json"), "inputs"),
    (("card", "bed.json"), "rows"),
    (("claim", "gypsum", "50 g/m2", *BED, "--years", "0"), "share"),
    (("claim", "--sheet", *BED, "--years", "0"), "remedies"),
    (("water", "180"), "water"),
    (("water", "180", "--tank", "200 L"), "tank"),
    (("convert", "2 kg", "lb"), "value"),
    (("convert", "--ph", "6.2", "--from", "KCl"), "views"),
    (("sample",), "cores"),
    (("plants", "oak"), "plants"),
    (("plants",), "plants"),
    (("materials", "urea"), "materials"),
    (("materials", "Own Feed", "--label", "n_urea = 4"), "materials"),
    (("places", "40.7,-74"), "places"),
    (("places",), "places"),
    (("why",), "keys"),
    (("why", "buffer"), "explanation"),
    (("why", "--case", "bed.json"), "keys"),
    (("why", "verdict.ph_now", "--case", "bed.json"), "sum"),
]


@pytest.mark.parametrize(("arguments", "key"), READING, ids=lambda value: " ".join(value)[:40])
def test_every_reading_command_speaks_json(
    command, files: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...], key: str
) -> None:
    monkeypatch.chdir(files)
    result = command(*arguments, "--json")
    assert result.code == 0, result.err
    assert key in json.loads(result.out)
    for line in result.err.splitlines():
        assert set(json.loads(line)) == {"note"}


@pytest.mark.parametrize(
    ("arguments", "code", "kind", "fault"),
    [
        (("advise", "none.toml"), 1, "input", {"problem": "There is no such file."}),
        (("advise", "bed.toml", "--years", "many"), 2, "usage", {"path": "--years"}),
        (("advise",), 2, "usage", {"path": "CASE.toml"}),
        (("plants", "--nope"), 2, "usage", {"path": "--nope"}),
        (("nonsense",), 2, "usage", {}),
        (("plants", "zzzqqq"), 1, "input", {"given": "zzzqqq", "mend": ""}),
        (("materials", "sulpher"), 1, "input", {"given": "sulpher"}),
        (("convert", "5", "kg"), 1, "input", {"given": "5", "problem": "5 of what?"}),
        (("advise", "bed.toml", "--today", "soon"), 1, "input", {"path": "--today"}),
        (("water", "180", "--weekly", "2 kg"), 1, "input", {"path": "--weekly"}),
        (("why", "no.such.key"), 1, "input", {}),
        (("card", "bed.toml", "--open"), 2, "usage", {"path": "--open"}),
    ],
)
def test_every_error_has_the_same_shape(
    command,
    files: Path,
    monkeypatch: pytest.MonkeyPatch,
    arguments: tuple[str, ...],
    code: int,
    kind: str,
    fault: dict[str, str],
) -> None:
    monkeypatch.chdir(files)
    result = command(*arguments, "--json")
    assert (result.code, result.out) == (code, "")
    (line,) = result.err.splitlines()
    told = json.loads(line)
    assert list(told) == KEYS
    assert (told["error"], told["exit_code"]) == (kind, code)
    (only,) = told["faults"]
    assert list(only) == FAULT_KEYS and only["problem"]
    assert {key: only[key] for key in fault} == fault


def test_faults_of_a_case_come_with_line_and_mend(command, tmp_path: Path) -> None:
    file = tmp_path / "bed.toml"
    file.write_text('case = 1\ntoday = 2026-04-12\n[soil]\nph = 72\n[bed]\nara = "2 m2"\n')
    told = json.loads(command("advise", str(file), "--json").err)
    assert told["source"] == str(file)
    places = {fault["path"]: fault["line"] for fault in told["faults"]}
    assert places["soil.ph"] == 4 and places["bed.ara"] == 6
    assert all(fault["problem"] and fault["mend"] for fault in told["faults"])


def test_our_fault_has_it_too(command, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError("oh")

    monkeypatch.setattr("loamshift.tables.plants.load_plants", fail)
    result = command("plants", "--json")
    told = json.loads(result.err)
    assert (result.code, told["error"], told["exit_code"]) == (3, "program", 3)
    assert "ZeroDivisionError: oh" in told["faults"][0]["mend"] + told["faults"][0]["problem"]


def test_a_word_after_two_dashes_is_no_option(command) -> None:
    assert not command("plants", "--", "--json").err.startswith("{")
