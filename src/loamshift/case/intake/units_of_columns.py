"""The unit of each column: printed, by its size and companions, or to be asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from loamshift.case.intake.asked import CONVERT, IGNORE, answer_key, name_of, told_of
from loamshift.case.intake.columns import Values
from loamshift.case.intake.fits import units_that_fit
from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.proposal import Aspect, Finding, Place
from loamshift.case.intake.table import Table
from loamshift.case.intake.understood import Understood
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Listed, Prose, message, number
from loamshift.tables.report_quantities import ReportQuantity


def with_unit(
    table: Table, one: Understood, columns: Sequence[Understood], told: Mapping[str, str]
) -> Understood:
    """The column with its unit and its figures in that of the case file."""
    quantity = one.quantity
    if quantity is None:
        return one
    heading, read = one.column.heading, one.read
    answered = told_of(told, one.meaning.heading, Aspect.UNIT)
    by_row = _units_by_row(one)
    stated = answered or heading.unit
    reasons = list(one.meaning.reason.sentences)
    findings = list(one.findings)
    meaning = one.meaning
    if "none" in quantity.units:
        scaled, more = _without_unit(one, quantity)
        return replace(one, scaled=scaled, findings=(*findings, *more))
    unit, sure = stated, True
    if stated and stated not in quantity.units:
        findings.append(_unit_cannot_be(one, quantity, stated))
        unit, sure = "", False
    elif not stated and not by_row:
        unit, sure, reason = units_that_fit(one, quantity, columns)
        reasons.append(reason)
        if not sure and len(read.figures):
            findings.append(_ask_unit(one, quantity, unit))
    elif answered:
        reasons.append(message("intake-why-told"))
    elif stated:
        reasons.append(message("intake-why-unit-printed", unit=Given(stated)))
        better = _better_unit(read.values, quantity, stated)
        if better and not by_row:
            findings.append(_ask_unit(one, quantity, better, stated=stated))
            sure = False
    factors = np.full(len(read.values), quantity.units.get(unit, np.nan))
    if by_row:
        unknown = {u for u in by_row.values() if u not in quantity.units}
        for place, cell_unit in by_row.items():
            factors[place] = quantity.units.get(cell_unit, np.nan)
        several = len({*by_row.values(), *([stated] if stated else [])}) > 1
        allowed = told.get(f"{plain_words(one.meaning.heading)}: mixed units") == CONVERT
        findings.append(_mixed_units(table, one, by_row, unit, ask=several and not allowed))
        sure = sure and not unknown and (allowed or not several)
    meaning = replace(meaning, unit=unit, reason=Prose(tuple(reasons)), sure=meaning.sure and sure)
    return replace(
        one,
        meaning=meaning,
        quantity=quantity,
        scaled=read.values * factors,
        findings=tuple(findings),
    )


def _units_by_row(one: Understood) -> dict[int, str]:
    """The unit of each cell that has one of its own, where they are not the heading's."""
    own = {place: unit for place, unit in enumerate(one.column.units) if unit}
    own |= dict(one.read.units)
    return own if set(own.values()) - {one.column.heading.unit} else {}


def _mixed_units(
    table: Table, one: Understood, units: Mapping[int, str], heading: str, *, ask: bool
) -> Finding:
    several = sorted({*units.values(), *([heading] if heading else [])})
    changed = [n for n, unit in units.items() if unit != one.column.heading.unit]
    rows = [one.column.rows[n] if one.column.rows else table.rows[n] for n in changed[:5]]
    return Finding(
        code="units-mixed" if len(several) > 1 else "units-in-cells",
        severity=Severity.CAUTION if len(several) > 1 else Severity.INFO,
        said=message(
            "intake-units-mixed",
            heading=Given(one.meaning.heading),
            units=Listed(tuple(Given(unit) for unit in several)),
            count=len(several),
        ),
        question=message("intake-ask-mixed", heading=Given(one.meaning.heading)) if ask else None,
        key=f"{one.meaning.heading}: mixed units" if ask else "",
        choices=(CONVERT, IGNORE) if ask else (),
        places=tuple(Place(sheet=table.sheet, row=row, column=one.column.letters) for row in rows),
        count=len(changed),
    )


def _without_unit(one: Understood, quantity: ReportQuantity) -> tuple[Values, tuple[Finding, ...]]:
    """A pH: no unit, but a decimal sign may be lost, or the figure be an index of ten times it."""
    factor = quantity.units["none"]
    values = one.read.values
    unit = one.column.heading.unit
    findings: list[Finding] = []
    if unit and unit != "none":
        findings.append(
            Finding(
                code="unit-contradicts",
                severity=Severity.CAUTION,
                said=message(
                    "intake-unit-contradicts",
                    heading=Given(one.meaning.heading),
                    unit=Given(unit),
                    taken=name_of(one.key),
                ),
                places=(one.meaning.place,),
            )
        )
    return values * factor, tuple(findings)


def _unit_cannot_be(one: Understood, quantity: ReportQuantity, unit: str) -> Finding:
    return Finding(
        code="unit-not-taken",
        severity=Severity.CAUTION,
        said=message(
            "intake-unit-not-taken",
            heading=Given(one.meaning.heading),
            unit=Given(unit),
            taken=name_of(one.key),
        ),
        question=message("intake-ask-unit", heading=Given(one.meaning.heading), unit=None),
        key=answer_key(one.meaning.heading, Aspect.UNIT),
        choices=tuple(quantity.units),
        places=(one.meaning.place,),
    )


def _ask_unit(one: Understood, quantity: ReportQuantity, unit: str, *, stated: str = "") -> Finding:
    figures = one.read.figures[one.read.figures != 0]
    middle = float(np.median(figures)) if len(figures) else 0.0
    said = message(
        "intake-unit-doubtful" if stated else "intake-unit-missing",
        heading=Given(one.meaning.heading),
        taken=name_of(one.key),
        middle=number(middle),
        **({"stated": Given(stated)} if stated else {}),
    )
    return Finding(
        code="unit-doubtful" if stated else "unit-missing",
        severity=Severity.CAUTION,
        said=said,
        question=message(
            "intake-ask-unit",
            heading=Given(one.meaning.heading),
            unit=Given(unit) if unit else None,
        ),
        key=answer_key(one.meaning.heading, Aspect.UNIT),
        choices=tuple(quantity.units),
        places=(one.meaning.place,),
    )


def _better_unit(values: Values, quantity: ReportQuantity, stated: str) -> str:
    """Another unit that the figures fit where they do not fit the stated one; else empty."""
    figures = values[np.isfinite(values) & (values != 0)]
    if not len(figures):
        return ""
    middle = float(np.median(figures))

    def fits(unit: str) -> bool:
        return quantity.typical_low <= middle * quantity.units[unit] <= quantity.typical_high

    if fits(stated):
        return ""
    return next((unit for unit in quantity.units if fits(unit)), "")
