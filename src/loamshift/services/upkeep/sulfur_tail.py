"""Acid that sulfur put on earlier has still to bring."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.services.context.build_context import require_soil
from loamshift.services.materials.acid import acid_course_mmolc_m2

DAYS_IN_YEAR: Final = 365


def sulfur_tails_mmolc_m2(context: BedContext) -> list[tuple[float, float]]:
    """Acid of each sulfur put on by today: so far, and a year from today.

    Returns
    -------
    list of tuple of float
        Acid that has come by then, in the order they were put on [mmolc/m2].
    """
    found = []
    for applied in context.case.applied:
        since = (context.case.today - applied.on).days
        if applied.material.elemental_s_frac <= 0.0 or since < 0:
            continue
        course = acid_course_mmolc_m2(
            applied.material,
            rate_g_m2=applied.rate_g_m2,
            soil_temp_c=context.soil_temp_c,
            start=applied.on,
            days=since + DAYS_IN_YEAR,
            ph_water=require_soil(context).ph.ph_water,
            in_pot=context.in_pot,
            land_use=context.nitrogen_use,
            incorporated=applied.incorporated_cm > 0.0,
        )
        found.append((float(course[since - 1]) if since else 0.0, float(course[-1])))
    return found
