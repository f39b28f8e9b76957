"""The judgement on a bed: from the simulated courses of its possible beds to one decision.

The order of the cases and every limit stand in ``docs/decisions/verdict.md``; the limits
themselves are rows of the table ``parameters``, topics ``verdict`` and ``plan``.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from loamshift.core.ensemble import sample_median
from loamshift.core.plan_rule import choose_rule
from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.services.belief.bed_run import BedRun, Runner
from loamshift.services.context.wanted_day import wanted_by
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.courses.surface import day_index
from loamshift.services.materials.feed import feed_acid_of
from loamshift.services.verdict.doubts import (
    hardly_a_soil,
    holds_free_lime,
    likely_sodic,
    lime_contradicts_ph,
)
from loamshift.services.verdict.first_test import first_test
from loamshift.services.verdict.judged_bed import (
    HALF,
    ROUNDING,
    JudgedBed,
    coming_ph,
    drift_alone_ph_year,
    feed_pull,
    furthest_median_ph,
    gap_ph,
    gaps_ph,
    share_in_range,
    share_staying,
    water_cost,
    water_rise_ph,
)
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import Reach, judged_by_reach, reach_of
from loamshift.services.verdict.stops import stop_reason
from loamshift.services.verdict.under_way import goes_on_with, way_under_way
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values


def days_needed(context: BedContext) -> int:
    """How far ahead a bed must be run to be judged.

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
    quick
        True chooses the plan from fewer amounts and by one test.
    doubted
        True where the readings fit no likely bed: they are to be repeated first.
    """
    target = context.target
    if target is None:
        return _without_aim(context, alone)
    case = JudgedBed(context, target, beds, alone, quick, *_days_wanted(context, beds.days))
    stopped = _stopped(case)
    if stopped is not None:
        return stopped
    if not target.is_shared:
        return _elsewhere_apart(case)
    base, reach = _without_tests(case)
    if base.decision is Decision.STOP:
        return base
    if likely_sodic(context) and float(case.median[0]) > target.ph_high:
        return _measure(base, Reason.UNKNOWN_SODIUM, "soil.sodium_pct")
    limes_lime = base.direction is Direction.LIME and holds_free_lime(context)
    unlikely = hardly_a_soil(context)
    if doubted or limes_lime or unlikely or lime_contradicts_ph(context):
        return _measure(base, Reason.DOUBTFUL_READING, "soil.ph")
    if base.decision is Decision.LEAVE:
        base, reach = _not_given_up(case, base)
    first = first_test(case, base, reach)
    return _with_plan(case, first or base, reach)


def _measure(base: Judgement, reason: Reason, field: str) -> Judgement:
    """Nothing goes on, not even on trial, before one fact is known."""
    return replace(
        base,
        decision=Decision.MEASURE_FIRST,
        direction=Direction.NONE,
        reason=reason,
        measure=field,
        measure_probability=1.0,
        ph_now=None,
    )


def judge_without_soil(context: BedContext) -> Judgement:
    """The judgement where nobody read a pH.

    Parameters
    ----------
    context
        A bed without a soil.

    Returns
    -------
    Judgement
        Stop where a fact forbids treatment, else the pH first.
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
    by = wanted_by(context.case)
    on = by or context.case.today + timedelta(days=365 * seasons)
    return day_index(days, on), day_index(days, on + timedelta(days=365))


def _stopped(case: JudgedBed) -> Judgement | None:
    """Stop by the facts, or because what lies there brings the bed to harm."""
    context = case.context
    reason = stop_reason(context, acidify=False)
    expected = furthest_median_ph(case)
    if reason is None and _comes_to_harm(case, expected):
        reason = Reason.OVERDOSE
    if reason is None:
        return None
    return Judgement(
        decision=Decision.STOP,
        direction=Direction.NONE,
        reason=reason,
        in_range=share_in_range(case),
        ph_now=float(case.median[0]) if context.pending_acid_mmolc_m2 != 0.0 else None,
        ph_expected=expected,
    )


def _comes_to_harm(case: JudgedBed, expected: float) -> bool:
    """True where what was put on takes every second bed past what its plants bear."""
    limits = verdict_values()
    target, now = case.target, float(case.median[0])
    coming = case.context.pending_acid_mmolc_m2
    if min(abs(expected - now), abs(coming_ph(case))) < limits["leave_gain_ph"]:
        return False
    if coming > 0.0:
        return expected < max(limits["harmful_ph"], target.harmful_low)
    return coming < 0.0 and expected > target.harmful_high


