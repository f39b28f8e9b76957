"""A file that says which key of the case file each column is."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from loamshift.case.intake.answers import LARGEST_MAP, read_map
from loamshift.case.intake.refused import refuse

_COLUMNS: Final = "columns"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadingMap:
    """Keys of the case file by heading, or answers to what intake asks of the file."""

    columns: dict[str, str] = field(default_factory=dict)
    answers: dict[str, str] = field(default_factory=dict)


def read_heading_map(path: Path) -> HeadingMap:
    """A mapping file: a table ``[columns]``, or the answers that ``loamshift intake`` keeps.

    Raises
    ------
    Refused
        Where it cannot be read or is neither.
    """
    try:
        data = path.read_bytes()[:LARGEST_MAP]
        tree = tomllib.loads(data.decode("utf-8-sig"))
    except OSError as error:
        why = error.strerror or str(error)
        raise refuse("intake-unreadable", file=str(path), why=why) from None
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
        raise refuse("table-map-unread", file=str(path), why=str(error)) from None
    if _COLUMNS not in tree:
        return HeadingMap(answers=read_map(path))
    columns = tree[_COLUMNS]
    if not isinstance(columns, dict) or not all(isinstance(one, str) for one in columns.values()):
        raise refuse("table-map-unread", file=str(path), why=_COLUMNS)
    return HeadingMap(columns={str(heading): key for heading, key in columns.items()})
