"""The folder of the machine code: found, keyed, filled, and done without."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from loamshift.cli.kernel_cache import (
    CORE,
    KEPT_D,
    NEWEST,
    VARIABLE,
    kernel_key,
    remove_unused,
    user_cache,
)
from loamshift.cli.kernel_ready import KEPT_FUNCTIONS, is_whole, ready_kernels

DAY_S = 86_400.0
NOW_S = 1_800_000_000.0

CHOOSE = """
from loamshift.cli.kernel_cache import keep_kernels
chosen = keep_kernels()
print(chosen.is_filled, "|", chosen.path, "|", chosen.said and chosen.said.key)
from loamshift.core.column_compile import IS_KEPT
import numpy as np
from loamshift.core.column_kernel import finish, room_for
number, cell, _, _, _, totals, work, _ = room_for(layers=1, doses=0, sizes=1)
sums = np.zeros((0, 7))
finish(0, cell, np.zeros((2, 3)), number, totals, work, np.zeros((0, 2, 1)), sums)
print(IS_KEPT, sums.size)
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


@dataclass(frozen=True)
class Filled:
    """A user cache after its first run: what that run said, and another version's old folder."""

    cache: Path
    said: list[str]
    kernel: str
    old: Path


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Filled:
    cache = tmp_path_factory.mktemp("cache")
    old = folder_used(cache / "loamshift", 7, days_ago=0.0)
    os.utime(old, (0.0, 0.0))
    return Filled(cache, *chosen(cache), old)


def test_machine_code_is_kept_in_the_users_folder(filled: Filled) -> None:
    first = filled.said
    assert first[0] == "False" and first[2] == "cli-compiling"
    assert Path(first[1]).is_relative_to(filled.cache) and filled.kernel == "True 0"
    os.utime(first[1], (0.0, 0.0))
    again, kernel = chosen(filled.cache)
    assert again == ["True", first[1], "None"] and kernel == "True 0"
    assert Path(first[1]).stat().st_mtime > 0.0, "marked as used"


def test_a_first_run_removes_what_nobody_uses(filled: Filled) -> None:
    assert not filled.old.exists()


