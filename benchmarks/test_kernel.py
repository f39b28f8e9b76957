"""The compiled column: its cost, what the cost grows with, and plain NumPy beside it."""

from __future__ import annotations

import os

import pytest
from benchmarks.figures import Figures, beside_s, best_s
from benchmarks.loads import DAYS, MEMBERS, MUCH, ONE_DOSE, Size, kernel, loads, plain_numpy
from pytest_benchmark.fixture import BenchmarkFixture

BUDGET_MS = 200.0
LEAST_TIMES_FASTER = 5.0
MOST_TIMES_AS_LONG = 2.2
THREADS = sorted({2, os.cpu_count() or 2})


@pytest.mark.parametrize("load", loads())
def test_cost_of_a_layer_day(benchmark: BenchmarkFixture, figures: Figures, load: str) -> None:
    """What one layer of one member costs for one day."""
    seconds = best_s(benchmark, kernel(loads()[load]))
    figures.add(
        benchmark, f"{load}: a layer-day of one member", 1e9 * seconds / Size().layer_days, "ns"
    )


@pytest.mark.parametrize("load", loads())
def test_the_usual_run_on_two_threads(
    benchmark: BenchmarkFixture, figures: Figures, load: str
) -> None:
    """What a user's forecast runs, against its budget."""
    seconds = best_s(benchmark, kernel(loads()[load], threads=2))
    name = f"{load}: {MEMBERS} members, {DAYS} days, 3 layers, 2 threads"
    figures.add(benchmark, name, 1e3 * seconds, "ms", budget=BUDGET_MS)


@pytest.mark.parametrize("load", loads())
def test_against_plain_numpy(benchmark: BenchmarkFixture, figures: Figures, load: str) -> None:
    """The kernel against the same equations over arrays of members."""
    ours, plain = beside_s(benchmark, kernel(loads()[load]), plain_numpy(loads()[load]), rounds=2)
    figures.add(
        benchmark,
        f"{load}: faster than NumPy, one thread",
        plain / ours,
        "times",
        budget=LEAST_TIMES_FASTER,
        is_floor=True,
    )


@pytest.mark.parametrize(
    ("what", "size"),
    [
        ("members", Size(members=2 * MEMBERS)),
        ("days", Size(days=2 * DAYS)),
        ("layers", Size(cuts=2)),
    ],
)
def test_twice_as_much_takes_twice_as_long(
    benchmark: BenchmarkFixture, figures: Figures, what: str, size: Size
) -> None:
    """A cost that grows with the work and no faster."""
    load = loads()[MUCH]
    double, single = beside_s(benchmark, kernel(load, size), kernel(load))
    figures.add(
        benchmark,
        f"twice the {what}: as long",
        double / single,
        "times",
        budget=MOST_TIMES_AS_LONG,
    )


@pytest.mark.parametrize("threads", THREADS)
def test_more_threads(benchmark: BenchmarkFixture, figures: Figures, threads: int) -> None:
    """What a second thread, and every core, is worth."""
    load = loads()[ONE_DOSE]
    many, one = beside_s(benchmark, kernel(load, threads=threads), kernel(load))
    name = f"{threads} threads against one, on {os.cpu_count()} cores: faster"
    figures.add(benchmark, name, one / many, "times")
