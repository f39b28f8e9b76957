"""One table of figures for a run of the suite, on the terminal and in the JSON."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[1]
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from benchmarks.figures import Figures  # noqa: E402

from loamshift.cli.kernel_cache import keep_kernels  # noqa: E402

GATHERED = pytest.StashKey[Figures]()
keep_kernels()


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config: pytest.Config) -> None:
    """Begin with no figures, and with a table of timings that fits a terminal."""
    config.stash[GATHERED] = Figures()
    config.option.benchmark_columns = ["min", "median", "rounds"]


@pytest.fixture
def figures(pytestconfig: pytest.Config) -> Figures:
    """Where a benchmark leaves its figures."""
    return pytestconfig.stash[GATHERED]


def pytest_benchmark_update_json(config: pytest.Config, output_json: dict[str, Any]) -> None:
    """All figures once more at the top of the file."""
    gathered = config.stash[GATHERED]
    output_json["figures"] = [gathered.as_json(figure) for figure in gathered.rows]
    output_json["load_average"] = load_average()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """The table that is read first."""
    rows = terminalreporter.config.stash[GATHERED].rows
    if not rows:
        return
    terminalreporter.section("figures: a budget judges, and fails nothing")
    for figure in rows:
        terminalreporter.write_line(figure.line)
    load, cores = load_average(), os.cpu_count() or 1
    if load is not None and load > 1.2 * cores:
        terminalreporter.write_line(
            f"The machine was busy ({load:.1f} processes wanted its {cores} cores): times are too "
            "long, ratios nearly right. Repeat it when nothing else runs."
        )


def load_average() -> float | None:
    """Processes that wanted to run over the last five minutes; None where the system hides it."""
    return os.getloadavg()[1] if hasattr(os, "getloadavg") else None
