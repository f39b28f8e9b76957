"""Keys of a bed file in words: a letter is read by people who never see the file."""

from __future__ import annotations

import re
from typing import Final

from loamshift.domain.field_name import field_key
from loamshift.domain.message import Given, Message, message
from loamshift.report.messages import say
from loamshift.report.words import Words

_ENTRY: Final = re.compile(r"([a-z_.]+)\[(\d+)\](?:\.(.+))?")


def field_called(path: str, words: Words | None = None) -> str:
    """A key of a bed file as a label.

    Parameters
    ----------
    words
        The reader; British where nobody says.

    Returns
    -------
    str
        Such as ``Application 2, rate``; a key without a name of its own goes by its last word.
    """
    words = words or Words()
    return say(_label(path, words), words)


def _label(path: str, words: Words) -> Message:
    entry = _ENTRY.fullmatch(path)
    if entry is None:
        return _named(path, words)
    table, number, key = entry[1], int(entry[2]), entry[3]
    whole = _named(table, words)
    if key is None:
        return message("field-entry-alone", entry=whole, number=number)
    field = Given(_small(say(_named(f"{table}[].{key}", words), words)))
    return message("field-entry", entry=whole, number=number, field=field)


def _named(path: str, words: Words) -> Message:
    key = field_key(path)
    if key in words.book:
        return message(key)
    name = path.rsplit(".", 1)[-1].replace("_", " ")
    return message("field-other", name=Given(name[:1].upper() + name[1:]))


def _small(label: str) -> str:
    return label if label.startswith("pH") else label[:1].lower() + label[1:]
