"""A CSV of any length in blocks of rows: a broken row is told and never stops the others.

A block is a number of lines, so that a run that was stopped goes on at a byte of the file. The
compiled reader takes a block whose lines are all rows; any other is taken apart line by line.
"""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from loamshift.case.intake.delimited import delimiter_of
from loamshift.case.intake.refused import refuse
from loamshift.case.mend import shown
from loamshift.case.table.block import Block, Place, Unreadable
from loamshift.domain.message import message

if TYPE_CHECKING:
    import pyarrow as pa

HEAD_BYTES: Final = 200_000
"""So much of a file is looked at to find delimiter and headings."""
MOST_LINES: Final = 30
"""A quoted cell over more lines is a quotation mark that nobody closed."""
LONGEST_LINE: Final = 1_000_000
"""A line longer than this is no row of a table [bytes]."""
_SHOWN: Final = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvTable:
    """A CSV: its headings, and where its rows begin and end [bytes]."""

    path: Path
    headings: tuple[str, ...]
    delimiter: str
    begin: Place
    length: int

    def blocks(self, start: Place, *, used: tuple[str, ...], rows: int) -> Iterator[Block]:
        """The blocks from a place on.

        Parameters
        ----------
        used
            Headings of the columns that are read.
        rows
            Lines of a block [count].
        """
        at = start
        with self.path.open("rb") as file:
            file.seek(at.start)
            for lines in _in_blocks(file, rows):
                end = at.start + sum(map(len, lines))
                yield self._block(lines, used, at, end)
                at = Place(number=at.number + 1, start=end, row=at.row + len(lines))

    def _block(self, lines: list[bytes], used: tuple[str, ...], at: Place, end: int) -> Block:
        cells = self._compiled(lines, used)
        rows = list(range(at.row, at.row + len(lines)))
        unreadable: tuple[Unreadable, ...] = ()
        if cells is None:
            rows, taken, unreadable = self._line_by_line(lines, at.row)
            cells = self._columns(taken, used)
        return Block(
            number=at.number,
            start=at.start,
            end=end,
            next_row=at.row + len(lines),
            rows=tuple(rows),
            cells=cells,
            unreadable=unreadable,
        )

    def _compiled(self, lines: list[bytes], used: tuple[str, ...]) -> pa.Table | None:
        """The cells of lines that are all rows; None where one of them is not."""
        import pyarrow as pa
        from pyarrow import csv as arrow_csv

        data = b"".join(lines)
        if b"\x00" in data:
            return None
        try:
            read = arrow_csv.read_csv(
                io.BytesIO(data),
                read_options=arrow_csv.ReadOptions(
                    column_names=list(self.headings), use_threads=False, block_size=len(data) + 1
                ),
                parse_options=arrow_csv.ParseOptions(delimiter=self.delimiter),
                convert_options=arrow_csv.ConvertOptions(
                    column_types={heading: pa.string() for heading in self.headings},
                    include_columns=list(used),
                    null_values=[""],
                    strings_can_be_null=True,
                ),
            )
        except pa.ArrowInvalid:
            return None
        if read.num_rows != len(lines) or self._repeats_headings(data):
            return None
        return read

    def _repeats_headings(self, data: bytes) -> bool:
        return self.headings[0].encode() in data and self.headings[-1].encode() in data

    def _line_by_line(
        self, lines: Sequence[bytes], first_row: int
    ) -> tuple[list[int], list[list[str]], tuple[Unreadable, ...]]:
        rows: list[int] = []
        taken: list[list[str]] = []
        wrong: list[Unreadable] = []
        width = len(self.headings)
        known = set(self.headings)
        for place, cells in _records([_text(line) for line in lines], self.delimiter, width):
            row = first_row + place
            if cells is None:
                said = message("table-row-broken")
                wrong.append(Unreadable(row=row, given=_in_short(lines[place]), said=said))
                continue
            if not any(cell.strip() for cell in cells):
                continue
            while len(cells) > width and not cells[-1].strip():
                cells = cells[:-1]
            same = sum(cell.strip() in known for cell in cells)
            if same * 2 > max(len(cells), 2) - 1 and same > 1:
                said = message("table-row-heading")
                wrong.append(Unreadable(row=row, given=_in_short(lines[place]), said=said))
            elif len(cells) != width:
                said = message("table-row-width", count=len(cells), wanted=width)
                wrong.append(Unreadable(row=row, given=_in_short(lines[place]), said=said))
            else:
                rows.append(row)
                taken.append(cells)
        return rows, taken, tuple(wrong)

    def _columns(self, rows: Sequence[Sequence[str]], used: tuple[str, ...]) -> pa.Table:
        import pyarrow as pa

        places = [self.headings.index(heading) for heading in used]
        columns = [pa.array([row[n] or None for row in rows], pa.string()) for n in places]
        return pa.table(columns, names=list(used))


