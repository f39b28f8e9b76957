"""Text files of rows: which encoding, which delimiter, and the cells."""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections import Counter
from collections.abc import Iterator
from typing import Any, Final, Literal

from loamshift.case.intake.sheet import Cells

DELIMITERS: Final = (";", "\t", ",", "|")
_TRIED: Final = 200
"""Lines looked at to find the delimiter."""
_SEP_LINE: Final = re.compile(r"sep=(.)\r?\n", re.IGNORECASE)
_BOMS: Final = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


def decoded(data: bytes) -> tuple[str, bool]:
    """The text, and whether its encoding is only supposed (Windows or Latin-1).

    >>> decoded("höhe;6,8".encode("cp1252"))
    ('höhe;6,8', True)
    """
    for bom, encoding in _BOMS:
        if data.startswith(bom):
            return data.decode(encoding, errors="replace"), False
    zeros = data[:2000].count(0)
    if zeros * 4 > len(data[:2000]):
        encoding = "utf-16-le" if data[1:2000:2].count(0) * 2 > zeros else "utf-16-be"
        return data.decode(encoding, errors="replace"), False
    try:
        return data.decode("utf-8"), False
    except UnicodeDecodeError:
        pass
    try:
        return data.decode("cp1252"), True
    except UnicodeDecodeError:
        return data.decode("latin-1"), True


def split_rows(text: str) -> tuple[tuple[Cells, ...], int]:
    """Cells of every line, and the line of a quotation mark that is never closed, or 0.

    A quoted cell that runs to the end of the file would swallow every row after it: then
    quotation marks are taken for letters.

    >>> split_rows('id;pH\\nA;6,8\\n')[0]
    (('id', 'pH'), ('A', '6,8'))
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n").replace("\f", "\n").rstrip("\x1a")
    told = _SEP_LINE.match(text)
    delimiter = told[1] if told else delimiter_of(text)
    if told:
        text = text[told.end() :]
        text = "\n" + text  # line numbers stay those of the file
    open_line = _open_quote(text, delimiter) if '"' in text else 0
    quoted = not open_line
    rows = tuple(_rows(text, delimiter, quoted=quoted))
    return rows, open_line


def _reader(text: str, delimiter: str, *, quoted: bool) -> Any:
    csv.field_size_limit(max(csv.field_size_limit(), len(text) + 1))
    stream = io.StringIO(text, newline="\n")
    quoting: Literal[0, 3] = csv.QUOTE_MINIMAL if quoted else csv.QUOTE_NONE
    return csv.reader(stream, delimiter=delimiter, quoting=quoting)


def _rows(text: str, delimiter: str, *, quoted: bool) -> Iterator[Cells]:
    """Rows, with empty ones in place of lines that a quoted cell runs over."""
    reader = _reader(text, delimiter, quoted=quoted)
    line = 0
    for cells in reader:
        plain = tuple(" ".join(cell.split()) for cell in cells)
        yield plain
        line += 1
        while line < reader.line_num:
            yield ()
            line += 1


def _open_quote(text: str, delimiter: str) -> int:
    """The line where a quoted cell begins that holds a suspicious number of lines, or 0."""
    reader = _reader(text, delimiter, quoted=True)
    line = 0
    for _ in reader:
        if reader.line_num - line > 30:
            return line + 1
        line = reader.line_num
    return 0


def delimiter_of(text: str) -> str:
    """The delimiter that cuts most lines into the same number of cells, more than one."""
    lines = [line for line in text[:200_000].split("\n")[:_TRIED] if line.strip()]
    best, score = ",", 0.0
    for delimiter in DELIMITERS:
        counts = Counter(len(cells) for cells in csv.reader(lines, delimiter=delimiter))
        counts.pop(1, None)
        if not counts:
            continue
        width, often = max(counts.items(), key=lambda item: (item[1], item[0]))
        found = often * (1.0 + min(width, 50) / 200.0)
        if delimiter == "," and _decimal_commas(lines):
            found *= 0.3
        if found > score * 1.001:
            best, score = delimiter, found
    return best


def _decimal_commas(lines: list[str]) -> bool:
    """Whether commas stand between digits beside another delimiter, as in ``A;6,8``."""
    whole = "\n".join(lines)
    commas = whole.count(",")
    inside = len(re.findall(r"(?<=\d),(?=\d{1,3}(?:[;\t|]|$))", whole, re.MULTILINE))
    return commas > 0 and inside * 2 > commas and any(d in whole for d in ";\t|")
