"""How much: the acid or lime a soil takes up to reach the aim, as a range with its reasons."""

from __future__ import annotations

from loamshift.domain.answer import Band, Decision, Direction, Dose
from loamshift.domain.bed_context import BedContext
from loamshift.services.context.need import acid_to, as_dose, carbonate_median_mmolc_kg
from loamshift.services.plan.published import published_spread
from loamshift.services.verdict.judgement import Judgement

NO_DOSE = Dose(
    direction=Direction.NONE,
    provisional=False,
    acid_mmolc_kg=None,
    sulfur_as_s_g_m2=None,
    lime_as_caco3_g_m2=None,
    carbonate_share=None,
    published_g_m2=None,
)


def dose(context: BedContext, judged: Judgement) -> Dose:
    """The static dose: buffer curve plus free carbonate, less what earlier material still brings.

    Returns
    -------
    Dose
        Range of acid [mmolc/kg, base negative] and of sulfur or lime [g/m2].
    """
    no_use = judged.decision in (Decision.LEAVE, Decision.STOP)
    if context.soil is None or context.target is None or no_use:
        return NO_DOSE
    direction = judged.direction
    if direction is Direction.NONE:
        return NO_DOSE
    acidify = direction is Direction.ACIDIFY
    need = acid_to(context, context.target.ph_aim, acidify=acidify)
    low, mid, high = need.lo90, need.mid, need.hi90
    per_area = as_dose(context, need, acidify=acidify)
    carbonate = carbonate_median_mmolc_kg(context)
    acid = (low, mid, high) if acidify else (-high, -mid, -low)
    return Dose(
        direction=direction,
        provisional=judged.decision is Decision.MEASURE_FIRST,
        acid_mmolc_kg=Band(lo90=acid[0], mid=acid[1], hi90=acid[2]),
        sulfur_as_s_g_m2=per_area if acidify else None,
        lime_as_caco3_g_m2=None if acidify else per_area,
        carbonate_share=min(carbonate / mid, 1.0) if acidify and mid > 0.0 else None,
        published_g_m2=None
        if context.organic_only
        else published_spread(context, direction=direction),
    )
