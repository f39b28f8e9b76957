"""What the kernel is timed on: soils, what is put on them, and a run of one size."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

import numpy as np
from benchmarks.numpy_column import NumpyColumn

from core.column_cases import event, laws, members, run, soil, sulfur, weather
from loamshift.core.column_events import column_events
from loamshift.core.column_layout import ColumnEvent, EventKind

MEMBERS: Final = 400
DAYS: Final = 3 * 365
EDGES_CM: Final = (0.0, 5.0, 15.0, 30.0)
NOTHING: Final = "nothing applied"
ONE_DOSE: Final = "one dose of sulfur"
MUCH: Final = "sulfur, carbonate, lime, ammonium"


@dataclass(frozen=True, slots=True)
class Load:
    """What is put on a bed, and the carbonate of its soil [%]."""

    rows: tuple[ColumnEvent, ...] = ()
    carbonate_pct: float = 0.0


def loads() -> dict[str, Load]:
    """The loads by name, lightest first."""
    feed = [event(EventKind.AMMONIUM, 700.0, day=40 + 365 * year) for year in range(3)]
    lime = event(EventKind.LIME, 2000.0, day=100, lime_frac=(0.6, 0.2, 0.1, 0.1, 0.0))
    return {
        NOTHING: Load(),
        ONE_DOSE: Load((sulfur(60.0),)),
        MUCH: Load((sulfur(60.0), lime, *feed), carbonate_pct=1.0),
    }


@dataclass(frozen=True, slots=True)
class Size:
    """How much there is to compute; ``cuts`` cuts each of the three layers."""

    members: int = MEMBERS
    days: int = DAYS
    cuts: int = 1

    @property
    def layers(self) -> int:
        """Layers of the column [count]."""
        return self.cuts * (len(EDGES_CM) - 1)

    @property
    def layer_days(self) -> int:
        """Layers times days times members [count]."""
        return self.members * self.days * self.layers


def kernel(load: Load, size: Size | None = None, *, threads: int = 1) -> Callable[[], object]:
    """One run of the compiled column, its inputs made beforehand."""
    size = size or Size()
    the_soil = soil(7.0, edges_cm=_edges(size.cuts), carbonate_pct=load.carbonate_pct)
    spread, days = members(size.members, seed=1), weather(size.days, n_layers=size.layers)
    rows = [_cut(row, size.cuts) for row in load.rows]
    return lambda: run(the_soil, spread, days, rows, threads=threads)


def plain_numpy(load: Load) -> Callable[[], object]:
    """The same run of the usual size in plain NumPy, all members at a time."""
    size = Size()
    the_soil = soil(7.0, carbonate_pct=load.carbonate_pct)
    spread, days = members(size.members, seed=1), weather(size.days)
    events = column_events(list(load.rows), n_layers=size.layers)
    return lambda: NumpyColumn(the_soil, spread, days, events, laws()).run(2, 7)


def _edges(cuts: int) -> tuple[float, ...]:
    parts = [np.linspace(a, b, cuts + 1)[:-1] for a, b in pairwise(EDGES_CM)]
    return (*(float(edge) for part in parts for edge in part), EDGES_CM[-1])


def _cut(row: ColumnEvent, cuts: int) -> ColumnEvent:
    shares = tuple(share / cuts for share in row.layer_share for _ in range(cuts))
    return replace(row, layer_share=shares)
