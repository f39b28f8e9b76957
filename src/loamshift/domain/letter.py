"""A letter before it is printed: plain blocks of text and tables, in reading order.

Texts carry one kind of emphasis, ``**bold**``, and nothing else; every renderer of
``loamshift.report`` understands the same objects.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Align(StrEnum):
    """Which edge of its column a cell leans on."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text."""

    text: str


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table: its title, and the edge its cells lean on."""

    title: str
    align: Align = Align.LEFT


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of texts under column titles; every row has one cell per column."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str | None = None

    def __post_init__(self) -> None:
        """Refuse a row that does not fit the columns."""
        for row in self.rows:
            if len(row) != len(self.columns):
                raise ValueError(f"row {row} has {len(row)} cells, not {len(self.columns)}")


@dataclass(frozen=True, slots=True)
class Items:
    """A list; ``numbered`` where the order matters."""

    items: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Note:
    """A remark set apart from the running text, under its label (``Care``, ``Check``)."""

    text: str
    label: str = "Note"


Block = Paragraph | Table | Items | Note


@dataclass(frozen=True, slots=True)
class Section:
    """Some blocks under a heading, or under none."""

    heading: str | None
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Letter:
    """A whole letter: title, the line below it, and sections in reading order."""

    title: str
    subtitle: str
    sections: tuple[Section, ...]
