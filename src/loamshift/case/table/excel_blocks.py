"""The first sheet of a workbook in blocks of rows; a workbook is unpacked whole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from loamshift.case.intake.refused import refuse
from loamshift.case.intake.sheet import Sheet
from loamshift.case.intake.workbooks import old_sheets, packed_sheets
from loamshift.case.table.block import Block, Place

OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
"""How a workbook of Excel before 2007 begins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExcelTable:
    """A sheet: its headings and its rows; a place in it is a row of the sheet, from 0."""

    path: Path
    headings: tuple[str, ...]
    sheet: Sheet
    begin: Place
    length: int

    def blocks(self, start: Place, *, used: tuple[str, ...], rows: int) -> Iterator[Block]:
        """The blocks from a place on.

        Parameters
        ----------
        used
            Headings of the columns that are read.
        rows
            Rows of a block, at most [count].
        """
        import pyarrow as pa

        places = [self.headings.index(heading) for heading in used]
        number = start.number
        for begin in range(start.start, self.length, rows):
            end = min(begin + rows, self.length)
            taken = [n for n in range(begin, end) if any(self.sheet.rows[n])]
            columns = [
                pa.array([self.sheet.cell(n, column) or None for n in taken], pa.string())
                for column in places
            ]
            yield Block(
                number=number,
                start=begin,
                end=end,
                next_row=end + 1,
                rows=tuple(n + 1 for n in taken),
                cells=pa.table(columns, names=list(used)),
            )
            number += 1


def open_excel(path: Path) -> ExcelTable:
    """The first sheet of a workbook that has more than a heading.

    Raises
    ------
    Refused
        Where the file is damaged, encrypted or no workbook, or holds no rows.
    """
    data = path.read_bytes()
    packed = not data.startswith(OLE)
    sheets = packed_sheets(data, path.name) if packed else old_sheets(data, path.name)
    for sheet in sheets:
        head = next((n for n, row in enumerate(sheet.rows) if any(row)), None)
        if head is not None and len(sheet.rows) > head + 1:
            begin = Place(start=head + 1, row=head + 2)
            headings = _trimmed(sheet.rows[head])
            return ExcelTable(
                path=path, headings=headings, sheet=sheet, begin=begin, length=len(sheet.rows)
            )
    raise refuse("intake-empty", file=path.name)


def _trimmed(cells: Sequence[str]) -> tuple[str, ...]:
    held = list(cells)
    while held and not held[-1]:
        held.pop()
    return tuple(held)
