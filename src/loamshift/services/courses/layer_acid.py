"""The acid that reaches a mixed layer, step by step: materials, water, feed and what lies there."""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import MemberParameters
from loamshift.core.sulfur_course import DAYS_IN_YEAR
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material
from loamshift.services.belief.column_inputs import feed_parts
from loamshift.services.belief.column_parts import is_litter, litter_days
from loamshift.services.belief.humus import humus_base_mmolc_kg
from loamshift.services.context.build_context import require_soil
from loamshift.services.materials.acid import acid_course_mmolc_m2
from loamshift.services.materials.lime_share import doubt_power, member_shares

FloatArray = NDArray[np.float64]


def sampled_cm(context: BedContext) -> float:
    """Depth of the layer that is followed: as deep as the bed is sampled.

    Returns
    -------
    float
        The depth treated where nobody said how deep was sampled, and never below a pot [cm].
    """
    depth = context.case.soil.sample_depth_cm or context.depth_cm
    return min(depth, context.depth_cm) if context.in_pot else depth


def share_within(context: BedContext, worked_in_cm: float) -> float:
    """Share of what is put on that stays within the layer.

    Parameters
    ----------
    worked_in_cm
        How deep it is worked in, 0 on the surface [cm].

    Returns
    -------
    float
        All of it from the surface, less where it is dug in deeper than is sampled [0-1].
    """
    return min(1.0, sampled_cm(context) / worked_in_cm) if worked_in_cm > 0.0 else 1.0


def reaction_by_step(
    context: BedContext, material: Material, *, on: date, steps: FloatArray, incorporated: bool
) -> FloatArray:
    """Acid that one gram of a material brings in each step from today.

    Parameters
    ----------
    steps
        Lengths of the steps [d].
    incorporated
        True where it is mixed in.

    Returns
    -------
    ndarray
        Acid, base negative, shape (S,) [mmolc/g].
    """
    edges = np.concatenate(([0.0], np.cumsum(steps)))
    since = edges - (on - context.case.today).days
    come = _come_by_day(
        context, material, on=on, days=max(int(since[-1]), 0), incorporated=incorporated
    )
    return np.diff(np.interp(since, np.arange(come.size), come))


def past_acid_by_step(
    context: BedContext,
    *,
    field_efficiency: FloatArray,
    read: date,
    start: date,
    steps: FloatArray,
) -> FloatArray:
    """Acid that everything put on before today brings in each step from a day on.

    Parameters
    ----------
    field_efficiency
        Share of lime that counts in each bed, shape (M,) [0-1].
    read
        Day of the reading: a mulch laid before it has got into the soil.
    start
        First day of the first step.
    steps
        Lengths of the steps [d].

    Returns
    -------
    ndarray
        Acid, base negative, shape (M, S), or (1, S) where every bed has the same; what came
        before the start is left out [mmolc/m2].

    Notes
    -----
    Lime of a known grade counts in full, lime of unknown grade by what of it counts against that.
    """
    edges = np.concatenate(([0.0], np.cumsum(steps)))
    found = np.zeros((1, steps.size))
    for applied in context.case.applied:
        since = (start - applied.on).days + edges
        come = _come_by_day(
            context,
            applied.material,
            on=applied.on,
            days=max(int(since[-1]), 0),
            incorporated=applied.incorporated_cm > 0.0,
            laid_before=applied.on < read,
        )
        rate = applied.rate_g_m2 * share_within(context, applied.incorporated_cm)
        brought = rate * np.diff(np.interp(since, np.arange(come.size), come))
        if doubt_power(applied.material) == 1.0:
            found = found + brought
        else:
            counts = member_shares(applied.material, field_efficiency) / field_efficiency
            found = found + counts[:, None] * brought
    return found


def feed_acid_by_step(context: BedContext, *, start: date, steps: FloatArray) -> FloatArray:
    """Acid that the yearly feed brings in each step from a day on.

    Parameters
    ----------
    start
        First day of the first step.
    steps
        Lengths of the steps [d].

    Returns
    -------
    ndarray
        Acid, base negative, shape (S,) [mmolc/m2].

    Notes
    -----
    Dated parts as in the column; a part of another year acts like the first of its month.
    """
    edges = np.concatenate(([0.0], np.cumsum(steps)))
    found = np.zeros(steps.size)
    courses: dict[tuple[int, int], FloatArray] = {}
    for day, material, rate in feed_parts(context, start=start, days=int(edges[-1])):
        on = start + timedelta(days=day)
        key = (on.month, on.day)
        if key not in courses:
            left = int(edges[-1]) - day
            courses[key] = _come_by_day(context, material, on=on, days=left, incorporated=False)
        come = courses[key]
        found += rate * np.diff(np.interp(edges - day, np.arange(come.size), come))
    return found


