"""Commands in processes of their own, under conditions that a test chooses."""

from __future__ import annotations

import contextlib
import io
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from loamshift.cli.run import run

ROOT = Path(__file__).resolve().parents[2]
CASE = ROOT / "examples" / "north-border.toml"
TODAY = ("--today", "2026-04-12")
STATIC = ("advise", str(CASE), *TODAY, "--years", "0")
FORECAST = ("advise", str(CASE), *TODAY, "--members", "20", "--years", "1")
SETTINGS = ("LC_", "LANG", "TZ", "PYTHON", "XDG_", "HOME")


def environment(**changed: str | None) -> dict[str, str]:
    """This process's own without anything that says where and in which language; then changes."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(SETTINGS)}
    home = {"HOME": os.environ.get("HOME", "")}
    here = {"PYTHONPATH": str(ROOT / "src")}  # this checkout, whatever is installed
    whole = {"PYTHONDONTWRITEBYTECODE": "1"}  # a full disk would leave half of a compiled module
    return {k: v for k, v in {**kept, **home, **here, **whole, **changed}.items() if v is not None}


@cache
def usual(*arguments: str) -> bytes:
    """What a command prints where nothing is unusual: in this very process, into a file."""
    printed = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    with contextlib.redirect_stdout(printed):
        assert run(list(arguments)) == 0
    printed.flush()
    return printed.buffer.getvalue()


@cache
def usual_letter() -> bytes:
    """The letter of the answer without a forecast, as it is in a file."""
    with tempfile.TemporaryDirectory() as folder:
        letter = Path(folder) / "letter.md"
        assert usual(*STATIC, "--md", str(letter)) == b""
        return letter.read_bytes()


def loamshift(
    *arguments: str,
    env: dict[str, str] | None = None,
    cwd: Path | None = None,
    before: Callable[[], None] | None = None,
    stdout: int = subprocess.PIPE,
) -> subprocess.CompletedProcess[bytes]:
    """Run one command to its end; what it prints as bytes."""
    return subprocess.run(
        [sys.executable, "-m", "loamshift", *arguments],
        env=env or environment(),
        cwd=cwd,
        preexec_fn=before,
        stdin=subprocess.DEVNULL,
        stdout=stdout,
        stderr=subprocess.PIPE,
        timeout=300,
        check=False,
    )
