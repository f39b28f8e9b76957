"""A plan as a rule, what open questions would change, and what readings taught."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.decision import Band, Decision
from loamshift.domain.message import Worded


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPart:
    """One dated part of the plan that goes on whatever a test reads [g/m2, g]."""

    date: date
    material: str
    rate_g_m2: float
    amount_g: float | None


class Then(StrEnum):
    """What a reading calls for."""

    PART = "part"
    """The amount of the line goes on."""
    TEST_AGAIN = "test-again"
    """Nothing now; what lies there still works, so test again next year."""
    DONE = "done"
    """Nothing more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TestLine:
    """One line of what a test decides: readings from ``reads_from`` up to ``reads_to``.

    Both ends are included and printed to a tenth; None is an open end [pH in water]. ``test`` the
    day of the test; ``part_g_m2`` of product that goes on then, 0 for nothing [g/m2]; ``part_on``
    the day it goes on, None for nothing. ``ph_after`` the median course of the beds that read so,
    one value a week from the last date of the forecast that is not after the test to ``on`` of the
    plan; None without a forecast, or where too few beds read so [pH in water].
    """

    __test__ = False  # not a case for the test runner

    test: date
    reads_from: float | None
    reads_to: float | None
    part_g_m2: float
    then: Then
    part_on: date | None
    ph_after: tuple[float, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRule:
    """The plan as a rule: what goes on first, and what the next test decides.

    Shares of beds that fit what is known [0-1], judged on beds not used to choose the plan:
    ``share_in_range`` in the range on ``on`` and a year later, with the tests of this plan (one
    each season, the rule fitted again after each); ``share_in_range_without_tests`` the best
    single amount; ``share_if_known`` if the soil were known exactly; ``share_harmed`` past the
    harmful limit of the plant because of the plan. ``median_ph`` of the beds on that day.
    ``acted_on`` the day by which nine tenths of prills or pastilles have acted; None for other
    products, and where not even the longest look sees it.
    """

    material: str
    parts: tuple[PlanPart, ...]
    decides: tuple[TestLine, ...]
    share_in_range: float
    share_in_range_without_tests: float
    share_if_known: float
    share_harmed: float
    median_ph: float
    on: date
    acted_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """What the advice would be if an open question were settled one way.

    ``field`` the case-file path to settle; ``outcome`` what the test would show, a code such as
    ``no-lime``, ``some-lime``, ``much-lime``; ``probability`` of it [0-1]; ``decision`` then, and
    sulfur or lime it would take in the middle case, None where nothing goes on [g/m2].
    """

    field: str
    outcome: str
    probability: float
    decision: Decision
    sulfur_as_s_g_m2: float | None
    lime_as_caco3_g_m2: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcidScale:
    """How strongly the soil resists, against its texture's usual curve: before and now."""

    prior: Band
    now: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """What the readings taught about this bed.

    ``used`` false where the readings were set aside on demand; ``readings`` how many were
    weighed; ``effective_members`` of the possible beds that carry the weight; ``doubted``
    the readings that fit no bed, in words.
    """

    used: bool
    readings: int
    acid_scale: AcidScale
    effective_members: float
    doubted: tuple[Worded, ...]
    words: Worded
