"""Where the samples stand in a sheet: its heading rows, and the rows below that are samples."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cache
from typing import Final

from loamshift.case.intake.figures import NOTHING, read_figure
from loamshift.case.intake.headings import Heading, plain_words, read_heading
from loamshift.case.intake.keys import NUTRIENTS, OTHER_FIGURES
from loamshift.case.intake.lab_units import unit_of
from loamshift.case.intake.sheet import Cells, Sheet, column_letters
from loamshift.case.intake.table import Column, Layout, Skipped, Table
from loamshift.tables.header_words import load_header_words
from loamshift.tables.report_quantities import load_report_quantities

HEADING_ROWS_LOOKED_AT: Final = 60
_MOST_HEADING_ROWS: Final = 4
_LEAST_HEADINGS: Final = 1.5
_LONG: Final = ("analyte", "result")
_FIGURES: Final = frozenset({*load_report_quantities(), *NUTRIENTS, *OTHER_FIGURES})
"""Columns whose cells are numbers."""
_AFTER_AVERAGE: Final = frozenset({"of", "all", "samples", "sample", "value", "values"})


def keys_of(heading: Heading) -> frozenset[str]:
    """What a heading may name."""
    return frozenset(one.key for one in heading.meanings)


def heading_rows(sheet: Sheet) -> tuple[int, int] | None:
    """First and last heading row, from 0; None where the sheet has no row of headings."""
    best, row = 0.0, -1
    for number, cells in enumerate(sheet.rows[:HEADING_ROWS_LOOKED_AT]):
        score = _heading_score(cells)
        if score > best:
            best, row = score, number
    if best < _LEAST_HEADINGS or row < 0:
        return None
    last = row
    while last + 1 < len(sheet.rows) and last - row < _MOST_HEADING_ROWS:
        if not _goes_on(sheet.rows[last + 1], sheet.rows[row]):
            break
        last += 1
    first = row
    if row and _is_group_row(sheet, row - 1, row):
        first = row - 1
    return first, last


def wide_table(sheet: Sheet, first: int, last: int) -> Table:
    """The samples below these heading rows."""
    headings = _headings(sheet, first, last)
    body = range(last + 1, len(sheet.rows))
    figures = [n for n, one in headings.items() if keys_of(one) & _FIGURES]
    samples: list[int] = []
    skipped: list[tuple[int, Skipped]] = []
    units: dict[int, str] = {}
    changes: dict[int, list[tuple[int, str]]] = {}
    same = {n: one.text.casefold() for n, one in headings.items()}
    for number in body:
        cells = sheet.rows[number]
        why = _not_a_sample(cells, same, figures)
        if why in (Skipped.HEADING, Skipped.UNITS):
            for column in headings:
                unit = _new_unit(cells, column)
                if unit and unit != units.get(column, headings[column].unit):
                    units[column] = unit
                    changes.setdefault(column, []).append((len(samples), unit))
        if why is None:
            samples.append(number)
        elif why is not Skipped.EMPTY:
            skipped.append((number + 1, why))
    picked = [sheet.rows[number] for number in samples]
    columns = []
    for column, heading in headings.items():
        cells_of = tuple(row[column] if column < len(row) else "" for row in picked)
        columns.append(
            Column(
                letters=column_letters(column),
                heading=heading,
                cells=cells_of,
                units=_units_by_row(heading.unit, changes.get(column, ()), len(picked)),
            )
        )
    return Table(
        sheet=sheet.name,
        layout=Layout.WIDE,
        columns=tuple(columns),
        rows=tuple(number + 1 for number in samples),
        skipped=tuple(skipped),
        typed=sheet.typed,
        headed_in=first + 1,
    )


def is_long(table: Table) -> bool:
    """Whether a table has a column of analytes and one of results."""
    found = [keys_of(column.heading) for column in table.columns]
    if not all(any(key in one for one in found) for key in _LONG):
        return False
    named = next(c for c in table.columns if "analyte" in keys_of(c.heading))
    known = sum(bool(read_heading(cell).meanings) for cell in named.cells[:200])
    return known * 3 > min(len(named.cells), 200)


def _heading_score(cells: Cells) -> float:
    """How many cells are headings; figures in a row speak against it."""
    named, numbers = 0.0, 0
    keys: set[str] = set()
    for cell in cells:
        if not cell:
            continue
        if read_figure(cell) is not None:
            numbers += 1
        elif len(cell) <= 80 and (one := read_heading(cell)).meanings:
            named += 1 if one.exact else 0.6
            keys |= keys_of(one)
    if numbers > named or not keys - {"average", "remark"}:
        return 0.0
    return named - 0.5 * numbers + 0.1 * len(keys)


def _goes_on(cells: Cells, heads: Cells) -> bool:
    """Whether a row below the headings belongs to them: units or methods, and no figure."""
    filled = [cell for cell in cells if cell]
    if not filled:
        return False
    if any(read_figure(cell) is not None and not unit_of(cell) for cell in filled):
        return False
    known = sum(bool(unit_of(_bare(c)) or _is_method(c) or read_heading(c).exact) for c in filled)
    sample = bool(cells[0]) and not (unit_of(_bare(cells[0])) or read_heading(cells[0]).exact)
    return known * 2 >= len(filled) and not (sample and known < len(filled) - 1) and bool(heads)


def _bare(cell: str) -> str:
    return cell.strip("()[] ")


def _is_method(cell: str) -> bool:
    words = f" {plain_words(cell)} "
    return any(
        f" {one} " in words
        for one in ("h2o", "cacl2", "kcl", "water", "mehlich", "olsen", "bray", "paste", "w", "ca")
    ) or bool(re.fullmatch(r"\s*1\s*:\s*[\d.,]+\s*", cell))


def _is_group_row(sheet: Sheet, above: int, row: int) -> bool:
    """Whether a row above the headings groups them, as “Exchangeable” over “Ca” and “Mg”."""
    cells, heads = sheet.rows[above], sheet.rows[row]
    if any(a == above == c and d > b for a, b, c, d in sheet.merged):
        spans = [b for a, b, c, d in sheet.merged if a == above == c and d > b]
        return len(spans) > 1 or spans[0] > 0 or sum(map(bool, cells)) > 1
    filled = [n for n, cell in enumerate(cells) if cell]
    if len(filled) < 2 or any(read_figure(cells[n]) is not None for n in filled):
        return False
    known = sum(bool(keys_of(read_heading(cells[n])) & _FIGURES) for n in filled)
    return (
        known * 2 >= len(filled)
        and len(filled) <= sum(map(bool, heads))
        and max(filled) < len(heads)
    )


def _headings(sheet: Sheet, first: int, last: int) -> dict[int, Heading]:
    """The heading of each column, put together from its heading rows."""
    rows = [list(sheet.rows[number]) for number in range(first, last + 1)]
    _fill_merged(sheet, first, rows)
    width = max(map(len, rows))
    if len(rows) > 1:
        _fill_right(rows, width)
    made: dict[int, Heading] = {}
    for column in range(width):
        parts = [row[column] for row in rows if column < len(row) and row[column]]
        parts = [part for n, part in enumerate(parts) if part not in parts[:n]]
        if parts:
            made[column] = _one_heading(parts)
    return made


def _fill_merged(sheet: Sheet, first: int, rows: list[list[str]]) -> None:
    """Put the text of a merged cell into all its columns."""
    for top, left, bottom, right in sheet.merged:
        for number in range(max(top, first), min(bottom, first + len(rows) - 1) + 1):
            text = sheet.cell(top, left)
            cells = rows[number - first]
            cells.extend([""] * (min(right, left + 60) + 1 - len(cells)))
            for column in range(left, min(right, left + 60) + 1):
                cells[column] = cells[column] or text


def _fill_right(rows: list[list[str]], width: int) -> None:
    """A group heading stands over the columns right of it until the next, where text files merge.

    Only over cells that have a heading of their own below, which nothing else names.
    """
    groups, below = rows[0], rows[1]
    groups.extend([""] * (width - len(groups)))
    current = ""
    for column in range(width):
        own = below[column] if column < len(below) else ""
        if groups[column]:
            current = groups[column]
        elif own and current and not (read_heading(own).exact and not _is_method(own)):
            groups[column] = current
        elif own:
            current = ""


def _one_heading(parts: Sequence[str]) -> Heading:
    """One heading from what stands in several rows: the reading that leaves least over.

    All of it together goes first, then the lowest row.
    """
    units = [(unit_of(_bare(part)), part) for part in parts]
    unit = next((u for u, _ in units if u), "")
    words = [part for u, part in units if not u] or list(parts)
    tries = [" ".join(words), *reversed(words), words[0]]
    read = [read_heading(one) for one in tries]
    best = min(read, key=lambda one: (not one.meanings, len(one.left)))
    whole = " ".join(parts)
    ratio = next((one.ratio for one in read if one.ratio), "")
    extractant = next((one.extractant for one in read if one.extractant), "")
    return replace(
        best,
        text=whole,
        unit=unit or best.unit or next((one.unit for one in read if one.unit), ""),
        ratio=ratio,
        extractant=extractant,
    )


def _not_a_sample(cells: Cells, headings: dict[int, str], figures: Sequence[int]) -> Skipped | None:
    """Why a row below the headings is no sample; None where it is one."""
    filled = [(n, cell) for n, cell in enumerate(cells) if cell]
    if not filled:
        return Skipped.EMPTY
    first = filled[0][1]
    if len(first) <= 40 and _is_average(first):
        return Skipped.AVERAGE
    if any(n < len(cells) and _is_something(cells[n]) for n in figures):
        return None
    same = sum(headings.get(n) == cell.casefold() for n, cell in filled)
    if same * 2 > len(filled):
        return Skipped.HEADING
    if all(unit_of(_bare(cell)) for _, cell in filled):
        return Skipped.UNITS
    headed = sum(bool(read_heading(cell).meanings) for _, cell in filled if len(cell) < 80)
    if len(filled) > 2 and headed * 2 > len(filled):
        return Skipped.HEADING
    if len(filled) == 1 or not figures or len(first) > 60:
        return Skipped.TEXT
    return Skipped.TEXT if not any(cell for n, cell in filled if n in figures) else None


def _is_average(cell: str) -> bool:
    """Whether a row is named as an average or a total, as ``Average of 12`` is."""
    if cell.isascii() and cell[:2].casefold() not in _average_starts():
        return False
    words = plain_words(cell)
    head, _, rest = words.partition(" ")
    if len(head) > 3 and all(one in _AFTER_AVERAGE or one.isdigit() for one in rest.split()):
        words = head
    return any(one.key == "average" for one in load_header_words().get(words, ()))


@cache
def _average_starts() -> frozenset[str]:
    """The first two letters of every word for an average, so that few names are looked at."""
    known = load_header_words().items()
    return frozenset(w[:2] for w, meant in known if any(one.key == "average" for one in meant))


def _is_something(cell: str) -> bool:
    """Whether a cell holds a result: a figure, a limit, or a word that says it was not measured."""
    try:
        return math.isfinite(float(cell))
    except ValueError:
        pass
    text = cell.strip().casefold()
    return read_figure(text) is not None or (text in NOTHING and text != "")


def _new_unit(cells: Cells, column: int) -> str:
    cell = cells[column] if column < len(cells) else ""
    return unit_of(_bare(cell)) or (read_heading(cell).unit if cell else "")


def _units_by_row(unit: str, changes: Iterable[tuple[int, str]], count: int) -> tuple[str, ...]:
    """The unit of each sample where it changes on the way; empty where it does not."""
    listed = list(changes)
    if not listed:
        return ()
    units = [unit] * count
    for start, new in listed:
        units[start:] = [new] * (count - start)
    return tuple(units)
