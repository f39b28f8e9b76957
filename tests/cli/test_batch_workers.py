"""Cases in several processes: one that dies, one that finds no room, and what is told of each."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from cli.kept import write_case
from loamshift.cli.answering import Wish
from loamshift.cli.batch import errands
from loamshift.cli.batch_letters import End, Errand, Order, Outcome
from loamshift.cli.batch_workers import answer_in_workers
from loamshift.cli.letter_forms import Form
from loamshift.cli.run import OUR_FAULT, TO_MEND

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals and pipes are of POSIX")
ORDER = Order(wish=Wish(years=0), forms=(Form.MD,), paper=None)
FULL = """
import resource, sys
from pathlib import Path
from cli.kept import write_case
from loamshift.cli.answering import Wish
from loamshift.cli.batch import errands
from loamshift.cli.batch_letters import Order
from loamshift.cli.batch_workers import answer_in_workers
from loamshift.cli.letter_forms import Form

if __name__ == "__main__":
    cases = [write_case(Path(f"bed-{number:02}.toml")) for number in range(40)]
    order = Order(wish=Wish(years=0), forms=(Form.MD,), paper=None)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
    told = {}
    todo = dict(enumerate(errands(cases, None)))
    end = answer_in_workers(todo, order, jobs=2, tell=told.__setitem__)
    begun = [outcome for outcome in told.values() if outcome.row.fault]
    print(end, len(begun) <= 2, {outcome.row.fault for outcome in begun})
"""


def beds(folder: Path, count: int) -> dict[int, Errand]:
    cases = [write_case(folder / f"bed-{number}.toml") for number in range(count)]
    return dict(enumerate(errands(cases, None)))


def test_what_dies_and_what_is_to_mend_is_told_and_the_others_go_on(tmp_path: Path) -> None:
    """A process that dies is told for its case."""
    todo = beds(tmp_path, 6)
    (tmp_path / "bed-2.toml").write_text("case = 1\n[soil]\nph = 72\n", "utf-8")
    stuck = tmp_path / "bed-1.toml"
    stuck.unlink()
    os.mkfifo(stuck)  # opened, it waits for a writer for ever
    told: dict[int, Outcome] = {}

    def kill_the_last() -> None:
        until = time.monotonic() + 120.0
        while len(told) < 5 and time.monotonic() < until:
            time.sleep(0.05)
        for process in multiprocessing.active_children():
            os.kill(process.pid or 0, signal.SIGKILL)

    killer = threading.Thread(target=kill_the_last)
    killer.start()
    end = answer_in_workers(todo, ORDER, jobs=2, tell=told.__setitem__)
    killer.join()
    assert end is None and sorted(told) == list(range(6))
    assert told[1].code == OUR_FAULT and "(signal 9)" in told[1].told
    assert told[1].told.startswith("bed-1.toml: ") and "process ended" in told[1].row.fault
    assert told[2].code == TO_MEND and "bed-2.toml, line 3, [soil] ph: " in told[2].told
    assert told[2].files == ()
    for place in (0, 3, 4, 5):
        assert told[place].files == (tmp_path / f"bed-{place}.md",)
        assert told[place].files[0].exists()
    assert not (tmp_path / "bed-1.md").exists()
    assert multiprocessing.active_children() == []


def test_a_dead_process_is_replaced(tmp_path: Path) -> None:
    """One process at a time: the case after the dead one can only be answered by a new one."""
    todo = beds(tmp_path, 3)
    stuck = tmp_path / "bed-1.toml"
    stuck.unlink()
    os.mkfifo(stuck)
    told: dict[int, Outcome] = {}

    def kill_it() -> None:
        until = time.monotonic() + 120.0
        while 0 not in told and time.monotonic() < until:
            time.sleep(0.05)
        time.sleep(0.5)
        for process in multiprocessing.active_children():
            os.kill(process.pid or 0, signal.SIGKILL)

    killer = threading.Thread(target=kill_it)
    killer.start()
    assert answer_in_workers(todo, ORDER, jobs=1, tell=told.__setitem__) is None
    killer.join()
    assert [told[place].code for place in range(3)] == [0, OUR_FAULT, 0]


def test_a_full_disk_ends_it_at_once_and_leaves_nothing(tmp_path: Path) -> None:
    script = tmp_path / "full.py"
    script.write_text(FULL, encoding="utf-8")
    tests = Path(__file__).parents[1]
    done = subprocess.run(
        [sys.executable, str(script)], cwd=tmp_path, capture_output=True, text=True, timeout=120,
        env={**os.environ, "PYTHONPATH": str(tests), "PYTHONDONTWRITEBYTECODE": "1"}, check=True,
    )  # fmt: skip
    assert done.stdout == f"{End.NO_ROOM} True {{'no room'}}\n"
    assert done.stderr == ""
    assert {path.suffix for path in tmp_path.iterdir()} == {".toml", ".py"}
