"""Amounts put on or proposed, each against its printed limit."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material
from loamshift.services.format import format_rate, format_times
from loamshift.services.materials.caps import product_cap

DANGEROUS_TIMES = 2.0
"""An amount this many times its limit is called dangerous [1]."""


def amount_findings(context: BedContext) -> tuple[Finding, ...]:
    """One row for each amount of a case that has a printed limit for one dose.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    tuple of Finding
        Rows of rate, limit and comment [g/m2 of product].
    """
    rows = []
    for name, lead, material, rate_g_m2 in _amounts(context):
        cap = product_cap(material, cap_situation=context.cap_situation)
        limit = cap.dose_g_m2 if cap is not None else None
        if cap is None or limit is None:
            continue
        passed = rate_g_m2 <= limit * (1.0 + 1e-9)
        units = context.case.units
        ratio = rate_g_m2 / limit
        rows.append(
            Finding(
                check=f"{name}: {material.key}",
                value=round(rate_g_m2, 1),
                operator="<=",
                limit=round(limit, 1),
                unit="g/m2",
                passed=passed,
                severity=Severity.INFO
                if passed
                else Severity.BLOCK
                if ratio > DANGEROUS_TIMES
                else Severity.CAUTION,
                comment="Within the printed limit of one dose."
                if passed
                else f"{lead}, {format_rate(rate_g_m2, units)}, is {format_times(ratio)} the "
                f"printed limit of one dose here, {format_rate(limit, units)}.",
                source_key=cap.source_key,
            )
        )
    return tuple(rows)


def over_cap_codes(context: BedContext) -> set[str]:
    """Cautions that amounts over their limits call for.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    set of str
        ``over-cap``, and ``overdose`` for dangerous amounts of sulfur [codes].
    """
    failed = [row for row in amount_findings(context) if not row.passed]
    codes = {"over-cap"} if any("sulfur" in row.check for row in failed) else set()
    if any(row.severity is Severity.BLOCK and "elemental sulfur" in row.check for row in failed):
        codes.add("overdose")
    return codes


def _amounts(context: BedContext) -> Iterator[tuple[str, str, Material, float]]:
    """What was put on within a year or is proposed: check, words, material, rate [g/m2]."""
    case = context.case
    for number, applied in enumerate(case.applied, start=1):
        if case.today - applied.on <= timedelta(days=365):
            lead = f"The {applied.material.key} put on"
            yield f"amount put on {number}", lead, applied.material, applied.rate_g_m2
    for number, claim in enumerate(case.claims, start=1):
        lead = f"The {claim.material.key} proposed"
        yield f"amount proposed {number}", lead, claim.material, claim.rate_g_m2
