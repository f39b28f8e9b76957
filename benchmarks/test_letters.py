"""What letters cost beside the advice in them, what they leave in memory, and batches of them.

The version before sheets were set in one process and charts drawn by one stack can stand beside
this one, in a process of its own, so that a busy machine slows both alike. It needs packages that
this one has no more: name a Python that has them in ``LOAMSHIFT_BEFORE_PYTHON``.
"""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
import tarfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest
from benchmarks.figures import Figures
from benchmarks.many_cases import EXAMPLES, write_cases
from pytest_benchmark.fixture import BenchmarkFixture

ROOT: Final = Path(__file__).resolve().parents[1]
WORKER: Final = Path(__file__).resolve().parent / "letters_worker.py"
BEFORE: Final = "71bc0d1"
"""The last commit whose charts were drawn by a browser's stack, and whose PDFs stayed in memory."""
BEFORE_PYTHON: Final = "LOAMSHIFT_BEFORE_PYTHON"
PDFS: Final = 100
CASES: Final = 48
"""Cases of a batch; ``many_cases.py`` writes 500 of the same kinds to run by hand."""
MOST_HTML, MOST_PDF, MOST_OF_BEFORE, MOST_MB = 1.5, 2.0, 0.25, 50.0
MOST_DRAWN: Final = 0.5
"""Share of the processor that drawing may take, where advice is to be what limits a batch."""
LEAST_FASTER: Final = 1.5

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="memory is read off /proc")


