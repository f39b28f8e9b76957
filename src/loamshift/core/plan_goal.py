"""What a plan is chosen for, and which beds fare how under given amounts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.dose_surface import DoseSurface

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleGoal:
    """What a plan is chosen for.

    ``range_low_ph`` and ``range_high_ph`` wanted on the days ``on`` and ``hold``; a bed is harmed
    where it gets past ``harmful_ph`` because of the plan [pH]. ``tests`` the days of the tests
    before the later seasons [index]; ``reading_sd_ph`` error of one test [pH]. ``first_g_m2``
    and ``later_g_m2`` the amounts to choose from, rising from 0, with ``seasons`` in all
    [g/m2; count]. ``most_harmed_frac`` [0-1]; ``lines`` of what the first test decides [count];
    ``worth_a_test_frac`` that a further test must add [0-1].
    """

    range_low_ph: float
    range_high_ph: float
    harmful_ph: float
    on: int
    hold: int
    tests: tuple[int, ...]
    reading_sd_ph: float
    first_g_m2: FloatArray
    later_g_m2: FloatArray
    seasons: int
    most_harmed_frac: float
    lines: int
    worth_a_test_frac: float


def reachable(surface: DoseSurface, goal: RuleGoal) -> BoolArray:
    """Which beds some plan within the limits brings into the range unharmed, were they known.

    Parameters
    ----------
    surface
        What each bed does [object].
    goal
        Range, days and amounts [object].

    Returns
    -------
    ndarray
        Shape (M,) [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.dose_surface import dose_surface
    >>> flat = dose_surface(np.array([0.0, 100.0]), np.array([[[7.0, 5.0]]]), later_ph=(),
    ...                     later_beds=np.array([0]), reference_g_m2=50.0, sign=1.0,
    ...                     watched=slice(None))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> reachable(flat, goal).tolist()
    [True]
    """
    known = np.zeros(surface.ph.shape[0], dtype=np.bool_)
    for plan in fixed_plans(goal, known.size):
        fits = in_range(surface, goal, *plan) & ~harmed(surface, goal, *plan)
        known |= fits.any(axis=1)
    return known


def in_range(surface: DoseSurface, goal: RuleGoal, *amounts: FloatArray | float) -> BoolArray:
    """Which beds lie in the range on the day wanted and a year later.

    Parameters
    ----------
    surface
        What each bed does [object].
    goal
        Range and days [object].
    amounts
        One a season [g/m2].

    Returns
    -------
    ndarray
        Shape of the amounts by bed [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.dose_surface import dose_surface
    >>> flat = dose_surface(np.array([0.0, 100.0]), np.array([[[7.0, 5.0]]]), later_ph=(),
    ...                     later_beds=np.array([0]), reference_g_m2=50.0, sign=1.0,
    ...                     watched=slice(None))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> in_range(flat, goal, 50.0).tolist()
    [True]
    """
    found = np.ones((), dtype=np.bool_)
    for day in (goal.on, goal.hold):
        ph = surface.at(day, amounts)
        found = found & (ph >= goal.range_low_ph) & (ph <= goal.range_high_ph)
    return np.asarray(found)


def harmed(surface: DoseSurface, goal: RuleGoal, *amounts: FloatArray | float) -> BoolArray:
    """Which beds get past the harmful limit with these amounts and would not without.

    Parameters
    ----------
    surface
        What each bed does [object].
    goal
        The limit [object].
    amounts
        One a season [g/m2].

    Returns
    -------
    ndarray
        Shape of the amounts by bed [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.dose_surface import dose_surface
    >>> flat = dose_surface(np.array([0.0, 100.0]), np.array([[[7.0, 5.0]]]), later_ph=(),
    ...                     later_beds=np.array([0]), reference_g_m2=50.0, sign=1.0,
    ...                     watched=slice(None))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> harmed(flat, goal, 50.0).tolist()
    [False]
    """
    with_plan = surface.sign * (surface.furthest(amounts) - goal.harmful_ph) < 0.0
    alone = surface.sign * (surface.furthest((0.0,)) - goal.harmful_ph) < 0.0
    return np.asarray(with_plan & ~(alone if with_plan.ndim == 1 else alone[:, None]))


def fixed_plans(goal: RuleGoal, beds: int) -> list[tuple[FloatArray, ...]]:
    """Plans without tests: the seasons filled one after the other, or one season alone.

    Parameters
    ----------
    goal
        Seasons and amounts [object].
    beds
        Number of beds [count].

    Returns
    -------
    list of tuple
        Each plan one array a season, shape (beds, amounts) [g/m2].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(0,), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0, 50.0]), seasons=2, most_harmed_frac=0.04,
    ...                 lines=4, worth_a_test_frac=0.03)
    >>> len(fixed_plans(goal, 1))
    3
    """
    plans = []
    later = goal.later_g_m2
    tops = [float(goal.first_g_m2[-1]), *([float(later[-1])] * (goal.seasons - 1))]
    for season in range(goal.seasons):
        grid = goal.first_g_m2 if season == 0 else later
        wide = np.broadcast_to(grid, (beds, grid.size))
        for before in (1.0, 0.0) if season else (0.0,):
            filled = tuple(np.full(wide.shape, before * top) for top in tops[:season])
            plans.append((*filled, wide))
    return plans
