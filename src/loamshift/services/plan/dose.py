"""How much: the acid or lime a soil takes up to reach the aim, as a range with its reasons."""

from __future__ import annotations

from loamshift.domain.answer import Band, Decision, Direction, Dose
from loamshift.domain.bed_context import BedContext
from loamshift.services.context.build_context import carbonate_median_mmolc_kg, need_mmolc_kg
from loamshift.services.plan.published import published_spread
from loamshift.services.verdict.decision_table import Outcome
from loamshift.units import CACO3_G_PER_MMOLC, SULFUR_G_PER_MMOLC

NO_DOSE = Dose(
    direction=Direction.NONE,
    provisional=False,
    acid_mmolc_kg=None,
    sulfur_as_s_g_m2=None,
    lime_as_caco3_g_m2=None,
    carbonate_share=None,
    published_g_m2=None,
)


def dose(context: BedContext, outcome: Outcome) -> Dose:
    """The static dose: buffer curve plus free carbonate, less what earlier material still brings.

    Parameters
    ----------
    context
        The bed as understood [object].
    outcome
        The decision on it [object].

    Returns
    -------
    Dose
        Range of acid [mmolc/kg, base negative] and of sulfur or lime [g/m2].
    """
    no_use = outcome.decision in (Decision.LEAVE, Decision.STOP)
    if context.soil is None or context.target is None or no_use:
        return NO_DOSE
    direction = outcome.direction
    if direction is Direction.NONE:
        return NO_DOSE
    acidify = direction is Direction.ACIDIFY
    need = acid_to(context, context.target.ph_aim, acidify=acidify)
    low, mid, high = need.lo90, need.mid, need.hi90
    per_area = dose_to(context, context.target.ph_aim, acidify=acidify)
    carbonate = carbonate_median_mmolc_kg(context)
    acid = (low, mid, high) if acidify else (-high, -mid, -low)
    return Dose(
        direction=direction,
        provisional=outcome.decision is Decision.MEASURE_FIRST,
        acid_mmolc_kg=Band(lo90=acid[0], mid=acid[1], hi90=acid[2]),
        sulfur_as_s_g_m2=per_area if acidify else None,
        lime_as_caco3_g_m2=None if acidify else per_area,
        carbonate_share=min(carbonate / mid, 1.0) if acidify and mid > 0.0 else None,
        published_g_m2=None
        if context.organic_only
        else published_spread(context, direction=direction),
    )


def acid_to(context: BedContext, ph_aim: float, *, acidify: bool) -> Band:
    """Acid or base the soil takes up to reach an aim, less what earlier material still brings.

    Parameters
    ----------
    context
        A bed with a soil [object].
    ph_aim
        Where to [pH in water].
    acidify
        True for acid, false for base [truth].

    Returns
    -------
    Band
        Never below 0 [mmolc/kg].
    """
    need = need_mmolc_kg(context, ph_aim)
    sign = 1.0 if acidify else -1.0
    coming = context.pending_acid_mmolc_m2 * sign / context.soil_mass_kg_m2
    low, mid, high = (max(need.quantile(p) - coming, 0.0) for p in (0.05, 0.5, 0.95))
    return Band(lo90=low, mid=mid, hi90=high)


def dose_to(context: BedContext, ph_aim: float, *, acidify: bool) -> Band:
    """The same as pure sulfur or lime.

    Parameters
    ----------
    context
        A bed with a soil [object].
    ph_aim
        Where to [pH in water].
    acidify
        True for sulfur, false for lime [truth].

    Returns
    -------
    Band
        Per area of the treated depth [g/m2].
    """
    need = acid_to(context, ph_aim, acidify=acidify)
    gram = (SULFUR_G_PER_MMOLC if acidify else CACO3_G_PER_MMOLC) * context.soil_mass_kg_m2
    return Band(lo90=need.lo90 * gram, mid=need.mid * gram, hi90=need.hi90 * gram)
