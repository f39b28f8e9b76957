from __future__ import annotations

import io
import os
import signal
import stat
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest

import interrupts
import loamshift.cli.new as new
from loamshift.case.read import read_case

ONE_LINE = (
    *("--ph", "7.2", "--texture", "loam", "--om", "3", "--area", "20 m2"),
    *("--plant", "highbush blueberry", "--place", "Minneapolis"),
)


def typed(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    """Somebody at the keyboard who types these lines."""
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
    monkeypatch.setattr(new, "interactive", lambda: True)


def test_one_line_writes_a_case_that_reads(command, tmp_path: Path) -> None:
    from datetime import date

    result = command("new", *ONE_LINE)
    assert result.code == 0 and result.err == ""
    tree = tomllib.loads(result.out)
    assert tree["soil"]["ph"] == 7.2 and tree["bed"]["area"] == "20 m2"
    path = tmp_path / "bed.toml"
    path.write_text(result.out, encoding="utf-8")
    case = read_case(path, today=date(2026, 4, 12))
    assert [plant.key for plant in case.aim.plants] == ["highbush blueberry"]
    assert case.place is not None and case.bed.area_m2 == 20.0


@pytest.mark.parametrize("name", ["12", "1e3", "inf", "-4", "2026-04-12", "true"])
def test_a_bed_may_be_called_by_a_number(command, name: str) -> None:
    result = command("new", "--ph", "7.2", f"--name={name}")
    assert result.code == 0, result.err
    tree = tomllib.loads(result.out)
    assert (tree["name"], tree["soil"]["ph"]) == (name, 7.2)


def test_a_place_nobody_knows_is_kept_and_answered_without(command, tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    assert command("new", str(path), "--ph", "7.2", "--place", "12").code == 0
    assert tomllib.loads(path.read_text(encoding="utf-8"))["place"]["name"] == "12"
    answer = command("advise", str(path), "--years", "0")
    assert answer.code == 0
    assert "“12” is not a town we know" in " ".join(answer.out.split())


def test_a_file_is_written_and_the_next_step_named(command, tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    result = command("new", str(path), *ONE_LINE)
    assert (result.code, result.out) == (0, "")
    assert "loamshift advise" in result.err
    assert tomllib.loads(path.read_text(encoding="utf-8"))["case"] == 1
    assert [entry.name for entry in tmp_path.iterdir()] == ["bed.toml"]
    assert stat.S_IMODE(path.stat().st_mode) & stat.S_IRUSR


def test_a_file_that_is_there_is_kept_unless_forced(command, tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    path.write_text("mine", encoding="utf-8")
    refused = command("new", str(path), *ONE_LINE)
    assert refused.code == 1 and "--force" in refused.err
    assert path.read_text(encoding="utf-8") == "mine"
    assert command("new", str(path), *ONE_LINE, "--force").code == 0
    assert path.read_text(encoding="utf-8") != "mine"


def test_every_wrong_option_is_told_at_once_and_nothing_written(command, tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    result = command(
        "new", str(path), "--ph", "72", "--texture", "loan", "--plant", "highbush bluberry"
    )
    assert result.code == 1 and not path.exists()
    for key in ("soil.ph", "soil.texture", "aim.plant"):
        assert key in result.err


def test_a_folder_or_a_missing_folder_is_said(command, tmp_path: Path) -> None:
    assert command("new", str(tmp_path), *ONE_LINE, "--force").code == 1
    missing = tmp_path / "nowhere"
    result = command("new", str(missing / "bed.toml"), *ONE_LINE)
    assert result.code == 1 and result.err == f"There is no folder {missing}. Create it first.\n"


def test_without_a_keyboard_and_options_it_is_wrong_usage(command, monkeypatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    result = command("new")
    assert result.code == 2 and result.out == "" and "keyboard" in result.err


def test_the_questions_make_a_case_and_wrong_answers_are_asked_again(command, monkeypatch) -> None:
    typed(
        monkeypatch,
        "North border",
        "highbush bluberry",  # misspelt: asked again
        "highbush blueberry",
        "no",
        "72",  # a slipped point: asked again
        "7.2",
        "water 1:5",
        "2026-03-20",
        "15 cm",
        "slight",
        "vinegar",
        "loam",
        "3",
        "ground",
        "20 m2",
        "15 cm",
        "free",
        "180 mg/L CaCO3",
        "25 mm",
        "Minneapolis",
        "metric",
    )
    result = command("new", "--today", "2026-04-12")
    # --today alone is no answer, so the questions were asked
    assert result.code == 0, result.err
    tree = tomllib.loads(result.out)
    assert tree["name"] == "North border"
    assert tree["aim"]["plant"] == ["highbush blueberry"]
    assert tree["soil"]["ph"] == 7.2 and tree["soil"]["ph_method"] == "water 1:5"
    assert tree["bed"]["planted"] is False
    assert "highbush blueberry" in result.err  # the nearest name was offered
    assert "7.2" in result.err


def test_enter_passes_a_question_by(command, monkeypatch) -> None:
    typed(monkeypatch, *[""] * 30)
    result = command("new")
    assert result.code == 0
    tree = tomllib.loads(result.out)
    assert tree.pop("case") == 1
    assert all(table == {} for table in tree.values())


def test_answers_that_end_early_write_nothing(command, monkeypatch, tmp_path: Path) -> None:
    typed(monkeypatch, "North border")
    result = command("new", str(tmp_path / "bed.toml"))
    assert result.code == 1 and "Nothing was written" in result.err
    assert list(tmp_path.iterdir()) == []


def test_what_follows_from_an_answer_is_not_asked(command, monkeypatch) -> None:
    typed(monkeypatch, *[""] * 30)
    result = command("new")
    assert "How was it read?" not in result.err and "Which acid" not in result.err
    assert "Which pH do you want?" in result.err


@pytest.mark.skipif(os.name == "nt", reason="needs a pseudo-terminal")
def test_ctrl_c_leaves_nothing_behind(tmp_path: Path) -> None:
    import pty

    parent, child = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "loamshift", "new", "bed.toml"],
        stdin=child,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=tmp_path,
        start_new_session=True,
        preexec_fn=interrupts.heard,
    )
    os.close(child)
    try:
        os.write(parent, b"North border\n")
        time.sleep(1.5)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=20)
    finally:
        os.close(parent)
        process.kill()
    assert process.returncode in (1, 130)
    assert b"Traceback" not in err and out == b""
    assert list(tmp_path.iterdir()) == []
