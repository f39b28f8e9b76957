"""Every card is one tagged sheet of either paper, nothing clipped, and reads at arm's length."""

from __future__ import annotations

from functools import cache

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from loamshift.domain.card import Card, Log, Part
from loamshift.domain.letter import Items, Paragraph
from loamshift.report.card.pdf import SIZES, Fitted, card_pdf, fitted
from loamshift.report.card.shorter import shorter, stacked
from loamshift.report.pdf import PaperSize
from loamshift.report.words import Words
from report.cards import UK, US, every_card

MM = 72.0 / 25.4
SHEETS = {PaperSize.A4: (210.0, 297.0), PaperSize.LETTER: (215.9, 279.4)}
INK = 200
"""Darker than this is ink."""
CONTINUES = "it continues in"

EVERY = pytest.mark.parametrize("name", sorted(every_card()))
BOTH = pytest.mark.parametrize("paper", list(PaperSize))


@cache
def set_on(name: str, paper: PaperSize) -> tuple[Fitted, pypdfium2.PdfDocument]:
    """A card as it fits, and its sheet; the second asks for the first again and finds it kept."""
    card, words = every_card()[name]
    fit = fitted(card, paper=paper, words=words)
    return fit, pypdfium2.PdfDocument(card_pdf(card, paper=paper, words=words))


def printed(name: str, paper: PaperSize) -> pypdfium2.PdfDocument:
    return set_on(name, paper)[1]


def text_of(document: pypdfium2.PdfDocument) -> str:
    text = document[0].get_textpage().get_text_range()
    return " ".join(text.replace("\u00a0", " ").replace("\u200b", "").split())


@EVERY
@BOTH
def test_a_card_is_one_sheet(name: str, paper: PaperSize) -> None:
    document = printed(name, paper)
    assert len(document) == 1
    width, height = (side / MM for side in document[0].get_size())
    assert (width, height) == pytest.approx(SHEETS[paper], abs=0.1)


@EVERY
@BOTH
def test_nothing_reaches_the_edge(name: str, paper: PaperSize) -> None:
    picture = printed(name, paper)[0].render(scale=1.0).to_pil().convert("L")
    ink = picture.point(lambda value: 255 if value < INK else 0).getbbox()
    assert ink is not None
    left, top, right, bottom = ink
    assert left >= 12 * MM and right <= picture.width - 12 * MM
    assert top >= 10 * MM and bottom <= picture.height - 9 * MM


@EVERY
@BOTH
def test_what_is_read_is_ten_and_a_half_points_or_more(name: str, paper: PaperSize) -> None:
    assert set_on(name, paper)[0].size_pt >= 10.5


@EVERY
@BOTH
def test_every_word_of_a_card_stands_on_the_sheet_or_it_says_where(
    name: str, paper: PaperSize
) -> None:
    card, _ = every_card()[name]
    fit, _ = set_on(name, paper)
    said = text_of(printed(name, paper))
    assert (CONTINUES in said) == (fit.card != card)
    for part in (part for row in fit.card.rows for part in row):
        for block in part.blocks:
            texts = block.items if isinstance(block, Items) else ()
            texts = (block.text,) if isinstance(block, Paragraph) else texts
            for text in texts:
                assert _letters(text) in _letters(said), text


def _letters(text: str) -> str:
    """A text without what breaks of lines and hyphens change."""
    return "".join(c for c in text if c.isalnum() and c.isascii())


@EVERY
def test_it_is_tagged_and_titled(name: str) -> None:
    fit, document = set_on(name, PaperSize.A4)
    assert pdfium.FPDFCatalog_IsTagged(document)
    title = document.get_metadata_dict()["Title"].replace("\u200b", "").replace("\u00a0", " ")
    day = fit.card.day
    assert _letters(title).startswith(_letters(fit.card.title))
    assert (day is None and _letters(title) == _letters(fit.card.title)) or str(day.year) in title


def test_the_same_card_gives_the_same_bytes() -> None:
    card, words = every_card()["bed north-border"]
    first = card_pdf(card, paper=PaperSize.A4, words=words)
    assert first == card_pdf(card, paper=PaperSize.A4, words=words)


def long_card(items: int) -> Card:
    whole = Items(tuple(f"Sentence number {i} of many that stand here." for i in range(items)))
    card, _ = every_card()["water 20 None metric"]
    rows = (
        (Part(heading="One", blocks=(whole,), brief=(Items(("Short.",)),), care=True),),
        (Part(heading="Two", blocks=(Paragraph("Spare."),), spare=1),),
        (Part(heading="Three", blocks=(Log(("date", "pH"), fewest=2, most=4),)),),
    )
    return Card(
        kind=card.kind,
        title="Long",
        subtitle="",
        lead="Lead.",
        rows=rows,
        closing="Foot.",
        elsewhere="the letter",
    )


def test_a_short_card_is_set_large_and_whole() -> None:
    fit = fitted(long_card(3), paper=PaperSize.A4, words=UK)
    assert (fit.size_pt, fit.gaps) == SIZES[0] and fit.card == long_card(3)
    assert fit.lines > 0


def test_a_long_card_first_says_its_cautions_briefly_and_tells_so() -> None:
    fit = fitted(long_card(120), paper=PaperSize.A4, words=UK)
    assert fit.card.rows[0][0].blocks == (Items(("Short.",)),)
    assert len(fit.card.rows) == 3
    assert fit.card.closing.startswith("**This sheet holds the short of it: it continues in the le")


def test_every_shorter_card_says_where_the_rest_stands() -> None:
    for card, _ in every_card().values():
        first, *others = shorter(card)
        assert first == card
        assert all(f"continues in {card.elsewhere}" in cut.closing for cut in others)
        assert all(cut.lead == card.lead for cut in others)


def test_rows_of_two_share_their_columns() -> None:
    card, _ = every_card()["water 180 citric metric"]
    counts = [[len(column) for column in row] for row in stacked(card)]
    assert counts == [[2, 2], [1], [1], [1]]


@pytest.mark.parametrize(("words", "language"), [(UK, b"en-GB"), (US, b"en-US")])
def test_the_language_is_the_readers(words: Words, language: bytes) -> None:
    assert language in card_pdf(long_card(3), paper=PaperSize.A4, words=words)
