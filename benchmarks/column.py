"""How fast the compiled column is, as ratios within one run.

    python benchmarks/column.py [--json FILE]

Figures of one machine cannot be compared with those of another; ratios nearly can. Each figure is
the best of several runs.
"""

from __future__ import annotations

import argparse
import json
import platform
import sys
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]

import numpy as np  # noqa: E402
from benchmarks.numpy_column import NumpyColumn  # noqa: E402

from core.column_cases import (  # noqa: E402
    event,
    laws,
    members,
    run,
    soil,
    sulfur,
    weather,
)
from loamshift.core.column_events import column_events  # noqa: E402
from loamshift.core.column_layout import ColumnEvent, EventKind  # noqa: E402

MEMBERS, DAYS, LAYERS = 400, 1095, 3
ROUNDS = 7


def best_s(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Shortest time of several runs, after one to warm up."""
    work()
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def kernel_s(
    rows: list[ColumnEvent],
    *,
    n: int = MEMBERS,
    days: int = DAYS,
    parts: int = 1,
    threads: int = 1,
    carbonate_pct: float = 0.0,
    rounds: int = ROUNDS,
) -> float:
    """Time of one run; ``parts`` cuts each of the three layers."""
    edges = (*np.linspace(0, 5, parts + 1), *np.linspace(5, 15, parts + 1)[1:])
    edges = tuple(float(x) for x in (*edges, *np.linspace(15, 30, parts + 1)[1:]))
    wide = [
        ColumnEvent(
            **{name: getattr(row, name) for name in row.__slots__ if name != "layer_share"},
            layer_share=tuple(s / parts for s in row.layer_share for _ in range(parts)),
        )
        for row in rows
    ]
    the_soil = soil(7.0, edges_cm=edges, carbonate_pct=carbonate_pct)
    spread, the_weather = members(n, seed=1), weather(days, n_layers=LAYERS * parts)
    return best_s(lambda: run(the_soil, spread, the_weather, wide, threads=threads), rounds)


def loads() -> dict[str, tuple[list[ColumnEvent], float]]:
    """What is put on, and the carbonate of the soil [%]."""
    feed = [event(EventKind.AMMONIUM, 700.0, day=40 + 365 * year) for year in range(3)]
    lime = [event(EventKind.LIME, 2000.0, day=100, lime_frac=(0.6, 0.2, 0.1, 0.1, 0.0))]
    return {
        "nothing applied": ([], 0.0),
        "one dose of sulfur": ([sulfur(60.0)], 0.0),
        "sulfur, carbonate, lime, three years of ammonium": ([sulfur(60.0), *lime, *feed], 1.0),
    }


def figures() -> dict[str, float]:
    """All figures by name."""
    found: dict[str, float] = {}
    layer_days = MEMBERS * DAYS * LAYERS
    for name, (rows, carbonate_pct) in loads().items():
        for threads in (1, 2):
            seconds = kernel_s(rows, threads=threads, carbonate_pct=carbonate_pct)
            found[f"{name}, {threads} threads, ns per layer-day"] = 1e9 * seconds / layer_days
            found[f"{name}, {threads} threads, ms per run"] = 1e3 * seconds
    rows, carbonate_pct = loads()["sulfur, carbonate, lime, three years of ammonium"]
    for name, (rows, carbonate_pct) in loads().items():
        the_soil, spread = soil(7.0, carbonate_pct=carbonate_pct), members(MEMBERS, seed=1)
        the_weather, events = weather(DAYS), column_events(rows, n_layers=LAYERS)
        plain_s = best_s(
            lambda s=the_soil, m=spread, w=the_weather, e=events: NumpyColumn(  # type: ignore[misc]
                s, m, w, e, laws()
            ).run(2, 7),
            rounds=1,
        )
        found[f"{name}, times faster than NumPy"] = (
            1e3 * plain_s / found[f"{name}, 1 threads, ms per run"]
        )
    one = kernel_s(rows, carbonate_pct=carbonate_pct)
    found["twice the members, times as long"] = (
        kernel_s(rows, n=2 * MEMBERS, carbonate_pct=1.0) / one
    )
    found["twice the days, times as long"] = kernel_s(rows, days=2 * DAYS, carbonate_pct=1.0) / one
    found["twice the layers, times as long"] = kernel_s(rows, parts=2, carbonate_pct=1.0) / one
    return found


def main() -> None:
    """Measure and print, and write JSON where asked."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", type=Path)
    chosen = parser.parse_args()
    found = figures()
    for name, value in found.items():
        print(f"{name:72s}{value:10.2f}")
    if chosen.json:
        about = {"python": platform.python_version(), "machine": platform.machine()}
        chosen.json.write_text(json.dumps({"about": about, "figures": found}, indent=1) + "\n")


if __name__ == "__main__":
    main()
