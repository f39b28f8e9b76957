"""Keys of a bed file by the messages that name them, for readers who never see the file."""

from __future__ import annotations

import re
from typing import Final

from loamshift.domain.message import Message, choice, message

_ENTRY: Final = re.compile(r"\[(\d*)\]")
IN_TEXT: Final = "-in-text"
"""End of the keys of messages that stand inside a sentence."""


def field_key(path: str) -> str:
    """The message that is the label of a key.

    Examples
    --------
    >>> field_key("applied[2].rate"), field_key("soil.ph")
    ('field-applied-rate', 'field-soil-ph')
    """
    return f"field-{choice(_ENTRY.sub('', path))}"


def meaning_of(path: str) -> Message:
    """What a key or a table of the case file means, for its reference.

    Parameters
    ----------
    path
        The key with the tables it is in, without numbers; empty for the top of the file.

    Returns
    -------
    Message
        Its meaning, a sentence.

    Examples
    --------
    >>> meaning_of("soil.organic_matter_pct").key, meaning_of("").key
    ('means-soil-organic-matter-pct', 'means-top')
    """
    return message(f"means-{choice(path or 'top')}")


def field_in_text(path: str) -> Message:
    """A key to stand inside a sentence: ``organic matter``, ``price of product on hand 2``.

    Returns
    -------
    Message
        Its name without an article, with the number of its entry.
    """
    name = message(f"{field_key(path)}{IN_TEXT}")
    number = _ENTRY.search(path)
    if number is None or not number[1]:
        return name
    return message("field-entry-alone", entry=name, number=int(number[1]))
