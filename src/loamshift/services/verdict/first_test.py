"""Which test should come before anything goes on."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import median_course
from loamshift.domain.answer import Branch, Decision, Direction, Reason
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.need import middle_dose_to
from loamshift.services.verdict.doubts import (
    Doubt,
    Group,
    doubts,
    supposing,
)
from loamshift.services.verdict.judged_bed import HALF, ROUNDING, JudgedBed, gaps_ph, share_staying
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import Reach, effort_reason, with_figures
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

EVEN: Final = 1e-9
"""Groups of equal size add up to the limit: enough for a rough reading, not for others [1]."""
WORTH_A_TRY: Final = frozenset({Decision.GO, Decision.EFFORT})
"""Between these no laboratory is waited for once a fizz test was made: the plan tests anyway."""


def first_test(case: JudgedBed, base: Judgement, reach: Reach | None) -> Judgement | None:
    """The one undone test most likely to change the decision, if likely enough.

    Parameters
    ----------
    reach
        What is within reach, None where nothing goes on.
    """
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
            slow = doubt.field == "soil.carbonate_pct" and {decision, base.decision} <= WORTH_A_TRY
            if other_way or (decision is not base.decision and not slow):
                changed += weight
                shift[decision] = shift.get(decision, 0.0) + weight
        rough = doubt.reason is Reason.DOUBTFUL_READING
        least = threshold - EVEN if rough else threshold + EVEN
        if changed > least and (best is None or changed > best.measure_probability):
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
        and rests_on_one_source(case, acidify=base.direction is Direction.ACIDIFY)
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
    case: JudgedBed, base: Judgement, reach: Reach | None, doubt: Doubt, group: Group
) -> tuple[Decision, bool]:
    """What would be decided if only these beds were possible, and whether the way is another."""
    limits, rules = verdict_values(), parameter_values("plan")
    gain = limits["leave_gain_ph"] - ROUNDING
    median = median_course(case.alone.ph[group.beds, : case.hold + 1])
    gaps = gaps_ph(median, case.target)
    if np.abs(gaps).max() < gain and share_staying(case, group.beds) > HALF:
        return Decision.LEAVE, False
    now = float(gaps[0])
    furthest = float(gaps[np.argmax(np.abs(gaps))])
    acidify = now > 0.0 if abs(now) >= gain else furthest > 0.0
    if reach is None:
        if base.decision is Decision.EFFORT and acidify is (base.reason is not Reason.FEED):
            return Decision.EFFORT, False
        return (Decision.GO, False) if base.decision is not Decision.EFFORT else (Decision.GO, True)
    if acidify is not reach.courses.seasons.acidify:
        return Decision.GO, True
    if float(reach.there[group.beds].mean()) < limits["elsewhere_probability"]:
        return Decision.ELSEWHERE, False
    thirsty = base.water_rise_ph >= gain and (acidify or float(gaps[-1]) > 0.0)
    if thirsty and float(reach.held[group.beds].mean()) < rules["water_known_frac"]:
        return Decision.EFFORT, base.direction is not Direction.NONE
    supposed = supposing(case.context, doubt, group)
    direction = Direction.ACIDIFY if acidify else Direction.LIME
    figures = with_figures(supposed, base, ph_aim=case.target.ph_aim, acidify=acidify)
    figures = replace(figures, direction=direction)
    effort = effort_reason(figures, inside=abs(now) < ROUNDING)
    return (Decision.GO if effort is None else Decision.EFFORT), False


def _branches(
    case: JudgedBed, base: Judgement, reach: Reach | None, doubt: Doubt
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
        need = middle_dose_to(known, case.target.ph_aim, acidify=acidify) if goes_on else None
        found.append(
            Branch(
                field=doubt.field,
                outcome=group.outcome,
                probability=float(group.beds.mean()),
                decision=decision,
                sulfur_as_s_g_m2=need if need is not None and acidify else None,
                lime_as_caco3_g_m2=need if need is not None and not acidify else None,
            )
        )
    return tuple(found)


def rests_on_one_source(case: JudgedBed, *, acidify: bool) -> bool:
    """True where the range rests on too little to move a whole bed for.

    Parameters
    ----------
    acidify
        True where the plan would acidify.
    """
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
