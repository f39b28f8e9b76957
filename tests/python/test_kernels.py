"""The machine code of a forecast from Python lies in the folder that the command uses."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

PROGRAM = """
import os, sys
{before}
from loamshift.python.kernels import ready_for_forecast
ready_for_forecast()
seen = "numba" in sys.modules
import numba
print(os.environ["NUMBA_CACHE_DIR"], numba.config.CACHE_DIR, seen, sep="\\n")
"""


def ran(home: Path, before: str = "") -> subprocess.CompletedProcess[str]:
    kept = {name: value for name, value in os.environ.items() if name != "NUMBA_CACHE_DIR"}
    return subprocess.run(
        [sys.executable, "-c", PROGRAM.format(before=before)],
        capture_output=True,
        text=True,
        env={**kept, "XDG_CACHE_HOME": str(home)},
        check=False,
    )


def test_the_folder_is_chosen_before_the_compiler_is_loaded(tmp_path: Path) -> None:
    done = ran(tmp_path)
    named, used, seen = done.stdout.split()
    assert named == used and Path(named).parent == tmp_path / "loamshift"
    assert seen == "False" and done.stderr == ""


def test_a_compiler_that_somebody_loaded_before_uses_it_too(tmp_path: Path) -> None:
    named, used, seen = ran(tmp_path, before="import numba").stdout.split()
    assert named == used and Path(named).parent == tmp_path / "loamshift"
    assert seen == "True"


def test_a_folder_that_cannot_be_written_is_a_warning(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    done = ran(tmp_path / "file", before="os.environ['NUMBA_CACHE_DIR'] = ''")
    assert "LoamshiftWarning" in done.stderr and "could not be stored" in done.stderr
