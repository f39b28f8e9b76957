"""A table of samples found in a sheet: columns of cells, however the sheet lays them out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from loamshift.case.intake.headings import Heading


class Layout(StrEnum):
    """How a sheet lays its samples out."""

    WIDE = "wide"
    """A row for each sample."""
    LONG = "long"
    """A row for each sample and analyte."""
    PAIRS = "pairs"
    """A line for each analyte, one sample to a page or to a column."""


class Skipped(StrEnum):
    """Why a row is no sample."""

    AVERAGE = "average"
    HEADING = "heading"
    UNITS = "units"
    TEXT = "text"
    EMPTY = "empty"
    REPEATED = "repeated"
    """A line of a page that gives another figure for what was read already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: what heads it, its cells in the order of the samples, and where each stands.

    ``units`` are those of single cells where a file changes them on the way; empty where the
    heading's unit holds throughout.
    """

    letters: str
    heading: Heading
    cells: tuple[str, ...]
    units: tuple[str, ...] = ()
    methods: tuple[str, ...] = ()
    rows: tuple[int, ...] = ()
    """The row of each cell where it is not that of its sample [count from 1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Samples of one sheet.

    ``rows`` is the row of each sample in the sheet [count from 1]; ``skipped`` the rows that are
    none, with their reason.
    """

    sheet: str
    layout: Layout
    columns: tuple[Column, ...]
    rows: tuple[int, ...]
    skipped: tuple[tuple[int, Skipped], ...] = ()
    typed: bool = False
    headed_in: int = 0
    legend: Mapping[str, str] = field(default_factory=dict)
    """Headings that another sheet explains, with the method that it names."""

    def __len__(self) -> int:
        """How many samples there are."""
        return len(self.rows)
