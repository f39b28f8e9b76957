"""A file of somebody else's as sheets of text cells, whatever program wrote it."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from loamshift.case.intake.delimited import decoded, split_rows
from loamshift.case.intake.pdf import pdf_sheets
from loamshift.case.intake.refused import refuse
from loamshift.case.intake.sheet import MOST_CELLS, Sheet
from loamshift.case.intake.workbooks import old_sheets, packed_sheets
from loamshift.case.mend import shown
from loamshift.domain.message import Given, Message, message

__all__ = ["LARGEST_BYTES", "Sheet", "read_sheets"]

LARGEST_BYTES: Final = 64_000_000

_ZIP: Final = b"PK\x03\x04"
_OLE: Final = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_PICTURES: Final = (b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"II*\x00", b"MM\x00*", b"RIFF")
_MARKUP: Final = ("<html", "<!doctype html", "<table", "<?xml", "{\\rtf")


def read_sheets(source: Path | bytes, name: str = "") -> tuple[Sheet, ...]:
    """Every sheet of a CSV, TSV or text file, a workbook (xlsx, xlsm, xls, ods) or a PDF.

    What a file is is seen from its bytes, not from its name. Formulas are read as the values stored
    with them, macros are never run; both are told in ``notes``.

    Parameters
    ----------
    source
        The file, or its bytes.
    name
        What to call it in messages; the file's own name where empty.

    Raises
    ------
    Refused
        Where it cannot be read: missing, too large, encrypted, damaged, a picture, a scanned PDF,
        or packed so that it would unpack without end.
    """
    data, name = _bytes(source, name)
    if not data.strip(b"\x00 \t\r\n\xef\xbb\xbf\xff\xfe"):
        raise refuse("intake-empty", file=name)
    if data.startswith(_ZIP):
        return packed_sheets(data, name)
    if data.startswith(_OLE):
        return old_sheets(data, name)
    if b"%PDF-" in data[:1024]:
        return pdf_sheets(data, name)
    if data.startswith(_PICTURES) or data[4:12] in (b"ftypheic", b"ftypmif1"):
        raise refuse("intake-picture", file=name)
    return (_text_sheet(data, name),)


def _bytes(source: Path | bytes, name: str) -> tuple[bytes, str]:
    if isinstance(source, bytes):
        data, name = source, shown(name)
    else:
        name = shown(name or source.name)
        try:
            with source.open("rb") as handle:
                data = handle.read(LARGEST_BYTES + 1)
        except (OSError, ValueError) as error:
            why = getattr(error, "strerror", None) or str(error)
            raise refuse("intake-unreadable", file=name, why=why) from None
    if len(data) > LARGEST_BYTES:
        raise refuse("intake-too-large", file=name, most=LARGEST_BYTES // 1_000_000)
    return data, name


def _text_sheet(data: bytes, name: str) -> Sheet:
    text, doubtful = decoded(data)
    if "\x00" in text or _control_share(text) > 0.05:
        raise refuse("intake-not-a-table", file=name)
    if text.lstrip()[:200].casefold().startswith(_MARKUP):
        raise refuse("intake-markup", file=name)
    rows, open_quote = split_rows(text)
    if sum(map(len, rows)) > MOST_CELLS:
        raise refuse("intake-too-many-cells", file=name)
    notes: list[Message] = []
    if doubtful:
        notes.append(message("intake-note-latin", file=Given(name)))
    if open_quote:
        notes.append(message("intake-note-quote", line=open_quote))
    return Sheet(name=name, rows=rows, notes=tuple(notes))


def _control_share(text: str) -> float:
    start = text[:4000]
    odd = sum(c < " " and c not in "\t\r\n\f\x1a" for c in start)
    return odd / max(len(start), 1)
