"""The figures of one run of the suite: gathered, held against budgets, printed, kept as JSON."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from typing import Any, Final

from pytest_benchmark.fixture import BenchmarkFixture

ROUNDS: Final = 7


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure; of a budget, the share that was used up, where there is one."""

    name: str
    value: float
    unit: str
    budget: float | None = None
    is_floor: bool = False
    """True where the figure must reach the budget instead of staying below it."""

    @property
    def is_met(self) -> bool | None:
        """Whether the budget is kept; None where there is none."""
        if self.budget is None:
            return None
        return self.value >= self.budget if self.is_floor else self.value <= self.budget

    @property
    def line(self) -> str:
        """The figure as printed."""
        digits = f"{self.value:.0f}" if self.value >= 100.0 else f"{self.value:.3g}"
        text = f"{self.name:<76} {digits:>7} {self.unit:<5}"
        if self.budget is None:
            return text.rstrip()
        share, bound = self.value / self.budget, "least" if self.is_floor else "most"
        state = "met" if self.is_met else "NOT MET"
        return f"{text} {share:4.2f} of {self.budget:g} at {bound}: {state}"


@dataclass(slots=True)
class Figures:
    """All figures so far, in the order measured."""

    rows: list[Figure] = field(default_factory=list)

    def add(
        self,
        benchmark: BenchmarkFixture,
        name: str,
        value: float,
        unit: str,
        *,
        budget: float | None = None,
        is_floor: bool = False,
    ) -> None:
        """Keep a figure for the table, and beside its timings in the JSON."""
        figure = Figure(name, value, unit, budget, is_floor)
        self.rows.append(figure)
        benchmark.extra_info.setdefault("figures", []).append(self.as_json(figure))

    @staticmethod
    def as_json(figure: Figure) -> dict[str, Any]:
        """A figure as written to the file."""
        return {**asdict(figure), "is_met": figure.is_met}


def best_s(
    benchmark: BenchmarkFixture,
    work: Callable[[], object],
    *,
    rounds: int = ROUNDS,
    warm: bool = True,
    between: Callable[[], object] | None = None,
) -> float:
    """Shortest time of several runs [s]; ``between`` runs before each and is not counted."""
    if warm:
        work()
    pedantic: Any = benchmark.pedantic
    pedantic(work, setup=between, rounds=rounds)
    assert benchmark.stats is not None, "timings are off: run without --benchmark-disable"
    return float(benchmark.stats.stats.min)


def beside_s(
    benchmark: BenchmarkFixture,
    work: Callable[[], object],
    other: Callable[[], object],
    *,
    rounds: int = ROUNDS,
) -> tuple[float, float]:
    """Shortest times of two things run in turn, so that a busy machine slows both alike [s]."""
    times: list[float] = []

    def time_other() -> None:
        start = time.perf_counter()
        other()
        times.append(time.perf_counter() - start)

    other()
    return best_s(benchmark, work, rounds=rounds, between=time_other), min(times)
