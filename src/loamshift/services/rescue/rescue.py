"""Putting right a bed that has had too much: what to do in order, and what makes it worse."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.core.need import carbonate_nodes, reading_nodes, weighted_quantile
from loamshift.domain.answer import Band, Decision, Direction, Reason, Rescue, RescueCourse
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message
from loamshift.services.belief.bed_run import Runner
from loamshift.services.context.acid_come import acid_come_mmolc_m2
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.services.context.need import ph_after_acid_m2
from loamshift.services.context.plateau import lime_left_over_ph
from loamshift.services.context.salt_put_on import too_much_salt
from loamshift.services.context.sodium import is_sodic
from loamshift.services.context.soil import ph_nodes
from loamshift.services.rescue.chlorosis import chlorosis_relief
from loamshift.services.rescue.over_time import rescue_over_time
from loamshift.services.rescue.unread import without_a_reading
from loamshift.services.rescue.words import (
    NOTHING_G_M2,
    salt_put_on,
    too_acid,
    too_limed,
    too_salty,
    waterlogged,
)
from loamshift.services.verdict.doubts import likely_sodic
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.stops import overdosed
from loamshift.tables.parameters import parameter_values
from loamshift.units import CACO3_G_PER_MMOLC, CARBONATE_MMOLC_KG_PER_PCT, SULFUR_G_PER_MMOLC

FloatArray = NDArray[np.float64]

_LOWEST_PH = 2.5
"""As far down as an expected pH is followed [pH in water]."""
LOOK_AHEAD_DAYS = 120
"""Acid that comes later than this is limed when it has come [d]."""


_NO_LIME = Band(lo90=0.0, mid=0.0, hi90=0.0)
"""Where sodium decides: no lime by the tables for ordinary soil."""


def rescue(context: BedContext, judged: Judgement, beds: Runner | None = None) -> Rescue | None:
    """What to do about a bed that is, or is being brought, where plants are harmed.

    Answers the order of actions for a bed too acid, limed too much, too salty, sodic or
    waterlogged; and how to help lime-hating plants that already stand where the pH cannot be
    changed.

    Parameters
    ----------
    beds
        The possible beds that were judged; None leaves the course over time out.

    Returns
    -------
    Rescue or None
        None where nothing is to be put right, or no pH was read.

    Notes
    -----
    The decision table says whether, this says how. Lime is the base that brings the bed, with all
    that is still to act, back to the lower limit of its plants (pH 5.5 where none is named), over
    the reading's error, the scale of the curve and the free lime believed. Where what lies there
    will raise the pH, no more lime goes on before a test shows what that did.

    References
    ----------
    common-practice, own-judgement
    """
    put_on = too_much_salt(context) if judged.reason is Reason.SALT else None
    if put_on is not None:
        return salt_put_on(context, put_on)
    if context.soil is None:
        load = overdosed(context) if judged.reason is Reason.OVERDOSE else None
        return None if load is None else without_a_reading(context, load)
    if judged.decision is Decision.ELSEWHERE:
        # Where plants share no range the ground may suit those that stand in it.
        return None if judged.reason is Reason.NO_COMMON_RANGE else _relief(context)
    if judged.decision is not Decision.STOP:
        return None
    if likely_sodic(context):
        beds = None  # the column knows no sodium and no ash salts: it has no course of such a soil
    if judged.reason is Reason.OVERDOSE and _is_limed(context):
        high = rescue_high_ph(context)
        sulfur = sulfur_back_g_m2(context, ph_high=high)
        return too_limed(
            context,
            expected=None if likely_sodic(context) else ph_expected(context),
            back_to_ph=high,
            sulfur=sulfur,
            course=_over_time(context, beds, judged, need=sulfur, acidify=True, waits=True),
        )
    if judged.reason in (Reason.OVERDOSE, Reason.TOO_ACID):
        low = rescue_low_ph(context)
        sodic = is_sodic(context)
        soon = acid_come_mmolc_m2(context, days=LOOK_AHEAD_DAYS)
        lime = _NO_LIME if sodic else lime_back_g_m2(context, ph_low=low)
        now = _NO_LIME if sodic else lime_back_g_m2(context, ph_low=low, acid_mmolc_m2=soon)
        at_work = not sodic and context.pending_acid_mmolc_m2 < 0.0
        now = _NO_LIME if at_work else now
        waits = now.mid <= NOTHING_G_M2
        return too_acid(
            context,
            expected=ph_expected(context),
            back_to_ph=low,
            course=_over_time(context, beds, judged, need=lime, acidify=False, waits=waits),
            lime=lime,
            lime_now=now,
            lime_at_work=at_work,
        )
    if judged.reason in (Reason.SALT, Reason.SODIC):
        return too_salty(context, sodic=judged.reason is Reason.SODIC)
    return waterlogged(context) if judged.reason is Reason.WATERLOGGED else None


def _over_time(
    context: BedContext,
    beds: Runner | None,
    judged: Judgement,
    *,
    need: Band,
    acidify: bool,
    waits: bool,
) -> RescueCourse | None:
    """The course of a rescue where possible beds are at hand."""
    if beds is None:
        return None
    pending = context.pending_acid_mmolc_m2

    def come_frac(days: int) -> float | None:
        if abs(pending) < 1.0:
            return None
        return abs(round(min(max(acid_come_mmolc_m2(context, days=days) / pending, 0.0), 1.0), 2))

    return rescue_over_time(
        context,
        beds,
        judged,
        need=need,
        acidify=acidify,
        waits=waits,
        come_frac=come_frac,
    )


def _is_limed(context: BedContext) -> bool:
    """True where what was put on limes: by the gravest sum, or by what is still to come."""
    load = overdosed(context)
    if load is not None:
        return load.direction is Direction.LIME
    return context.pending_acid_mmolc_m2 < 0.0


def rescue_low_ph(context: BedContext) -> float:
    """PH to lime back to.

    Returns
    -------
    float
        Lower limit of the aim, or the usual one [pH in water].
    """
    target = context.target
    return parameter_values("advice")["rescue_low_ph"] if target is None else target.ph_low


def rescue_high_ph(context: BedContext) -> float:
    """PH to come back down to after too much lime.

    Returns
    -------
    float
        Upper limit of the aim, or the usual one [pH in water].
    """
    target = context.target
    return parameter_values("advice")["rescue_high_ph"] if target is None else target.ph_high


def ph_expected(context: BedContext) -> Band:
    """PH the bed comes to once all that was put on has acted.

    Returns
    -------
    Band
        Likely range; not followed below pH 2.5, nor above what free lime holds [pH in water].

    References
    ----------
    own-arithmetic
    """
    soil = require_soil(context)
    pending = context.pending_acid_mmolc_m2
    low_k, mid_k, high_k = (
        soil.k.log10_k_mean + shift * soil.k.log10_k_sd for shift in (-1.6449, 0.0, 1.6449)
    )
    spread = 1.6449 * soil.ph.ph_water_sd
    start = soil.ph.ph_water
    if pending == 0.0:
        return Band(lo90=start - spread, mid=start, hi90=start + spread)
    mid = _after(context, pending, ph_from=start, log10_k=mid_k)
    weak = _after(context, pending, ph_from=start, log10_k=low_k)
    strong = _after(context, pending, ph_from=start, log10_k=high_k)
    below = _after(context, pending, ph_from=start - spread, log10_k=mid_k)
    above = _after(context, pending, ph_from=start + spread, log10_k=mid_k)
    least, most = min(weak, strong), max(weak, strong)
    down = float(np.hypot(mid - least, mid - below))
    up = float(np.hypot(most - mid, above - mid))
    most_ph = max(start, lime_left_over_ph())
    return Band(
        lo90=min(max(mid - down, _LOWEST_PH), most_ph),
        mid=min(mid, most_ph),
        hi90=min(mid + up, most_ph),
    )


def may_turn_too_acid(context: BedContext) -> bool:
    """Whether what lies there could take the pH below the lower limit of the plants.

    Returns
    -------
    bool
        False where even the soil that resists least would stay above it; True without a reading.
    """
    if context.soil is None:
        return True
    return lime_back_g_m2(context, ph_low=rescue_low_ph(context)).hi90 > NOTHING_G_M2


def lime_back_g_m2(
    context: BedContext, *, ph_low: float, acid_mmolc_m2: float | None = None
) -> Band:
    """Lime that brings the bed, with all that still acts, back up to a pH.

    Parameters
    ----------
    ph_low
        PH to come back to [pH in water].
    acid_mmolc_m2
        Acid to reckon with beyond the reading; None for all that is pending [mmolc/m2].

    Returns
    -------
    Band
        As pure calcium carbonate; 0 where none is needed [g/m2].

    Notes
    -----
    What is pending less the acid the soil takes up from its reading down to that pH, its free
    lime included; node by node over what is believed.

    References
    ----------
    own-arithmetic
    """
    nodes, weight = _acid_room_mmolc_kg(context, ph_low)
    pending = context.pending_acid_mmolc_m2 if acid_mmolc_m2 is None else acid_mmolc_m2
    acid = pending - nodes * context.soil_mass_kg_m2
    return _band(np.maximum(acid, 0.0) * CACO3_G_PER_MMOLC, weight)


def sulfur_back_g_m2(context: BedContext, *, ph_high: float) -> Band:
    """Sulfur that brings an over-limed bed, with all that still acts, back down to a pH.

    Parameters
    ----------
    ph_high
        PH to come back to [pH in water].

    Returns
    -------
    Band
        As S; 0 where none is needed [g/m2].

    Notes
    -----
    The mirror of :func:`lime_back_g_m2`.

    References
    ----------
    own-arithmetic
    """
    nodes, weight = _acid_room_mmolc_kg(context, ph_high)
    acid = nodes * context.soil_mass_kg_m2 - context.pending_acid_mmolc_m2
    return _band(np.maximum(acid, 0.0) * SULFUR_G_PER_MMOLC, weight)


def _relief(context: BedContext) -> Rescue | None:
    target, soil = context.target, require_soil(context)
    if not context.planted or target is None or soil.ph.ph_water <= target.ph_high:
        return None
    return Rescue(
        problem=message("rescue-relief", bed="pot" if context.in_pot else "ground"),
        ph_expected=None,
        steps=chlorosis_relief(context),
        never=(message("rescue-never-outrun"), message("rescue-never-plain-iron")),
        lime_as_caco3_g_m2=None,
    )


def _after(context: BedContext, acid: float, *, ph_from: float, log10_k: float) -> float:
    """PH after acid, followed no further than the curve, or free lime, lets it go."""
    ceiling = lime_left_over_ph()
    if acid < 0.0 and ph_from >= ceiling:
        return ph_from  # lime that is left over lies there and raises nothing
    if acid < 0.0:
        room = acid_between_mmolc_kg(ceiling, ph_from, k=10.0**log10_k, **curve_of(context))
        if -acid / context.soil_mass_kg_m2 >= room:
            return ceiling
    floor = _LOWEST_PH
    step = acid_between_mmolc_kg(ph_from, floor, k=10.0**log10_k, **curve_of(context))
    if acid > 0.0 and acid / context.soil_mass_kg_m2 >= step + _carbonate_top(context):
        return floor
    return ph_after_acid_m2(context, acid, ph_from=ph_from, log10_k=log10_k)


def _carbonate_top(context: BedContext) -> float:
    return require_soil(context).carbonate.high_pct * CARBONATE_MMOLC_KG_PER_PCT


def _acid_room_mmolc_kg(context: BedContext, ph_to: float) -> tuple[FloatArray, FloatArray]:
    """Acid the soil takes up down to a pH, negative where it lies below already, and weights."""
    soil = require_soil(context)
    ph, ph_weight = ph_nodes(soil.ph)
    log10_k, k_weight = reading_nodes(ph=soil.k.log10_k_mean, ph_sd=soil.k.log10_k_sd)
    belief = soil.carbonate
    lime, lime_weight = carbonate_nodes(
        zero_weight=belief.zero_weight,
        low_pct=belief.low_pct,
        high_pct=belief.high_pct,
        mmolc_kg_per_pct=CARBONATE_MMOLC_KG_PER_PCT,
        log_sd=belief.log_sd,
    )
    curve = acid_between_mmolc_kg(ph, ph_to, **curve_of(context))
    room = curve[:, None, None] * 10.0 ** log10_k[None, :, None] + lime[None, None, :]
    weight = ph_weight[:, None, None] * k_weight[None, :, None] * lime_weight[None, None, :]
    return room.ravel(), weight.ravel()


def _band(values: FloatArray, weight: FloatArray) -> Band:
    listed, weights = values.tolist(), weight.tolist()
    low, mid, high = (weighted_quantile(listed, weights, p) for p in (0.05, 0.5, 0.95))
    return Band(lo90=low, mid=mid, hi90=high)