def _elsewhere_apart(case: JudgedBed) -> Judgement:
    return Judgement(
        decision=Decision.ELSEWHERE,
        direction=Direction.NONE,
        reason=Reason.NO_COMMON_RANGE,
        in_range=0.0,
    )


def _without_tests(case: JudgedBed) -> tuple[Judgement, Reach | None]:
    """The judgement as if no further test could be made, and what is within reach."""
    gain = verdict_values()["leave_gain_ph"] - ROUNDING
    median = case.median[: case.hold + 1]
    gaps = gaps_ph(median, case.target)
    now, later = float(gaps[0]), float(gaps[case.on])
    leave = Judgement(
        decision=Decision.LEAVE,
        direction=Direction.NONE,
        reason=Reason.IN_RANGE if abs(now) < ROUNDING else Reason.SMALL_GAIN,
        in_range=share_in_range(case),
        stays=share_staying(case),
        ph_alone_on=float(median[case.on]),
        ph_now=float(median[0]),
        ph_expected=furthest_median_ph(case),
        drift_ph_year=drift_alone_ph_year(case),
    )
    if np.abs(gaps).max() < gain and (leave.stays or 0.0) > HALF:
        rise = water_rise_ph(case)
        if rise >= gain and water_cost(case) >= parameter_values("plan")["water_cost_frac"]:
            return replace(
                leave, decision=Decision.EFFORT, reason=Reason.WATER, water_rise_ph=rise
            ), None
        coming = coming_ph(case)
        nearer = abs(now) >= ROUNDING and coming * now < 0.0
        if nearer and abs(coming) >= verdict_values()["at_work_ph"]:
            return _left_at_work(case, leave), None
        return leave, None
    arriving = abs(coming_ph(case)) >= verdict_values()["at_work_ph"] and abs(now) >= gain
    if arriving and np.abs(gaps[case.on :]).max() < gain:
        return _left_at_work(case, leave), None
    furthest = float(gaps[np.argmax(np.abs(gaps))])
    acidify = now > 0.0 if abs(now) >= gain else furthest > 0.0
    good_now = abs(now) < gain
    inside = abs(now) < ROUNDING
    rise = water_rise_ph(case)
    if good_now and acidify and rise >= gain:
        thirsty = replace(leave, decision=Decision.EFFORT, reason=Reason.WATER, water_rise_ph=rise)
        return thirsty, None
    if good_now and not acidify:
        fed = _or_feed_first(case, leave)
        if fed is not leave:
            return fed, None
    if stop_reason(case.context, acidify=acidify) is not None:
        return replace(leave, decision=Decision.STOP, reason=Reason.WATERLOGGED), None
    if arriving and now * later < 0.0:
        return replace(leave, decision=Decision.STOP, reason=Reason.OVERDOSE), None
    reach = reach_of(case, acidify=acidify)
    judged = judged_by_reach(case, reach, leave, rise=rise, inside=inside)
    if judged.reason is Reason.CAPS and not acidify:
        judged = _feed_in_the_way(case, judged)
    return judged, None if judged.reason is Reason.FEED else reach


def _left_at_work(case: JudgedBed, leave: Judgement) -> Judgement:
    """Left to what lies there; sulfur in waterlogged ground does not turn to acid."""
    if stop_reason(case.context, acidify=coming_ph(case) < 0.0) is not None:
        return replace(leave, decision=Decision.STOP, reason=Reason.WATERLOGGED)
    return replace(leave, reason=Reason.AT_WORK)


def _or_feed_first(case: JudgedBed, leave: Judgement) -> Judgement:
    """Another feed first, where it is the feed that takes a good soil out of its range."""
    pull = feed_pull(case)
    if pull.fall_ph < verdict_values()["leave_gain_ph"] - ROUNDING or not pull.is_most:
        return leave
    return replace(leave, decision=Decision.EFFORT, reason=Reason.FEED, feed_fall_ph=pull.fall_ph)


