"""Sheets set in a process of their own, so that the memory goes back once they are done.

A server sets letters for weeks. Setting one takes some hundred megabytes that the library keeps
for the next; a process that ends gives them back. The command line sets one letter and ends, so
it sets in its own process.
"""

from __future__ import annotations

import pickle
import subprocess
import sys
from typing import TYPE_CHECKING, Final

from loamshift.report.pdf import PaperSize, letter_pdf
from loamshift.report.words import Words

if TYPE_CHECKING:
    from loamshift.domain.card import Card
    from loamshift.domain.letter import Letter

MODULE: Final = "loamshift.web.press"
LONGEST_S: Final = 120
"""A sheet that is not set by then never will be [s]."""


def press(sheet: Letter | Card, *, paper: PaperSize, words: Words) -> bytes:
    """A letter or a card on paper, set in a process that ends with it.

    Parameters
    ----------
    sheet
        What to print [object].
    paper
        The sheet [enumeration].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    bytes
        The PDF, the same bytes as from ``letter_pdf`` or ``card_pdf`` [bytes].

    Raises
    ------
    RuntimeError
        Where the process fails; its last words are in the message.
    """
    done = subprocess.run(
        [sys.executable, "-m", MODULE],
        input=pickle.dumps((sheet, paper, words)),
        capture_output=True,
        timeout=LONGEST_S,
        check=False,
    )
    if done.returncode:
        said = done.stderr.decode("utf-8", "replace").strip().splitlines()
        raise RuntimeError(f"A sheet could not be set: {said[-1] if said else done.returncode}")
    return done.stdout


def set_here(sheet: Letter | Card, *, paper: PaperSize, words: Words) -> bytes:
    """The same in this process.

    Parameters
    ----------
    sheet
        What to print [object].
    paper
        The sheet [enumeration].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    bytes
        The PDF [bytes].
    """
    from loamshift.domain.card import Card

    if isinstance(sheet, Card):
        from loamshift.report.card.pdf import card_pdf

        return card_pdf(sheet, paper=paper, words=words)
    return letter_pdf(sheet, paper=paper, words=words)


if __name__ == "__main__":
    what, on, reader = pickle.loads(sys.stdin.buffer.read())  # written by press() just above
    sys.stdout.buffer.write(set_here(what, paper=on, words=reader))