def open_csv(path: Path) -> CsvTable:
    """A CSV by its first lines.

    Raises
    ------
    Refused
        Where it has no heading or no text, or stands in two bytes a character.
    """
    with path.open("rb") as file:
        head = file.read(HEAD_BYTES)
        length = file.seek(0, io.SEEK_END)
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) or head[:2000].count(0) > 100:
        raise refuse("table-two-bytes", file=path.name)
    start = len(codecs.BOM_UTF8) if head.startswith(codecs.BOM_UTF8) else 0
    row = 1
    text = _text(head[start:])
    if text[:4].casefold() == "sep=":
        start += head[start:].index(b"\n") + 1
        row += 1
        text = _text(head[start:])
    while (line := text.partition("\n"))[1] and not line[0].strip():
        start += head[start:].index(b"\n") + 1
        row += 1
        text = line[2]
    delimiter = delimiter_of(text)
    found = next(_records(text.splitlines(keepends=True), delimiter, 0), None)
    if found is None or found[1] is None or not any(found[1]):
        raise refuse("intake-empty", file=path.name)
    lines = head[start:].split(b"\n", 1)[0]
    return CsvTable(
        path=path,
        headings=tuple(" ".join(cell.split()) for cell in found[1]),
        delimiter=delimiter,
        begin=Place(start=min(start + len(lines) + 1, length), row=row + 1),
        length=length,
    )


def _in_blocks(file: io.BufferedReader, rows: int) -> Iterator[list[bytes]]:
    """Lines of a file, so many at a time; a quoted cell over lines stays in one block."""
    held: list[bytes] = []
    for line in _lines(file):
        held.append(line)
        if len(held) < rows:
            continue
        is_open = sum(one.count(b'"') for one in held) % 2
        if is_open and len(held) < rows + MOST_LINES:
            continue
        yield held
        held = []
    if held:
        yield held


def _lines(file: io.BufferedReader) -> Iterator[bytes]:
    """Lines of a file; one without an end is cut, so that it cannot fill the memory."""
    while line := file.readline(LONGEST_LINE):
        yield line


def _records(
    lines: Sequence[str], delimiter: str, width: int
) -> Iterator[tuple[int, list[str] | None]]:
    """The line that each row begins in, and its cells; None for one that is broken.

    A row over several lines that is not as wide as the heading, where one is known, has a quotation
    mark that is never closed: its first line alone is broken, so that it swallows no other row.
    """
    start = 0
    while start < len(lines):
        reader = csv.reader(lines[start:], delimiter=delimiter, strict=bool(width))
        place = start
        try:
            for cells in reader:
                end = start + reader.line_num
                odd = width and end - place > 1 and len(cells) != width
                if odd or end - place > MOST_LINES or _is_open(lines[place:end]):
                    break
                yield place, cells
                place = end
            else:
                return
        except csv.Error:
            pass
        yield place, None
        start = place + 1


def _is_open(lines: Sequence[str]) -> bool:
    """Whether a row ends before its quotation marks do: in whole rows they come in pairs."""
    return sum(line.count('"') for line in lines) % 2 == 1


def _text(data: bytes) -> str:
    """A line as text: in UTF-8, or else as Windows wrote it in the west of Europe."""
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _in_short(line: bytes) -> str:
    return shown(_text(line[: 4 * _SHOWN]).strip()[:_SHOWN])
