"""Reading the shipped tables: rows of a CSV in ``tables/data``, and typed cells."""

from __future__ import annotations

import csv
import hashlib
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import cast

from loamshift.domain.evidence import Evidence
from loamshift.errors import TableError

Row = dict[str, str]


def data_folder() -> Path:
    """The folder of shipped tables."""
    return cast(Path, files("loamshift.tables") / "data")


def read_rows(name: str) -> list[Row]:
    """All rows of the table ``name`` (file name without ``.csv``) as text by column.

    Raises
    ------
    TableError
        Where the file is missing or a row has the wrong number of cells.
    """
    path = data_folder() / f"{name}.csv"
    try:
        with path.open(encoding="utf-8", newline="") as handle:
            rows = list(csv.DictReader(handle))
    except OSError as error:
        raise TableError(f"table {name} cannot be read: {error}") from error
    for number, row in enumerate(rows, start=2):
        if None in row or any(value is None for value in row.values()):
            raise TableError(f"table {name}, line {number}: wrong number of cells")
    return rows


def number(row: Row, column: str) -> float:
    """A required number [unit of the column]."""
    try:
        return float(row[column])
    except (KeyError, ValueError) as error:
        raise TableError(f"column {column} of {row} is not a number") from error


def number_or_none(row: Row, column: str) -> float | None:
    """A number, or None for an empty cell [unit of the column]."""
    return number(row, column) if row[column] != "" else None


def truth(row: Row, column: str) -> bool:
    """True for ``yes``, False for ``no``; anything else breaks the table."""
    if row[column] not in ("yes", "no"):
        raise TableError(f"column {column} of {row} must be yes or no")
    return row[column] == "yes"


def words(row: Row, column: str) -> tuple[str, ...]:
    """A list kept in one cell, parts separated by ``|``."""
    return tuple(part.strip() for part in row[column].split("|") if part.strip())


def evidence(row: Row) -> Evidence:
    """The evidence mark of a row."""
    try:
        return Evidence(row["evidence"])
    except (KeyError, ValueError) as error:
        raise TableError(f"row without a known evidence mark: {row}") from error


@cache
def tables_fingerprint() -> str:
    """Twelve hex digits that change with any shipped table."""
    digest = hashlib.sha256()
    for path in sorted(data_folder().iterdir()):
        if path.suffix in (".csv", ".toml"):
            digest.update(path.name.encode())
            digest.update(path.read_bytes())
    return digest.hexdigest()[:12]
