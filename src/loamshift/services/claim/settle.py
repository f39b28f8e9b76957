"""Claims settled: what a material really does to a bed, in figures and a plain sentence or two."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from loamshift.domain.answer import ClaimResult
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind, Case, ClaimEntry
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.errors import OutOfRangeError
from loamshift.services.claim.put_on import own_ph
from loamshift.services.claim.words import Told, comment
from loamshift.services.context.build_context import build_context, require_soil
from loamshift.services.context.need import need_mmolc_kg, ph_after_acid_m2
from loamshift.services.context.plateau import lime_left_over_ph
from loamshift.services.forecast.reach import beyond_forecast
from loamshift.services.materials.acid import (
    acid_brought_mmolc_m2,
    acid_course_mmolc_m2,
    temporary_acid_left_mmolc_m2,
)
from loamshift.tables.lime_share import (
    against_usual,
)
from loamshift.tables.model import verdict_values

if TYPE_CHECKING:
    from loamshift.services.claim.course import Course

CLAIM_MEMBERS: Final = 200
"""Possible beds run for a claim: their middle lies within 0.05 pH of that of thousands."""
WEEK_DAYS: Final = (1, 3, 7)
"""Days of the first week that are looked at for the largest change."""
YEAR_DAYS: Final = 365
ONE_PH: Final = 1.0
"""Step that stands for a need where nobody named an aim [pH]."""

_PLACES: Final = {BedKind.CONTAINER: "pot", BedKind.LAWN: "lawn", BedKind.FIELD: "field"}
LOWEST_PH: Final = 3.0
"""Below this the buffer curve was never measured [pH in water]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Effect:
    """Acid of a claim over time, and where it stops by itself."""

    brought_mmolc_m2: float
    week_mmolc_m2: float
    year_mmolc_m2: float
    own_ph: float | None
    """A peat never takes the soil below its own pH; None for what has no such limit."""


def settle_claim(
    case: Case, entry: ClaimEntry, *, seed: int | None = None, members: int = CLAIM_MEMBERS
) -> ClaimResult:
    """What one material at one rate would do to the bed of a case.

    Parameters
    ----------
    seed, members
        As for :func:`settle_claims` [number, count].

    Returns
    -------
    ClaimResult
        Acid brought and needed [mmolc/m2], change of pH, and a comment.

    Raises
    ------
    InputError
        Where the case has no soil pH.

    References
    ----------
    own-arithmetic
    """
    context = build_context(replace(case, claims=(entry,)))  # knows a labelled product
    if context.soil is None:
        raise WordedError(message("claim-no-ph"))
    return settle_claims(context, (entry,), seed=seed, members=members)[0]


def settle_claims(
    context: BedContext,
    claims: Iterable[ClaimEntry],
    *,
    seed: int | None = None,
    members: int = CLAIM_MEMBERS,
) -> tuple[ClaimResult, ...]:
    """What each claimed material would do to this bed.

    Answers each on its own: claims are alternatives, never one on top of another.

    Parameters
    ----------
    seed
        Seed of the possible beds that are run through the year; None for the curve alone, without
        a forecast, as for a soil beyond its reach [number].
    members
        How many possible beds are run, 3 or more [count].

    Returns
    -------
    tuple of ClaimResult
        One per claim, in their order; none where nobody read the pH, for then the answer asks
        for that first.

    Notes
    -----
    Needed is the middle of the need to the aim, free lime included, less what earlier
    applications still bring; without an aim, the acid of one pH unit. With a seed the changes are
    those of the column, with the material less without it: the largest within two weeks, and
    after 365 days. Without one they are those of the middle curve: the largest within a week by
    the clocks, organic acid included, and what stands after 365 days; lime in excess stays in
    the soil as lime and holds the reading at the plateau of calcite, near 8.3.

    References
    ----------
    own-arithmetic
    """
    if context.soil is None:
        return ()
    entries = tuple(claims)
    if seed is None or not entries or beyond_forecast(context) is not None:
        return tuple(_settle(context, entry, None) for entry in entries)
    from loamshift.services.claim.course import claim_courses  # loads the compiler

    courses = claim_courses(context, entries, members=members, seed=seed)
    return tuple(
        _settle(context, entry, course) for entry, course in zip(entries, courses, strict=True)
    )


