"""Questions from a table: each row is one, its cells in the words they were written in."""

from __future__ import annotations

import csv
import io
from typing import Final

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError

LARGEST_BYTES: Final = 1_000_000
MOST_ROWS: Final = 500
_SENDERS: Final = ("from", "sender", "name", "client", "email", "e-mail", "who")


def question_rows(data: bytes) -> list[tuple[str, str]]:
    """Sender and words of each row of a CSV file with a head.

    Raises
    ------
    WordedError
        Where it is too large, no table, or has no row.
    """
    if len(data) > LARGEST_BYTES:
        raise WordedError(message("inbox-file-large", most=MOST_ROWS))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
    if "\x00" in text:
        raise WordedError(message("inbox-file-unread"))
    head = text.split("\n", 1)[0]
    delimiter = max(",;\t", key=head.count)
    try:
        table = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
    except csv.Error:
        raise WordedError(message("inbox-file-unread")) from None
    rows = [row for row in table if any(cell.strip() for cell in row)]
    if len(rows) < 2:
        raise WordedError(message("inbox-file-empty"))
    if len(rows) - 1 > MOST_ROWS:
        raise WordedError(message("inbox-file-large", most=MOST_ROWS))
    return [_question(rows[0], row) for row in rows[1:]]


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
