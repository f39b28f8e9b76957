"""Some rows of a long table that stand together, and rows that are none."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final, Protocol

from loamshift.domain.message import Message

if TYPE_CHECKING:
    import pyarrow as pa

FAULT: Final = "fault"
"""Kind of a problem that keeps a row from its answer."""
REMARK: Final = "note"
"""Kind of a problem that the reader is told of beside the answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """What is wrong with a row: where, what stood there, and what works instead, in words.

    ``row`` as the file counts it; ``path`` the key of the case file or the heading, empty for the
    row as a whole; ``kind`` is ``fault`` or ``note``.
    """

    row: int
    key: str
    path: str
    given: str
    problem: str
    mend: str = ""
    kind: str = FAULT


@dataclass(frozen=True, slots=True, kw_only=True)
class Unreadable:
    """A row that could not be taken apart, and why."""

    row: int
    given: str
    said: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldBack:
    """A cell that was left out of its row: a limit that is no figure, or a value in doubt."""

    row: int
    key: str
    path: str
    given: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Rows of a table that stand together: the ``number``-th block of it.

    ``cells`` has a column for each heading that is used, and ``rows`` the number of each row in the
    file. ``start`` and ``end`` are places in the file where it begins and the next one does, and
    ``next_row`` the number of the row there; only the reader knows what a place is.
    """

    number: int
    start: int
    end: int
    next_row: int
    rows: tuple[int, ...]
    cells: pa.Table
    unreadable: tuple[Unreadable, ...] = ()
    held_back: tuple[HeldBack, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in a table to go on: the number of the next block, its place and its first row."""

    number: int = 0
    start: int = 0
    row: int = 0


class LongTable(Protocol):
    """A table that is read block by block, whatever program wrote it."""

    @property
    def path(self) -> Path:
        """The file."""
        ...

    @property
    def headings(self) -> tuple[str, ...]:
        """Headings of all columns, in the order of the file."""
        ...

    @property
    def begin(self) -> Place:
        """Where its first block begins."""
        ...

    @property
    def length(self) -> int:
        """The place behind the last row, to tell how much is left."""
        ...

    def blocks(self, start: Place, *, used: tuple[str, ...], rows: int) -> Iterator[Block]:
        """The blocks from a place on, so many rows each [count], with the columns that are used."""
        ...
