"""One row of a long table as the case it stands for."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any, Final

from loamshift.case.intake.entered import case_tree
from loamshift.case.questions import questions_by_path
from loamshift.case.read import case_from_tree
from loamshift.case.table.block import Block
from loamshift.case.table.open_table import Columns, is_planned
from loamshift.domain.case import Case

_ENTRY: Final = re.compile(r"([a-z_.]+)\[(\d+)\]\.([a-z_]+)")
_LIST_MARK: Final = re.compile(r"\s*[;|]\s*")


def case_of(key: str, values: Mapping[str, object], *, today: date) -> Case:
    """The case of one row.

    Parameters
    ----------
    key
        What it is called where it has no name of its own.
    values
        Values by keys of the case file.
    today
        The day where the row names none.

    Raises
    ------
    CaseError
        With everything that is wrong with it.
    """
    tree = case_tree({"case": 1, "name": key, **_closed_up(values)})
    return case_from_tree(tree, source=key, today=today)


def block_rows(block: Block, columns: Columns) -> Iterator[tuple[int, str, dict[str, object]]]:
    """Number, key and values of each row of a block, by keys of the case file."""
    cells = {
        heading: block.cells.column(heading).to_pylist() for heading in block.cells.column_names
    }
    lists = {path for path in columns.paths.values() if not is_planned(path) and _is_list(path)}
    held = [(path, path in lists, cells[heading]) for heading, path in columns.paths.items()]
    for place, row in enumerate(block.rows):
        values: dict[str, object] = {}
        for path, many, column in held:
            value = _value(column[place])
            if value is not None:
                values[path] = _parts(value) if many else value
        key = cell_text(cells[columns.key][place]) if columns.key else None
        yield row, key or str(row), values


def _value(cell: Any) -> object:
    """A cell as the reader of case files takes it; None where nothing stands in it."""
    if isinstance(cell, str):
        return cell.strip() or None
    if isinstance(cell, float):
        return None if math.isnan(cell) else cell
    if isinstance(cell, Decimal):
        return float(cell)
    if isinstance(cell, datetime):
        return cell.date()
    if isinstance(cell, bytes):
        return cell.decode("utf-8", "replace")
    return cell


def cell_text(cell: Any) -> str | None:
    """A cell as text; None where nothing stands in it."""
    value = _value(cell)
    if isinstance(value, float) and value == int(value):
        value = int(value)
    return None if value is None else str(value)


def _parts(value: object) -> object:
    """A cell of a key that takes several values: one, or those between semicolons."""
    if not isinstance(value, str):
        return value
    parts = [part for part in _LIST_MARK.split(value) if part]
    return parts if len(parts) > 1 else value


def _is_list(path: str) -> bool:
    match = _ENTRY.fullmatch(path)
    plain = path if match is None else f"{match[1]}.{match[3]}"
    return questions_by_path()[plain].reads.is_list


def _closed_up(values: Mapping[str, object]) -> dict[str, object]:
    """The same with entries of a list counted anew: an empty one between two is none."""
    numbers: dict[str, list[int]] = {}
    for path in values:
        match = _ENTRY.fullmatch(path)
        if match is not None and int(match[2]) not in numbers.setdefault(match[1], []):
            numbers[match[1]].append(int(match[2]))
    if not numbers:
        return dict(values)
    places = {
        (table, old): new
        for table, found in numbers.items()
        for new, old in enumerate(sorted(found), start=1)
    }
    closed: dict[str, object] = {}
    for path, value in values.items():
        match = _ENTRY.fullmatch(path)
        if match is None:
            closed[path] = value
        else:
            closed[f"{match[1]}[{places[match[1], int(match[2])]}].{match[3]}"] = value
    return closed
