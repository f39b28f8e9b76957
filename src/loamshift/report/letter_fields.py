"""Keys of a bed file in words: a letter is read by people who never see the file."""

from __future__ import annotations

import re
from typing import Final

from loamshift.domain.field_name import IN_TEXT, field_key
from loamshift.domain.message import Given, Message, message
from loamshift.report.messages import say
from loamshift.report.words import Words

_ENTRY: Final = re.compile(r"([a-z_.]+)\[(\d+)\](?:\.(.+))?")
_TABLES: Final = "place|bed|soil|aim|water|feed|on_hand|applied|reading|claim|titration"
_PATH: Final = rf"(?:{_TABLES})(?:\[\d+\])?(?:\.[a-z][a-z0-9_]*)+"
_AT_START: Final = re.compile(rf"^({_PATH})(?=: )")
_ANYWHERE: Final = re.compile(rf"(?<![\w.]){_PATH}\b(?!\()")


def field_called(path: str, words: Words | None = None) -> str:
    """A key of a bed file as a label.

    Parameters
    ----------
    path
        The key with the tables it is in, such as ``applied[2].rate`` [text].
    words
        The reader; British where nobody says [object].

    Returns
    -------
    str
        Such as ``Application 2, rate``; a key without a name of its own goes by its last word
        [text].
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


def without_paths(text: str) -> str:
    """A text of the reader of the file [text] with the keys in it put into words [text]."""
    text = _AT_START.sub(lambda found: field_called(found[1]), text)
    return _ANYWHERE.sub(lambda found: _the(found[0]), text)


def _the(path: str) -> str:
    words = Words()
    key = f"{field_key(path)}{IN_TEXT}"
    name = say(message(key), words) if key in words.book else path.rsplit(".", 1)[-1]
    return f"the {name.replace('_', ' ')}"
