"""A part of a field judged as ``advise`` judges a bed, and what such ground does under a dose."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.answer import Application, Caution, Verdict
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind, Case
from loamshift.domain.decision import Decision
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.services.cautions.cautions import cautions
from loamshift.services.context.build_context import build_context
from loamshift.services.context.wanted_day import wanted_by
from loamshift.services.courses.cheap_belief import cheap_belief
from loamshift.services.courses.surface import day_index
from loamshift.services.plan.plan import Plan, plan_of
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judge import days_needed
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.words import verdict
from loamshift.tables.model import verdict_values

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A part of a field: pH in water, how far its spots lie from it, and its soil [pH, %, m2].

    ``ph_sd`` None stands for one mixed sample with the error of its method.
    """

    ph_water: float
    ph_sd: float | None
    clay_pct: float | None
    organic_matter_pct: float | None
    area_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A part of a field with its judgement and plan.

    ``now`` what goes on unconditionally, ``path`` that and what most likely follows; both as the
    possible beds run them, by the strength of the product of the table.
    """

    ground: Ground
    context: BedContext
    judgement: Judgement
    plan: Plan
    told: Verdict
    now: tuple[Application, ...]
    path: tuple[Application, ...]
    cautions: tuple[Caution, ...]

    @property
    def rate_g_m2(self) -> float:
        """What goes on now, as bought [g/m2]."""
        return sum(one.rate_g_m2 for one in self.plan.applications if one.only_if is None)

    @property
    def later_g_m2(self) -> float:
        """What the next test most likely calls for, as bought [g/m2]."""
        return sum(one.rate_g_m2 for one in self.plan.applications if one.only_if is not None)


def case_of(base: Case, ground: Ground, method: PhMethod) -> Case:
    """The case of a part of a field: what was said of the field, with its own soil and area.

    Parameters
    ----------
    base
        What was said of the field as a whole.
    method
        How its samples were read.
    """
    rough = method.is_rough
    reading = PhReading(
        ph=ground.ph_water,
        method=method if rough or method.is_water else PhMethod.WATER_1_2_5,
        depth_cm=base.soil.sample_depth_cm,
        taken=base.soil.sampled,
        ph_sd=ground.ph_sd,
    )
    soil = replace(base.soil, ph=reading, other_ph=())
    if ground.clay_pct is not None:
        soil = replace(soil, clay_pct=ground.clay_pct, texture=None)
    if ground.organic_matter_pct is not None:
        soil = replace(soil, organic_matter_pct=ground.organic_matter_pct, organic_carbon_pct=None)
    bed = replace(base.bed, kind=BedKind.FIELD, area_m2=ground.area_m2, count=1)
    return replace(base, bed=bed, soil=soil, readings=(), claims=())


def judge_ground(base: Case, ground: Ground, method: PhMethod) -> Judged:
    """The judgement and the plan of a part of a field, as ``advise`` without a forecast has them.

    Parameters
    ----------
    base
        What was said of the field as a whole.
    method
        How its samples were read.
    """
    decided = decide(build_context(case_of(base, ground, method)))
    context, judgement = decided.context, decided.judged
    plan = plan_of(context, judgement)
    if judgement.decision not in (Decision.GO, Decision.EFFORT):
        plan = replace(plan, applications=())
    strength = 1.0
    if judgement.courses is not None:
        strength = judgement.courses.seasons.strength_frac
    path = tuple(replace(one, rate_g_m2=one.rate_g_m2 * strength) for one in plan.applications)
    return Judged(
        ground=ground,
        context=context,
        judgement=judgement,
        plan=plan,
        told=verdict(context, judgement, plan.rule),
        now=tuple(one for one in path if one.only_if is None),
        path=path,
        cautions=cautions(context, judgement, applications=plan.applications, options=()),
    )


def wanted_on(case: Case) -> date:
    """The day on which the field is to be in the range."""
    years = int(verdict_values()["seasons"])
    return wanted_by(case) or case.today + timedelta(days=365 * years)


def outcomes(
    base: Case,
    ground: Ground,
    method: PhMethod,
    *,
    knots_ph: FloatArray,
    ways: Sequence[Sequence[Application]],
) -> FloatArray:
    """Where ground ends up by its pH today and by what goes on.

    Parameters
    ----------
    ground
        Whose soil it is; its pH is not looked at.
    knots_ph
        pH today, known exactly, shape (K,) [pH in water].
    ways
        What goes on, each way by itself.

    Returns
    -------
    ndarray
        Shares below, in and above the range on the day wanted, shape (K, W, 3) [0-1].
    """
    found = np.empty((len(knots_ph), len(ways), 3))
    for row, ph in enumerate(knots_ph):
        spot = replace(ground, ph_water=float(ph), ph_sd=EXACT_SD_PH)
        context = build_context(case_of(base, spot, method))
        target = context.target
        assert target is not None
        beds = cheap_belief(context, days_ahead=days_needed(context), refit=True).beds
        on = day_index(beds.days, wanted_on(base))
        for column, run in enumerate(beds.runs([tuple(way) for way in ways])):
            there = run.ph[:, on]
            below, above = np.mean(there < target.ph_low), np.mean(there > target.ph_high)
            found[row, column] = below, 1.0 - below - above, above
    return found


EXACT_SD_PH = 0.02
"""Error of a spot whose pH is supposed known: none but that of year to year remains [pH]."""
