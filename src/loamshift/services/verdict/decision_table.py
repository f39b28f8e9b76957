"""The decision table: from curve, carbonate, water and caps to one word, tests left aside.

The order of the cases and every limit stand in ``docs/decisions/verdict.md``; the limits
themselves are rows of the table ``parameters``, topic ``verdict``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from loamshift.core.background import background_acid_mmolc_m2
from loamshift.core.buffer import acid_between_mmolc_kg, buffer_mmolc_kg_ph
from loamshift.core.need import Need, normal_probability_between
from loamshift.core.salinity import ece_from_ec, saturation_water_kg_kg
from loamshift.domain.answer import Decision, Direction
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.case import Drainage
from loamshift.services.context.build_context import (
    curve_of,
    need_mmolc_kg,
    ph_after_acid_m2,
    require_soil,
)
from loamshift.services.context.plateau import lime_left_over_ph
from loamshift.tables.model import (
    ledger_parameters,
    lime_parameters,
    salinity_parameters,
    verdict_values,
)
from loamshift.tables.rules import cap_for
from loamshift.units import (
    CACO3_G_PER_MMOLC,
    SULFUR_G_PER_MMOLC,
)

SMALLEST_PART = 0.2
"""A remainder below this share of a full dose makes no part of its own [1]."""
ROUNDING = 1e-9
"""A gap of exactly the limit counts as the limit, whatever the last bit says [pH]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A decision with the figures that decided it, before it is put in words.

    ``in_range`` probability that the reading lies in range [0-1]; ``covered`` probability that
    the caps of three seasons cover the need [0-1]; ``need_mid_g_m2`` of sulfur or lime value
    [g/m2]; ``working_frac`` share of a lime that works in the field, 1 for sulfur [0-1];
    ``parts`` under the cap of one dose; ``pull_ph_year`` yearly pull against the aim
    [pH/yr]; ``reason`` names the row of the table that held; ``ph_expected`` where earlier
    material takes the bed [pH]; ``measure`` the case-file path to measure first.
    """

    decision: Decision
    direction: Direction
    reason: str
    in_range: float
    covered: float | None = None
    need_mid_g_m2: float | None = None
    cap_dose_g_m2: float | None = None
    cap_year_g_m2: float | None = None
    working_frac: float = 1.0
    parts: int | None = None
    pull_ph_year: float = 0.0
    ph_expected: float | None = None
    measure: str | None = None
    measure_probability: float = 0.0
    measure_shift: str = ""


def decide_without_tests(context: BedContext) -> Outcome:
    """The decision as if no further test could be made.

    Parameters
    ----------
    context
        A bed with soil and target [object].

    Returns
    -------
    Outcome
        Any decision but ``measure-first`` [object].
    """
    limits = verdict_values()
    soil, target = require_soil(context), _target(context)
    direction = direction_of(context)
    in_range = _probability_in_range(context, target)
    stopped = stop_row(context, direction)
    if stopped is not None:
        return replace(stopped, in_range=in_range)
    gap = _gap_ph(soil.ph.ph_water, target)
    expected = _ph_to_come(context)
    if abs(expected - soil.ph.ph_water) >= limits["leave_gain_ph"] and _has_arrived(
        expected, target, direction
    ):
        return Outcome(
            decision=Decision.LEAVE,
            direction=Direction.NONE,
            reason="at-work",
            in_range=in_range,
            ph_expected=expected,
        )
    if in_range > limits["leave_probability"]:
        return Outcome(
            decision=Decision.LEAVE, direction=Direction.NONE, reason="in-range", in_range=in_range
        )
    if gap < limits["leave_gain_ph"] - ROUNDING:
        return Outcome(
            decision=Decision.LEAVE, direction=Direction.NONE, reason="gain", in_range=in_range
        )
    need = need_mmolc_kg(context, target.ph_aim)
    figures = _figures(context, need, direction)
    if figures.covered is not None and figures.covered < limits["elsewhere_probability"]:
        return replace(figures, decision=Decision.ELSEWHERE, reason="caps", in_range=in_range)
    reason = _effort_reason(context, figures)
    decision = Decision.EFFORT if reason else Decision.GO
    return replace(figures, decision=decision, reason=reason or "go", in_range=in_range)


def direction_of(context: BedContext) -> Direction:
    """Which way the pH has to go for the aim.

    Parameters
    ----------
    context
        A bed with soil and target [object].

    Returns
    -------
    Direction
        Acidify, lime, or none where the reading lies in the range [enumeration].
    """
    soil, target = require_soil(context), _target(context)
    if soil.ph.ph_water > target.ph_high:
        return Direction.ACIDIFY
    if soil.ph.ph_water < target.ph_low:
        return Direction.LIME
    return Direction.NONE


def saturated_ec(context: BedContext) -> float | None:
    """Salt of the soil as saturated paste would read.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    float or None
        None where it was not tested, or by an extract that has no sourced factor [dS/m].
    """
    entry = context.case.soil
    if entry.ec_ds_m is None or entry.ec_method is None or context.soil is None:
        return None
    water = saturation_water_kg_kg(
        field_capacity_frac=context.soil.field_capacity_frac,
        bulk_density_g_cm3=context.soil.bulk_density_g_cm3,
        params=salinity_parameters(),
    )
    if entry.ec_method == "1:2":
        return None
    return ece_from_ec(
        entry.ec_ds_m,
        method=entry.ec_method,
        saturation_water_kg_kg=water,
        params=salinity_parameters(),
    )[1]


def yearly_pull_mmolc_m2(context: BedContext, *, ph: float) -> float:
    """Net base a year at this pH, water less background acid: positive raises the pH.

    Parameters
    ----------
    context
        A bed with a soil [object].
    ph
        pH at which the bed is held [pH in water].

    Returns
    -------
    float
        Base less acid, feed left out [mmolc/m2/yr].
    """
    background = 0.0
    if not context.in_pot:
        background = background_acid_mmolc_m2(
            ph,
            drainage_mm=context.drainage_mm_year,
            params=ledger_parameters(),
            land_use=context.land_use,
        )
    return context.water_base_mmolc_m2_year - background


def _target(context: BedContext) -> Target:
    if context.target is None:
        raise ValueError("this needs an aim; ask for it before coming here")
    return context.target


def _probability_in_range(context: BedContext, target: Target) -> float:
    ph = require_soil(context).ph
    return normal_probability_between(
        low=target.ph_low, high=target.ph_high, mean=ph.ph_water, sd=ph.ph_water_sd
    )


def _gap_ph(ph: float, target: Target) -> float:
    return max(target.ph_low - ph, ph - target.ph_high, 0.0)


def stop_row(context: BedContext, direction: Direction) -> Outcome | None:
    """The row ``stop``, if it holds.

    Parameters
    ----------
    context
        A bed with a soil [object].
    direction
        Which way the aim lies [enumeration].

    Returns
    -------
    Outcome or None
        The outcome with its reason, or None [object].
    """
    limits = verdict_values()
    soil = require_soil(context)
    entry = context.case.soil
    target = context.target
    expected = _ph_to_come(context)
    stop = Outcome(
        decision=Decision.STOP, direction=direction, reason="", in_range=0.0, ph_expected=expected
    )
    margin = limits["overdose_margin_ph"]
    shift = expected - soil.ph.ph_water
    acted = shift <= -limits["leave_gain_ph"]
    limed = shift >= limits["leave_gain_ph"]
    lowest = max(limits["harmful_ph"], target.ph_low - margin if target else limits["harmful_ph"])
    if acted and expected < lowest:
        return replace(stop, reason="overdose-acid")
    if _over_year_cap(context) > limits["overdose_cap_years"]:
        return replace(stop, reason="over-cap")
    if limed and target is not None and expected > target.ph_high + margin:
        return replace(stop, reason="overdose-lime")
    mineral = not context.organic_only
    if mineral and not soil.ph.method.is_rough and soil.ph.ph_water < limits["harmful_ph"]:
        return replace(stop, reason="too-acid")
    if entry.sodium_pct is not None and entry.sodium_pct > limits["sodic_pct"]:
        return replace(stop, reason="sodic")
    ece = saturated_ec(context)
    sensitive = target is not None and target.calcifuge
    limit = limits["salt_sensitive_ece_ds_m"] if sensitive else limits["salt_stop_ece_ds_m"]
    if ece is not None and ece > limit:
        return replace(stop, reason="salt")
    if direction is Direction.ACIDIFY and context.case.bed.drainage is Drainage.WATERLOGGED:
        return replace(stop, reason="waterlogged")
    return None


def _has_arrived(expected_ph: float, target: Target, direction: Direction) -> bool:
    """True where earlier material brings the bed to the aim or beyond."""
    if direction is Direction.ACIDIFY:
        return expected_ph <= target.ph_aim + 0.5 * (target.ph_high - target.ph_aim)
    if direction is Direction.LIME:
        return expected_ph >= target.ph_aim - 0.5 * (target.ph_aim - target.ph_low)
    return False


def _over_year_cap(context: BedContext) -> float:
    """Sulfur still to act in planted ground, in years of its printed limit."""
    if not context.planted:
        return 0.0
    cap = cap_for(applies_to="sulfur", situation=context.cap_situation, per="year").limit_g_m2
    return max(context.pending_acid_mmolc_m2, 0.0) * SULFUR_G_PER_MMOLC / cap


def _ph_to_come(context: BedContext) -> float:
    """pH once earlier material has all acted; spare lime stops where it no longer dissolves."""
    coming = context.pending_acid_mmolc_m2
    if coming < 0.0:
        soil, ceiling = require_soil(context), lime_left_over_ph()
        scale = 10.0**soil.k.log10_k_mean * context.soil_mass_kg_m2
        room = scale * acid_between_mmolc_kg(soil.ph.ph_water, ceiling, **curve_of(context))
        if coming < room:
            return max(ceiling, soil.ph.ph_water)
    return ph_after_acid_m2(context, coming)


def _figures(context: BedContext, need: Need, direction: Direction) -> Outcome:
    """Need, caps and pull of one direction; the decision is filled in by the caller."""
    limits = verdict_values()
    acidify = direction is Direction.ACIDIFY
    substance = "sulfur" if acidify else "limestone"
    gram = SULFUR_G_PER_MMOLC if acidify else CACO3_G_PER_MMOLC
    dose = cap_for(applies_to=substance, situation=context.cap_situation, per="dose").limit_g_m2
    year = cap_for(applies_to=substance, situation=context.cap_situation, per="year").limit_g_m2
    seasons = limits["seasons"]
    pull = yearly_pull_mmolc_m2(context, ph=_target(context).ph_aim)
    against = max(pull if acidify else -pull, 0.0)
    coming = context.pending_acid_mmolc_m2 * (1.0 if acidify else -1.0)
    working = 1.0 if acidify else lime_parameters().field_efficiency
    reach_mmolc_m2 = seasons * (year * working / gram - against) + coming
    covered = need.probability_at_most(max(reach_mmolc_m2, 0.0) / context.soil_mass_kg_m2)
    mid_mmolc_m2 = max(need.quantile(0.5) * context.soil_mass_kg_m2 - coming, 0.0)
    mid_g_m2 = mid_mmolc_m2 * gram
    slope = buffer_mmolc_kg_ph(_target(context).ph_aim, **curve_of(context))
    k = 10.0 ** require_soil(context).k.log10_k_mean
    return Outcome(
        decision=Decision.GO,
        direction=direction,
        reason="",
        in_range=0.0,
        covered=covered if reach_mmolc_m2 > 0.0 else 0.0,
        need_mid_g_m2=mid_g_m2,
        cap_dose_g_m2=dose,
        cap_year_g_m2=year,
        working_frac=working,
        parts=max(1, math.ceil(mid_g_m2 / (dose * working) - SMALLEST_PART)),
        pull_ph_year=against / (k * float(slope) * context.soil_mass_kg_m2),
    )


def _effort_reason(context: BedContext, figures: Outcome) -> str:
    limits = verdict_values()
    parts = figures.parts or 1
    per_year = max(1, int((figures.cap_year_g_m2 or 1.0) / (figures.cap_dose_g_m2 or 1.0) + 1e-9))
    if parts > limits["effort_parts"]:
        return "parts"
    if 365 * ((parts - 1) // per_year) + 180 > limits["effort_days"]:
        return "months"
    if figures.pull_ph_year > limits["effort_pull_ph_year"]:
        return "yearly"
    return ""
