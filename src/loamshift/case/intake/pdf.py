"""PDF reports with a text layer: their tables, and lines of a label, a value and a unit."""

from __future__ import annotations

import io
import logging
import re
import zlib
from collections.abc import Iterator
from itertools import pairwise
from typing import Any, Final

from loamshift.case.intake.refused import refuse
from loamshift.case.intake.sheet import Cells, Sheet
from loamshift.domain.message import Message, message

MOST_PAGES: Final = 300
MOST_UNPACKED: Final = 100_000_000
_CHUNK: Final = 1_000_000
_STREAM: Final = re.compile(rb"stream\r?\n(?=\x78)")
_PACKED_TWICE: Final = re.compile(rb"/Fl(?:ateDecode)?\s*/Fl(?:ateDecode)?\b")
_LEAST_LETTERS: Final = 20
"""A page of a scan often carries a page number or a stamp as text, and no more."""
_GAP: Final = 0.8
"""Words further apart than this many times the height of their letters are in different cells."""
_PAIR: Final = re.compile(
    r"(?P<label>\D(?:(?!:\s).)*?[^\s:=…._-])[\s:=…._]+"
    r"(?P<value>[<>≤≥]?\s?\d{1,3}(?:[ \u00a0]\d{3})*(?:[.,]\d+)?|\d+(?:[.,]\d+)?)"
    r"(?:\s+(?P<unit>[^\d\s][^:]{0,24}))?"
)


def pdf_sheets(data: bytes, name: str) -> tuple[Sheet, ...]:
    """Tables of a PDF and the lines beside them, a sheet each.

    Raises
    ------
    Refused
        Where it is encrypted, damaged or too long, or holds no text: then somebody must type it.
    """
    try:
        import pdfplumber
        from pdfminer.pdfdocument import PDFPasswordIncorrect
    except ImportError:
        raise refuse("intake-needs-lab", file=name) from None
    if _unpacks_without_end(data):
        raise refuse("intake-bomb", file=name, mb=MOST_UNPACKED // 1_000_000)
    logging.getLogger("pdfminer").setLevel(logging.ERROR)
    try:
        with pdfplumber.open(io.BytesIO(data)) as document:
            pages = document.pages
            if len(pages) > MOST_PAGES:
                raise refuse("intake-pdf-long", file=name, pages=len(pages), most=MOST_PAGES)
            read = [tuple(_page(page, number)) for number, page in enumerate(pages, start=1)]
    except Exception as error:
        if type(error).__module__.startswith("loamshift"):
            raise
        causes = (error, *error.args, error.__cause__)
        locked = any(isinstance(one, PDFPasswordIncorrect) for one in causes)
        raise refuse("intake-encrypted" if locked else "intake-damaged", file=name) from None
    without = [number for number, sheets in enumerate(read, start=1) if not sheets]
    sheets = [sheet for page in read for sheet in page]
    if not sheets:
        raise refuse("intake-pdf-scanned", file=name)
    notes: tuple[Message, ...] = ()
    if without:
        notes = (message("intake-note-pages", count=len(without), page=without[0]),)
    first, *others = sheets
    noted = Sheet(name=first.name, rows=first.rows, notes=(*first.notes, *notes))
    return (noted, *others)


def _unpacks_without_end(data: bytes) -> bool:
    """Whether the streams of a PDF unpack to more than a report holds, or are packed twice."""
    if _PACKED_TWICE.search(data):
        return True
    left = MOST_UNPACKED
    for stream in _STREAM.finditer(data):
        unpack = zlib.decompressobj()
        packed = data[stream.end() : data.find(b"endstream", stream.end())]
        while packed and left > 0:
            try:
                left -= len(unpack.decompress(packed, _CHUNK))
            except zlib.error:
                break
            packed = unpack.unconsumed_tail
    return left <= 0


def _page(page: Any, number: int) -> Iterator[Sheet]:
    """The sheets of one page; none where it has no text to speak of."""
    if sum(not char["text"].isspace() for char in page.chars) < _LEAST_LETTERS:
        return
    left = page
    for count, table in enumerate(page.find_tables(), start=1):
        rows = tuple(tuple(_cell(cell) for cell in row) for row in table.extract())
        if len(rows) < 2 or max(map(len, rows)) < 2:
            continue
        yield Sheet(name=f"{number}.{count}", rows=rows)
        box = table.bbox
        left = left.filter(
            lambda one, box=box: (
                not (
                    box[0] <= (one["x0"] + one["x1"]) / 2 <= box[2]
                    and box[1] <= (one["top"] + one["bottom"]) / 2 <= box[3]
                )
            )
        )
    rows = tuple(_line(words) for words in _lines(left.extract_words()))
    if rows:
        yield Sheet(name=f"{number}", rows=rows)


def _cell(text: str | None) -> str:
    return " ".join((text or "").split())


def _lines(words: list[dict[str, Any]]) -> Iterator[list[dict[str, Any]]]:
    """Words of one line each, from the left."""
    line: list[dict[str, Any]] = []
    for word in sorted(words, key=lambda one: (one["top"], one["x0"])):
        if line and word["top"] - line[0]["top"] > 0.6 * (line[0]["bottom"] - line[0]["top"]):
            yield sorted(line, key=lambda one: one["x0"])
            line = []
        line.append(word)
    if line:
        yield sorted(line, key=lambda one: one["x0"])


def _line(words: list[dict[str, Any]]) -> Cells:
    """The cells of a line: parted by wide gaps, else as label, value and unit."""
    height = max(word["bottom"] - word["top"] for word in words)
    cells = [words[0]["text"]]
    for before, word in pairwise(words):
        if word["x0"] - before["x1"] > _GAP * height:
            cells.append(word["text"])
        else:
            cells[-1] += f" {word['text']}"
    if len(cells) > 1:
        return tuple(cells)
    pair = _PAIR.fullmatch(cells[0])
    if pair is None or len(pair["label"].split()) > 8:
        return (cells[0],)
    return (pair["label"].strip(), pair["value"].strip(), (pair["unit"] or "").strip())
