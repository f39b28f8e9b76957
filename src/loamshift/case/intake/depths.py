"""Sampling depths as reports give them: one figure, a range, or two columns."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loamshift.case.intake.lab_units import unit_of
from loamshift.case.intake.proposal import Finding, Place
from loamshift.case.intake.table import Table
from loamshift.case.intake.understood import Understood
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, message
from loamshift.tables.report_quantities import load_report_quantities

_NUMBER: Final = r"(\d+(?:[.,]\d+)?)"
_RANGE: Final = re.compile(
    rf"(?:[A-Za-z]+\s+)?\(?{_NUMBER}\s*([a-z\"”]*)\s*(?:-|–|—|to|bis|à|a|tot|do|/)\s*{_NUMBER}\s*"
    r"(\S{0,12})\)?",
    re.IGNORECASE,
)
_ONE: Final = re.compile(rf"{_NUMBER}\s*(\S{{0,12}})", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Depths:
    """From where to where each sample goes [cm], not a number where unknown."""

    upper_cm: np.ndarray[tuple[int], np.dtype[np.float64]]
    lower_cm: np.ndarray[tuple[int], np.dtype[np.float64]]


def read_depths(
    table: Table, columns: Sequence[Understood], told: Mapping[str, str]
) -> tuple[Depths | None, tuple[Finding, ...]]:
    """The depths of a table; None where it has no column of them."""
    by_key = {one.key: one for one in columns if one.meaning.sure}
    if "depth_to" in by_key:
        lower = by_key["depth_to"].scaled
        upper = by_key["depth_from"].scaled if "depth_from" in by_key else None
        if lower is None:
            return None, ()
        return Depths(np.zeros(len(lower)) if upper is None else upper, lower), ()
    column = by_key.get("depth")
    if column is None:
        return None, ()
    return _from_text(table, column, told)


def _from_text(
    table: Table, one: Understood, told: Mapping[str, str]
) -> tuple[Depths, tuple[Finding, ...]]:
    units = load_report_quantities()["depth_to"].units
    heading = one.column.heading
    unit = told.get(f"{heading.words}: unit") or heading.unit
    count = len(table)
    upper, lower = np.full(count, np.nan), np.full(count, np.nan)
    unread: list[int] = []
    bare: list[int] = []
    known: dict[str, tuple[float, float, str] | None] = {}
    for place, cell in enumerate(one.column.cells):
        if not cell:
            continue
        if cell not in known:
            known[cell] = _depth(cell)
        found = known[cell]
        if found is None:
            unread.append(place)
            continue
        factor = units.get(found[2] or unit)
        if factor is None:
            bare.append(place)
            continue
        upper[place], lower[place] = found[0] * factor, found[1] * factor
    findings = []
    if bare:
        findings.append(
            Finding(
                code="depth-unit",
                severity=Severity.CAUTION,
                said=message("intake-depth-unit", given=Given(one.column.cells[bare[0]])),
                question=message("intake-ask-unit", heading=Given(heading.text), unit=None),
                key=f"{heading.text}: unit",
                choices=tuple(units),
                places=(one.meaning.place,),
                count=len(bare),
            )
        )
    if unread:
        findings.append(
            Finding(
                code="depth-unread",
                severity=Severity.INFO,
                said=message(
                    "intake-depth-unread",
                    given=Given(one.column.cells[unread[0]][:40]),
                    count=len(unread),
                ),
                places=tuple(
                    Place(sheet=table.sheet, row=table.rows[n], column=one.column.letters)
                    for n in unread[:5]
                ),
                count=len(unread),
            )
        )
    return Depths(upper, lower), tuple(findings)


def _depth(cell: str) -> tuple[float, float, str] | None:
    """Upper and lower end as printed, and the unit if the cell names one."""
    text = cell.strip()
    if match := _RANGE.fullmatch(text):
        unit = unit_of(match[4].strip(")")) or unit_of(match[2])
        return _figure(match[1]), _figure(match[3]), unit
    if match := _ONE.fullmatch(text):
        unit = unit_of(match[2])
        return None if match[2] and not unit else (0.0, _figure(match[1]), unit)
    return None


def _figure(text: str) -> float:
    return float(text.replace(",", "."))
