"""Confirmed rows as case files, one for each sample, or as one table."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Any, Final

from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.proposal import SampleRow
from loamshift.case.read import parse_case
from loamshift.case.toml_string import toml_string
from loamshift.case.write import case_toml
from loamshift.domain.spreadsheet_text import spreadsheet_text
from loamshift.errors import CaseError

_ENTRY: Final = re.compile(r"(?P<table>[a-z_.]+)\[(?P<number>\d+)\]\.(?P<key>[a-z_]+)")
_LONGEST_FILE_NAME: Final = 60
PLACE_COLUMNS: Final = ("sheet", "row")


def case_files(rows: Sequence[SampleRow], *, today: date) -> Iterator[tuple[str, str]]:
    """The name and text of a case file for each row; every text is read back before it is given.

    Parameters
    ----------
    today
        The day that the cases are for.

    Raises
    ------
    CaseError
        Where a row makes no case, which its findings should have held back.
    """
    taken: set[str] = set()
    for row in rows:
        name = _file_name(row.sample, taken)
        text = case_toml({"today": today, **case_tree(row.values)}, examples=False)
        try:
            parse_case(text, source=name)
        except CaseError as error:
            raise CaseError(error.faults, source=f"{row.place.sheet} {row.place.row}") from None
        yield name, text


def table_text(rows: Sequence[SampleRow]) -> str:
    """All rows as one CSV that opens safely in a spreadsheet.

    It has a column for each key, and says where each row came from.
    """
    paths: dict[str, None] = {}
    for row in rows:
        paths |= dict.fromkeys(row.values)
    held = io.StringIO()
    writer = csv.DictWriter(held, [*paths, *PLACE_COLUMNS], lineterminator="\n")
    writer.writeheader()
    for row in rows:
        place = {"sheet": row.place.sheet, "row": row.place.row}
        cells = {**row.values, **place}
        writer.writerow(
            {
                key: spreadsheet_text(cell) if isinstance(cell, str) else cell
                for key, cell in cells.items()
            }
        )
    return held.getvalue()


def case_tree(values: Mapping[str, object]) -> dict[str, Any]:
    """Values by their keys, nested as in a case file."""
    tree: dict[str, Any] = {}
    for path, value in values.items():
        match = _ENTRY.fullmatch(path)
        *tables, key = (match["table"] if match else path).split(".")
        inner = tree
        for table in tables:
            inner = inner.setdefault(table, {})
        if match is None:
            inner[key] = value
            continue
        entries = inner.setdefault(key, [])
        while len(entries) < int(match["number"]):
            entries.append({})
        entries[int(match["number"]) - 1][match["key"]] = value
    return tree


def _file_name(sample: str, taken: set[str]) -> str:
    stem = plain_words(sample).replace(" ", "-")[:_LONGEST_FILE_NAME] or "sample"
    name, number = stem, 1
    while name in taken:
        number += 1
        name = f"{stem}-{number}"
    taken.add(name)
    return f"{name}.toml"


def with_readings(text: str, readings: Sequence[Mapping[str, object]], *, today: date) -> str:
    """A case file with readings behind what stands in it, comments and all.

    Raises
    ------
    CaseError
        Where it could not be read with them, such as a reading later than its day.
    """
    lines = [text.rstrip("\n"), ""]
    for reading in readings:
        lines += ["[[reading]]", *(f"{key} = {_toml(value)}" for key, value in reading.items()), ""]
    after = "\n".join(lines)
    parse_case(after, source="case file", today=today)
    return after


def _toml(value: object) -> str:
    if isinstance(value, date):
        return value.isoformat()
    return toml_string(value) if isinstance(value, str) else f"{value}"