def acid_needed_mmolc_m2(context: BedContext) -> float:
    """Middle of the acid this bed needs, pending material taken off.

    Returns
    -------
    float
        Acid; negative where it needs lime, 0 where earlier material will do, or where the bed is
        in its range and nearer to the aim than two tests can tell [mmolc/m2].

    References
    ----------
    own-arithmetic
    """
    ph = require_soil(context).ph.ph_water
    aim = context.target.ph_aim if context.target else ph - ONE_PH
    target, tells = context.target, verdict_values()["leave_gain_ph"]
    if target is not None and target.ph_low <= ph <= target.ph_high and abs(aim - ph) < tells:
        return 0.0
    sign = 1.0 if aim < ph else -1.0
    whole = need_mmolc_kg(context, aim).quantile(0.5) * context.soil_mass_kg_m2
    return sign * max(whole - sign * context.pending_acid_mmolc_m2, 0.0)


def _settle(context: BedContext, entry: ClaimEntry, course: Course | None) -> ClaimResult:
    needed = acid_needed_mmolc_m2(context)
    effect = _effect(context, entry)
    if course is None:
        now = _ph_change(context, effect.week_mmolc_m2, own_ph=effect.own_ph)
        year = _ph_change(context, effect.year_mmolc_m2, own_ph=effect.own_ph)
    else:
        start = require_soil(context).ph.ph_water
        now, year = _on_the_curve(course.now, start=start), _on_the_curve(course.year, start=start)
    share = effect.brought_mmolc_m2 / needed if abs(needed) > 0.0 else None
    told = Told(
        material=entry.material,
        rate_g_m2=entry.rate_g_m2,
        brought_mmolc_m2=effect.brought_mmolc_m2,
        needed_mmolc_m2=needed,
        aim_given=context.target is not None,
        year_mmolc_m2=effect.year_mmolc_m2,
        change_now=now,
        change_year=year,
        place=_PLACES.get(context.case.bed.kind, "bed"),
        course=course,
    )
    return ClaimResult(
        material=entry.material.key,
        acid_brought_mmolc_m2=effect.brought_mmolc_m2,
        acid_needed_mmolc_m2=needed,
        share=share,
        ph_change_now=now,
        ph_change_1_year=year,
        comment=comment(context, told),
    )


def _effect(context: BedContext, entry: ClaimEntry) -> _Effect:
    material, rate = entry.material, entry.rate_g_m2
    counts = against_usual(material)
    course = counts * acid_course_mmolc_m2(
        material,
        rate_g_m2=rate,
        soil_temp_c=context.soil_temp_c,
        start=context.case.today,
        days=YEAR_DAYS,
        ph_water=require_soil(context).ph.ph_water,
        in_pot=context.in_pot,
        land_use=context.nitrogen_use,
        incorporated=not context.planted,
    )

    def on(day: int) -> float:
        organic = temporary_acid_left_mmolc_m2(material, rate_g_m2=rate, days=day)
        return float(course[day - 1]) + organic

    return _Effect(
        brought_mmolc_m2=counts
        * acid_brought_mmolc_m2(
            material, rate_g_m2=rate, in_pot=context.in_pot, land_use=context.nitrogen_use
        ),
        week_mmolc_m2=max((on(day) for day in WEEK_DAYS), key=abs),
        year_mmolc_m2=on(YEAR_DAYS),
        own_ph=own_ph(material),
    )


def _ph_change(context: BedContext, acid_mmolc_m2: float, *, own_ph: float | None) -> float | None:
    """Change of the middle curve; None where the amount runs off the curve."""
    start = require_soil(context).ph.ph_water
    if acid_mmolc_m2 == 0.0:
        return 0.0
    try:
        after = ph_after_acid_m2(context, acid_mmolc_m2)
    except OutOfRangeError:
        return None
    if after < LOWEST_PH <= start:
        return None
    if own_ph is not None:
        after = max(after, min(own_ph, start))
    return min(after, max(start, lime_left_over_ph())) - start


def _on_the_curve(change: float, *, start: float) -> float | None:
    """A change of the column; None where it ends below what the curve was measured for."""
    return None if start + change < LOWEST_PH <= start else change
