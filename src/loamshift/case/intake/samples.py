"""All the tables of samples in the sheets of a file, and what a legend says of their columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from loamshift.case.intake.headings import Heading, plain_words, read_heading
from loamshift.case.intake.keys import LIME_WORDS, NUTRIENTS
from loamshift.case.intake.lab_units import unit_of
from loamshift.case.intake.layout import heading_rows, is_long, keys_of, wide_table
from loamshift.case.intake.long_tables import across_table, pairs_table, wide_from_long
from loamshift.case.intake.sheet import Cells, Sheet
from loamshift.case.intake.table import Column, Table
from loamshift.tables.report_quantities import load_report_quantities

_SOIL: Final = frozenset({*load_report_quantities(), *NUTRIENTS, *LIME_WORDS}) - {"depth_to"}
"""A table without any of these holds no results."""


@dataclass(frozen=True, slots=True)
class _Said:
    """What a legend says of a column."""

    unit: str
    heading: Heading


def tables_in(sheets: Sequence[Sheet]) -> tuple[Table, ...]:
    """Every table of samples; sheets that only explain it are read into its headings."""
    found: list[Table] = []
    others: list[Sheet] = []
    lines: list[Sheet] = []
    for sheet in sheets:
        if (across := across_table(sheet)) is not None:
            found.append(across)
            continue
        where = heading_rows(sheet)
        table = wide_table(sheet, *where) if where else None
        if table is not None and is_long(table):
            if any(keys_of(c.heading) & {"sample", "lab_number"} for c in table.columns):
                found.append(wide_from_long(table))
            else:
                lines.append(_plain_pairs(sheet, table))
        elif table is not None and len(table) and _holds_results(table) and _filled(table):
            found.append(table)
        else:
            others.append(sheet)
            lines.append(sheet)
    legend = _legend(others, found)
    if found:
        return tuple(_explained(table, legend) for table in found)
    pairs = pairs_table(lines) if lines else None
    return () if pairs is None else (pairs,)


def _holds_results(table: Table) -> bool:
    return any(keys_of(column.heading) & _SOIL for column in table.columns)


def _filled(table: Table) -> bool:
    """Whether the columns of results hold anything; those of a legend do not."""
    return any(
        any(char.isdigit() for cell in column.cells[:50] for char in cell)
        for column in table.columns
        if keys_of(column.heading) & _SOIL
    ) or any(keys_of(c.heading) & LIME_WORDS and any(c.cells) for c in table.columns)


def _plain_pairs(sheet: Sheet, table: Table) -> Sheet:
    """A list of analytes without a sample as lines of label, value and unit, at their rows."""
    by_key = {key: c for c in reversed(table.columns) for key in keys_of(c.heading)}
    rows: list[Cells] = [()] * len(sheet.rows)
    for place, row in enumerate(table.rows):
        unit = by_key["unit"].cells[place] if "unit" in by_key else ""
        rows[row - 1] = (by_key["analyte"].cells[place], by_key["result"].cells[place], unit)
    before = table.headed_in - 1
    rows[:before] = sheet.rows[:before]
    return replace(sheet, rows=tuple(rows), merged=())


def _legend(sheets: Sequence[Sheet], tables: Sequence[Table]) -> Mapping[str, _Said]:
    """What lines of other sheets say of headings, by the words of the heading."""
    names = {
        words
        for table in tables
        for column in table.columns
        for words in (plain_words(column.heading.text), column.heading.words)
        if words
    }
    said: dict[str, _Said] = {}
    for sheet in sheets:
        for cells in sheet.rows:
            filled = [cell for cell in cells if cell]
            if len(filled) == 1:
                head, sign, tail = filled[0].partition(":")
                if not sign:
                    head, sign, tail = filled[0].partition("=")
                filled = [head, tail] if sign else filled
            if len(filled) < 2 or plain_words(filled[0]) not in names:
                continue
            text = " ".join(filled[1:])
            heading = read_heading(text)
            unit = next(
                (
                    unit_of(cell.strip("()[] "))
                    for cell in filled[1:]
                    if unit_of(cell.strip("()[] "))
                ),
                "",
            )
            said.setdefault(plain_words(filled[0]), _Said(unit or heading.unit, heading))
    return said


def _explained(table: Table, legend: Mapping[str, _Said]) -> Table:
    """The table with what its legend says put into the headings that do not say it themselves."""
    columns: list[Column] = []
    told: dict[str, str] = {}
    for column in table.columns:
        heading = column.heading
        said = legend.get(plain_words(heading.text)) or legend.get(heading.words)
        if said is None:
            columns.append(column)
            continue
        changed = replace(
            heading,
            unit=heading.unit or said.unit,
            ratio=heading.ratio or said.heading.ratio,
            extractant=heading.extractant or said.heading.extractant,
        )
        more = said.heading.meanings
        same = more and (not heading.meanings or more[0].key == heading.meanings[0].key)
        if same and (not heading.meanings or not heading.meanings[0].method):
            changed = replace(changed, meanings=more, matched=said.heading.matched, left=())
        told[heading.text] = more[0].method if more else ""
        columns.append(replace(column, heading=changed))
    return replace(table, columns=tuple(columns), legend=told)