def test_a_folder_that_cannot_be_written_is_done_without(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder", encoding="utf-8")
    folder, kernel = chosen(blocked)
    assert folder[1] == "None" and folder[2] == "cli-not-compiled"
    assert kernel == "False 0"


READ_ONLY = """
import errno
from loamshift.cli import kernel_cache
def refuse(folder, size):
    if not folder.name.startswith("loamshift-"):
        raise OSError(errno.EROFS, "Read-only file system")
kernel_cache._try_to_write = refuse
"""
HITS = """
print(sum(finish.stats.cache_hits.values()), sum(finish.stats.cache_misses.values()))
"""


def test_a_filled_folder_that_may_only_be_read_is_used(filled: Filled) -> None:
    first = filled.said
    before = sorted(path.name for path in Path(first[1]).rglob("*"))
    done = subprocess.run(
        [sys.executable, "-c", READ_ONLY + CHOOSE + HITS],
        env={k: v for k, v in os.environ.items() if k != VARIABLE}
        | {"XDG_CACHE_HOME": str(filled.cache)},
        capture_output=True,
        text=True,
        check=True,
        stdin=subprocess.DEVNULL,
    )
    folder, kernel, hits = done.stdout.splitlines()
    was_filled, copied, said = (part.strip() for part in folder.split("|"))
    assert (was_filled, said, kernel, hits) == ("True", "None", "True 0", "1 0")
    assert copied != first[1] and not Path(copied).exists()
    assert sorted(path.name for path in Path(first[1]).rglob("*")) == before


def test_an_empty_folder_that_may_only_be_read_is_done_without(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", f"{READ_ONLY}print(kernel_cache.keep_kernels())"],
        env={k: v for k, v in os.environ.items() if k != VARIABLE}
        | {"XDG_CACHE_HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert "path=None" in done.stdout and "cli-not-compiled" in done.stdout


COPIES = """
import shutil, sys, time
from pathlib import Path
from loamshift.cli import kernel_ready
from loamshift.cli.run import run
made, to, log = (Path(word) for word in sys.argv[1:4])
def compile_all():
    with log.open("a") as file:
        file.write("compiled ")
    time.sleep(1.0)
    for folder in made.iterdir():
        if folder.is_dir():
            shutil.copytree(folder, next((to / "loamshift").iterdir()) / folder.name)
kernel_ready.compile_all = compile_all
sys.exit(run(sys.argv[4:]))
"""


def test_two_runs_at_once_compile_once(tmp_path: Path) -> None:
    """The second waits for the first, says so, and takes what it left.

    What it leaves is copied from the folder of these tests: that it can be compiled beside
    something else is tried in ``test_kernel_beside``.
    """
    ready_kernels()
    case = Path(__file__).parents[2] / "examples" / "bean-rows.toml"
    cache, log = tmp_path / "cache", tmp_path / "log"
    words = [os.environ[VARIABLE], str(cache), str(log)]
    runs = [
        subprocess.Popen(
            [sys.executable, "-c", COPIES, *words, "advise", str(case), "--members", "25"],
            env={k: v for k, v in os.environ.items() if k != VARIABLE}
            | {"XDG_CACHE_HOME": str(cache)},
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
        for _ in range(2)
    ]
    said = sorted(run.communicate(timeout=300)[1] for run in runs)
    assert [run.returncode for run in runs] == [0, 0]
    assert said[0].startswith("Another run is compiling") and said[1].startswith("Compiling")
    assert log.read_text(encoding="utf-8") == "compiled "
    (folder,) = (cache / "loamshift").iterdir()
    assert is_whole(folder)
    entries = {path.name for path in folder.rglob("*.nb?")}
    # what other tests compile at the same time, for arrays of their own, comes to theirs alone
    assert entries <= {path.name for path in Path(words[0]).rglob("*.nb?")}, "none compiled again"


def test_the_smallest_case_compiles_all_that_is_kept() -> None:
    kept = sum(path.read_text("utf-8").count("\n@outermost\n") for path in CORE.glob("column*.py"))
    assert kept == KEPT_FUNCTIONS


def test_the_key_changes_with_any_source_of_core(tmp_path: Path) -> None:
    for name in ("a.py", "b.py"):
        (tmp_path / name).write_text("x = 1\n", encoding="utf-8")
    before = kernel_key(tmp_path)
    assert before == kernel_key(tmp_path) != kernel_key(CORE)
    os.utime(tmp_path / "b.py", (NOW_S, NOW_S))
    dated = kernel_key(tmp_path)
    assert dated != before, "the compiler's library takes nothing of a file of another time"
    (tmp_path / "b.py").write_text("x = 2\n", encoding="utf-8")
    os.utime(tmp_path / "b.py", (NOW_S, NOW_S))
    assert kernel_key(tmp_path) != dated
    copied = tmp_path / "copied"
    shutil.copytree(tmp_path, copied, ignore=lambda *_: ["copied"])
    assert kernel_key(copied) != kernel_key(tmp_path)


def test_a_column_already_loaded_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    from loamshift.cli.kernel_cache import keep_kernels

    monkeypatch.setitem(sys.modules, "numba", sys)
    monkeypatch.setenv(VARIABLE, "elsewhere")
    assert keep_kernels().path is None
    assert os.environ[VARIABLE] == "elsewhere"


def folder_used(home: Path, number: int, *, days_ago: float) -> Path:
    folder = home / f"{number:032x}"
    (folder / "core_1").mkdir(parents=True)
    (folder / "core_1" / "kernel.nbc").write_bytes(b"code")
    os.utime(folder, (NOW_S - days_ago * DAY_S,) * 2)
    return folder


def test_a_month_without_use_and_the_folder_goes(tmp_path: Path) -> None:
    ours = folder_used(tmp_path, 1, days_ago=2 * KEPT_D)
    old = folder_used(tmp_path, 2, days_ago=KEPT_D + 0.1)
    new = folder_used(tmp_path, 3, days_ago=KEPT_D - 0.1)
    (tmp_path / "letters").mkdir()
    os.utime(tmp_path / "letters", (0.0, 0.0))
    remove_unused(tmp_path, keep=ours, now_s=NOW_S)
    assert sorted(tmp_path.iterdir()) == sorted([ours, new, tmp_path / "letters"])
    assert not old.exists()


def test_only_the_newest_few_are_kept_and_none_in_use_goes(tmp_path: Path) -> None:
    ours = folder_used(tmp_path, 0, days_ago=0.0)
    others = [folder_used(tmp_path, n, days_ago=n + 0.5) for n in range(1, NEWEST + 3)]
    today = [folder_used(tmp_path, 100 + n, days_ago=0.5) for n in range(2)]
    remove_unused(tmp_path, keep=ours, now_s=NOW_S)
    kept = [ours, *today, *others[: NEWEST - 1 - len(today)]]
    assert sorted(tmp_path.iterdir()) == sorted(kept)


def test_what_two_runs_remove_at_once_is_no_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = folder_used(tmp_path, 2, days_ago=100.0)
    monkeypatch.setattr(Path, "iterdir", lambda _: iter([old, tmp_path / f"{3:032x}"]))
    remove_unused(tmp_path, keep=tmp_path, now_s=NOW_S)
    remove_unused(tmp_path, keep=tmp_path, now_s=NOW_S)
    assert not old.exists()


def test_what_a_stopped_removal_left_is_removed_later(tmp_path: Path) -> None:
    folder_used(tmp_path, 2, days_ago=100.0).rename(tmp_path / f"{2:032x}.old123")
    remove_unused(tmp_path, keep=tmp_path / "ours", now_s=NOW_S)
    assert not list(tmp_path.iterdir())


def test_a_relative_cache_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", "cache")
    assert user_cache().is_absolute()
