"""Checks of what is aimed at: the target pH, its method, and the ranges printed for plants."""

from __future__ import annotations

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.plant import Plant
from loamshift.services.context.readings import current_reading
from loamshift.services.context.target import plants_share_a_range
from loamshift.services.context.wanted_day import wanted_by
from loamshift.tables.model import verdict_values


def finding_row(
    check: str,
    *,
    value: float | str | None,
    operator: str,
    limit: float | str | None,
    unit: str,
    passed: bool,
    severity: Severity,
    comment: str,
    source_key: str | None = None,
) -> Finding:
    """One check as a row; a passed check is information, whatever it would have been.

    Parameters
    ----------
    check
        What is checked [text].
    value
        What was found [unit of the row].
    operator
        How value and limit are compared [text].
    limit
        What it is held against [unit of the row].
    unit
        Unit of value and limit [text].
    passed
        Whether it holds [truth].
    severity
        How grave a failure is [enumeration].
    comment
        A sentence for the letter [text].
    source_key
        Source of the limit, if any [text].

    Returns
    -------
    Finding
        The row [row].
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
    """Whether a target beside a reading in salt says its own method.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    Finding or None
        None where there is nothing to check [row].
    """
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
        comment=f"The soil was read in {reading.method.value}, but the target does not say by "
        "which method it is meant; it was taken as pH in water. If it is meant in "
        f"{reading.method.value}, give aim.target_method: the difference is about 0.6.",
        source_key="nsw-dpi-acidity-2021",
    )


def target_in_range(context: BedContext) -> Finding | None:
    """Whether a target pH given with plants lies in the range printed for them.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    Finding or None
        None where there is nothing to check [row].
    """
    target, plants = context.target, context.case.aim.plants
    if target is None or not plants or context.case.aim.target_ph is None:
        return None
    low, high = max(p.ph_low for p in plants), min(p.ph_high for p in plants)
    passed = low <= target.ph_aim <= high
    return finding_row(
        "target pH against the printed range",
        value=round(target.ph_aim, 2),
        operator="between",
        limit=f"{low:g} to {high:g}",
        unit="pH",
        passed=passed,
        severity=Severity.CAUTION,
        comment="The target lies in the range printed for the plants."
        if passed
        else f"The target, pH {target.ph_aim:.1f} in water, lies outside the range printed for "
        f"{' and '.join(p.name for p in plants)}, {low:.1f} to {high:.1f}. It was followed all "
        "the same; check it, and the method it is meant in.",
        source_key=None,
    )


def range_agreed(context: BedContext) -> Finding | None:
    """Whether the ranges printed for the plants agree, and are more than one.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    Finding or None
        None where there is nothing to check [row].
    """
    target = context.target
    if target is None or not target.names:
        return None
    plants: tuple[Plant, ...] = context.case.aim.plants
    agree = all(plant.ranges_agree for plant in plants)
    passed = not target.weak and agree
    if target.weak:
        comment = (
            "The printed range for this plant rests on one source or on memory. It does not start "
            "a plan by itself: give a target pH if you have reason to trust one."
        )
    elif not agree:
        spread = max(plant.midpoint_spread for plant in plants)
        comment = (
            f"Sources disagree about this plant: the middles of their ranges lie {spread:.1f} pH "
            "apart. The median range is used."
        )
    else:
        comment = f"The printed ranges agree ({target.basis})."
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
    """Whether plants that are to share a bed can share a pH.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    Finding or None
        None where there is nothing to check [row].
    """
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
        comment="Their pH ranges overlap."
        if passed
        else f"No one pH suits all of these plants ({ranges}). Plant them apart.",
    )


def wanted_too_soon(case: Case) -> Finding | None:
    """Whether the day wanted leaves time to act.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    Finding or None
        None where no day was named, or it leaves time [row].
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
        comment="Nothing put on now could show by the day wanted: sulfur and lime take months. "
        "The answer looks three years ahead instead.",
        source_key="common-practice",
    )
