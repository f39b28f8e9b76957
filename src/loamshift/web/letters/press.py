"""Sheets that a page hands out, letters and cards, set in this process.

Setting leaves next to no memory behind (``report/typesetting.py``), and typst lets other threads
work meanwhile, so that a server sets sheets for weeks without a process for each.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from loamshift.domain.card import Card

if TYPE_CHECKING:
    from loamshift.domain.letter import Letter
    from loamshift.report.pdf import PaperSize
    from loamshift.report.words import Words


def press(sheet: Letter | Card, *, paper: PaperSize, words: Words) -> bytes:
    """A letter or a card on paper."""
    if isinstance(sheet, Card):
        from loamshift.report.card.pdf import card_pdf

        return card_pdf(sheet, paper=paper, words=words)
    from loamshift.report.pdf import letter_pdf

    return letter_pdf(sheet, paper=paper, words=words)


def letter_bytes(letter: Letter, ending: str, *, paper: PaperSize, words: Words) -> bytes:
    """A letter as a PDF, a web page or Markdown, by the ending of the file."""
    if ending == "pdf":
        return press(letter, paper=paper, words=words)
    if ending == "html":
        from loamshift.report.html import letter_html

        return letter_html(letter, words=words).encode("utf-8")
    from loamshift.report.markdown import letter_markdown

    return letter_markdown(letter).encode("utf-8")
