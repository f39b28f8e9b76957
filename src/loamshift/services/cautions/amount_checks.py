"""Amounts put on, summed over a year, and amounts proposed, each against its printed limit."""

from __future__ import annotations

from collections.abc import Iterator

from loamshift.domain.answer import Direction, Finding, Severity
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import ClaimEntry
from loamshift.domain.message import Prose, message, prose, rate, times
from loamshift.services.context.amount_words import (
    counted_as,
    load_sentence,
    over_limit,
    products,
)
from loamshift.services.context.overdose import Load, recent_loads, substance_direction
from loamshift.services.materials.caps import (
    ProductCap,
    is_by_weight,
    is_overdose,
    limit_passed,
    product_cap,
)

APPLIED_CHECK = "applied within a year"
PROPOSED_CHECK = "amount proposed"
ALL_ACID = "all that acidifies"


def amount_findings(context: BedContext) -> tuple[Finding, ...]:
    """One row for each limited substance put on, and one for each limited amount proposed.

    A row about what lies there blocks exactly where its sum is an overdose of acid or lime, for
    then nothing more may go on; one about a proposal where the proposal makes an overdose. Too
    much nitrogen put on is warned of: it forbids no correction of the pH.

    Returns
    -------
    tuple of Finding
        Rows of amount and limit, as the limit names the substance, with a comment [g/m2].
    """
    loads = recent_loads(context)
    applied = (_applied_row(context, load) for load in loads)
    return (*applied, *_proposed_rows(context, loads))


def _applied_row(context: BedContext, load: Load) -> Finding:
    by_dose = load.times <= 1.0 < load.times_at_once
    limit = load.limit_at_once_g_m2 if by_dose and load.limit_at_once_g_m2 else load.limit_g_m2
    passed = load.times <= 1.0 and not by_dose
    return Finding(
        check=f"{APPLIED_CHECK}: {load.substance or ALL_ACID}",
        value=round(load.at_once_g_m2 if by_dose else load.rate_g_m2, 1),
        operator="<=",
        limit=round(limit, 1),
        unit="g/m2",
        passed=passed,
        severity=_severity(
            passed=passed, times=0.0 if load.direction is Direction.NONE else load.times
        ),
        comment=load_sentence(context, load),
        source_key=load.source_key,
    )


def _proposed_rows(context: BedContext, loads: tuple[Load, ...]) -> Iterator[Finding]:
    for number, claim in enumerate(context.case.claims, start=1):
        cap = product_cap(claim.material, cap_situation=context.cap_situation)
        if cap is None:
            continue
        before = _before(loads, substance_direction(cap.applies_to))
        there = 0.0 if before is None else before.times
        total = there + claim.rate_g_m2 / cap.year_g_m2
        alone = limit_passed(cap, rate_g_m2=claim.rate_g_m2)
        passed = alone is None and total <= 1.0 + 1e-9
        limit = cap.year_printed_g_m2 if alone is None else alone.printed_g_m2
        value = total * cap.year_g_m2 if alone is None else claim.rate_g_m2
        yield Finding(
            check=f"{PROPOSED_CHECK} {number}: {claim.material.key}",
            value=round(value * cap.per_product, 1),
            operator="<=",
            limit=round(limit, 1),
            unit="g/m2",
            passed=passed,
            severity=_severity(passed=passed, times=total),
            comment=_proposed_words(claim, cap, before=before),
            source_key=cap.source_key,
        )


def _before(loads: tuple[Load, ...], direction: Direction) -> Load | None:
    """The most that was put on already in the same direction, by its yearly limit."""
    same = (load for load in loads if load.direction is direction)
    return max(same, key=lambda load: load.times, default=None)


def _severity(*, passed: bool, times: float) -> Severity:
    if passed:
        return Severity.INFO
    return Severity.BLOCK if is_overdose(times) else Severity.CAUTION


def _proposed_words(claim: ClaimEntry, cap: ProductCap, *, before: Load | None) -> Prose:
    there = 0.0 if before is None else before.times
    earlier = "old" if before is not None and before.is_old else "recent"
    own, year = claim.rate_g_m2 * cap.per_product, cap.year_printed_g_m2
    total = there + claim.rate_g_m2 / cap.year_g_m2
    alone = limit_passed(cap, rate_g_m2=claim.rate_g_m2)
    limit = year if alone is None else alone.printed_g_m2
    subject = message(
        "amount-proposed",
        rate=rate(own, against=limit),
        products=products([claim.material.key]),
        counted=counted_as(cap.applies_to, by_weight=is_by_weight(cap)),
    )
    if alone is None and total <= 1.0 + 1e-9:
        within = message("amount-within-year", limit=rate(year, against=own), on=cap.ground)
        return prose(subject, within)
    if alone is None:
        summed = message(
            "amount-over-with-earlier",
            earlier=earlier,
            times=times(total),
            limit=rate(year, against=own),
            on=cap.ground,
        )
        return prose(subject, summed)
    over = over_limit(
        alone.per,
        amount_g_m2=own,
        limit_g_m2=alone.printed_g_m2,
        ratio=alone.times,
        ground=cap.ground,
    )
    if there <= 0.0 or total <= 1.0:
        return prose(subject, over)
    return prose(subject, over, message("amount-sum", earlier=earlier, times=times(total)))
