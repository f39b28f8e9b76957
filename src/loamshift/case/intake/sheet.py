"""A sheet of text cells, each at its place in the file."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final, TypeAlias

from loamshift.domain.message import Message

MOST_CELLS: Final = 20_000_000
"""What 10^5 rows of 200 columns need; a sheet that claims more is refused unread."""

Cells: TypeAlias = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet, table or page: its cells as text, each at its own place.

    ``rows[0][0]`` is the cell of row 1, column 1: rows that are empty stay, so that a row number is
    that of the file. Rows may be of different length. Numbers are written with a point and without
    thousands where the file holds them as numbers, days as year-month-day.
    """

    name: str
    rows: tuple[Cells, ...]
    merged: tuple[tuple[int, int, int, int], ...] = ()
    """Merged cells: first row, first column, last row, last column, counted from 0."""
    typed: bool = False
    """Whether numbers and days come from a workbook, so that no comma or order is in doubt."""
    notes: tuple[Message, ...] = field(default=())
    """What was noticed while reading: formulas, macros, cells cut off."""

    def cell(self, row: int, column: int) -> str:
        """A cell by its place from 0; empty beyond the end."""
        cells = self.rows[row] if 0 <= row < len(self.rows) else ()
        return cells[column] if 0 <= column < len(cells) else ""


def column_letters(column: int) -> str:
    """How a workbook names a column.

    >>> column_letters(0), column_letters(27)
    ('A', 'AB')

    Parameters
    ----------
    column
        Counted from 0 [count].
    """
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
