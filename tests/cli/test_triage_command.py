"""``loamshift triage``: a long table in, a table out, and nothing lost on the way."""

from __future__ import annotations

import csv
import errno
import json
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pyarrow.parquet as pq
import pytest
from openpyxl import load_workbook

from cli.conftest import Command
from loamshift.cli import files, triage_result

HEAD = ["id", "client", "soil.ph", "soil.ph_method", "soil.texture", "aim.plant", "applied[1].rate"]
HEAD += ["applied[1].material", "applied[1].date"]
DAY = ("--today", "2026-04-12")


def table(folder: Path, rows: Sequence[Sequence[str]], *, name: str = "a.csv") -> Path:
    path = folder / name
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([HEAD, *rows])
    return path


def row(key: object, *, ph: str = "6.5", plant: str = "") -> list[str]:
    return [str(key), f"Client {key}", ph, "water 1:1", "loam", plant, "", "", ""]


def stopped(key: object) -> list[str]:
    """A bed with far too much sulfur on it."""
    much = ["1 kg/m2", "elemental sulfur, powder", "2026-03-01"]
    return [*row(key, ph="5.5", plant="highbush blueberry")[:6], *much]


def told(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_rows_get_a_verdict_or_a_reason_and_people_are_named(
    command: Command, tmp_path: Path
) -> None:
    rows = [row(1, plant="cabbage"), row(2, ph="65"), row(3), stopped(4), row(3, ph="5.1")]
    file, out = table(tmp_path, rows), tmp_path / "out.csv"
    done = command("triage", str(file), "-o", str(out), "--carry", "client", *DAY)
    assert done.code == 1
    assert "4 rows answered, 1 with a problem" in done.out and "call that person first" in done.out
    found = {one["row"]: one for one in told(out)}
    assert {key: one["verdict"] for key, one in found.items()} == {
        "2": "leave",
        "4": "measure-first",
        "5": "stop",
        "6": "measure-first",
    }
    assert found["2"]["client"] == "Client 1"
    problems = told(tmp_path / "out.problems.csv")
    assert [(one["row"], one["kind"], one["path"]) for one in problems] == [
        ("3", "fault", "soil.ph"),
        ("4", "note", ""),
        ("6", "note", ""),
    ]
    page = (tmp_path / "out.html").read_text(encoding="utf-8")
    assert "Call these people" in page and "Client 4" in page and "out.problems.csv" in page
    assert not (tmp_path / "out.parts").exists()


def test_the_three_forms_hold_the_same(command: Command, tmp_path: Path) -> None:
    rows = [row(1, plant="cabbage"), row("=2"), stopped(3)]
    file = table(tmp_path, rows)
    for ending in ("csv", "parquet", "xlsx"):
        out = tmp_path / f"{ending}.{ending}"
        words = ("triage", str(file), "-o", str(out), "--block-rows", "1", *DAY)
        assert command(*words).code == 0
    assert pq.ParquetFile(tmp_path / "parquet.parquet").num_row_groups == 1, "not one a block"
    parquet = pq.read_table(tmp_path / "parquet.parquet").to_pylist()
    text = told(tmp_path / "csv.csv")
    sheet = load_workbook(tmp_path / "xlsx.xlsx").active
    cells = [list(one) for one in sheet.iter_rows(values_only=True)]
    assert [one["verdict"] for one in parquet] == [one["verdict"] for one in text]
    place = cells[0].index("need_mid_g_m2")
    assert [one["need_mid_g_m2"] for one in parquet] == [one[place] for one in cells[1:]]
    assert parquet[1]["key"] == "=2" and text[1]["key"] == "'=2" and cells[2][1] == "'=2"
    # every form can be read again by the command itself
    again = tmp_path / "again.parquet"
    letters = tmp_path / "letters"
    chosen = ("--letters", str(letters), "--for", "=2", "--for", "stop", "--as", "md")
    done = command("triage", str(file), "-o", str(again), *chosen, *DAY)
    assert done.code == 0
    assert sorted(path.name for path in letters.iterdir()) == ["2.md", "3.md"]


def test_another_layout_is_read_by_its_mapping(command: Command, tmp_path: Path) -> None:
    file, out, mapping = tmp_path / "lab.csv", tmp_path / "o.csv", tmp_path / "map.toml"
    file.write_text("Lab no;Acidity;Crop\n17;6,5;cabbage\n18;;leek\n")
    mapping.write_text('[columns]\nAcidity = "soil.ph"\nCrop = "aim.plant"\n')
    called = ("triage", str(file), "-o", str(out), "--map", str(mapping), "--key", "Lab no", *DAY)
    assert command(*called).code == 0
    assert [(one["key"], one["reason"]) for one in told(out)][1] == ("18", "no-ph")


def test_a_laboratorys_own_headings_go_through_intake(command: Command, tmp_path: Path) -> None:
    file, out, mapping = tmp_path / "lab.csv", tmp_path / "o.csv", tmp_path / "map.toml"
    file.write_text("Sample,pH,Crop\nNorth,6.5,cabbage\nSouth,5.1,leek\n")
    called = ("triage", str(file), "-o", str(out), "--map", str(mapping), *DAY)
    mapping.write_text("[answers]\n")
    asked = command(*called)
    assert asked.code == 1 and "loamshift intake" in asked.err and not out.exists()
    mapping.write_text(
        '[answers]\n"pH: method" = "water 1:1"\n"samples: depth" = "15 cm"\n'
        '"samples: date" = "2026-03-01"\n'
    )
    assert command(*called).code == 0, command(*called).err
    assert [one["key"] for one in told(out)] == ["North", "South"]


def test_a_question_about_magnesium_stops_no_table(command: Command, tmp_path: Path) -> None:
    file, out = tmp_path / "lab.csv", tmp_path / "o.csv"
    file.write_text(
        "Sample,pH (CaCl2),Magnesium (mg/l),Depth,Date sampled\nA,6.1,60,0-15 cm,2026-03-01\n"
    )
    ran = command("triage", str(file), "-o", str(out), *DAY)
    assert ran.code == 0 and "weighs a kilogram" in ran.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("-o", "a.csv"), "the file that is read"),
        (("-o", "out.txt"), ".parquet, .csv or .xlsx"),
        (("-o", "taken.csv"), "--force"),
        (("-o", "nowhere/out.csv"), "nowhere"),
        (("-o", "out.csv", "--carry", "phone"), "phone"),
        (("-o", "out.csv", "--map", "no.toml"), "no.toml"),
    ],
)
def test_what_cannot_be_done_is_said_before_any_work(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: Any, said: str
) -> None:
    monkeypatch.chdir(tmp_path)
    table(tmp_path, [row(1)])
    (tmp_path / "taken.csv").write_text("mine")
    done = command("triage", "a.csv", *words, *DAY)
    assert done.code == 1 and said in done.err
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.csv", "taken.csv"]
    assert (tmp_path / "taken.csv").read_text() == "mine"