def watering_share_by_step(context: BedContext, *, start: date, steps: FloatArray) -> FloatArray:
    """Share of a year's watering that falls in each step from a day on.

    Parameters
    ----------
    start
        First day of the first step.
    steps
        Lengths of the steps [d].

    Returns
    -------
    ndarray
        Shares, shape (S,) [1].
    """
    months = context.case.water.months
    if not months:
        return np.zeros(steps.size)
    return _share_in_months(frozenset(months), start, tuple(steps.tolist()))


@lru_cache(maxsize=256)
def _share_in_months(months: frozenset[int], start: date, steps: tuple[float, ...]) -> FloatArray:
    """Share of a year's watering in each step, kept for the next bed watered in these months."""
    starts = np.concatenate(([0.0], np.cumsum(steps)[:-1]))
    shares = []
    for first, days in zip(starts, steps, strict=True):
        looked = range(0, max(int(days), 1), 10)
        held = sum((start + timedelta(days=int(first) + day)).month in months for day in looked)
        shares.append(held / len(looked) * days / (365.25 * len(months) / 12.0))
    found = np.asarray(shares)
    found.flags.writeable = False
    return found


def _come_by_day(
    context: BedContext,
    material: Material,
    *,
    on: date,
    days: int,
    incorporated: bool,
    laid_before: bool = False,
) -> FloatArray:
    """Acid of one gram that has come by the end of each day, 0 first, shape (days + 1,)."""
    course = np.zeros(days + 1)
    if days == 0:
        return course
    course[1:] = acid_course_mmolc_m2(
        material,
        rate_g_m2=1.0,
        soil_temp_c=context.soil_temp_c,
        start=on,
        days=days,
        ph_water=require_soil(context).ph.ph_water,
        in_pot=context.in_pot,
        land_use=context.nitrogen_use,
        incorporated=incorporated,
    )
    if incorporated or laid_before or not is_litter(material):
        return course
    parts = [
        np.concatenate((np.zeros(min(late, days)), course))[: days + 1] for late in litter_days()
    ]
    return np.asarray(np.mean(parts, axis=0))


def humus_acid_by_step(
    context: BedContext, members: MemberParameters, *, since_read_d: int, steps: FloatArray
) -> FloatArray:
    """Acid of old humus that rots, by bed and step, less the base that it held.

    Parameters
    ----------
    since_read_d
        Days from the reading to the first step [d].
    steps
        Lengths of the steps [d].

    Returns
    -------
    ndarray
        Acid, shape (M, S); nothing where no humus rots beyond the use [mmolc/m2].

    Notes
    -----
    At the whole-year rates, and with the base that humus holds at the pH read.
    """
    if not (members.humus_labile_mmol_kg.any() or members.humus_slow_mmol_kg.any()):
        return np.zeros((members.log10_k.size, steps.size))
    years = (since_read_d + np.concatenate(([0.0], np.cumsum(steps)))) / DAYS_IN_YEAR
    left = sum(
        held[:, None] * np.exp(-rate[:, None] * years)
        for held, rate in (
            (members.humus_labile_mmol_kg, members.humus_labile_per_year),
            (members.humus_slow_mmol_kg, members.humus_slow_per_year),
        )
    )
    soil = require_soil(context)
    base = humus_base_mmolc_kg(soil, ph_water=soil.ph.ph_water)
    acid = members.realised_frac - members.nitrate_uptake_mol_mol + members.humus_rest_mol_mol
    net = acid - 10.0**members.log10_k * base * members.humus_carbon_per_mmol_kg
    within = sampled_cm(context) / context.depth_cm
    mass = context.soil_mass_kg_m2 * within * members.mass_factor
    return np.asarray((net * mass)[:, None] * -np.diff(left, axis=1), dtype=np.float64)
