"""No home, an installation that may not be written to, and two runs at once."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from hardening.fresh import FORECAST, ROOT, STATIC, environment, loamshift, usual, usual_letter
from loamshift.cli.kernel_cache import VARIABLE

WATCHED = """
import os, sys
written = []
WRITE = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
CHANGES = ("os.mkdir", "os.rename", "os.remove", "os.rmdir", "os.link", "os.symlink",
           "os.truncate", "os.chmod", "os.utime", "shutil.rmtree", "tempfile.mkstemp")
def watch(event, arguments):
    if event == "open" and isinstance(arguments[0], (str, bytes)):
        if (arguments[2] or 0) & WRITE or set(arguments[1] or "") & set("wax+"):
            written.append(os.fsdecode(arguments[0]))
    elif event in CHANGES:
        written.extend(os.fsdecode(a) for a in arguments[:2] if isinstance(a, (str, bytes)))
sys.addaudithook(watch)
from loamshift.cli.run import run
code = run(sys.argv[1:])
sys.stderr.write("\\n".join(written))
sys.exit(code)
"""
RAMP = """
from loamshift.cli.kernel_cache import keep_kernels
chosen = keep_kernels()
import numpy as np
from loamshift.core.column_kernel import finish, room_for
number, cell, _, _, _, totals, work, _ = room_for(layers=1, doses=0, sizes=1)
sums = np.zeros((0, 7))
finish(0, cell, np.zeros((2, 3)), number, totals, work, np.zeros((0, 2, 1)), sums)
print(sums.size)
"""


def test_nothing_is_written_beside_what_was_asked_for(tmp_path: Path) -> None:
    """So the package may lie where nobody may write; the kernels have a folder of their own."""
    letter = tmp_path / "letter.md"
    done = subprocess.run(
        [sys.executable, "-B", "-c", WATCHED, *FORECAST, "--md", str(letter), "--json"],
        env=environment(),
        cwd=tmp_path,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
    )
    kernels = os.environ[VARIABLE]
    places = [line for line in done.stderr.splitlines() if os.sep in line]
    touched = [Path(tmp_path, line) for line in places if not line.startswith(os.devnull)]
    assert any(path.is_relative_to(tmp_path) for path in touched)
    allowed = [tmp_path, Path(kernels)]
    assert not [p for p in touched if not any(p.is_relative_to(folder) for folder in allowed)]
    assert not [p for p in touched if p.is_relative_to(ROOT / "src")]
    assert [path.name for path in tmp_path.iterdir()] == ["letter.md"]


@pytest.mark.parametrize("home", [None, "a file"])
def test_without_a_home_the_answer_is_the_same(tmp_path: Path, home: str | None) -> None:
    """A forecast is compiled in memory then; that takes longer, and a line says so."""
    if home is not None:
        (tmp_path / "home").write_text("not a folder", encoding="utf-8")
        home = str(tmp_path / "home")
    env = environment(HOME=home)
    env.pop(VARIABLE)
    done = loamshift(*STATIC, "--json", env=env, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout == usual(*STATIC, "--json")
    assert len(list(tmp_path.iterdir())) == (home is not None)


def test_runs_at_once_share_an_empty_cache(tmp_path: Path) -> None:
    env = environment(XDG_CACHE_HOME=str(tmp_path))
    env.pop(VARIABLE)
    runs = [
        subprocess.Popen(
            [sys.executable, "-c", RAMP],
            env=env,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for _ in range(2)
    ]
    results = [(run.communicate(timeout=300), run.returncode) for run in runs]
    assert results == [(("0\n", ""), 0)] * 2
    (folder,) = (tmp_path / "loamshift").iterdir()
    assert list(folder.rglob("*.nbc")) and not list(folder.rglob("*tmp*"))
    again = subprocess.run(
        [sys.executable, "-c", RAMP], env=env, capture_output=True, text=True, check=True
    )
    assert again.stdout == "0\n"


def test_runs_at_once_write_the_same_letter_whole(tmp_path: Path) -> None:
    letter = tmp_path / "letter.md"
    runs = [
        subprocess.Popen(
            [sys.executable, "-m", "loamshift", *STATIC, "--md", str(letter)],
            env=environment(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        for _ in range(2)
    ]
    assert [run.wait(timeout=300) for run in runs] == [0, 0]
    text = letter.read_text(encoding="utf-8")
    assert list(tmp_path.iterdir()) == [letter]
    assert text.encode() == usual_letter()
