"""The letter's own style sheet, kept to the letter where it stands within another page."""

from __future__ import annotations

import re
from functools import cache
from hashlib import sha256
from importlib import resources
from typing import Final

_COMMENT: Final = re.compile(r"/\*.*?\*/", re.DOTALL)
_NOT_OURS: Final = re.compile(
    r"^(:root|html|body|header|h1|p\b|a\b|\.about|\.on-|@font-face|@page)"
)
"""Rules for a page of its own; the desk's page has others."""


@cache
def letter_style(within: str = ".letter") -> str:
    """The rules of the letter for what stands inside one element.

    Returns
    -------
    str
        A style sheet whose every selector begins with ``within``.
    """
    text = resources.files("loamshift.report").joinpath("letter.css").read_text(encoding="utf-8")
    return _within(_COMMENT.sub("", text), within)


@cache
def letter_style_name() -> str:
    """A name that changes with the rules, so that a browser may keep them for good."""
    return sha256(letter_style().encode("utf-8")).hexdigest()[:10]


def _within(text: str, within: str) -> str:
    made = []
    for head, body in _rules(text):
        if head.startswith("@media"):
            inside = _within(body, within)
            if inside:
                made.append(f"{head} {{\n{inside}\n}}")
            continue
        selectors = [one.strip() for one in head.split(",")]
        ours = [f"{within} {one}" for one in selectors if not _NOT_OURS.match(one)]
        if ours:
            made.append(f"{', '.join(ours)} {{{body}}}")
    return "\n".join(made)


def _rules(text: str) -> list[tuple[str, str]]:
    """Heads and bodies of the rules at the outermost level."""
    found = []
    start = depth = opened = 0
    for place, sign in enumerate(text):
        if sign == "{":
            if depth == 0:
                opened = place
            depth += 1
        elif sign == "}":
            depth -= 1
            if depth == 0:
                found.append((text[start:opened].strip(), text[opened + 1 : place].strip()))
                start = place + 1
    return found
