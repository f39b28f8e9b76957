"""When: dated parts under the caps, the day before which a test says nothing, and retests."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from loamshift.domain.answer import Application, Decision, Direction, Dose
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.case import Units
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.context.build_context import need_mmolc_kg, ph_after_acid_m2, require_soil
from loamshift.services.format import format_date
from loamshift.services.materials.acid import acid_course_mmolc_m2, daily_soil_temp_c
from loamshift.services.verdict.decision_table import SMALLEST_PART, Outcome
from loamshift.tables.materials import load_materials
from loamshift.tables.model import lime_parameters, verdict_values
from loamshift.units import CACO3_G_PER_MMOLC, SULFUR_G_PER_MMOLC

HORIZON_DAYS = 3 * 365
TEST_LEAD_DAYS = 14
"""A test is taken this long before the part it decides [d]."""


@dataclass(frozen=True, slots=True)
class Plan:
    """Dated parts, the day before which it is too early to judge, and days to test again."""

    applications: tuple[Application, ...]
    too_early_before: date | None
    retest: tuple[date, ...]


NO_PLAN = Plan((), None, ())


def plan(context: BedContext, outcome: Outcome, dose: Dose) -> Plan:
    """The recommended parts for a dose, or none where nothing should go on.

    Parameters
    ----------
    context
        The bed as understood [object].
    outcome
        The decision on it [object].
    dose
        The static dose [object].

    Returns
    -------
    Plan
        Parts with dates and conditions [object].

    Notes
    -----
    The first part is the least of: the cap of one dose, the middle of the need, and the amount
    that takes the bed past the far end of the range with a probability of one in ten. What is
    left goes on in further parts, each only if a test still asks for at least half of it.
    """
    if dose.direction is Direction.NONE or outcome.decision in (
        Decision.STOP, Decision.LEAVE, Decision.ELSEWHERE,
    ):  # fmt: skip
        return NO_PLAN
    band = dose.sulfur_as_s_g_m2 or dose.lime_as_caco3_g_m2
    target = context.target
    if band is None or target is None or outcome.cap_dose_g_m2 is None or band.mid <= 0.0:
        return NO_PLAN
    acidify = dose.direction is Direction.ACIDIFY
    material, active_frac = choose_material(context, acidify=acidify)
    sizes = _part_sizes(context, target, outcome, mid_g_m2=band.mid, acidify=acidify)
    first_day = start_date(context, acidify=acidify, not_before=context.case.today)
    first = _course(context, material, rate_g_m2=sizes[0] / active_frac, start=first_day)
    half_days = _days_to_share(first, 0.5)
    too_early = first_day + timedelta(days=half_days)
    dates = _part_dates(
        context,
        first_day,
        count=len(sizes),
        outcome=outcome,
        acidify=acidify,
        half_days=half_days,
    )
    retest = _retests(context, material, active_frac, sizes, dates, too_early)
    return Plan(
        applications=dated_parts(
            context, target, material, active_frac, sizes, dates, retest, acidify=acidify
        ),
        too_early_before=too_early,
        retest=tuple(sorted(set(retest))),
    )


def choose_material(context: BedContext, *, acidify: bool) -> tuple[Material, float]:
    """The material of the plan and its active share: what is on hand, else the usual one.

    Parameters
    ----------
    context
        The bed as understood [object].
    acidify
        True for sulfur, false for lime [truth].

    Returns
    -------
    tuple of Material and float
        Material, and sulfur or lime value per mass of product [0-1].
    """
    group = MaterialGroup.SULFUR if acidify else MaterialGroup.LIME
    for item in context.case.on_hand:
        if item.material.group is group:
            active = _active_frac(item.material, acidify=acidify)
            if item.purity_pct is not None:
                active = item.purity_pct / 100.0
            return item.material, active
    usual = "elemental sulfur, powder" if acidify else "ground limestone, calcitic"
    material = load_materials()[usual]
    return material, _active_frac(material, acidify=acidify)


def start_date(context: BedContext, *, acidify: bool, not_before: date) -> date:
    """First day on or after a day when material should go on.

    Sulfur waits until the ground can be worked and is about to stay warm; lime may go on at any
    time the ground is not frozen. Without a place the day itself is taken.

    Parameters
    ----------
    context
        The bed as understood [object].
    acidify
        True for sulfur [truth].
    not_before
        Earliest day [calendar].

    Returns
    -------
    date
        The day [calendar].
    """
    if not context.soil_temp_c:
        return not_before
    limits = verdict_values()
    warm = limits["warm_soil_c"]
    ahead = int(limits["start_wait_days"])
    temps = daily_soil_temp_c(context.soil_temp_c, start=not_before, days=730 + 2 * ahead)
    if acidify and max(context.soil_temp_c) < warm:
        warm = max(context.soil_temp_c) - 1.0
    for offset in range(730):
        if not acidify and temps[offset] >= limits["thawed_soil_c"]:
            return not_before + timedelta(days=offset)
        window = temps[offset + ahead : offset + 2 * ahead]
        workable = temps[offset] >= limits["workable_soil_c"]
        if acidify and workable and float(window.mean()) >= warm:
            return not_before + timedelta(days=offset)
    return not_before


def _active_frac(material: Material, *, acidify: bool) -> float:
    if acidify:
        return material.elemental_s_frac
    return material.caco3_eq_frac * lime_parameters().field_efficiency


def _part_sizes(
    context: BedContext, target: Target, outcome: Outcome, *, mid_g_m2: float, acidify: bool
) -> list[float]:
    gram = SULFUR_G_PER_MMOLC if acidify else CACO3_G_PER_MMOLC
    far_end = target.ph_low if acidify else target.ph_high
    safe_mmolc_kg = need_mmolc_kg(context, far_end).quantile(0.1)
    sign = 1.0 if acidify else -1.0
    coming = context.pending_acid_mmolc_m2 * sign
    safe = max(safe_mmolc_kg * context.soil_mass_kg_m2 - coming, 0.0) * gram
    cap = (outcome.cap_dose_g_m2 or mid_g_m2) * outcome.working_frac
    year = (outcome.cap_year_g_m2 or mid_g_m2) * outcome.working_frac
    left = min(mid_g_m2, verdict_values()["seasons"] * year)
    first = min(cap, left, max(safe, SMALLEST_PART * left))
    sizes = [first]
    left -= first
    while left > SMALLEST_PART * min(cap, mid_g_m2):
        sizes.append(min(cap, left))
        left -= sizes[-1]
    return sizes


def _part_dates(
    context: BedContext,
    first_day: date,
    *,
    count: int,
    outcome: Outcome,
    acidify: bool,
    half_days: int,
) -> list[date]:
    limits = verdict_values()
    wait = int(limits["part_wait_days"] if acidify else limits["lime_part_wait_days"])
    per_year = max(1, int((outcome.cap_year_g_m2 or 1.0) / (outcome.cap_dose_g_m2 or 1.0) + 1e-9))
    wait = max(wait, half_days + TEST_LEAD_DAYS)
    dates = [first_day]
    for number in range(1, count):
        earliest = dates[-1] + timedelta(days=wait)
        if number >= per_year:
            earliest = max(earliest, dates[number - per_year] + timedelta(days=365))
        dates.append(start_date(context, acidify=acidify, not_before=earliest))
    return dates


def _course(
    context: BedContext, material: Material, *, rate_g_m2: float, start: date
) -> list[float]:
    """Acid [mmolc/m2] by the end of each day after a part [g/m2] goes on."""
    course = acid_course_mmolc_m2(
        material,
        rate_g_m2=rate_g_m2,
        soil_temp_c=context.soil_temp_c,
        start=start,
        days=HORIZON_DAYS,
        ph_water=require_soil(context).ph.ph_water,
        in_pot=context.in_pot,
        incorporated=not context.planted,
    )
    return [float(value) for value in course]


def _days_to_share(course: list[float], share: float) -> int:
    """Days until a share [0-1] of what a course of acid ever brings [mmolc/m2] is there [d]."""
    wanted = share * abs(course[-1])
    return next((day for day, acid in enumerate(course) if abs(acid) >= wanted), len(course))


def _retests(
    context: BedContext,
    material: Material,
    active_frac: float,
    sizes: list[float],
    dates: list[date],
    too_early: date,
) -> tuple[date, ...]:
    found = [max(day - timedelta(days=TEST_LEAD_DAYS), too_early) for day in dates[1:]]
    last = _course(context, material, rate_g_m2=sizes[-1] / active_frac, start=dates[-1])
    days = _days_to_share(last, verdict_values()["judge_share"])
    found.append(dates[-1] + timedelta(days=max(days, 90)))
    return tuple(found)


def dated_parts(
    context: BedContext,
    target: Target,
    material: Material,
    active_frac: float,
    sizes: list[float],
    dates: list[date],
    retest: tuple[date, ...],
    *,
    acidify: bool,
) -> tuple[Application, ...]:
    """Parts of known size and date, each but the first under the condition of a test.

    Parameters
    ----------
    context
        The bed as understood [object].
    target
        The range wanted [object].
    material
        What goes on [object].
    active_frac
        Sulfur or lime value that works per mass of product [0-1].
    sizes
        Sulfur or lime value of each part [g/m2].
    dates
        Day of each part [calendar].
    retest
        Day of the test before each part but the first [calendar].
    acidify
        True for sulfur [truth].

    Returns
    -------
    tuple of Application
        The parts; a further one only if a test still asks for at least half of it [objects].
    """
    gram = SULFUR_G_PER_MMOLC if acidify else CACO3_G_PER_MMOLC
    sign = 1.0 if acidify else -1.0
    parts = []
    for number, (size, day) in enumerate(zip(sizes, dates, strict=True)):
        only_if = None
        if number:
            threshold = ph_after_acid_m2(context, -sign * 0.5 * size / gram, ph_from=target.ph_aim)
            only_if = _condition(
                threshold, test=retest[number - 1], units=context.case.units, acidify=acidify
            )
        rate = size / active_frac
        parts.append(
            Application(
                date=day,
                material=material.key,
                rate_g_m2=rate,
                amount_g=None if context.total_area_m2 is None else rate * context.total_area_m2,
                incorporate_cm=0.0 if context.planted and not context.in_pot else context.depth_cm,
                only_if=only_if,
            )
        )
    return tuple(parts)


def _condition(threshold_ph: float, *, test: date, units: Units, acidify: bool) -> str:
    side = "above" if acidify else "below"
    return (
        f"only if a test on or after {format_date(test, units)} reads {side} pH {threshold_ph:.1f}"
    )
