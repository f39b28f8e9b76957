"""Tables with a row for each analyte: of many samples below one another, or of one on a page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from loamshift.case.intake.figures import read_figure
from loamshift.case.intake.headings import Heading, read_heading
from loamshift.case.intake.keys import HAVE_METHOD
from loamshift.case.intake.lab_units import unit_of
from loamshift.case.intake.layout import keys_of
from loamshift.case.intake.sheet import Sheet, column_letters
from loamshift.case.intake.table import Column, Layout, Skipped, Table

_MOST_ANALYTES: Final = 300
"""A sheet with more rows than this names no analytes downwards."""
_OF_SAMPLE = ("sample", "lab_number", "client", "date_sampled", "date_received", "date_reported",
              "depth", "depth_from", "depth_to", "crop", "previous_crop", "texture")  # fmt: skip


def wide_from_long(table: Table) -> Table:
    """A row for each sample, from a table with a row for each sample and analyte.

    A sample is told apart by everything that describes it: its name, number, days and depth. An
    analyte that comes again for it opens another row, so that a double is seen and not overwritten.
    """
    by_key = {key: c for c in reversed(table.columns) for key in keys_of(c.heading)}
    names, results = by_key["analyte"], by_key["result"]
    unit_cells = by_key["unit"].cells if "unit" in by_key else ()
    method_cells = by_key["method"].cells if "method" in by_key else ()
    describing = [c for c in table.columns if keys_of(c.heading) & set(_OF_SAMPLE)]
    samples: dict[tuple[str, ...], list[int]] = {}
    cells: dict[str, dict[int, int]] = {}
    firsts: list[int] = []
    for number, name in enumerate(names.cells):
        key = tuple(c.cells[number] for c in describing)
        method = method_cells[number] if method_cells else ""
        analyte = f"{name} {method}".strip() if _needs_method(name) and method else name
        column = cells.setdefault(analyte, {})
        known = samples.setdefault(key, [])
        slot = next((one for one in known if one not in column), None)
        if slot is None:
            slot = len(firsts)
            firsts.append(number)
            known.append(slot)
        column[slot] = number
    columns = [
        replace(c, cells=tuple(c.cells[first] for first in firsts), units=()) for c in describing
    ]
    for analyte, column in cells.items():
        columns.append(_analyte(analyte, column, len(firsts), results, unit_cells, table.rows))
    return replace(
        table,
        layout=Layout.LONG,
        columns=tuple(columns),
        rows=tuple(table.rows[first] for first in firsts),
    )


def _needs_method(name: str) -> bool:
    return bool(keys_of(read_heading(name)) & set(HAVE_METHOD))


def _analyte(
    name: str,
    found: dict[int, int],
    count: int,
    results: Column,
    unit_cells: Sequence[str],
    rows: Sequence[int],
) -> Column:
    heading = read_heading(name)
    cells, units, at = [""] * count, [""] * count, [0] * count
    for slot, number in found.items():
        cells[slot], at[slot] = results.cells[number], rows[number]
        units[slot] = unit_of(unit_cells[number]) if unit_cells else ""
    said = {unit for unit in units if unit}
    if len(said) == 1 and not heading.unit:
        heading = replace(heading, unit=said.pop())
        said = set()
    return Column(
        letters=results.letters,
        heading=heading,
        cells=tuple(cells),
        units=tuple(units) if len(said) > 1 else (),
        rows=tuple(at),
    )


def pairs_table(sheets: Sequence[Sheet]) -> Table | None:
    """The samples of lines that name a thing and then its value; None where there are none.

    A page of a report is one sample; where what was read comes again, another begins. Several
    figures in a line are several samples, where a line of names stands above them.
    """
    samples: list[dict[str, tuple[str, str, int]]] = []
    current: dict[str, tuple[str, str, int]] = {}
    headings: dict[str, Heading] = {}
    again: list[tuple[int, Skipped]] = []
    page = ""
    for sheet in sheets:
        if sheet.name.partition(".")[0] != page and any(
            _is_result(one, headings) for one in current
        ):
            samples.append(current)
            current = {}
        page = sheet.name.partition(".")[0]
        for number, cells in enumerate(sheet.rows):
            for label, value, unit in _pairs(cells):
                heading = read_heading(label)
                if not heading.exact and not (heading.meanings and read_figure(value)):
                    continue
                name = heading.text
                headings.setdefault(name, heading)
                if name in current and not _same(current[name][0], value):
                    if not keys_of(heading) & {"sample", "lab_number"}:
                        again.append((number + 1, Skipped.REPEATED))
                        continue
                    samples.append(current)
                    current = {}
                current.setdefault(name, (value, unit, number + 1))
    if current:
        samples.append(current)
    if not any("ph" in keys_of(one) or "om" in keys_of(one) for one in headings.values()):
        return None
    columns = []
    for name, heading in headings.items():
        units = {one[name][1] for one in samples if name in one} - {""}
        unit = heading.unit or (next(iter(units)) if len(units) == 1 else "")
        columns.append(
            Column(
                letters="",
                heading=replace(heading, unit=unit),
                cells=tuple(one[name][0] if name in one else "" for one in samples),
                units=tuple(one[name][1] if name in one else "" for one in samples)
                if len(units) > 1
                else (),
                rows=tuple(one[name][2] if name in one else 0 for one in samples),
            )
        )
    return Table(
        sheet=sheets[0].name,
        layout=Layout.PAIRS,
        columns=tuple(columns),
        rows=tuple(min(v[2] for v in one.values()) for one in samples),
        skipped=tuple(again),
        typed=all(sheet.typed for sheet in sheets),
    )


def _is_result(name: str, headings: Mapping[str, Heading]) -> bool:
    return not keys_of(headings[name]) & set(_OF_SAMPLE)


def _same(one: str, other: str) -> bool:
    return one.replace(",", ".") == other.replace(",", ".")


def _pairs(cells: Sequence[str]) -> Iterable[tuple[str, str, str]]:
    """Label, value and unit in one line; several where they stand beside each other."""
    filled = [part for cell in cells if cell for part in _labelled(cell)]
    told = [cell.partition(":") for cell in filled]
    if filled and all(
        colon and value.strip() and not _is_ratio(head, value) for head, colon, value in told
    ):
        for head, _, value in told:
            yield (head.strip(), *_value_and_unit(value.strip()))
        return
    if len(filled) >= 2:
        label = filled[0].rstrip(": ")
        value, unit = _value_and_unit(filled[1])
        if not unit and len(filled) > 2:
            unit = unit_of(filled[2].strip("()[]"))
        yield label, value, unit
    elif filled and told[0][1] and told[0][2].strip() and not _is_ratio(told[0][0], told[0][2]):
        yield (told[0][0].strip(), *_value_and_unit(told[0][2].strip()))


def _labelled(cell: str) -> Iterable[str]:
    """A cell cut before each label that a colon ends, where several stand in it."""
    words = cell.split()
    if sum(word.endswith(":") for word in words) < 2:
        return (cell,)
    starts = [0]
    for end, word in enumerate(words):
        if not word.endswith(":"):
            continue
        labels = range(max(end - 3, starts[-1]), end + 1)
        known = (n for n in labels if read_heading(" ".join(words[n : end + 1]).rstrip(":")).exact)
        start = next(known, 0)
        if start > starts[-1]:
            starts.append(start)
    ends = [*starts[1:], len(words)]
    return [" ".join(words[a:b]) for a, b in zip(starts, ends, strict=True)]


def _is_ratio(head: str, value: str) -> bool:
    return head[-1:].isdigit() and value.strip()[:1].isdigit()


def _value_and_unit(text: str) -> tuple[str, str]:
    found = read_figure(text)
    if found is None or not found.rest:
        return text, ""
    unit = unit_of(found.rest)
    return (text[: len(text) - len(found.rest)].strip(), unit) if unit else (text, "")


def across_table(sheet: Sheet) -> Table | None:
    """The samples of a sheet that names analytes downwards and samples across; None where none is.

    At least three analytes, and two columns of figures below names that head nothing else.
    """
    if len(sheet.rows) > _MOST_ANALYTES:
        return None
    labels = [
        (number, read_heading(cells[0]))
        for number, cells in enumerate(sheet.rows)
        if cells and cells[0] and read_heading(cells[0]).meanings
    ]
    figures = {
        column: sum(read_figure(sheet.cell(number, column)) is not None for number, _ in labels)
        for column in range(1, max((len(r) for r in sheet.rows), default=0))
    }
    known = {key for _, heading in labels for key in keys_of(heading)}
    rows = sum(any(cells) for cells in sheet.rows)
    if len(labels) < 3 or len(labels) * 2 < rows or not known & {"ph", "om", "p", "k"}:
        return None
    top = labels[0][0] - 1
    while top >= 0 and not any(sheet.rows[top][1:]):
        top -= 1
    names = sheet.rows[top] if top >= 0 else ()
    if keys_of(labels[0][1]) & {"sample", "analyte"}:
        names = sheet.rows[labels[0][0]]
        labels = labels[1:]
    if any("result" in keys_of(read_heading(name)) for name in names):
        return None
    taken = [
        column
        for column, count in figures.items()
        if count * 2 > len(labels)
        and column < len(names)
        and names[column]
        and not read_heading(names[column]).meanings
    ]
    if len(taken) < 2:
        return None
    unit_column = next((c for c, t in enumerate(names) if "unit" in keys_of(read_heading(t))), None)
    columns = [
        Column(
            letters=column_letters(0),
            heading=read_heading("Sample"),
            cells=tuple(names[c] for c in taken),
        )
    ]
    for number, heading in labels:
        unit = unit_of(sheet.cell(number, unit_column)) if unit_column is not None else ""
        columns.append(
            Column(
                letters=column_letters(0),
                heading=replace(heading, unit=heading.unit or unit),
                cells=tuple(sheet.cell(number, c) for c in taken),
                rows=tuple(number + 1 for _ in taken),
            )
        )
    return Table(
        sheet=sheet.name,
        layout=Layout.PAIRS,
        columns=tuple(columns),
        rows=tuple(labels[0][0] + 1 for _ in taken),
        typed=sheet.typed,
    )