def test_a_table_without_rows_is_told(command: Command, tmp_path: Path) -> None:
    done = command("triage", str(table(tmp_path, [])), "-o", str(tmp_path / "o.csv"), *DAY)
    assert done.code == 1 and "no rows" in done.err


def test_a_full_disk_keeps_what_was_done(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, out = table(tmp_path, [row(n) for n in range(6)]), tmp_path / "o.csv"
    called = ("triage", str(file), "-o", str(out), "--jobs", "1", "--block-rows", "1", *DAY)
    real, written = tempfile.mkstemp, 0

    def full(**words: Any) -> Any:
        nonlocal written
        written += ".parquet." in str(words.get("prefix"))
        if written > 3:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return real(**words)

    with monkeypatch.context() as patch:
        patch.setattr(files.tempfile, "mkstemp", full)
        done = command(*called)
    assert done.code == 1 and "No space left" in done.err and not out.exists()
    assert "3 rows are kept" in done.err
    assert command(*called).code == 0
    assert [one["key"] for one in told(out)] == [str(n) for n in range(6)]


def test_no_room_for_the_result_keeps_the_parts(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, out = table(tmp_path, [row(1), row(2)]), tmp_path / "o.csv"
    called = ("triage", str(file), "-o", str(out), *DAY)

    def full(self: Any) -> Any:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patch:
        patch.setattr(triage_result, "_without_formulas", full)
        done = command(*called)
    assert done.code == 1 and "2 rows are kept" in done.err
    assert [path.name for path in tmp_path.glob("*")].count("o.csv") == 0
    assert not list(tmp_path.glob(".o.*"))
    assert "Going on after 2 rows" in command(*called).err
    assert len(told(out)) == 2


def test_a_folder_that_may_not_be_written_is_told(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Simulated, since the superuser of a container may write anywhere."""
    file = table(tmp_path, [row(1)])

    def forbidden(**words: Any) -> Any:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(words.get("dir")))

    monkeypatch.setattr(files.tempfile, "TemporaryFile", forbidden)
    done = command("triage", str(file), "-o", str(tmp_path / "o.csv"), *DAY)
    assert done.code == 1 and "Permission denied" in done.err and str(tmp_path) in done.err
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]


def test_a_run_that_was_killed_goes_on_without_losing_or_repeating_a_row(
    command: Command, tmp_path: Path
) -> None:
    file = table(tmp_path, [row(n, ph=f"{4 + n % 40 / 10}") for n in range(60)])
    out, whole = tmp_path / "o.parquet", tmp_path / "whole.parquet"
    called = ["triage", str(file), "--jobs", "1", "--block-rows", "3", *DAY]
    program = f"from loamshift.cli.run import run; run({[*called, '-o', str(out)]!r})"
    with subprocess.Popen([sys.executable, "-c", program], stderr=subprocess.DEVNULL) as run:
        until_s = time.monotonic() + 240.0
        while len(list((tmp_path / "o.parts").glob("*.json"))) < 4:
            assert run.poll() is None and time.monotonic() < until_s
            time.sleep(0.01)
        run.send_signal(signal.SIGKILL)
    kept = {path.name: path.stat().st_mtime_ns for path in (tmp_path / "o.parts").glob("0*")}
    assert kept and not out.exists()
    half = tmp_path / "o.parts" / "00000002.parquet"
    half.write_bytes(half.read_bytes()[:-7])  # as a disk that lost its power leaves a file
    done = command(*called, "-o", str(out))
    assert done.code == 0 and "Going on after" in done.err
    assert command(*called, "-o", str(whole)).code == 0
    assert out.read_bytes() == whole.read_bytes()
    assert pq.read_table(out).column("key").to_pylist() == [str(n) for n in range(60)]


def test_parts_of_another_run_are_not_mixed_in(command: Command, tmp_path: Path) -> None:
    file, out = table(tmp_path, [row(1)]), tmp_path / "o.csv"
    parts = tmp_path / "o.parts"
    parts.mkdir()
    (parts / "run.json").write_text(json.dumps({"seed": 7}))
    called = ("triage", str(file), "-o", str(out), *DAY)
    done = command(*called)
    assert done.code == 1 and "another run" in done.err and "seed" in done.err
    assert command(*called, "--restart").code == 0


def test_the_whole_of_it_as_json(command: Command, tmp_path: Path) -> None:
    file = table(tmp_path, [row(1, plant="cabbage"), stopped(2)])
    done = command("triage", str(file), "-o", str(tmp_path / "o.csv"), "--json", *DAY)
    found = json.loads(done.out)
    assert found["verdicts"] == {"leave": 1, "stop": 1}
    assert found["called"][0]["key"] == "2"


PLANNED_HEAD = ["id", "soil.ph", "soil.ph_method", "soil.texture", "aim.plant"]
PLANNED_HEAD += ["planned[1].material", "planned[1].rate", "planned[1].date"]


def planned_table(folder: Path) -> Path:
    """One bed with a plan of its own."""
    path = folder / "planned.csv"
    row_of = ["1", "6.9", "water 1:1", "loam", "blueberry", "elemental sulfur, powder", "40"]
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([PLANNED_HEAD, [*row_of, "2026-05-01"]])
    return path


def test_plans_in_a_table_ask_for_a_forecast_and_a_card_for_plans(
    command: Command, tmp_path: Path
) -> None:
    plans, out = planned_table(tmp_path), str(tmp_path / "out.csv")
    without = command("triage", str(plans), "-o", out, *DAY)
    assert without.code == 1 and "Give --forecast" in without.err
    plain = table(tmp_path, [row(1)])
    no_plans = command("triage", str(plain), "-o", out, "--forecast", "--device", "cuda", *DAY)
    assert no_plans.code == 1 and "this table has none" in no_plans.err
    assert not Path(out).exists()


def test_no_card_is_told_and_only_auto_goes_on_without_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from loamshift.cli.triage_result import Paths
    from loamshift.cli.triage_run import device_of_run
    from loamshift.core import column_many_cuda
    from loamshift.domain.worded_error import WordedError
    from loamshift.errors import DeviceError

    def none() -> None:
        raise DeviceError("no graphics card")

    monkeypatch.setattr(column_many_cuda, "need_card", none)
    paths = Paths(out=tmp_path / "out.csv")
    assert device_of_run(paths, "cpu") == device_of_run(paths, "auto") == "cpu"
    with pytest.raises(WordedError, match="no graphics card"):
        device_of_run(paths, "cuda")
    paths.parts.mkdir(parents=True)
    (paths.parts / "run.json").write_text(json.dumps({"device": "cuda"}), encoding="utf-8")
    with pytest.raises(WordedError, match="no graphics card"):
        device_of_run(paths, "auto")  # begun on a card, it does not go on elsewhere
    monkeypatch.setattr(column_many_cuda, "need_card", lambda: None)
    assert device_of_run(paths, "auto") == "cuda"
    (paths.parts / "run.json").write_text(json.dumps({"device": "cpu"}), encoding="utf-8")
    assert device_of_run(paths, "auto") == "cpu"
