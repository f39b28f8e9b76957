"""The judgement on a bed: one object from which decision, reason, plan and sentences are made."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.core.plan_rule import Rule
from loamshift.domain.answer import Branch, Decision, Direction, Reason
from loamshift.services.courses.surface import Courses


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """A decision with the figures that decided it, before it is put in words.

    ``in_range`` share of the beds in the range now, ``stays`` of those left alone that stay in
    or near it until the day wanted and a year on [0-1]; ``ph_alone_on`` median pH then of the
    bed left alone, ``ph_now`` that of today by all readings and what went on since;
    ``ph_expected`` where earlier material takes it [pH in water].
    ``covered`` share of beds that the limits of the seasons could bring into the range on the day
    wanted, ``held`` of those it could keep there for a year more [0-1]. ``need_mid_g_m2`` best
    estimate of sulfur or lime value [g/m2]; caps as sulfur or limestone value [g/m2];
    ``most_g_m2`` what the limits of all seasons allow, as sulfur or lime that works [g/m2];
    ``working_frac`` of a lime in the field [0-1]; ``parts`` under the cap of one dose [count];
    ``drift_ph_year`` how the bed left alone moves in a year, by its simulated course,
    ``drift_held_ph_year`` how it would by itself where a plan has taken it, negative where it
    falls; ``pull_ph_year`` yearly pull against the aim [pH/yr];
    ``water_rise_ph`` how much the water alone lifts the bed by the day wanted, ``feed_fall_ph`` how
    much the acid of its fertiliser lowers it [pH]; ``covered_unfed`` as ``covered``, were the
    fertiliser to make no acid [0-1]. ``measure``
    the case-file path to settle first, with the probability that it changes the decision [0-1]
    and the decision it most likely changes to. ``rule`` and ``courses`` of the plan where one is
    made.
    """

    decision: Decision
    direction: Direction
    reason: Reason
    in_range: float = 0.0
    stays: float | None = None
    ph_alone_on: float | None = None
    ph_now: float | None = None
    ph_expected: float | None = None
    covered: float | None = None
    held: float | None = None
    need_mid_g_m2: float | None = None
    cap_dose_g_m2: float | None = None
    cap_year_g_m2: float | None = None
    most_g_m2: float | None = None
    working_frac: float = 1.0
    parts: int | None = None
    drift_ph_year: float | None = None
    drift_held_ph_year: float | None = None
    pull_ph_year: float = 0.0
    water_rise_ph: float = 0.0
    feed_fall_ph: float = 0.0
    covered_unfed: float | None = None
    carbonate_share: float | None = None
    measure: str | None = None
    measure_probability: float = 0.0
    measure_shift: Decision | None = None
    branches: tuple[Branch, ...] = ()
    rule: Rule | None = None
    courses: Courses | None = None

    @property
    def too_much_without_lime(self) -> bool:
        """True where the limits would not allow the need even if the soil held no free lime."""
        if self.need_mid_g_m2 is None or self.most_g_m2 is None:
            return False
        return self.need_mid_g_m2 * (1.0 - (self.carbonate_share or 0.0)) > self.most_g_m2

    @property
    def acts(self) -> bool:
        """True where something is to go on, if only when a test has been made."""
        return self.decision in (Decision.GO, Decision.EFFORT, Decision.MEASURE_FIRST)
