"""A full disk and an interrupt leave the old file or none, and say what happened."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

import interrupts
from hardening.fresh import FORECAST, STATIC, environment, loamshift, usual_letter
from loamshift.cli.files import write_whole
from loamshift.cli.kernel_cache import VARIABLE

resource = pytest.importorskip("resource", reason="this system sets no limits on files")
LIMIT_BYTES = 1000
ROOM = """
from loamshift.cli.kernel_cache import keep_kernels
print(keep_kernels())
"""


def nearly_full() -> None:
    """Files of more than a thousand bytes cannot be written, as on a disk that fills up."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (LIMIT_BYTES, LIMIT_BYTES))


@pytest.mark.parametrize("old", [None, "the letter of last year"])
def test_a_full_disk_leaves_the_old_letter_or_none(tmp_path: Path, old: str | None) -> None:
    letter = tmp_path / "letter.md"
    if old is not None:
        letter.write_text(old, encoding="utf-8")
    done = loamshift(*STATIC, "--md", str(letter), before=nearly_full)
    assert done.returncode == 1
    assert b"letter.md cannot be written" in done.stderr and b"Traceback" not in done.stderr
    assert [path.read_text(encoding="utf-8") for path in tmp_path.iterdir()] == [old] * bool(old)


@pytest.mark.parametrize("unbuffered", [None, "1"])
def test_a_printed_answer_that_is_cut_is_exit_1(tmp_path: Path, unbuffered: str | None) -> None:
    with (tmp_path / "answer.json").open("wb") as file:
        done = loamshift(
            *STATIC,
            "--json",
            before=nearly_full,
            stdout=file.fileno(),
            env=environment(PYTHONUNBUFFERED=unbuffered),
        )
    assert done.returncode == 1
    told = json.loads(done.stderr)
    assert (told["error"], told["exit_code"]) == ("no-room", 1)
    assert told["faults"][0]["problem"].startswith("There is no room left to write")
    assert done.stderr.count(b"\n") == 1


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full on this system")
def test_a_full_device_is_exit_1() -> None:
    with Path("/dev/full").open("wb") as full:
        done = loamshift("why", stdout=full.fileno())
    assert done.returncode == 1 and b"no room" in done.stderr


def test_no_room_for_machine_code_is_done_without(tmp_path: Path) -> None:
    env = environment(XDG_CACHE_HOME=str(tmp_path))
    env.pop(VARIABLE)
    done = subprocess.run(
        [sys.executable, "-c", ROOM],
        env=env,
        preexec_fn=nearly_full,
        capture_output=True,
        text=True,
        check=True,
    )
    assert "path=None" in done.stdout and "cli-not-compiled" in done.stdout


def test_an_interrupt_while_writing_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "letter.md"
    file.write_text("old", encoding="utf-8")

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    for name in ("chmod", "replace"):
        with monkeypatch.context() as patch:
            patch.setattr(Path, name, stop)
            with pytest.raises(KeyboardInterrupt):
                write_whole(file, "new " * 10_000, replace=True)
        assert [path.read_text(encoding="utf-8") for path in tmp_path.iterdir()] == ["old"]


@pytest.mark.skipif(os.name == "nt", reason="interrupts are sent otherwise there")
def test_an_interrupt_in_the_middle_is_130_and_leaves_nothing(tmp_path: Path) -> None:
    """Sent while the kernels are compiled: their folder must serve the next run all the same."""
    letter, kernels = tmp_path / "letter.md", tmp_path / "kernels"
    process = subprocess.Popen(
        [sys.executable, "-m", "loamshift", *FORECAST, "--md", str(letter)],
        env=environment(**{VARIABLE: str(kernels)}),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=interrupts.heard,
    )
    assert process.stderr is not None
    assert b"Compiling" in process.stderr.readline()
    while not list(kernels.rglob("*.nbi")) and process.poll() is None:
        time.sleep(0.05)
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=120)
    assert (process.returncode, out) == (130, b"")
    assert err.startswith(b"Stopped") and b"Traceback" not in err
    assert list(tmp_path.iterdir()) == [kernels]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full on this system")
def test_a_device_is_written_into_and_never_replaced() -> None:
    before = Path("/dev/full").stat()
    done = loamshift(*STATIC, "--md", "/dev/full")
    assert done.returncode == 1 and b"/dev/full cannot be written" in done.stderr
    after = Path("/dev/full").stat()
    assert (before.st_ino, before.st_rdev) == (after.st_ino, after.st_rdev)


def test_a_letter_goes_into_a_stream_that_is_named(tmp_path: Path) -> None:
    piped = loamshift(*STATIC, "--md", "/dev/stdout").stdout
    assert piped.startswith(b"# ") and piped == usual_letter()
    with (tmp_path / "letter.md").open("wb") as file:
        assert loamshift(*STATIC, "--md", "/dev/stdout", stdout=file.fileno()).returncode == 0
    assert (tmp_path / "letter.md").read_bytes() == piped


def test_a_link_stays_and_what_it_names_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "letter.md").symlink_to(tmp_path / "folder" / "letter.md")
    for text in ("old", "new"):
        write_whole(tmp_path / "letter.md", text, replace=True)
    assert (tmp_path / "letter.md").is_symlink()
    assert (tmp_path / "folder" / "letter.md").read_text("utf-8") == "new"
