"""What an answer costs against the version before one belief and one plan stood behind it.

Both versions run side by side, each in a process that stays, asked in turn; the processor time
of their answers is compared, so that a busy machine slows both alike.
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
import tarfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest
from benchmarks.figures import Figures
from pytest_benchmark.fixture import BenchmarkFixture

ROOT: Final = Path(__file__).resolve().parents[1]
WORKER: Final = Path(__file__).resolve().parent / "advise_worker.py"
BEFORE: Final = "3732e4a"
"""The last commit that judged by the curve, planned by a search and forecast by the column."""
ROUNDS: Final = 5
BUDGETS: Final = {"full": 1.6, "static": 1.0, "decision": 1.0}
"""Most that each question may cost, all cases together [times as much as before]."""
CASES: Final = sorted((ROOT / "examples").glob("*.toml"))


class Worker:
    """One version, answering questions about cases with the seconds they took."""

    def __init__(self, source: Path) -> None:
        self._process = subprocess.Popen(
            [sys.executable, str(WORKER)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            env={**os.environ, "PYTHONPATH": str(source)},
        )

    def ask(self, question: str, case: Path) -> float:
        """Processor time of one answer [s]."""
        assert self._process.stdin is not None and self._process.stdout is not None
        self._process.stdin.write(f"{question} {case}\n")
        self._process.stdin.flush()
        return float(self._process.stdout.readline())

    def close(self) -> None:
        """End it."""
        assert self._process.stdin is not None
        self._process.stdin.close()
        self._process.wait(timeout=60)


@pytest.fixture(scope="module")
def versions(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Worker, Worker]]:
    """The version before, from the history of this checkout, and the one that stands here."""
    packed = subprocess.run(
        ["git", "archive", BEFORE, "src"], cwd=ROOT, capture_output=True, check=False
    )
    if packed.returncode:
        pytest.skip(f"commit {BEFORE} is not in this checkout: a shallow clone cannot compare")
    folder = tmp_path_factory.mktemp("before")
    with tarfile.open(fileobj=io.BytesIO(packed.stdout)) as archive:
        archive.extractall(folder, filter="data")
    before, now = Worker(folder / "src"), Worker(ROOT / "src")
    yield before, now
    before.close()
    now.close()


@pytest.mark.parametrize("question", BUDGETS)
def test_an_answer_costs_little_more_than_before(
    benchmark: BenchmarkFixture,
    figures: Figures,
    versions: tuple[Worker, Worker],
    question: str,
) -> None:
    """All example cases, the shortest of some answers to each."""
    before, now = versions
    old: dict[str, float] = {}
    new: dict[str, float] = {}
    for case in CASES:
        for version in versions:
            version.ask(question, case)  # compiled and read once
        times = [(before.ask(question, case), now.ask(question, case)) for _ in range(ROUNDS)]
        old[case.stem], new[case.stem] = (min(each) for each in zip(*times, strict=True))
    pedantic: Any = benchmark.pedantic
    pedantic(lambda: now.ask(question, CASES[0]), rounds=1)
    total = sum(new.values()) / sum(old.values())
    name = f"advise, {question}"
    figures.add(
        benchmark, f"{name}: all cases, of before", total, "times", budget=BUDGETS[question]
    )
    for stem, seconds in new.items():
        words = f"{name}: {stem}, {1e3 * seconds:.0f} ms of processor, of before"
        figures.add(benchmark, words, seconds / old[stem], "times")
    assert all(seconds > 0.0 for seconds in new.values())
