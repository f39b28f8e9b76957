"""A letter on the terminal: wrapped at a comfortable width, plain when piped."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from loamshift.domain.letter import Letter
from loamshift.report.layout import Emphasis, letter_lines, plain_text

if TYPE_CHECKING:
    from rich.console import Console

WIDEST: Final = 88
"""Longer lines tire the eye."""

_STYLES: Final = {
    Emphasis.PLAIN: "",
    Emphasis.BOLD: "bold",
    Emphasis.HEADING: "bold",
    Emphasis.RULE: "dim",
}


def letter_text(letter: Letter, *, width: int = WIDEST) -> str:
    """A letter as plain text of this width: what a pipe or file gets."""
    return plain_text(letter_lines(letter, width=min(width, WIDEST)))


def print_letter(letter: Letter, console: Console) -> None:
    """Print a letter on a rich console.

    Notes
    -----
    Only bold and dim are used, so that the letter reads the same on light and dark paper; a
    console that is not a terminal gets the bare text.
    """
    from rich.text import Text

    for line in letter_lines(letter, width=min(console.width, WIDEST)):
        text = Text(no_wrap=True, overflow="ignore", end="\n")
        for span in line:
            text.append(span.text, style=_STYLES[span.emphasis])
        console.print(text, soft_wrap=True, highlight=False, markup=False, emoji=False)
