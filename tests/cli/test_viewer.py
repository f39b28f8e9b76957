"""Showing a written letter: the machine's viewer is started, or the user is told."""

from __future__ import annotations

import stat
import sys
import time
from pathlib import Path

import pytest

from cli.kept import write_case
from loamshift.cli import viewer


@pytest.fixture
def shown(monkeypatch) -> list[Path]:
    """What would have been opened; nothing is."""
    paths: list[Path] = []
    monkeypatch.setattr(viewer, "show_file", lambda path: paths.append(path) or True)
    return paths


def test_the_page_goes_before_the_pdf(command, tmp_path: Path, shown: list[Path]) -> None:
    case, page, pdf = write_case(tmp_path / "a.toml"), tmp_path / "a.html", tmp_path / "a.pdf"
    options = ("--years", "0", "--open")
    assert command("advise", str(case), "--html", str(page), *options).code == 0
    assert command("advise", str(case), "--pdf", str(pdf), *options).code == 0
    both = ("--html", str(page), "--pdf", str(pdf))
    assert command("advise", str(case), *both, *options).code == 0
    assert shown == [page, pdf, page]


def test_of_several_letters_the_folder_is_shown(command, tmp_path: Path, shown) -> None:
    write_case(tmp_path / "beds" / "a.toml")
    write_case(tmp_path / "beds" / "b.toml")
    out = tmp_path / "out"
    quick = ("--years", "0", "--open")
    command("advise", str(tmp_path / "beds"), "--out", str(out), *quick)
    command("advise", str(tmp_path / "beds" / "a.toml"), "--as", "html", *quick)
    command("advise", str(tmp_path / "beds"), "--as", "md", *quick)
    assert shown == [out, tmp_path / "beds" / "a.html"]


@pytest.mark.parametrize("name", ["advise", "reprint"])
def test_without_a_page_or_pdf_there_is_nothing_to_show(command, tmp_path, shown, name) -> None:
    case = write_case(tmp_path / "a.toml")
    result = command(name, str(case), "--md", str(tmp_path / "a.md"), "--open")
    assert result.code == 2 and "--html" in result.err and not shown
    assert not (tmp_path / "a.md").exists()


def test_a_reprint_is_shown(command, tmp_path: Path, shown: list[Path]) -> None:
    case, answer = write_case(tmp_path / "a.toml"), tmp_path / "a.json"
    answer.write_text(command("advise", str(case), "--json", "--years", "0").out, "utf-8")
    page = tmp_path / "x.html"
    assert command("reprint", str(answer), "--html", str(page), "--open").code == 0
    assert shown == [page]


@pytest.mark.skipif(sys.platform == "win32", reason="the fake viewer is a shell script")
def test_the_viewer_gets_the_whole_path_and_nobody_waits_for_it(
    tmp_path: Path, monkeypatch
) -> None:
    fake, told = tmp_path / "viewer", tmp_path / "told.txt"
    fake.write_text(f'#!/bin/sh\nprintf %s "$1" > "{told}.part"\nmv "{told}.part" "{told}"\n')
    fake.chmod(fake.stat().st_mode | stat.S_IXUSR)
    monkeypatch.setattr(viewer, "opener", lambda: (str(fake),))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "-a b.html").write_text("x", "utf-8")
    assert viewer.show_file(Path("-a b.html"))
    for _ in range(200):
        if told.exists():
            break
        time.sleep(0.02)
    assert told.read_text("utf-8") == str((tmp_path / "-a b.html").resolve())


def test_a_machine_without_a_viewer_says_which_file(tmp_path: Path, monkeypatch, capsys) -> None:
    monkeypatch.setattr(viewer, "opener", lambda: (str(tmp_path / "none"),))
    assert viewer.show_file(tmp_path / "a.html") is False
    viewer.show_or_say(tmp_path / "a.html")
    assert str(tmp_path / "a.html") in capsys.readouterr().err
    monkeypatch.setattr(viewer, "opener", lambda: ())
    monkeypatch.setattr("webbrowser.open", lambda address: address.startswith("file:"))
    assert viewer.show_file(tmp_path / "a.html") is True
