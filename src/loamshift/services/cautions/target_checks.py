"""Checks of what is aimed at: the target pH, its method, and the ranges printed for plants."""

from __future__ import annotations

from typing import Final

from loamshift.domain.answer import Finding, Severity, Worded
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.message import Listed, Message, PlantName, choice, message, ph, plants
from loamshift.domain.plant import Plant
from loamshift.services.context.readings import current_reading
from loamshift.services.context.target import plants_share_a_range
from loamshift.services.context.wanted_day import wanted_by
from loamshift.tables.model import verdict_values

CACL2_STEP_PH: Final = 0.6
"""How much lower soil reads in calcium chloride than in water (NSW DPI 2021) [pH]."""


def finding_row(
    check: str,
    *,
    value: float | str | None,
    operator: str,
    limit: float | str | None,
    unit: str,
    passed: bool,
    severity: Severity,
    comment: Worded,
    source_key: str | None = None,
) -> Finding:
    """One check as a row; a passed check is information, whatever it would have been.

    Parameters
    ----------
    value
        What was found [unit of the row].
    limit
        What it is held against [unit of the row].
    source_key
        Source of the limit, if any.
    """
    return Finding(
        check=check,
        value=value,
        operator=operator,
        limit=limit,
        unit=unit,
        passed=passed,
        severity=Severity.INFO if passed else severity,
        comment=comment,
        source_key=source_key,
    )


def target_method(case: Case) -> Finding | None:
    """Whether a target beside a reading in salt says its own method."""
    reading = current_reading(case)
    if case.aim.target_ph is None or reading is None or case.aim.target_method is not None:
        return None
    if not reading.method.is_salt:
        return None
    return finding_row(
        "method of the target pH",
        value="not given",
        operator="is",
        limit=reading.method.value,
        unit="",
        passed=False,
        severity=Severity.CAUTION,
        comment=message(
            "check-target-method", method=choice(reading.method.value), step=ph(CACL2_STEP_PH)
        ),
        source_key="nsw-dpi-acidity-2021",
    )


def target_in_range(context: BedContext) -> Finding | None:
    """Whether a target pH given with plants lies in the range printed for them."""
    target, wanted = context.target, context.case.aim.plants
    if target is None or not wanted or context.case.aim.target_ph is None:
        return None
    low, high = max(p.ph_low for p in wanted), min(p.ph_high for p in wanted)
    passed = low <= target.ph_aim <= high
    return finding_row(
        "target pH against the printed range",
        value=round(target.ph_aim, 2),
        operator="between",
        limit=f"{low:g} to {high:g}",
        unit="pH",
        passed=passed,
        severity=Severity.CAUTION,
        comment=message("check-target-ok")
        if passed
        else message(
            "check-target-outside",
            target=ph(target.ph_aim, against=low if target.ph_aim < low else high),
            plants=plants([plant.name for plant in wanted]),
            range=ph(low, high=high),
        ),
        source_key=None,
    )


def range_agreed(context: BedContext) -> Finding | None:
    """Whether the ranges printed for the plants agree, and are more than one."""
    target = context.target
    if target is None or not target.names:
        return None
    wanted: tuple[Plant, ...] = context.case.aim.plants
    agree = all(plant.ranges_agree for plant in wanted)
    passed = not target.weak and agree
    if target.weak:
        comment = message("check-range-weak")
    elif not agree:
        spread = max(plant.midpoint_spread for plant in wanted)
        comment = message("check-range-disagree", spread=ph(spread), plants=len(wanted))
    else:
        sources = wanted[0].n_sources if len(wanted) == 1 else None
        comment = message("check-range-agree", sources=sources)
    return finding_row(
        "printed pH range of the plant",
        value=target.basis,
        operator="agree",
        limit="2 independent sources",
        unit="",
        passed=passed,
        severity=Severity.CAUTION if target.weak else Severity.INFO,
        comment=comment,
        source_key=target.source_keys[0] if target.source_keys else None,
    )


def shared_range(case: Case) -> Finding | None:
    """Whether plants that are to share a bed can share a pH."""
    if len(case.aim.plants) < 2:
        return None
    passed = plants_share_a_range(case)
    ranges = "; ".join(f"{p.name} {p.ph_low:g} to {p.ph_high:g}" for p in case.aim.plants)
    return finding_row(
        "plants that share a bed",
        value=ranges,
        operator="overlap",
        limit=None,
        unit="pH",
        passed=passed,
        severity=Severity.CAUTION,
        comment=message("check-shared-ok")
        if passed
        else message("check-shared-none", ranges=Listed(tuple(map(_range_of, case.aim.plants)))),
    )


def wanted_too_soon(case: Case) -> Finding | None:
    """Whether the day wanted leaves time to act.

    Returns
    -------
    Finding or None
        None where no day was named, or it leaves time.
    """
    if case.aim.by is None or wanted_by(case) is not None:
        return None
    return finding_row(
        "day wanted",
        value=float((case.aim.by - case.today).days),
        operator=">=",
        limit=verdict_values()["part_wait_days"],
        unit="days",
        passed=False,
        severity=Severity.CAUTION,
        comment=message("check-wanted-too-soon"),
        source_key="common-practice",
    )


def _range_of(plant: Plant) -> Message:
    return message(
        "check-plant-range",
        plant=PlantName(plant.name),
        range=ph(plant.ph_low, high=plant.ph_high),
    )
