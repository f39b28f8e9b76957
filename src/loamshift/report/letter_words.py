"""Sentences of a letter: messages in the reader's words, and texts of answers kept long ago."""

from __future__ import annotations

import re
from typing import Final

from loamshift.domain.message import Given, Message, Worded, choice, message
from loamshift.report.letter_fields import field_called
from loamshift.report.messages import say
from loamshift.report.words import Words

NOTED: Final = "case-note-at"
"""What the reader of a case file noticed about a key, which a letter calls by its name."""
_PROPOSED: Final = re.compile(r"claim\[\d+\]\.(\w+).*")
_KEEP_SMALL: Final = re.compile(r"pH\b|[a-z]+[A-Z]")


def sentence(what: Worded, words: Words) -> str:
    """Sentences as this reader has them.

    Parameters
    ----------
    what
        A message or sentences; or a clause of an answer kept by an early version, which gets a
        capital and a full stop and stays in the units it was worded in.
    """
    if isinstance(what, Message) and what.key == NOTED:
        path, note = what.values["path"], what.values["note"]
        assert isinstance(path, Given)
        called = Given(_called(path.text, words))
        return say(message(NOTED, path=called, note=note), words)
    if not isinstance(what, str):
        return say(what, words)
    text = words.text(" ".join(what.split()))
    if not text:
        return ""
    text = text if _KEEP_SMALL.match(text) else raised(text)
    return text if text[-1] in ".!?" else text.rstrip(",;:") + "."


def _called(path: str, words: Words) -> str:
    """A key as a letter calls it: its reader has seen no numbered list of proposals."""
    proposed = _PROPOSED.fullmatch(path)
    if proposed is None:
        return field_called(path, words)
    return say(message("field-proposed", key=choice(proposed[1])), words)


def raised(text: str) -> str:
    """A text with a capital first letter."""
    return text if text.startswith("pH") else text[:1].upper() + text[1:]
