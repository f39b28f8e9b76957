"""A long table streamed through ``triage``: rows a second, and memory as the table grows.

Reading, keeping and writing are measured with a stand-in for the judgement, so that a million rows
take a minute; the judgement itself is measured on few. Each is a fresh process, by its processor
time.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Final

from benchmarks.figures import Figures, best_s
from pytest_benchmark.fixture import BenchmarkFixture

WORKER: Final = Path(__file__).resolve().parent / "many_worker.py"
ROWS: Final = (100_000, 1_000_000)
JUDGED: Final = 300
FLAT: Final = 1.25
"""Most memory that ten times the rows may take [times]."""


def streamed(rows: int, folder: Path, *words: str) -> dict[str, float]:
    """Rows a second of processor time [1/s] and the most memory held [MB]."""
    command = [sys.executable, str(WORKER), f"{rows}", str(folder), *words]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    found: dict[str, float] = json.loads(done.stdout.splitlines()[-1])
    return found


def test_memory_stays_flat(benchmark: BenchmarkFixture, figures: Figures, tmp_path: Path) -> None:
    """Ten times the rows in about the same memory, at about the same pace."""
    found: list[dict[str, float]] = []

    def both() -> None:
        found.extend(streamed(rows, tmp_path) for rows in ROWS)

    best_s(benchmark, both, rounds=1, warm=False)
    few, many = found
    for rows, one in zip(ROWS, found, strict=True):
        figures.add(benchmark, f"rows streamed, {rows:,}", one["rows_per_s"], "1/s")
        figures.add(benchmark, f"memory with {rows:,} rows", one["most_mb"], "MB")
    name = f"memory with {ROWS[1]:,} rows against {ROWS[0]:,}"
    figures.add(benchmark, name, many["most_mb"] / few["most_mb"], "times", budget=FLAT)


def test_judging_against_streaming(
    benchmark: BenchmarkFixture, figures: Figures, tmp_path: Path
) -> None:
    """What a row costs with its judgement, as many times as without."""
    found: list[dict[str, float]] = []

    def both() -> None:
        found.extend((streamed(JUDGED, tmp_path), streamed(JUDGED, tmp_path, "real")))

    best_s(benchmark, both, rounds=1, warm=False)
    without, judged = found
    figures.add(benchmark, f"rows judged, {JUDGED}", judged["rows_per_s"], "1/s")
    ratio = without["rows_per_s"] / judged["rows_per_s"]
    figures.add(benchmark, "a row judged against one streamed, start included", ratio, "times")
