"""Texts that several cards share: first sentences, cautions by their short names."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from loamshift import __version__
from loamshift.domain.answer import Caution
from loamshift.domain.letter import Items
from loamshift.report.letter_care import RULES_LINE, caution_line
from loamshift.report.messages import say
from loamshift.report.words import Words

_END: Final = re.compile(r"(?<=[.!?])\s+(?=[A-Z0-9“]|pH)")
READINGS: Final = ("date", "pH", "method", "depth", "by")
"""What is written down of each reading, so that two can be compared."""


def first_sentence(text: str) -> str:
    """The first sentence of a text."""
    return _END.split(text.strip(), maxsplit=1)[0]


def after_first(text: str) -> str:
    """What follows the first sentence of a text; may be empty."""
    return text.strip()[len(first_sentence(text)) :].strip()


def cautions_listed(cautions: Sequence[Caution], *, words: Words, brief: bool = False) -> Items:
    """Cautions, each under its short name.

    Parameters
    ----------
    brief
        True for what must be done alone.
    """
    return Items(tuple(caution_line(one, words=words, short=brief) for one in cautions))


def closing(words: Words, *, version: str = __version__) -> str:
    """The line at the foot of a card: whose sums these are, and what they do not replace."""
    return f"{say(RULES_LINE, words)} {made_with(version)}"


def made_with(version: str = __version__) -> str:
    """What worked a card out."""
    return f"Worked out with loamshift {version}."
