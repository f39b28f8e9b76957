"""What the possible beds of a case do under any amounts, from six runs of the column."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.dose_surface import DoseSurface, surface_of_runs
from loamshift.core.loops import SurfaceOfRuns
from loamshift.services.belief.bed_run import BedRun, Runner, every_other
from loamshift.services.courses.seasons import Seasons

FloatArray = NDArray[np.float64]

ACID_KNOTS: Final = (0.5, 1.2)
LIME_KNOTS: Final = (0.7, 1.5)
"""Amounts run, as shares of the middle need; nothing and the most that may go on beside them.
The first is about what a first season gets of either."""
REFERENCE: Final = 0.6
"""What goes on in every season to learn what the later ones count as [share of the need]: near
what a bed that needs it will get, for lime counts for more where much has gone on."""
SPELLS_A_SEASON: Final = 4
"""Parts of each season in which the furthest pH is looked for [count]."""
NEAREST_TOP: Final = 0.93
"""A knot nearer to the most that may go on than this makes way for it [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Courses:
    """Beds under any amounts of a material.

    ``days`` from today; ``surface`` by bed and day; ``chosen_on`` (M,) true for the half of the
    beds a plan is chosen on; ``oxidised_frac`` by day under about the middle need.
    """

    seasons: Seasons
    days: tuple[date, ...]
    surface: DoseSurface
    chosen_on: NDArray[np.bool_]
    balance_error: float
    oxidised_frac: FloatArray

    def index(self, day: date) -> int:
        """The last of the days that is not after a day [index]."""
        return day_index(self.days, day)


def day_index(days: Sequence[date], day: date) -> int:
    """The last of some days that is not after a day.

    Returns
    -------
    int
        Its place, the first for an earlier day [index].
    """
    return max(bisect_right(days, day) - 1, 0)


def courses_of(
    beds: Runner,
    seasons: Seasons,
    *,
    alone: BedRun,
    need_mid_g_m2: float,
    need_high_g_m2: float,
    make: SurfaceOfRuns = surface_of_runs,
) -> Courses:
    """The beds of a case under any amounts of a material.

    Parameters
    ----------
    need_mid_g_m2
        Best estimate of the need, by which the amounts run are spaced [g/m2].
    need_high_g_m2
        Upper end of the need [g/m2].
    make
        How the surface is made of the runs.
    """
    top = min(sum(seasons.capacity_g_m2), 1.3 * max(need_high_g_m2, need_mid_g_m2))
    top = max(top, 1e-3 * max(need_mid_g_m2, 1.0))
    shares = ACID_KNOTS if seasons.acidify else LIME_KNOTS
    knots = knot_amounts(shares, middle_g_m2=need_mid_g_m2, top_g_m2=top)
    reference = min(REFERENCE * need_mid_g_m2, top / seasons.count)
    first = [seasons.simulated((float(x),)) for x in knots[1:]]
    also = [seasons.simulated([reference] * number) for number in range(2, seasons.count + 1)]
    done = beds.runs([*first, *also])
    runs, later = (alone, *done[: len(first)]), done[len(first) :]
    days = beds.days
    starts = [day_index(days, dates[0]) for dates in seasons.days]
    end = day_index(days, seasons.hold)
    surface = make(
        knots,
        tuple(one.ph for one in runs),
        later_ph=tuple(one.ph for one in later),
        later_from=tuple(starts[1:]),
        reference_g_m2=reference,
        sign=1.0 if seasons.acidify else -1.0,
        spells=_spells([*starts, end]),
    )
    return Courses(
        seasons=seasons,
        days=days,
        surface=surface,
        chosen_on=every_other(beds.shape),
        balance_error=max(one.balance_error for one in (*runs, *later)),
        oxidised_frac=runs[min(2, len(runs) - 1)].oxidised_frac,
    )


def knot_amounts(shares: tuple[float, ...], *, middle_g_m2: float, top_g_m2: float) -> FloatArray:
    """Amounts at which beds are run: close about the need, and the most that may go on.

    Parameters
    ----------
    shares
        Where they lie, of the middle need [1].
    middle_g_m2
        Best estimate of the need [g/m2].
    top_g_m2
        The most that may go on, above 0 [g/m2].

    Returns
    -------
    ndarray
        Rising from 0, three or four of them [g/m2].
    """
    spaced = [share * middle_g_m2 for share in shares]
    near = [amount for amount in spaced if 0.0 < amount < NEAREST_TOP * top_g_m2]
    if len(near) < 2:
        near = [top_g_m2 / 3.0, 2.0 * top_g_m2 / 3.0]
    return np.array([0.0, *near, top_g_m2])


def _spells(edges: Sequence[int]) -> tuple[slice, ...]:
    """The time between every two days, cut into parts that overlap by a day."""
    found = []
    for start, end in pairwise(edges):
        cuts = [start + (end - start) * part // SPELLS_A_SEASON for part in range(SPELLS_A_SEASON)]
        found += [slice(a, b + 1) for a, b in pairwise([*cuts, end])]
    return tuple(found)
