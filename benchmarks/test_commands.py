"""What a user waits for: commands in fresh processes, the first run of all, and their memory."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any, Final

import pytest
from benchmarks.figures import Figures, beside_s, best_s
from pytest_benchmark.fixture import BenchmarkFixture

from loamshift.cli.kernel_cache import VARIABLE

ROOT: Final = Path(__file__).resolve().parents[1]
CASE: Final = str(ROOT / "examples" / "north-border.toml")
LINE: Final = "Compiling the forecast"
COMMANDS: Final = {
    "--help": (["--help"], 0.3),
    "advise --json --years 0": (["advise", CASE, "--json", "--years", "0"], 1.0),
    "advise --json": (["advise", CASE, "--json"], 2.0),
}
HEAVY: Final = "import numba, scipy.optimize, pydantic, babel.dates, fluent.runtime, typer"
"""What stands behind a command, whether it loads all of it or not: a measure of the machine."""
COSTS: Final = {
    "advise --json": (["advise", CASE, "--json"], 2.0),
    "advise": (["advise", CASE], 2.0),
    "convert": (["convert", "1 kg", "g"], 0.6),
}
"""Most processor time that a command may take [times that of importing ``HEAVY``]."""
FIRST_RUN_S: Final = 20.0
MEMBERS: Final = (400, 4000)
MOST_TIMES_THE_MEMORY: Final = 1.25
EMPTY: Final = [sys.executable, "-c", "pass"]


def call(command: list[str], **environment: str) -> subprocess.CompletedProcess[str]:
    """One fresh process that must answer."""
    return subprocess.run(
        command,
        env={**os.environ, "NO_COLOR": "1", "PYTHONPATH": "", **environment},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
    )


def loamshift(arguments: list[str]) -> list[str]:
    """The command as a user types it."""
    return [str(Path(sys.executable).parent / "loamshift"), *arguments]


def used_by(command: list[str]) -> Any:
    """What the system counted of a fresh process that must answer.

    It may keep its modules compiled, as it may where it was installed, whatever is set here.
    """
    quiet = subprocess.DEVNULL
    kept = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    with subprocess.Popen(command, env=kept, stdin=quiet, stdout=quiet, stderr=quiet) as process:
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0
    return usage


def peak_mb(command: list[str]) -> float:
    """Most memory a fresh process held at a time [MB]."""
    unit = 1e6 if sys.platform == "darwin" else 1e3  # bytes there, KiB elsewhere
    return float(used_by(command).ru_maxrss / unit)


def processor_s(command: list[str]) -> float:
    """Processor time of a fresh process, its own and the system's [s]."""
    usage = used_by(command)
    return float(usage.ru_utime + usage.ru_stime)


@pytest.mark.parametrize("name", COMMANDS)
def test_a_fresh_process(benchmark: BenchmarkFixture, figures: Figures, name: str) -> None:
    """A command as typed, beside a Python that does nothing."""
    arguments, budget_s = COMMANDS[name]
    command = loamshift(arguments)
    seconds, empty_s = beside_s(benchmark, lambda: call(command), lambda: call(EMPTY), rounds=5)
    figures.add(benchmark, f"loamshift {name}", seconds, "s", budget=budget_s)
    figures.add(benchmark, f"loamshift {name}: of an empty Python", seconds / empty_s, "times")


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="this system does not say what was used")
@pytest.mark.parametrize("name", COSTS)
def test_what_a_command_costs_beside_its_parts(
    benchmark: BenchmarkFixture, figures: Figures, name: str
) -> None:
    """Processor time, in turn with that of importing the parts, so that both meet the same load."""
    arguments, budget = COSTS[name]
    parts, command = [sys.executable, "-c", HEAVY], loamshift(arguments)
    took: list[tuple[float, float]] = []
    best_s(benchmark, lambda: took.append((processor_s(command), processor_s(parts))), rounds=5)
    own_s, parts_s = (min(each) for each in zip(*took, strict=True))
    figures.add(benchmark, f"loamshift {name}: processor", own_s, "s")
    figures.add(
        benchmark, f"loamshift {name}: of importing parts", own_s / parts_s, "times", budget=budget
    )


def test_the_first_run_compiles_and_says_so(
    benchmark: BenchmarkFixture, figures: Figures, tmp_path: Path
) -> None:
    """The wait that comes once, and the line that explains it."""
    command = loamshift(["advise", CASE, "--json"])
    said: list[str] = []

    def run() -> None:
        said.append(call(command, **{VARIABLE: str(tmp_path / "kernels")}).stderr)

    seconds = best_s(benchmark, run, rounds=1, warm=False)
    run()
    assert [LINE in text for text in said] == [True, False]
    figures.add(benchmark, "first run, nothing compiled", seconds, "s", budget=FIRST_RUN_S)


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="this system does not say how much was held")
def test_memory_stays_flat(benchmark: BenchmarkFixture, figures: Figures) -> None:
    """Ten times the members in about the same memory."""
    few, many = (
        loamshift(["advise", CASE, "--json", "--members", str(count)]) for count in MEMBERS
    )
    few_mb = peak_mb(few)
    held: list[float] = []
    best_s(benchmark, lambda: held.append(peak_mb(many)), rounds=1, warm=False)
    figures.add(benchmark, f"memory with {MEMBERS[0]} members", few_mb, "MB")
    figures.add(
        benchmark,
        f"memory with {MEMBERS[1]} members against {MEMBERS[0]}",
        max(held) / few_mb,
        "times",
        budget=MOST_TIMES_THE_MEMORY,
    )
