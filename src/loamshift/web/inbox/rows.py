"""Questions from a file: each row of a table is one, in the words of its cells; or an e-mail."""

from __future__ import annotations

import csv
import io
from typing import Final

from loamshift.case.intake.sheets import read_sheets
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.web.inbox.mail import is_mail, question_of_mail

LARGEST_BYTES: Final = 1_000_000
MOST_ROWS: Final = 500
_WORKBOOKS: Final = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
"""How the files of Excel and OpenDocument begin."""
_SENDERS: Final = ("from", "sender", "name", "client", "email", "e-mail", "who")


def question_rows(data: bytes) -> list[tuple[str, str]]:
    """Sender and words of each row of a table with a head, CSV or a workbook; or of an e-mail.

    Raises
    ------
    WordedError
        Where it is too large, no table, or has no row.
    """
    if len(data) > LARGEST_BYTES:
        raise WordedError(message("inbox-file-large", most=MOST_ROWS))
    if is_mail(data):
        sender, words = question_of_mail(data)
        if not words:
            raise WordedError(message("inbox-mail-empty"))
        return [(sender, words)]
    table = _sheet(data) if data.startswith(_WORKBOOKS) else _table(data)
    rows = [row for row in table if any(cell.strip() for cell in row)]
    if len(rows) < 2:
        raise WordedError(message("inbox-file-empty"))
    if len(rows) - 1 > MOST_ROWS:
        raise WordedError(message("inbox-file-large", most=MOST_ROWS))
    return [_question(rows[0], row) for row in rows[1:]]


def _table(data: bytes) -> list[list[str]]:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
    if "\x00" in text:
        raise WordedError(message("inbox-file-unread"))
    head = text.split("\n", 1)[0]
    delimiter = max(",;\t", key=head.count)
    try:
        return list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
    except csv.Error:
        raise WordedError(message("inbox-file-unread")) from None


def _sheet(data: bytes) -> list[list[str]]:
    """The rows of the first sheet of a workbook that has any."""
    for sheet in read_sheets(data, "questions"):
        if any(any(row) for row in sheet.rows):
            return [list(row) for row in sheet.rows]
    return []


def _question(heads: list[str], row: list[str]) -> tuple[str, str]:
    """A row as a question: a single text as it is, several cells each behind its head."""
    sender, told = "", []
    for place, cell in enumerate(row):
        head = heads[place].strip() if place < len(heads) else ""
        if not cell.strip():
            continue
        if head.casefold() in _SENDERS and not sender:
            sender = cell.strip()[:160]
        else:
            told.append((head, cell.strip()))
    if len(told) == 1:
        return sender, told[0][1]
    words = "\n".join(f"{head}: {cell}" if head else cell for head, cell in told)
    return sender, words or sender