class Worker:
    """One version, asked a line and answering a line."""

    def __init__(self, python: str, source: Path) -> None:
        self._process = subprocess.Popen(
            [python, str(WORKER)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            env={**os.environ, "PYTHONPATH": str(source)},
        )

    def ask(self, *words: object) -> dict[str, float]:
        """The figures that a question is answered with."""
        assert self._process.stdin is not None and self._process.stdout is not None
        self._process.stdin.write(" ".join(map(str, words)) + "\n")
        self._process.stdin.flush()
        answer: dict[str, float] = json.loads(self._process.stdout.readline())
        return answer

    def close(self) -> None:
        """End it."""
        self._process.communicate(timeout=60)


@pytest.fixture(scope="module")
def sources(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[str, Path]]:
    """Python and folder of this version, and of the one before where it can run."""
    found = {"now": (sys.executable, ROOT / "src")}
    python = os.environ.get(BEFORE_PYTHON)
    if not python:
        return found
    packed = subprocess.run(["git", "archive", BEFORE, "src"], cwd=ROOT, capture_output=True)
    assert packed.returncode == 0, f"commit {BEFORE} is not in this checkout"
    folder = tmp_path_factory.mktemp("before")
    with tarfile.open(fileobj=io.BytesIO(packed.stdout)) as archive:
        archive.extractall(folder, filter="data")
    return found | {"before": (python, folder / "src")}


@pytest.fixture
def versions(sources: dict[str, tuple[str, Path]]) -> Iterator[dict[str, Worker]]:
    """A fresh process of each version."""
    started = {name: Worker(*source) for name, source in sources.items()}
    yield started
    for worker in started.values():
        worker.close()


@pytest.fixture(scope="module")
def cases(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Cases no two of which are alike."""
    return write_cases(tmp_path_factory.mktemp("cases"), PDFS)


def once(benchmark: BenchmarkFixture, work: Any) -> None:
    """Give the table of timings one to show; the figures have their own clocks."""
    pedantic: Any = benchmark.pedantic
    pedantic(work, rounds=1)


def test_letters_beside_their_advice(
    benchmark: BenchmarkFixture, figures: Figures, versions: dict[str, Worker], cases: list[Path]
) -> None:
    """The twelve examples as JSON, HTML and PDF, each once: a second time its pictures are known.

    The versions take turns, case by case.
    """
    for worker in versions.values():
        worker.ask("letter", cases[0])  # a case of its own loads and compiles everything
    took: dict[str, list[dict[str, float]]] = {name: [] for name in versions}

    def letters() -> None:
        for case in EXAMPLES:
            for name, worker in versions.items():
                took[name].append(worker.ask("letter", case))

    once(benchmark, letters)

    def total(name: str, *keys: str) -> float:
        return sum(one[key] for one in took[name] for key in keys)

    for form, most in (("html", MOST_HTML), ("pdf", MOST_PDF)):
        for name in versions:
            ratio = total(name, "answer", form) / total(name, "answer", "json")
            budget = most if name == "now" else None
            words = f"twelve examples, {form.upper()} of the CPU of JSON, {name}"
            figures.add(benchmark, words, ratio, "times", budget=budget)
    if "before" in versions:
        for what, keys in (
            ("without advice", ("html", "pdf")),
            ("with advice", ("answer", "html", "pdf")),
        ):
            words = f"twelve examples as HTML and PDF, {what}: CPU, of before"
            of_before = total("now", *keys) / total("before", *keys)
            figures.add(benchmark, words, of_before, "times", budget=MOST_OF_BEFORE)
    for name in versions:
        for key in ("answer", "json", "html", "pdf"):
            words = f"a letter's CPU, {name}: {key}"
            figures.add(benchmark, words, 1e3 * total(name, key) / len(EXAMPLES), "ms")
    assert total("now", "pdf") > 0.0


def test_pdfs_leave_no_memory_behind(
    benchmark: BenchmarkFixture, figures: Figures, versions: dict[str, Worker], cases: list[Path]
) -> None:
    """A hundred different letters set one after another in one process."""
    grown: dict[str, dict[str, float]] = {}
    once(
        benchmark,
        lambda: grown.update(
            {name: worker.ask("memory", PDFS, *cases) for name, worker in versions.items()}
        ),
    )
    for name, found in grown.items():
        budget = MOST_MB if name == "now" else None
        words = f"{PDFS} different PDFs in one process leave behind, {name}"
        figures.add(benchmark, words, found["growth"], "MB", budget=budget)
        figures.add(benchmark, f"the most held meanwhile, {name}", found["most"], "MB")
    assert set(grown) == set(versions)


def test_what_a_batch_of_html_is_made_of(
    benchmark: BenchmarkFixture, figures: Figures, versions: dict[str, Worker], cases: list[Path]
) -> None:
    """The share of the processor that is advice, and the share that is drawing."""
    for worker in versions.values():
        worker.ask("letter", cases[0])
    once(benchmark, lambda: versions["now"].ask("letter", cases[0]))
    for name, worker in versions.items():
        took = [worker.ask("letter", case) for case in cases[:CASES]]
        advice, drawn = (sum(one[key] for one in took) for key in ("answer", "html"))
        budget = MOST_DRAWN if name == "now" else None
        words = f"{CASES} cases to HTML: share of the CPU that is drawing, {name}"
        figures.add(benchmark, words, drawn / (advice + drawn), "", budget=budget)
        words = f"{CASES} cases to HTML: CPU a case, {name}"
        figures.add(benchmark, words, (advice + drawn) / CASES, "s")
        assert advice > 0.0 and drawn > 0.0


def test_cases_a_second(
    benchmark: BenchmarkFixture, figures: Figures, cases: list[Path], tmp_path: Path
) -> None:
    """A batch as typed, with one process and with two, starting included."""
    took: dict[int, float] = {}

    def batch(jobs: int) -> None:
        out = tmp_path / f"out-{jobs}"
        command = [sys.executable, "-m", "loamshift", "advise", *map(str, cases[:CASES])]
        begun = time.perf_counter()
        subprocess.run(
            [*command, "--as", "html", "--jobs", str(jobs), "--out", str(out)],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=True,
        )
        took[jobs] = time.perf_counter() - begun
        assert len(list(out.glob("*.html"))) == CASES

    batch(1)
    once(benchmark, lambda: batch(2))
    for jobs, seconds in took.items():
        words = f"{CASES} cases to HTML with --jobs {jobs}"
        figures.add(benchmark, words, CASES / seconds, "1/s")
    words = f"two jobs against one, on {os.cpu_count()} cores: faster"
    figures.add(benchmark, words, took[1] / took[2], "times", budget=LEAST_FASTER, is_floor=True)
