"""What a plan is chosen for, and which beds fare how under given amounts."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loamshift.core.dose_surface import DoseSurface
from loamshift.core.surface_sums import SurfaceSums

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


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleBounds:
    """Between which amounts each bed keeps a goal, all in grams of the first season.

    ``enters_g_m2`` and ``leaves_g_m2`` (M, 2) the range, on the day wanted and a year later;
    ``harms_g_m2`` (M, W) in each spell, infinite where the bed gets past the limit without any
    [g/m2]; ``worth`` (M, 2, S) and ``furthest_worth`` (M, W, S) of a gram of each season [-];
    ``sums`` how amounts are held to them.
    """

    enters_g_m2: FloatArray
    leaves_g_m2: FloatArray
    harms_g_m2: FloatArray
    worth: FloatArray
    furthest_worth: FloatArray
    sums: SurfaceSums

    def in_range(self, *amounts: FloatArray | float) -> BoolArray:
        """Which beds lie in the range on the day wanted and a year later.

        Parameters
        ----------
        amounts
            One a season [g/m2].

        Returns
        -------
        ndarray
            Shape of the amounts by bed [truth].
        """
        return self.sums.within(self.worth, amounts, self.enters_g_m2, self.leaves_g_m2)

    def harmed(self, *amounts: FloatArray | float) -> BoolArray:
        """Which beds get past the harmful limit with these amounts and would not without.

        Parameters
        ----------
        amounts
            One a season [g/m2].

        Returns
        -------
        ndarray
            Shape of the amounts by bed [truth].
        """
        return self.sums.past(self.furthest_worth, amounts, self.harms_g_m2)


def bounds_of(surface: DoseSurface, goal: RuleGoal) -> RuleBounds:
    """Between which amounts each bed keeps a goal.

    Parameters
    ----------
    surface
        What each bed does [object].
    goal
        Range, days and the harmful limit [object].

    Returns
    -------
    RuleBounds
        The amounts [object].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.dose_surface import dose_surface
    >>> flat = dose_surface(np.array([0.0, 100.0]), np.array([[[7.0, 5.0]]]), later_ph=(),
    ...                     later_from=(), reference_g_m2=50.0, sign=1.0, spells=(slice(0, 1),))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> bounds = bounds_of(flat, goal)
    >>> bounds.enters_g_m2.tolist(), bounds.leaves_g_m2.tolist()
    ([[37.5, 37.5]], [[62.5, 62.5]])
    """
    near, far = goal.range_high_ph, goal.range_low_ph
    if surface.sign < 0.0:
        near, far = far, near
    days = (goal.on, goal.hold)
    harms = surface.passing_ever(goal.harmful_ph)
    past_anyway = np.asarray(np.isneginf(harms).any(axis=1), dtype=np.bool_)
    return RuleBounds(
        enters_g_m2=np.stack([surface.passing(day, near) for day in days], axis=1),
        leaves_g_m2=np.stack([surface.passing(day, far) for day in days], axis=1),
        harms_g_m2=np.where(past_anyway[:, None], np.inf, harms),
        worth=np.stack([surface.worth[:, :, day] for day in days], axis=1),
        furthest_worth=surface.furthest_worth,
        sums=surface.sums,
    )


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
    ...                     later_from=(), reference_g_m2=50.0, sign=1.0, spells=(slice(0, 1),))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> reachable(flat, goal).tolist()
    [True]
    """
    return reachable_and_held(bounds_of(surface, goal), goal)[1]


def reachable_and_held(bounds: RuleBounds, goal: RuleGoal) -> tuple[BoolArray, BoolArray]:
    """Which beds some plan brings into the range unharmed on the day wanted, and keeps there.

    Parameters
    ----------
    bounds
        Those of the goal [object].
    goal
        Seasons and amounts [object].

    Returns
    -------
    tuple of ndarray
        On the day wanted, and then and on the day it is to be held to, each of shape (M,)
        [truth].

    References
    ----------
    own-arithmetic

    Examples
    --------
    See :func:`reachable`.

    >>> from loamshift.core.dose_surface import dose_surface
    >>> flat = dose_surface(np.array([0.0, 100.0]), np.array([[[7.0, 5.0], [7.0, 6.8]]]),
    ...                     later_ph=(), later_from=(), reference_g_m2=50.0, sign=1.0,
    ...                     spells=(slice(0, 2),))
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=1,
    ...                 tests=(), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0]), seasons=1, most_harmed_frac=0.04, lines=4,
    ...                 worth_a_test_frac=0.03)
    >>> there, held = reachable_and_held(bounds_of(flat, goal), goal)
    >>> there.tolist(), held.tolist()
    ([True], [False])
    """
    beds = bounds.harms_g_m2.shape[0]
    on_the_day = replace(
        bounds,
        worth=bounds.worth[:, :1],
        enters_g_m2=bounds.enters_g_m2[:, :1],
        leaves_g_m2=bounds.leaves_g_m2[:, :1],
    )
    plans = fixed_plans(goal, beds)
    unharmed = ~bounds.harmed(*plans)
    there = on_the_day.in_range(*plans) & unharmed
    held = bounds.in_range(*plans) & unharmed
    return np.asarray(there.any(axis=1)), np.asarray(held.any(axis=1))


def fixed_plans(goal: RuleGoal, beds: int) -> tuple[FloatArray, ...]:
    """Plans without tests: the seasons filled one after the other, or one season alone.

    Parameters
    ----------
    goal
        Seasons and amounts [object].
    beds
        Number of beds [count].

    Returns
    -------
    tuple of ndarray
        One array a season, the same for every bed, shape (beds, plans) [g/m2].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> goal = RuleGoal(range_low_ph=5.75, range_high_ph=6.25, harmful_ph=5.0, on=0, hold=0,
    ...                 tests=(0,), reading_sd_ph=0.2, first_g_m2=np.array([0.0, 50.0]),
    ...                 later_g_m2=np.array([0.0, 40.0]), seasons=2, most_harmed_frac=0.04,
    ...                 lines=4, worth_a_test_frac=0.03)
    >>> first, second = fixed_plans(goal, 1)
    >>> first.tolist(), second.tolist()
    ([[0.0, 50.0, 50.0, 50.0, 0.0, 0.0]], [[0.0, 0.0, 0.0, 40.0, 0.0, 40.0]])
    """
    later = goal.later_g_m2
    tops = [float(goal.first_g_m2[-1]), *([float(later[-1])] * (goal.seasons - 1))]
    plans = []
    for season in range(goal.seasons):
        grid = goal.first_g_m2 if season == 0 else later
        for before in (1.0, 0.0) if season else (0.0,):
            plan = np.zeros((goal.seasons, grid.size))
            plan[:season] = before * np.array(tops[:season])[:, None]
            plan[season] = grid
            plans.append(plan)
    wide = np.concatenate(plans, axis=1)
    return tuple(np.broadcast_to(one, (beds, one.size)) for one in wide)
