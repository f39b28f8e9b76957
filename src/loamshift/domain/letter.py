"""A letter before it is printed: plain blocks of text and tables, in reading order.

Texts carry one kind of emphasis, ``**bold**``, and nothing else; every renderer of
``loamshift.report`` understands the same objects.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
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


class FigureKind(StrEnum):
    """What a figure shows; every kind has one way of drawing it for page, print and file."""

    DECIDES = "decides"
    """The course up to the next test, and what each reading of it leads to."""
    COURSE = "course"
    """The pH over time: bands, plan, bed left alone, range wanted."""
    YEAR = "year"
    """The year strip: soil temperature, parts and tests."""
    LEDGER = "ledger"
    """What pushes the pH each year, acid to the right and base to the left of one line."""
    CLAIMS = "claims"
    """Acid brought by a material against acid needed, on one scale."""
    DOSE = "dose"
    """The dose worked out beside what printed tables say."""
    OPTIONS = "options"
    """Ways to bring the same acid or lime, by cost and speed."""
    HISTORY = "history"
    """A bed's life: tests, what was put on, forecasts of their time and of today."""
    CALIBRATION = "calibration"
    """How many readings the stated ranges of forecasts held, beside how many they should have."""
    LAYERS = "layers"
    """The pH of each layer of a bed, month by month, with a material and without."""
    TRIAL = "trial"
    """Differences from the control day by day, with intervals, beside the forecast."""
    TRIAL_SIZE = "trial-size"
    """The smallest difference that so many pots of each treatment can show."""
    FIELD_RATES = "field-rates"
    """Zones of a field by what goes on them."""
    FIELD_PH = "field-ph"
    """A field by its pH, with the samples."""


@dataclass(frozen=True, slots=True)
class DataSet:
    """Rows of plain numbers, ISO dates and texts that a figure is drawn from.

    Numbers are in the units the column names say, as the reader sees them; None is a gap.
    """

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str | float | None, ...], ...]

    def __post_init__(self) -> None:
        """Refuse a row that does not fit the columns."""
        for row in self.rows:
            if len(row) != len(self.columns):
                raise ValueError(f"row {row} has {len(row)} values, not {len(self.columns)}")


@dataclass(frozen=True, slots=True)
class Figure:
    """A chart before it is drawn: what it shows in one sentence, its figures, its table.

    ``sentence`` stands in place of the picture where none can be shown; ``table`` holds the
    same figures in the reader's words; ``labels`` the words that stand in the drawing itself.
    """

    kind: FigureKind
    title: str
    sentence: str
    data: tuple[DataSet, ...]
    table: Table
    labels: tuple[tuple[str, str], ...] = ()


Block = Paragraph | Table | Items | Note | Figure


class Matter(StrEnum):
    """What a section is for; it decides where the section stands on a page."""

    OPENING = "opening"
    """The verdict, its first paragraph one sentence to be read from across the room."""
    BODY = "body"
    ASIDE = "aside"
    """What explains the letter without being needed to act on it."""
    BESIDE = "beside"
    """One of two sections that stand side by side where there is room."""
    CARE = "care"
    """What can hurt somebody or something."""
    SOURCES = "sources"
    COLOPHON = "colophon"
    """What made the letter."""


class Sheet(StrEnum):
    """Which sheets of a letter a section belongs to."""

    FRONT = "front"
    """The first side of paper: the answer at a glance."""
    WORKING = "working"
    """What stands behind it, folded on a screen and on sheets of its own in print."""


@dataclass(frozen=True, slots=True)
class Section:
    """Some blocks under a heading, or under none.

    ``topic`` is a code for what the section is about, such as ``need``; empty in a letter of an
    earlier version.
    """

    heading: str | None
    blocks: tuple[Block, ...]
    matter: Matter = Matter.BODY
    sheet: Sheet = Sheet.WORKING
    topic: str = ""

    @property
    def is_behind(self) -> bool:
        """True where it stands behind a front sheet, whose headings may be like its own."""
        return bool(self.topic) and self.sheet is Sheet.WORKING


@dataclass(frozen=True, slots=True)
class Letter:
    """A whole letter: title, the line below it, sections in reading order, the day it is for.

    ``letterhead`` holds the lines above it that say whose letter it is; empty where nobody's.
    """

    title: str
    subtitle: str
    sections: tuple[Section, ...]
    day: date | None = None
    letterhead: tuple[str, ...] = ()

    @property
    def front(self) -> tuple[Section, ...]:
        """The sections of the front sheet; none in a letter of an earlier version."""
        return tuple(part for part in self.sections if part.sheet is Sheet.FRONT)

    @property
    def working(self) -> tuple[Section, ...]:
        """The sections behind it."""
        return tuple(part for part in self.sections if part.sheet is Sheet.WORKING)
