"""Whether a bed stands in the middle of a plan, so that it is not given up half way."""

from __future__ import annotations

import numpy as np

from loamshift.domain.bed_context import BedContext
from loamshift.services.verdict.judged_bed import ROUNDING, JudgedBed, gap_ph
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.parameters import parameter_values


def way_under_way(case: JudgedBed) -> bool | None:
    """Which way a bed is being moved, where it has not come into its range by now.

    Returns
    -------
    bool or None
        True for acid, False for lime; None where nothing was put on lately, where no reading
        has been taken since it could act, or the median bed left alone is in the range now or
        passes it on the other side.

    References
    ----------
    own-judgement
    """
    lately = _put_on_lately_mmolc_m2(case.context)
    if lately == 0.0:
        return None
    acidify = lately > 0.0
    sign = 1.0 if acidify else -1.0
    days = (0, case.on, case.hold)
    now, *later = (sign * gap_ph(float(case.median[day]), case.target) for day in days)
    return acidify if now > ROUNDING and min(later) > -ROUNDING else None


def goes_on_with(case: JudgedBed, planned: Judgement) -> bool:
    """Whether another part brings enough more of the possible beds into the range.

    Returns
    -------
    bool
        False where the bed does as well by itself.

    References
    ----------
    own-judgement
    """
    rule = planned.rule
    if rule is None or rule.first_g_m2 <= 0.0:
        return False
    ph = case.alone.ph[:, [case.on, case.hold]]
    inside = (ph >= case.target.ph_low) & (ph <= case.target.ph_high)
    by_itself = float(np.mean(inside.all(axis=1)))
    gained = rule.share_in_range - by_itself
    return gained >= parameter_values("plan")["under_way_gain_frac"]


def _put_on_lately_mmolc_m2(context: BedContext) -> float:
    """All that the materials of the last season ever bring, acid positive [mmolc/m2].

    0 where one of them lay too short a time for the last reading to judge it.
    """
    limits = parameter_values("plan")
    today = context.case.today
    lately = [
        pending
        for applied, pending in zip(context.case.applied, context.pending, strict=True)
        if (today - applied.on).days <= limits["under_way_days"]
    ]
    if any(pending.since_days < limits["judged_after_days"] for pending in lately):
        return 0.0
    return sum(pending.total_mmolc_m2 for pending in lately)
