"""A long table by its first bytes, and which of its columns are keys of the case file."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loamshift.case.faults import unknown_key_fault
from loamshift.case.intake.refused import refuse
from loamshift.case.mend import Refused
from loamshift.case.questions import case_questions, questions_by_path
from loamshift.case.table.block import LongTable
from loamshift.case.table.csv_blocks import open_csv
from loamshift.case.table.excel_blocks import OLE, open_excel
from loamshift.case.table.parquet_blocks import open_parquet
from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import fault
from loamshift.errors import Fault

KEY_HEADINGS: Final = ("key", "id", "name")
"""Columns that tell a row from the others, the first that is there; else the row's number does."""
_ENTRY: Final = re.compile(r"(?P<table>[a-z_.]+)\[(?P<number>[1-9]\d{0,2})\]\.(?P<key>[a-z_]+)")
_PLANNED: Final = re.compile(r"planned\[[1-9]\d{0,2}\]\.(material|rate|amount|date|incorporated)")
_PATH: Final = re.compile(r"[A-Za-z_]+(\[\d+\])?\.[A-Za-z_. ]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """What the columns of a table are.

    ``paths`` the key of the case file by heading; ``key`` the heading that tells a row from the
    others, empty where its number does; ``carried`` headings that go into the result as they are;
    ``unused`` those of no use.
    """

    paths: Mapping[str, str]
    key: str
    carried: tuple[str, ...]
    unused: tuple[str, ...]

    @property
    def has_plans(self) -> bool:
        """Whether rows may bring a plan of their own."""
        return any(map(is_planned, self.paths.values()))

    @property
    def used(self) -> tuple[str, ...]:
        """Headings of the columns to read, each once."""
        key = (self.key,) if self.key else ()
        return tuple(dict.fromkeys((*key, *self.carried, *self.paths)))


def open_table(path: Path) -> LongTable:
    """A CSV, a Parquet file or a workbook, told apart by its first bytes.

    Raises
    ------
    Refused
        Where it cannot be read.
    """
    try:
        with path.open("rb") as file:
            head = file.read(4096)
        if not head.strip(b"\x00 \t\r\n\xef\xbb\xbf"):
            raise refuse("intake-empty", file=path.name)
        if head.startswith(b"PAR1"):
            return open_parquet(path)
        if head.startswith((b"PK\x03\x04", OLE)):
            return open_excel(path)
        if b"%PDF-" in head[:1024]:
            raise refuse("table-pdf", file=path.name)
        return open_csv(path)
    except OSError as error:
        raise refuse(
            "intake-unreadable", file=str(path), why=error.strerror or str(error)
        ) from None


def columns_of(
    headings: Sequence[str],
    *,
    file: str,
    named: Mapping[str, str],
    key: str = "",
    carried: Sequence[str] = (),
) -> Columns:
    """Which columns are keys of the case file, by their headings or by what they were called.

    Parameters
    ----------
    file
        What to call the file in messages.
    named
        Keys of the case file by heading, where the heading is not the key itself.
    key
        Heading of the column that tells a row from the others; empty to look for one.
    carried
        Headings that go into the result as they are.

    Raises
    ------
    Refused
        With every heading that is nearly a key of the case file, stands twice, or is missing.
    """
    faults: list[Fault] = []
    for heading, count in Counter(headings).items():
        if count > 1 and (heading or named):
            faults.append(_fault(heading or "?", "table-heading-twice", count=count))
    for wanted in (*named, *carried, *((key,) if key else ())):
        if wanted not in headings:
            faults.append(_fault(wanted, "table-heading-missing"))
    paths: dict[str, str] = {}
    for heading in headings:
        path = named.get(heading, heading)
        if is_key(path) or is_planned(path):
            paths[heading] = path
        elif heading in named or _PATH.fullmatch(heading):
            faults.append(unknown_key_fault(tuple(path.split(".")), None))
    doubled = [path for path, count in Counter(paths.values()).items() if count > 1]
    faults += [_fault(path, "table-key-twice") for path in doubled]
    if faults:
        raise Refused(message("table-headings-wrong", file=Given(file)), faults)
    found = key or next((name for name in KEY_HEADINGS if name in headings), "")
    unused = [one for one in headings if one not in paths and one not in carried and one != found]
    return Columns(
        paths=paths, key=found, carried=tuple(carried), unused=tuple(filter(None, unused))
    )


def is_planned(path: str) -> bool:
    """Whether a heading names a part of a plan the table brings: ``planned[1].rate``."""
    return _PLANNED.fullmatch(path) is not None


def is_key(path: str) -> bool:
    """Whether a path is a key of the case file: ``soil.ph``, or ``applied[2].rate`` in a list."""
    match = _ENTRY.fullmatch(path)
    if match is None:
        return path in questions_by_path() and path.rpartition(".")[0] not in _lists()
    return match["table"] in _lists() and f"{match['table']}.{match['key']}" in questions_by_path()


def _lists() -> frozenset[str]:
    return frozenset(table.name for table in case_questions() if table.is_list)


def _fault(place: str, key: str, **values: int) -> Fault:
    return fault(place, message(key, **values))
