"""The judgement on a bed: from the simulated courses of its possible beds to one decision.

The order of the cases and every limit stand in ``docs/decisions/verdict.md``; the limits
themselves are rows of the table ``parameters``, topics ``verdict`` and ``plan``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.background import background_acid_mmolc_m2
from loamshift.core.buffer import buffer_mmolc_kg_ph
from loamshift.core.plan_rule import RuleGoal, choose_rule, reachable
from loamshift.domain.answer import Branch, Decision, Direction, Reason
from loamshift.domain.bed_context import BedContext, Target
from loamshift.services.belief.possible_beds import BedRun, Runner
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.services.context.need import carbonate_median_mmolc_kg, dose_to
from loamshift.services.courses.seasons import Seasons, seasons_ahead, tidy_amounts
from loamshift.services.courses.surface import Courses, courses_of, day_index
from loamshift.services.verdict.doubts import (
    Doubt,
    Group,
    doubts,
    lime_contradicts_ph,
    supposing,
)
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.stops import stop_reason
from loamshift.tables.model import ledger_parameters, lime_parameters, verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from loamshift.units import SULFUR_G_PER_MMOLC

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

ROUNDING: Final = 0.005
"""A gap of the limit counts as the limit: a median of drawn beds is no closer than this [pH]."""
AMOUNTS: Final = (13, 11)
QUICK_AMOUNTS: Final = (7, 6)
"""First and later amounts a rule is chosen from; fewer where no column is run [count]."""
SMALLEST_PART: Final = 0.2
"""A remainder below this share of a full dose makes no part of its own [1]."""
DRIFT_D: Final = 731
"""Over so many days the drift of a bed left alone is read [d]."""
HALF: Final = 0.5
"""A bed is left alone only where more than this share of what it may be stays near the range."""
REACH: Final = 1.3
"""Amounts are tried up to so many times the upper end of the need [-]."""


@dataclass(frozen=True, slots=True)
class _Case:
    """What every question below needs."""

    context: BedContext
    target: Target
    beds: Runner
    alone: BedRun
    quick: bool
    on: int
    hold: int

    @property
    def median(self) -> FloatArray:
        """Median course of the bed left alone [pH]."""
        return np.asarray(np.median(self.alone.ph, axis=0), dtype=np.float64)


@dataclass(frozen=True, slots=True)
class _Reach:
    """What the limits of the seasons can do for each bed."""

    courses: Courses
    goal: RuleGoal
    there: BoolArray
    held: BoolArray


def days_needed(context: BedContext) -> int:
    """How far ahead a bed must be run to be judged.

    Parameters
    ----------
    context
        A bed with a soil [object].

    Returns
    -------
    int
        Days from today, a year beyond the latest day wanted [d].
    """
    if context.target is None:
        return int(verdict_values()["seasons"]) * 365 + 366
    last = max(seasons_ahead(context, acidify=acidify).hold for acidify in (True, False))
    return max((last - context.case.today).days, int(verdict_values()["seasons"]) * 365) + 31


def judge(
    context: BedContext,
    beds: Runner,
    *,
    alone: BedRun,
    quick: bool = False,
    doubted: bool = False,
) -> Judgement:
    """The judgement on a bed with a pH.

    Parameters
    ----------
    context
        A bed with a soil [object].
    beds
        Its possible beds [object].
    alone
        Their run with nothing more put on [object].
    quick
        True chooses the plan from fewer amounts and by one test [truth].
    doubted
        True where the readings fit no likely bed: they are to be repeated first [truth].

    Returns
    -------
    Judgement
        Decision, reason, figures and plan [object].
    """
    target = context.target
    if target is None:
        return _without_aim(context, alone)
    case = _Case(context, target, beds, alone, quick, *_days_wanted(context, beds.days))
    stopped = _stopped(case)
    if stopped is not None:
        return stopped
    if not target.is_shared:
        return _elsewhere_apart(case)
    base, reach = _without_tests(case)
    if doubted or lime_contradicts_ph(context):
        return replace(
            base,
            decision=Decision.MEASURE_FIRST,
            direction=Direction.NONE,
            reason=Reason.DOUBTFUL_READING,
            measure="soil.ph",
            measure_probability=1.0,
        )
    first = _first_test(case, base, reach)
    return _with_plan(case, first or base, reach)


def judge_without_soil(context: BedContext) -> Judgement:
    """The judgement where nobody read a pH.

    Parameters
    ----------
    context
        A bed without a soil [object].

    Returns
    -------
    Judgement
        Stop where a fact forbids treatment, else the pH first [object].
    """
    reason = stop_reason(context, acidify=False)
    if reason is not None:
        return Judgement(decision=Decision.STOP, direction=Direction.NONE, reason=reason)
    return Judgement(
        decision=Decision.MEASURE_FIRST,
        direction=Direction.NONE,
        reason=Reason.NO_PH,
        measure="soil.ph",
        measure_probability=1.0,
    )


def _without_aim(context: BedContext, alone: BedRun) -> Judgement:
    reason = stop_reason(context, acidify=False)
    if reason is not None:
        return Judgement(
            decision=Decision.STOP,
            direction=Direction.NONE,
            reason=reason,
            ph_expected=float(np.median(alone.ph[:, -1])),
        )
    return Judgement(
        decision=Decision.MEASURE_FIRST,
        direction=Direction.NONE,
        reason=Reason.NO_AIM,
        measure="aim.plant",
        measure_probability=1.0,
    )


def _days_wanted(context: BedContext, days: tuple[date, ...]) -> tuple[int, int]:
    """Places of the day wanted and of a year later [index]."""
    seasons = int(verdict_values()["seasons"])
    by = context.case.aim.by
    today = context.case.today
    on = by if by is not None and by > today else today + timedelta(days=365 * seasons)
    return day_index(days, on), day_index(days, on + timedelta(days=365))


def _stopped(case: _Case) -> Judgement | None:
    """Stop by the facts, or because what lies there brings the bed to harm."""
    context, target = case.context, case.target
    above = _gap(float(case.median[0]), target) > 0.0
    reason = stop_reason(context, acidify=above)
    expected = _extreme(case)
    if reason is None and _comes_to_harm(case, expected):
        reason = Reason.OVERDOSE
    if reason is None:
        return None
    return Judgement(
        decision=Decision.STOP,
        direction=Direction.NONE,
        reason=reason,
        in_range=_share_in_range(case),
        ph_expected=expected,
    )


def _extreme(case: _Case) -> float:
    """The furthest the median of the bed left alone gets, the way earlier material takes it."""
    coming = case.context.pending_acid_mmolc_m2
    if coming > 0.0:
        return float(case.median.min())
    if coming < 0.0:
        return float(case.median.max())
    return float(case.median[case.on])


def _comes_to_harm(case: _Case, expected: float) -> bool:
    """True where what was put on takes every second bed past what its plants bear."""
    limits = verdict_values()
    target, now = case.target, float(case.median[0])
    coming = case.context.pending_acid_mmolc_m2
    if abs(expected - now) < limits["leave_gain_ph"]:
        return False
    if coming > 0.0:
        return expected < max(limits["harmful_ph"], target.harmful_low)
    return coming < 0.0 and expected > target.harmful_high


def _elsewhere_apart(case: _Case) -> Judgement:
    return Judgement(
        decision=Decision.ELSEWHERE,
        direction=Direction.NONE,
        reason=Reason.NO_COMMON_RANGE,
        in_range=0.0,
    )


def _gap(ph: float, target: Target) -> float:
    """How far a pH lies above the range, or below it as a negative figure [pH]."""
    return max(ph - target.ph_high, 0.0) - max(target.ph_low - ph, 0.0)


def _share_in_range(case: _Case, day: int = 0) -> float:
    ph = case.alone.ph[:, day]
    return float(np.mean((ph >= case.target.ph_low) & (ph <= case.target.ph_high)))


def _share_staying(case: _Case, beds: BoolArray | None = None) -> float:
    """Share of beds that, left alone, stay within a hair of the range until a year on."""
    gain = verdict_values()["leave_gain_ph"]
    ph = case.alone.ph[:, : case.hold + 1] if beds is None else case.alone.ph[beds, : case.hold + 1]
    low, high = case.target.ph_low - gain, case.target.ph_high + gain
    return float(np.mean(((ph >= low) & (ph <= high)).all(axis=1)))


def _without_tests(case: _Case) -> tuple[Judgement, _Reach | None]:
    """The judgement as if no further test could be made, and what is within reach."""
    gain = verdict_values()["leave_gain_ph"] - ROUNDING
    median = case.median[: case.hold + 1]
    gaps = np.array([_gap(float(ph), case.target) for ph in median])
    now, later = float(gaps[0]), float(gaps[case.on])
    leave = Judgement(
        decision=Decision.LEAVE,
        direction=Direction.NONE,
        reason=Reason.IN_RANGE if abs(now) < ROUNDING else Reason.SMALL_GAIN,
        in_range=_share_in_range(case),
        stays=_share_staying(case),
        ph_alone_on=float(median[case.on]),
        ph_expected=_extreme(case),
        drift_ph_year=_drift_ph_year(case),
    )
    if np.abs(gaps).max() < gain and (leave.stays or 0.0) > HALF:
        return leave, None
    arriving = case.context.pending_acid_mmolc_m2 != 0.0 and abs(now) >= gain
    if arriving and np.abs(gaps[case.on :]).max() < gain:
        return replace(leave, reason=Reason.AT_WORK), None
    furthest = float(gaps[np.argmax(np.abs(gaps))])
    acidify = now > 0.0 if abs(now) >= gain else furthest > 0.0
    good_now = abs(now) < gain
    inside = abs(now) < ROUNDING
    rise = _water_rise(case)
    if good_now and acidify and rise >= gain:
        thirsty = replace(leave, decision=Decision.EFFORT, reason=Reason.WATER, water_rise_ph=rise)
        return thirsty, None
    if arriving and now * later < 0.0:
        return replace(leave, decision=Decision.STOP, reason=Reason.OVERDOSE), None
    reach = _reach(case, acidify=acidify)
    return _by_reach(case, reach, leave, rise=rise, inside=inside), reach


def _drift_ph_year(case: _Case) -> float:
    """How the median of the bed left alone moves over the next two years [pH/yr]."""
    days = case.beds.days
    later = day_index(days, days[0] + timedelta(days=DRIFT_D))
    years = max((days[later] - days[0]).days, 1) / 365.25
    return float(case.median[later] - case.median[0]) / years


def _water_rise(case: _Case) -> float:
    """How much higher the bed left alone lies on the day wanted than under rain water [pH]."""
    if case.context.water_base_mmolc_m2_year <= 0.0:
        return 0.0
    rain = case.beds.with_rain_water().run(())
    return float(case.median[case.on] - np.median(rain.ph[:, case.on]))


def _reach(case: _Case, *, acidify: bool) -> _Reach:
    """What the printed limits of the seasons can do for each bed."""
    seasons = seasons_ahead(case.context, acidify=acidify)
    need = dose_to(case.context, case.target.ph_aim, acidify=acidify)
    high = need.hi90 / seasons.active_frac
    courses = courses_of(
        case.beds,
        seasons,
        alone=case.alone,
        need_mid_g_m2=max(need.mid / seasons.active_frac, 1e-3 * max(seasons.capacity_g_m2)),
        need_high_g_m2=high,
    )
    goal = _goal(case, seasons, courses, high_g_m2=high)
    return _Reach(
        courses=courses,
        goal=goal,
        there=reachable(courses.surface, replace(goal, hold=goal.on)),
        held=reachable(courses.surface, goal),
    )


def _goal(case: _Case, seasons: Seasons, courses: Courses, *, high_g_m2: float) -> RuleGoal:
    rules, target = parameter_values("plan"), case.target
    smallest = 1e-3 * max(seasons.capacity_g_m2)
    top = max(REACH * high_g_m2, smallest)
    counts = QUICK_AMOUNTS if case.quick else AMOUNTS
    first = tidy_amounts(min(seasons.capacity_g_m2[0], top), count=counts[0])
    later = tidy_amounts(min(seasons.capacity_g_m2[-1], top), count=counts[1])
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

    Parameters
    ----------
    context
        A bed with a soil [object].

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


def _by_reach(
    case: _Case, reach: _Reach, alone: Judgement, *, rise: float, inside: bool
) -> Judgement:
    """Elsewhere, effort or go, by what the limits of the seasons can do."""
    limits, rules = verdict_values(), parameter_values("plan")
    acidify = reach.courses.seasons.acidify
    direction = Direction.ACIDIFY if acidify else Direction.LIME
    judged = replace(
        _with_figures(case, alone, acidify=acidify),
        decision=Decision.GO,
        direction=direction,
        reason=Reason.WITHIN_REACH,
        water_rise_ph=rise,
        covered=float(reach.there.mean()),
        held=float(reach.held.mean()),
    )
    thirsty = acidify and rise >= limits["leave_gain_ph"] - ROUNDING
    if judged.covered is not None and judged.covered < limits["elsewhere_probability"]:
        lime = acidify and (judged.carbonate_share or 0.0) > 0.5
        why = Reason.FREE_LIME if lime else Reason.WATER if thirsty else Reason.CAPS
        return replace(judged, decision=Decision.ELSEWHERE, reason=why)
    if thirsty and judged.held is not None and judged.held < rules["water_known_frac"]:
        return replace(
            judged, decision=Decision.EFFORT, direction=Direction.NONE, reason=Reason.WATER
        )
    reason = _effort_reason(judged, inside=inside)
    if reason is not None:
        return replace(judged, decision=Decision.EFFORT, reason=reason)
    return judged


def _with_figures(case: _Case, judged: Judgement, *, acidify: bool) -> Judgement:
    """A judgement with need, caps and pull of one direction."""
    context = case.context
    substance = "sulfur" if acidify else "limestone"
    ground = context.cap_situation
    dose = cap_for(applies_to=substance, situation=ground, per="dose").limit_g_m2
    year = cap_for(applies_to=substance, situation=ground, per="year").limit_g_m2
    working = 1.0 if acidify else lime_parameters().field_efficiency
    need = dose_to(context, case.target.ph_aim, acidify=acidify)
    mass = context.soil_mass_kg_m2
    carbonate = carbonate_median_mmolc_kg(context) * mass * SULFUR_G_PER_MMOLC
    share = min(carbonate / need.mid, 1.0) if acidify and need.mid > 0.0 else None
    return replace(
        judged,
        need_mid_g_m2=need.mid,
        cap_dose_g_m2=dose,
        cap_year_g_m2=year,
        working_frac=working,
        parts=max(1, math.ceil(need.mid / (dose * working) - SMALLEST_PART)),
        pull_ph_year=yearly_pull_ph(context, case.target.ph_aim, acidify=acidify),
        carbonate_share=share,
    )


def yearly_pull_ph(context: BedContext, ph: float, *, acidify: bool) -> float:
    """How much water, leaching and uptake move a bed held at a pH against the aim in a year.

    Parameters
    ----------
    context
        A bed with a soil [object].
    ph
        Where it is held [pH in water].
    acidify
        True where it was brought down [truth].

    Returns
    -------
    float
        0 or more [pH/yr].
    """
    background = 0.0
    if not context.in_pot:
        background = background_acid_mmolc_m2(
            ph,
            drainage_mm=context.drainage_mm_year,
            params=ledger_parameters(),
            land_use=context.land_use,
        )
    pull = context.water_base_mmolc_m2_year - background
    slope = float(buffer_mmolc_kg_ph(ph, **curve_of(context)))
    k = 10.0 ** require_soil(context).k.log10_k_mean
    against = max(pull if acidify else -pull, 0.0)
    return float(against / (k * slope * context.soil_mass_kg_m2))


def _effort_reason(judged: Judgement, *, inside: bool) -> Reason | None:
    limits = verdict_values()
    parts = judged.parts or 1
    dose, year = judged.cap_dose_g_m2 or 1.0, judged.cap_year_g_m2 or 1.0
    per_year = max(1, int(year / dose + 1e-9))
    if parts > limits["effort_parts"]:
        return Reason.PARTS
    if 365 * ((parts - 1) // per_year) + 180 > limits["effort_days"]:
        return Reason.MONTHS
    pulled = judged.pull_ph_year > limits["effort_pull_ph_year"]
    if inside or (pulled and judged.direction is Direction.ACIDIFY):
        return Reason.UPKEEP
    return None


def _first_test(case: _Case, base: Judgement, reach: _Reach | None) -> Judgement | None:
    """The one undone test most likely to change the decision, if likely enough."""
    threshold = verdict_values()["measure_first_probability"]
    best: Judgement | None = None
    for doubt in doubts(case.context, case.beds):
        if base.decision is Decision.LEAVE and doubt.reason is not Reason.DOUBTFUL_READING:
            continue
        changed = 0.0
        shift: dict[Decision, float] = {}
        for group in doubt.groups:
            weight = float(group.beds.mean())
            decision, other_way = _decided(case, base, reach, doubt, group)
            if decision is not base.decision or other_way:
                changed += weight
                shift[decision] = shift.get(decision, 0.0) + weight
        if changed > threshold and (best is None or changed > best.measure_probability):
            best = replace(
                base,
                decision=Decision.MEASURE_FIRST,
                reason=doubt.reason,
                measure=doubt.field,
                measure_probability=changed,
                measure_shift=max(shift, key=shift.__getitem__),
                branches=_branches(case, base, reach, doubt),
            )
    if (
        best is None
        and base.acts
        and base.direction is not Direction.NONE
        and _one_source(case, acidify=base.direction is Direction.ACIDIFY)
    ):
        return replace(
            base,
            decision=Decision.MEASURE_FIRST,
            reason=Reason.ONE_SOURCE_RANGE,
            measure="aim.target_ph",
            measure_probability=1.0,
        )
    return best


def _decided(
    case: _Case, base: Judgement, reach: _Reach | None, doubt: Doubt, group: Group
) -> tuple[Decision, bool]:
    """What would be decided if only these beds were possible, and whether the way is another."""
    limits, rules = verdict_values(), parameter_values("plan")
    gain = limits["leave_gain_ph"] - ROUNDING
    median = np.median(case.alone.ph[group.beds, : case.hold + 1], axis=0)
    gaps = np.array([_gap(float(ph), case.target) for ph in median])
    if np.abs(gaps).max() < gain and _share_staying(case, group.beds) > HALF:
        return Decision.LEAVE, False
    now = float(gaps[0])
    furthest = float(gaps[np.argmax(np.abs(gaps))])
    acidify = now > 0.0 if abs(now) >= gain else furthest > 0.0
    if reach is None:
        if base.decision is Decision.EFFORT and acidify:
            return Decision.EFFORT, False
        return (Decision.GO, False) if base.decision is not Decision.EFFORT else (Decision.GO, True)
    if acidify is not reach.courses.seasons.acidify:
        return Decision.GO, True
    if float(reach.there[group.beds].mean()) < limits["elsewhere_probability"]:
        return Decision.ELSEWHERE, False
    thirsty = acidify and base.water_rise_ph >= gain
    if thirsty and float(reach.held[group.beds].mean()) < rules["water_known_frac"]:
        return Decision.EFFORT, base.direction is not Direction.NONE
    supposed = replace(case, context=supposing(case.context, doubt, group))
    direction = Direction.ACIDIFY if acidify else Direction.LIME
    figures = replace(_with_figures(supposed, base, acidify=acidify), direction=direction)
    effort = _effort_reason(figures, inside=abs(now) < ROUNDING)
    return (Decision.GO if effort is None else Decision.EFFORT), False


def _branches(
    case: _Case, base: Judgement, reach: _Reach | None, doubt: Doubt
) -> tuple[Branch, ...]:
    """Both ways an open question of lime may turn out, in figures."""
    if doubt.reason is not Reason.UNKNOWN_LIME or reach is None:
        return ()
    acidify = reach.courses.seasons.acidify
    found = []
    for group in doubt.groups:
        decision, _ = _decided(case, base, reach, doubt, group)
        goes_on = decision in (Decision.GO, Decision.EFFORT)
        known = supposing(case.context, doubt, group)
        need = dose_to(known, case.target.ph_aim, acidify=acidify) if goes_on else None
        found.append(
            Branch(
                field=doubt.field,
                outcome=group.outcome,
                probability=float(group.beds.mean()),
                decision=decision,
                sulfur_as_s_g_m2=need.mid if need is not None and acidify else None,
                lime_as_caco3_g_m2=need.mid if need is not None and not acidify else None,
            )
        )
    return tuple(found)


def _one_source(case: _Case, *, acidify: bool) -> bool:
    """True where the range rests on too little to move a whole bed for."""
    context, target = case.context, case.target
    plants = context.case.aim.plants if target.names else ()
    bears_acid = acidify and any(plant.tolerates_acid for plant in plants)
    if not target.weak and not bears_acid and not any(plant.doubtful for plant in plants):
        return False
    far = parameter_values("plan")["outside_every_range_ph"] - ROUNDING
    ph = require_soil(context).ph.ph_water
    if ph >= target.highest + far or ph <= target.lowest - far:
        return False
    lime = context.case.soil.lab_lime_requirement_g_m2
    return not (lime is not None and lime > 0.0 and ph < target.ph_low)


def _with_plan(case: _Case, judged: Judgement, reach: _Reach | None) -> Judgement:
    """The judgement with the rule of its plan, where something is to go on."""
    if reach is None or not judged.acts or judged.direction is Direction.NONE:
        return judged
    goal = reach.goal
    if case.quick and goal.seasons > 2:
        goal = replace(goal, seasons=2, tests=goal.tests[:1])
    rule = choose_rule(reach.courses.surface, goal, chosen_on=reach.courses.chosen_on)
    ph = reach.courses.surface.course(tuple(rule.amounts_g_m2))
    held = np.median(ph[:, goal.hold]) - np.median(ph[:, goal.on])
    return replace(judged, rule=rule, courses=reach.courses, drift_ph_year=float(held))
