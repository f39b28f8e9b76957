"""The folder of the machine code: found, keyed, filled, and done without."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from loamshift.cli.kernel_cache import CORE, VARIABLE, kernel_key

CHOOSE = """
from loamshift.cli.kernel_cache import keep_kernels
chosen = keep_kernels()
print(chosen.is_filled, "|", chosen.path, "|", chosen.message)
from loamshift.core.column_compile import IS_KEPT
import numpy as np
from loamshift.core.column_sulfur import ramp
print(IS_KEPT, ramp(np.array([[0.0, 1.0, 10.0]]), 0, 20.0))
"""


def chosen(cache: Path) -> tuple[list[str], str]:
    """What a fresh process says with this user cache: folder line, kernel line."""
    environment = {k: v for k, v in os.environ.items() if k != VARIABLE}
    done = subprocess.run(
        [sys.executable, "-c", CHOOSE],
        env=environment | {"XDG_CACHE_HOME": str(cache)},
        capture_output=True,
        text=True,
        check=True,
        stdin=subprocess.DEVNULL,
    )
    folder, kernel = done.stdout.splitlines()
    return [part.strip() for part in folder.split("|")], kernel


def test_machine_code_is_kept_in_the_users_folder(tmp_path: Path) -> None:
    first, kernel = chosen(tmp_path)
    assert first[0] == "False" and "once" in first[2]
    assert Path(first[1]).is_relative_to(tmp_path) and kernel == "True 15.0"
    again, kernel = chosen(tmp_path)
    assert again == ["True", first[1], ""] and kernel == "True 15.0"


def test_a_folder_that_cannot_be_written_is_done_without(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder", encoding="utf-8")
    folder, kernel = chosen(blocked)
    assert folder[1] == "None" and "in memory" in folder[2].replace("in\nmemory", "in memory")
    assert kernel == "False 15.0"


def test_the_key_changes_with_any_source_of_core(tmp_path: Path) -> None:
    for name in ("a.py", "b.py"):
        (tmp_path / name).write_text("x = 1\n", encoding="utf-8")
    before = kernel_key(tmp_path)
    assert before == kernel_key(tmp_path) != kernel_key(CORE)
    (tmp_path / "b.py").write_text("x = 2\n", encoding="utf-8")
    assert kernel_key(tmp_path) != before


def test_a_column_already_loaded_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    from loamshift.cli.kernel_cache import keep_kernels

    monkeypatch.setitem(sys.modules, "numba", sys)
    monkeypatch.setenv(VARIABLE, "elsewhere")
    assert keep_kernels().path is None
    assert os.environ[VARIABLE] == "elsewhere"
