"""The acid or lime a soil takes up to reach a pH, as a distribution."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Unpack

from loamshift.core.buffer import acid_between_mmolc_kg, ph_after_acid
from loamshift.core.need import FloatArray, Need, carbonate_nodes, weighted_quantile
from loamshift.domain.answer import Band
from loamshift.domain.bed_context import BedContext
from loamshift.domain.ph import PhBelief
from loamshift.services.context.build_context import Curve, curve_of, require_soil
from loamshift.services.context.soil import ph_nodes
from loamshift.units import (
    CACO3_G_PER_MMOLC,
    CARBONATE_MMOLC_KG_PER_PCT,
    SULFUR_G_PER_MMOLC,
)


def need_mmolc_kg(context: BedContext, ph_to: float) -> Need:
    """Acid (or base, where the aim lies above) to bring this soil to a pH, as a distribution.

    Free carbonate counts against acid only: going up, it is no hindrance.

    Parameters
    ----------
    ph_to
        pH aimed at [pH in water].

    Returns
    -------
    Need
        Distribution of the need in the direction of the aim [mmolc/kg].
    """
    soil = require_soil(context)
    acidify = ph_to < soil.ph.ph_water
    curve, weights = _curve_to(soil.ph, ph_to, acidify=acidify, **curve_of(context))
    belief = soil.carbonate
    return Need(
        curve_mmolc_kg=curve,
        curve_weight=weights,
        zero_weight=belief.zero_weight if acidify else 1.0,
        carbonate_low_mmolc_kg=belief.low_pct * CARBONATE_MMOLC_KG_PER_PCT,
        carbonate_high_mmolc_kg=belief.high_pct * CARBONATE_MMOLC_KG_PER_PCT,
        log10_k_mean=soil.k.log10_k_mean,
        log10_k_sd=soil.k.log10_k_sd,
        carbonate_log_sd=belief.log_sd,
    )


@lru_cache(maxsize=64)
def _curve_to(
    ph: PhBelief, ph_to: float, *, acidify: bool, **soil: Unpack[Curve]
) -> tuple[FloatArray, FloatArray]:
    """Acid or base of the curve at each node of a reading, and the weights of the nodes."""
    nodes, weights = ph_nodes(ph)
    step = acid_between_mmolc_kg(nodes, ph_to, **soil)
    return (step if acidify else -step).clip(min=0.0), weights


def carbonate_median_mmolc_kg(context: BedContext) -> float:
    """Middle of what is believed of the free carbonate.

    Returns
    -------
    float
        Acid it takes up [mmolc/kg].
    """
    belief = require_soil(context).carbonate
    values, weights = carbonate_nodes(
        zero_weight=belief.zero_weight,
        low_pct=belief.low_pct,
        high_pct=belief.high_pct,
        mmolc_kg_per_pct=CARBONATE_MMOLC_KG_PER_PCT,
        log_sd=belief.log_sd,
    )
    return weighted_quantile(values.tolist(), weights.tolist(), 0.5)


def ph_after_acid_m2(
    context: BedContext,
    acid_mmolc_m2: float,
    *,
    ph_from: float | None = None,
    log10_k: float | None = None,
) -> float:
    """pH this soil would settle at after so much acid, at the middle of what is believed.

    Parameters
    ----------
    acid_mmolc_m2
        Acid; base is negative [mmolc/m2].
    ph_from
        pH to start from; None for the reading [pH in water].
    log10_k
        Scale of the curve; None for its middle [log10].

    Returns
    -------
    float
        pH after it has all reacted [pH in water].
    """
    soil = require_soil(context)
    scale = soil.k.log10_k_mean if log10_k is None else log10_k
    start = soil.ph.ph_water if ph_from is None else ph_from
    after = ph_after_acid(
        start,
        acid_mmolc_m2 / context.soil_mass_kg_m2,
        carbonate_mmolc_kg=carbonate_median_mmolc_kg(context) if acid_mmolc_m2 > 0.0 else 0.0,
        k=10.0**scale,
        **curve_of(context),
    )
    return float(after)


def acid_to(context: BedContext, ph_aim: float, *, acidify: bool) -> Band:
    """Acid or base the soil takes up to reach an aim, less what earlier material still brings.

    Parameters
    ----------
    ph_aim
        Where to [pH in water].
    acidify
        True for acid, false for base.

    Returns
    -------
    Band
        Never below 0 [mmolc/kg].
    """
    low, mid, high = _acid_to(context, ph_aim, (0.05, 0.5, 0.95), acidify=acidify)
    return Band(lo90=low, mid=mid, hi90=high)


def dose_to(context: BedContext, ph_aim: float, *, acidify: bool) -> Band:
    """The same as pure sulfur or lime.

    Parameters
    ----------
    ph_aim
        Where to [pH in water].
    acidify
        True for sulfur, false for lime.

    Returns
    -------
    Band
        Per area of the treated depth [g/m2].
    """
    return as_dose(context, acid_to(context, ph_aim, acidify=acidify), acidify=acidify)


def as_dose(context: BedContext, need: Band, *, acidify: bool) -> Band:
    """Acid or base of the treated depth as pure sulfur or lime.

    Parameters
    ----------
    need
        By mass of soil [mmolc/kg].
    acidify
        True for sulfur, false for lime.

    Returns
    -------
    Band
        Per area [g/m2].
    """
    gram = _g_m2_per_mmolc_kg(context, acidify=acidify)
    return Band(lo90=need.lo90 * gram, mid=need.mid * gram, hi90=need.hi90 * gram)


def middle_dose_to(context: BedContext, ph_aim: float, *, acidify: bool) -> float:
    """The middle of ``dose_to``, at a third of its work.

    Parameters
    ----------
    ph_aim
        Where to [pH in water].
    acidify
        True for sulfur, false for lime.

    Returns
    -------
    float
        Per area of the treated depth [g/m2].
    """
    (middle,) = _acid_to(context, ph_aim, (0.5,), acidify=acidify)
    return middle * _g_m2_per_mmolc_kg(context, acidify=acidify)


def _acid_to(
    context: BedContext, ph_aim: float, probabilities: Sequence[float], *, acidify: bool
) -> list[float]:
    """Acid or base that is enough with each probability, less what comes anyway [mmolc/kg]."""
    need = need_mmolc_kg(context, ph_aim)
    sign = 1.0 if acidify else -1.0
    coming = context.pending_acid_mmolc_m2 * sign / context.soil_mass_kg_m2
    return [max(context.loops.need(need, p) - coming, 0.0) for p in probabilities]


def _g_m2_per_mmolc_kg(context: BedContext, *, acidify: bool) -> float:
    return (SULFUR_G_PER_MMOLC if acidify else CACO3_G_PER_MMOLC) * context.soil_mass_kg_m2
