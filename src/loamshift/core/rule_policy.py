"""What the readings of a plan's tests should call for, from sums over its possible beds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.plan_goal import RuleGoal
from loamshift.core.surface_sums import Cut

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

STEEPEST_PRICE: Final = 64.0
"""A harmed bed is never weighed heavier than so many beds in range [-]."""
BISECTIONS: Final = 12
_HAIR: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleTables:
    """Sums over beds: in range and harmed by (second amount, first bin, second bin, third)."""

    good: FloatArray
    harmed: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class RulePolicy:
    """Price of harm, the third amount by (second, bin, bin) and the second by first bin."""

    price: float
    third: IntArray
    second: IntArray
    segments: tuple[tuple[int, int, int], ...]
    good: float
    harmed: float


def both_halves(tables: tuple[RuleTables, RuleTables]) -> RuleTables:
    """The sums over all beds from those over each half.

    Parameters
    ----------
    tables
        One for each half [object].

    Returns
    -------
    RuleTables
        Their mean [object].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> half = RuleTables(good=np.ones((1, 1, 1, 1)), harmed=np.zeros((1, 1, 1, 1)))
    >>> both_halves((half, half)).good.item()
    1.0
    """
    return RuleTables(
        good=0.5 * (tables[0].good + tables[1].good),
        harmed=0.5 * (tables[0].harmed + tables[1].harmed),
    )


def best_policy(tables: RuleTables, goal: RuleGoal, *, acid: bool, cut: Cut) -> RulePolicy:
    """The policy with one price of harm that keeps the limit; the steepest where none does.

    Parameters
    ----------
    tables
        Sums over beds [object].
    goal
        Lines and the limit of harm [object].
    acid
        True where more goes on the higher the reading [truth].
    cut
        How bins are cut into lines [function].

    Returns
    -------
    RulePolicy
        The policy [object].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> from loamshift.core.rule_lines import cut_into_lines
    >>> goal = SimpleNamespace(lines=4, most_harmed_frac=0.04)
    >>> good = np.array([[0.25, 0.25, 0.0], [0.0, 0.125, 0.25]])[:, :, None, None]
    >>> tables = RuleTables(good=good, harmed=np.zeros_like(good))
    >>> policy = best_policy(tables, goal, acid=True, cut=cut_into_lines)
    >>> policy.second.tolist(), policy.good
    ([0, 0, 1], 0.75)
    """
    policy = _priced(tables, goal, price=0.0, acid=acid, cut=cut)
    if not _harms(policy, goal):
        return policy
    low, high = 0.0, STEEPEST_PRICE
    policy = _priced(tables, goal, price=high, acid=acid, cut=cut)
    if _harms(policy, goal):
        return policy
    for _ in range(BISECTIONS):
        middle = 0.5 * (low + high)
        tried = _priced(tables, goal, price=middle, acid=acid, cut=cut)
        if _harms(tried, goal):
            low = middle
        else:
            high, policy = middle, tried
    return policy


def judged_crosswise(
    tables: tuple[RuleTables, RuleTables], goal: RuleGoal, *, acid: bool, cut: Cut
) -> tuple[float, float]:
    """In range and harmed of a rule chosen on one half, on the other half; both ways round.

    Parameters
    ----------
    tables
        One for each half [object].
    goal
        Lines and the limit of harm [object].
    acid
        True where more goes on the higher the reading [truth].
    cut
        How bins are cut into lines [function].

    Returns
    -------
    tuple of float
        Shares of beds [0-1].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> from loamshift.core.rule_lines import cut_into_lines
    >>> goal = SimpleNamespace(lines=4, most_harmed_frac=0.04)
    >>> good = np.array([[0.25, 0.25, 0.0], [0.0, 0.125, 0.25]])[:, :, None, None]
    >>> tables = RuleTables(good=good, harmed=np.zeros_like(good))
    >>> judged_crosswise((tables, tables), goal, acid=True, cut=cut_into_lines)
    (0.75, 0.0)
    """
    good = hurt = 0.0
    for here, there in (tables, tables[::-1]):
        policy = best_policy(here, goal, acid=acid, cut=cut)
        bins = np.arange(policy.second.size)
        third = policy.third[policy.second, bins]
        for name in ("good", "harmed"):
            chosen = getattr(there, name)[policy.second, bins]
            value = float(np.take_along_axis(chosen, third[..., None], axis=2).sum())
            good, hurt = (
                (good + 0.5 * value, hurt) if name == "good" else (good, hurt + 0.5 * value)
            )
    return good, hurt


def _harms(policy: RulePolicy, goal: RuleGoal) -> bool:
    return policy.harmed - goal.most_harmed_frac > _HAIR


def _priced(
    tables: RuleTables, goal: RuleGoal, *, price: float, acid: bool, cut: Cut
) -> RulePolicy:
    if tables.good.shape[2:] == (1, 1):  # no second test: one bin and no third amount
        third = np.zeros(tables.good.shape[:3], dtype=np.int64)
        good, hurt = tables.good[:, :, 0, 0], tables.harmed[:, :, 0, 0]
    else:
        third = (tables.good - price * tables.harmed).argmax(axis=3)
        good, hurt = (
            np.take_along_axis(sums, third[..., None], axis=3)[..., 0].sum(axis=2)
            for sums in (tables.good, tables.harmed)
        )
    value = (good - price * hurt).T  # bins by second amount
    segments = cut(value, lines=goal.lines, rising=acid)
    second = np.empty(value.shape[0], dtype=np.int64)
    for start, end, choice in segments:
        second[start:end] = choice
    bins = np.arange(second.size)
    return RulePolicy(
        price=price,
        third=third,
        second=second,
        segments=segments,
        good=float(good[second, bins].sum()),
        harmed=float(hurt[second, bins].sum()),
    )
