"""What the printed limits of the seasons can do for a bed, and what that makes of it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.background import background_acid_mmolc_m2
from loamshift.core.plan_goal import RuleBounds, RuleGoal, bounds_of, reachable_and_held
from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.services.context.air import air_acid
from loamshift.services.context.build_context import curve_slope_mmolc_kg_ph, require_soil
from loamshift.services.context.need import carbonate_median_mmolc_kg, dose_to, middle_dose_to
from loamshift.services.courses.seasons import (
    Seasons,
    choose_material,
    seasons_ahead,
    tidy_amounts,
)
from loamshift.services.courses.surface import Courses, courses_of
from loamshift.services.materials.feed import feed_acid_of
from loamshift.services.verdict.judged_bed import ROUNDING, JudgedBed, gap_ph
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.lime_share import (
    usual_share,
)
from loamshift.tables.model import ledger_parameters, verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from loamshift.units import SULFUR_G_PER_MMOLC

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

AMOUNTS: Final = (13, 11)
QUICK_AMOUNTS: Final = (7, 6)
"""First and later amounts a rule is chosen from; fewer where no column is run [count]."""
SMALLEST_PART: Final = 0.2
"""A remainder below this share of a full dose makes no part of its own [1]."""
REACH: Final = 1.3
"""Amounts are tried up to so many times the upper end of the need [-]."""


@dataclass(frozen=True, slots=True)
class Reach:
    """What the limits of the seasons can do for each bed: ``there`` on the day wanted, ``held``
    then and a year on; ``bounds`` of the amounts that do."""

    courses: Courses
    goal: RuleGoal
    bounds: RuleBounds
    there: BoolArray
    held: BoolArray


def reach_of(case: JudgedBed, *, acidify: bool) -> Reach:
    """What the printed limits of the seasons can do for each bed.

    Parameters
    ----------
    acidify
        True for sulfur, false for lime.
    """
    seasons = seasons_ahead(case.context, acidify=acidify)
    need = dose_to(case.context, case.target.ph_aim, acidify=acidify)
    high = need.hi90 / seasons.active_frac
    courses = courses_of(
        case.beds,
        seasons,
        alone=case.alone,
        need_mid_g_m2=max(need.mid / seasons.active_frac, 1e-3 * max(seasons.capacity_g_m2)),
        need_high_g_m2=high,
        make=case.context.loops.surface,
    )
    goal = _goal(case, seasons, courses, high_g_m2=high)
    first, later = _most_g_m2(seasons, high_g_m2=high)
    even = replace(
        goal,
        first_g_m2=np.linspace(0.0, first, goal.first_g_m2.size),
        later_g_m2=np.linspace(0.0, later, goal.later_g_m2.size),
    )
    bounds = bounds_of(courses.surface, even)
    there, held = reachable_and_held(bounds, even)
    return Reach(courses=courses, goal=goal, bounds=bounds, there=there, held=held)


def _most_g_m2(seasons: Seasons, *, high_g_m2: float) -> tuple[float, float]:
    """The most tried in the first season and in any later one, where frost may leave one date."""
    top = max(REACH * high_g_m2, 1e-3 * max(seasons.capacity_g_m2))
    later = seasons.capacity_g_m2[1:] or seasons.capacity_g_m2
    return min(seasons.capacity_g_m2[0], top), min(*later, top)


def _goal(case: JudgedBed, seasons: Seasons, courses: Courses, *, high_g_m2: float) -> RuleGoal:
    rules, target = parameter_values("plan"), case.target
    counts = QUICK_AMOUNTS if case.quick else AMOUNTS
    most_first, most_later = _most_g_m2(seasons, high_g_m2=high_g_m2)
    least = rules["least_part_frac"] * most_later
    first = tidy_amounts(most_first, count=counts[0], least_g_m2=least)
    later = tidy_amounts(most_later, count=counts[1], least_g_m2=least)
    return RuleGoal(
        range_low_ph=target.ph_low,
        range_high_ph=target.ph_high,
        harmful_ph=target.harmful_low if seasons.acidify else target.harmful_high,
        on=courses.index(seasons.on),
        hold=courses.index(seasons.hold),
        tests=tuple(courses.index(day) for day in seasons.tests),
        reading_sd_ph=retest_error_ph(case.context),
        first_g_m2=np.array(first),
        later_g_m2=np.array(later),
        seasons=seasons.count,
        most_harmed_frac=rules["chosen_harmed_frac"],
        lines=int(rules["test_lines"]),
        worth_a_test_frac=rules["test_again_gain_frac"],
    )


def retest_error_ph(context: BedContext) -> float:
    """Error of one further careful test, with the scatter of its year.

    Returns
    -------
    float
        Standard deviation [pH].
    """
    soil = require_soil(context)
    scatter = verdict_values()["reading_scatter_sd"]
    if not soil.ph.method.is_rough:
        return max(soil.ph.ph_water_sd, scatter)
    return math.hypot(scatter, parameter_values("plan")["careful_test_sd_ph"])


def judged_by_reach(
    case: JudgedBed, reach: Reach, alone: Judgement, *, rise: float, inside: bool
) -> Judgement:
    """Elsewhere, effort or go, by what the limits of the seasons can do.

    Parameters
    ----------
    rise
        How much the water lifts it [pH].
    inside
        True where it lies in the range now.
    """
    limits, rules = verdict_values(), parameter_values("plan")
    acidify = reach.courses.seasons.acidify
    direction = Direction.ACIDIFY if acidify else Direction.LIME
    judged = replace(
        with_figures(case.context, alone, ph_aim=case.target.ph_aim, acidify=acidify),
        decision=Decision.GO,
        direction=direction,
        reason=Reason.WITHIN_REACH,
        water_rise_ph=rise,
        covered=float(reach.there.mean()),
        held=float(reach.held.mean()),
        most_g_m2=sum(reach.courses.seasons.capacity_g_m2) * reach.courses.seasons.active_frac,
    )
    past = gap_ph(float(case.median[case.hold]), case.target) > 0.0
    thirsty = rise >= limits["leave_gain_ph"] - ROUNDING and (acidify or past)
    if judged.covered is not None and judged.covered < limits["elsewhere_probability"]:
        lime = acidify and (judged.carbonate_share or 0.0) > 0.5
        why = Reason.FREE_LIME if lime else Reason.WATER if thirsty else Reason.CAPS
        return replace(judged, decision=Decision.ELSEWHERE, reason=why)
    if thirsty and judged.held is not None and judged.held < rules["water_known_frac"]:
        return replace(
            judged, decision=Decision.EFFORT, direction=Direction.NONE, reason=Reason.WATER
        )
    reason = effort_reason(judged, inside=inside)
    if reason is not None:
        return replace(judged, decision=Decision.EFFORT, reason=reason)
    return judged


def with_figures(
    context: BedContext, judged: Judgement, *, ph_aim: float, acidify: bool
) -> Judgement:
    """A judgement with need, caps and pull of one direction.

    Parameters
    ----------
    ph_aim
        Where to [pH in water].
    acidify
        True for sulfur, false for lime.
    """
    substance = "sulfur" if acidify else "limestone"
    ground = context.cap_situation
    dose = cap_for(applies_to=substance, situation=ground, per="dose").limit_g_m2
    year = cap_for(applies_to=substance, situation=ground, per="year").limit_g_m2
    lime = None if acidify else choose_material(context, acidify=False)[0]
    working = 1.0 if lime is None else usual_share(lime)
    need = middle_dose_to(context, ph_aim, acidify=acidify)
    mass = context.soil_mass_kg_m2
    carbonate = carbonate_median_mmolc_kg(context) * mass * SULFUR_G_PER_MMOLC
    share = min(carbonate / need, 1.0) if acidify and need > 0.0 else None
    return replace(
        judged,
        need_mid_g_m2=need,
        cap_dose_g_m2=dose,
        cap_year_g_m2=year,
        working_frac=working,
        parts=max(1, math.ceil(need / (dose * working) - SMALLEST_PART)),
        pull_ph_year=yearly_pull_ph(context, ph_aim, acidify=acidify),
        carbonate_share=share,
    )


def yearly_pull_ph(context: BedContext, ph: float, *, acidify: bool) -> float:
    """How much water, leaching, uptake and feed move a bed held at a pH against the aim in a year.

    Parameters
    ----------
    ph
        Where it is held [pH in water].
    acidify
        True where it was brought down.

    Returns
    -------
    float
        0 or more [pH/yr].
    """
    background = _background_mmolc_m2(context, ph)
    fed = 0.0 if acidify else max(feed_acid_of(context), 0.0)
    pull = context.water_base_mmolc_m2_year - background - fed
    return max(pull if acidify else -pull, 0.0) / capacity_mmolc_m2(context, ph)


def feed_weighs_most(context: BedContext, ph: float) -> bool:
    """Whether the feed makes more acid than all that leaching and uptake do.

    Parameters
    ----------
    ph
        Where it is to be held [pH in water].

    Returns
    -------
    bool
        False too where no yearly test would show what it makes.
    """
    fed = feed_acid_of(context)
    shown = parameter_values("advice")["ignored_drift_ph_year"] * capacity_mmolc_m2(context, ph)
    return fed >= max(shown, _background_mmolc_m2(context, ph)) > 0.0


def _background_mmolc_m2(context: BedContext, ph: float) -> float:
    """What leaching and uptake do in a year at a pH, nothing in pots."""
    if context.in_pot:
        return 0.0
    return background_acid_mmolc_m2(
        ph,
        drainage_mm=context.drainage_mm_year,
        params=ledger_parameters(),
        land_use=context.land_use,
        air_mmolc_m2=air_acid(context.place, year=context.case.today.year).mmolc_m2,
    )


def capacity_mmolc_m2(context: BedContext, ph: float) -> float:
    """Acid that moves a bed by one pH unit at a pH.

    Parameters
    ----------
    ph
        Where it lies [pH in water].

    Returns
    -------
    float
        By the slope of its curve there [mmolc/m2].
    """
    slope = curve_slope_mmolc_kg_ph(context, ph)
    return float(10.0 ** require_soil(context).k.log10_k_mean * slope * context.soil_mass_kg_m2)


def effort_reason(judged: Judgement, *, inside: bool) -> Reason | None:
    """Why a plan within reach is an effort all the same.

    Parameters
    ----------
    inside
        True where the bed lies in the range now.
    """
    limits = verdict_values()
    if inside:
        return Reason.UPKEEP
    parts = judged.parts or 1
    dose, year = judged.cap_dose_g_m2 or 1.0, judged.cap_year_g_m2 or 1.0
    per_year = max(1, int(year / dose + 1e-9))
    if parts > limits["effort_parts"]:
        return Reason.PARTS
    if 365 * ((parts - 1) // per_year) + 180 > limits["effort_days"]:
        return Reason.MONTHS
    pulled = judged.pull_ph_year > limits["effort_pull_ph_year"]
    return Reason.UPKEEP if pulled and judged.direction is Direction.ACIDIFY else None
