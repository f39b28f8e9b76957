"""How much of what was put on has acted since the last reading."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.services.context.build_context import require_soil
from loamshift.services.materials.acid import acid_course_mmolc_m2

NEARLY_ALL: Final = 0.98
"""From this share on, all is said to have acted [1]."""


def nearly_all_has_acted(context: BedContext) -> bool:
    """Whether what the last reading had not seen of earlier applications has acted by today."""
    pending = context.pending_acid_mmolc_m2
    return pending != 0.0 and round(acid_come_mmolc_m2(context, days=0) / pending, 2) >= NEARLY_ALL


def acid_come_mmolc_m2(context: BedContext, *, days: int) -> float:
    """Acid of earlier applications that the reading did not see and that is there by then.

    Parameters
    ----------
    days
        Days from today, 0 or more [d].

    Returns
    -------
    float
        Acid, negative where lime is meant [mmolc/m2].

    References
    ----------
    watkinson-blair-1993, own-judgement
    """
    come = 0.0
    for applied, pending in zip(context.case.applied, context.pending, strict=True):
        read = max(pending.since_days, 0)
        end = max((context.case.today - applied.on).days, 0) + days
        if end <= read:
            continue
        course = acid_course_mmolc_m2(
            applied.material,
            rate_g_m2=applied.rate_g_m2,
            soil_temp_c=context.soil_temp_c,
            start=applied.on,
            days=end,
            ph_water=require_soil(context).ph.ph_water,
            in_pot=context.in_pot,
            land_use=context.nitrogen_use,
            incorporated=applied.incorporated_cm > 0.0,
        )
        come += float(course[-1]) - (float(course[read - 1]) if read else 0.0)
    return come
