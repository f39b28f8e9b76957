"""The column compiled beside the workbench, and the compiler loaded without matrices."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from loamshift.cli.kernel_cache import VARIABLE
from loamshift.cli.kernel_ready import KEPT_FUNCTIONS, is_whole, ready_kernels
from loamshift.web.compiled import Compiled

BESIDE = """
import time
from loamshift.cli.kernel_beside import compile_beside
is_ready = compile_beside()
print(is_ready())
until = time.monotonic() + 240.0
while not is_ready() and time.monotonic() < until:
    time.sleep(0.2)
print(is_ready(), compile_beside()())
"""
STOPPED = """
from loamshift.cli.kernel_beside import compile_beside
compile_beside()
"""
COPIED = """
import os, shutil
from pathlib import Path
from loamshift.cli import kernel_ready
made = Path({made!r})
def compile_all():
    for folder in made.iterdir():
        if folder.is_dir():
            shutil.copytree(folder, Path(os.environ[{variable!r}]) / folder.name)
kernel_ready.compile_all = compile_all
"""
"""What a Python that starts with it does instead of compiling."""


def fresh(code: str, cache: Path, **more: str) -> subprocess.CompletedProcess[str]:
    kept = {key: value for key, value in os.environ.items() if key != VARIABLE}
    return subprocess.run(
        [sys.executable, "-c", code],
        env=kept | {"XDG_CACHE_HOME": str(cache)} | more,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=True,
        timeout=300,
    )


def test_the_workbench_goes_on_and_knows_when_the_column_is_compiled(tmp_path: Path) -> None:
    """The process beside copies what these tests have compiled, which takes it no quarter minute.

    That all is compiled that is kept, ``test_two_runs_at_once_compile_once`` holds; that it begins
    beside the workbench, the test below.
    """
    ready_kernels()
    start = tmp_path / "start"
    start.mkdir()
    copied = COPIED.format(made=os.environ[VARIABLE], variable=VARIABLE)
    (start / "sitecustomize.py").write_text(copied, encoding="utf-8")
    path = os.pathsep.join([str(start), *filter(None, [os.environ.get("PYTHONPATH")])])
    done = fresh(BESIDE, tmp_path, PYTHONPATH=path)
    assert done.stdout.split() == ["False", "True", "True"]
    assert done.stderr.count("in the background") == 1
    (folder,) = (tmp_path / "loamshift").iterdir()
    assert is_whole(folder)


def test_a_workbench_that_ends_early_ends_the_compiling(tmp_path: Path) -> None:
    fresh(STOPPED, tmp_path)
    (folder,) = (tmp_path / "loamshift").iterdir()
    assert len(list(folder.rglob("*.nbi"))) < KEPT_FUNCTIONS


@pytest.mark.parametrize("said", [[True], [False, True], [False, False, True]])
def test_once_compiled_nobody_is_asked_again(said: list[bool]) -> None:
    compiled, answers = Compiled(), iter(said)
    assert compiled.is_ready
    compiled.ask(lambda: next(answers))
    assert [compiled.is_ready for _ in (*said, "again")] == [*said, True]