def _feed_in_the_way(case: JudgedBed, judged: Judgement) -> Judgement:
    """Another feed first, where lime would do within its limits but for the acid of the feed."""
    if feed_acid_of(case.context) <= 0.0:
        return judged
    beds = case.beds.without_feed()
    reach = reach_of(replace(case, beds=beds, alone=beds.run(())), acidify=False)
    covered = float(reach.there.mean())
    if covered < verdict_values()["elsewhere_probability"]:
        return judged
    return replace(
        judged,
        decision=Decision.EFFORT,
        direction=Direction.NONE,
        reason=Reason.FEED,
        feed_fall_ph=feed_pull(case).fall_ph,
        covered_unfed=covered,
    )


def _not_given_up(case: JudgedBed, leave: Judgement) -> tuple[Judgement, Reach | None]:
    """In the middle of a plan a gap too small to begin with still gets the part that pays."""
    acidify = way_under_way(case)
    if acidify is None or stop_reason(case.context, acidify=acidify) is not None:
        return leave, None
    reach = reach_of(case, acidify=acidify)
    rise = water_rise_ph(case)
    judged = judged_by_reach(case, reach, leave, rise=rise, inside=False)
    goes_on = judged.acts and goes_on_with(case, _with_plan(case, judged, reach))
    return (judged, reach) if goes_on else (leave, None)


def _with_plan(case: JudgedBed, judged: Judgement, reach: Reach | None) -> Judgement:
    """The judgement with the rule of its plan, where something is to go on.

    What the last part still does after the day wanted is no drift: limed ground rises by itself
    no faster than it did before, and acidified ground falls no faster.
    """
    if reach is None or not judged.acts or judged.direction is Direction.NONE:
        return judged
    goal = reach.goal
    if case.quick and goal.seasons > 2:
        goal = replace(goal, seasons=2, tests=goal.tests[:1])
    courses = reach.courses
    rule = choose_rule(courses.surface, goal, chosen_on=courses.chosen_on, bounds=reach.bounds)
    given = tuple(rule.amounts_g_m2)
    there, later = (sample_median(courses.surface.at(on, given)) for on in (goal.on, goal.hold))
    held = later - there
    alone = drift_alone_ph_year(case)
    if judged.direction is Direction.LIME:
        drift = min(held, max(alone, 0.0))
    else:
        drift = max(held, min(alone, 0.0))
    planned = replace(judged, rule=rule, courses=reach.courses, drift_held_ph_year=drift)
    acts = rule.first_g_m2 > 0.0 or any(line.amount_g_m2 > 0.0 for line in rule.lines)
    return planned if acts else _nothing_goes_on(case, planned)


def _nothing_goes_on(case: JudgedBed, judged: Judgement) -> Judgement:
    """Where the best plan puts nothing on, ever: why, and what is to be done instead."""
    rule = judged.rule
    assert rule is not None
    if judged.decision is Decision.MEASURE_FIRST:
        return replace(judged, rule=None, courses=None, drift_held_ph_year=None)
    judged = replace(judged, drift_held_ph_year=None)
    without = replace(judged, rule=None, courses=None, direction=Direction.NONE)
    limits = verdict_values()
    gaps = [abs(gap_ph(float(ph), case.target)) for ph in case.median[: case.hold + 1]]
    if max(gaps[0], *gaps[case.on :]) < limits["leave_gain_ph"] - ROUNDING:
        passing = abs(coming_ph(case)) >= limits["at_work_ph"]
        edge = Reason.IN_RANGE if gaps[0] < ROUNDING else Reason.SMALL_GAIN
        reason = Reason.AT_WORK if passing else edge
        return replace(without, decision=Decision.LEAVE, reason=reason, branches=())
    gained = rule.share_if_known - rule.share_in_range
    if gained > limits["measure_first_probability"]:
        return replace(
            without,
            decision=Decision.MEASURE_FIRST,
            reason=Reason.UNKNOWN_TEXTURE,
            measure="titration",
            measure_probability=gained,
            measure_shift=Decision.GO,
        )
    elsewhere = replace(
        judged,
        rule=None,
        courses=None,
        branches=(),
        decision=Decision.ELSEWHERE,
        reason=Reason.CAPS,
    )
    if judged.direction is Direction.ACIDIFY:
        return elsewhere
    return _feed_in_the_way(case, elsewhere)
