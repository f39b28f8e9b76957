from __future__ import annotations

import re
import unicodedata
from dataclasses import replace
from functools import cache

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from loamshift.domain.letter import Figure, Letter, Note, Paragraph
from loamshift.report import pdf_data
from loamshift.report.letter import letter_from_answer
from loamshift.report.pdf import PaperSize, letter_pdf
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from report.examples import NAMES, with_forecast
from report.letters import HOSTILE, UK, US, every_block, example_letters

MM = 72.0 / 25.4
SHEETS = {PaperSize.A4: (210.0, 297.0), PaperSize.LETTER: (215.9, 279.4)}
INK = 200
"""Darker than this is ink."""


def forecast_letter() -> tuple[Letter, Words]:
    return letter_from_answer(*with_forecast("sandy-patch"), words=UK), UK


@cache
def printed(name: str, paper: PaperSize) -> bytes:
    letter, words = forecast_letter() if name == "forecast" else example_letters()[name]
    return letter_pdf(letter, paper=paper, words=words)


def text_of(pdf: bytes) -> str:
    document = pypdfium2.PdfDocument(pdf)
    pages = [document[i].get_textpage().get_text_range() for i in range(len(document))]
    return " ".join(" ".join(pages).replace("\u00a0", " ").replace("\u200b", "").split())


EVERY = pytest.mark.parametrize("name", ["forecast", *NAMES])
BOTH = pytest.mark.parametrize("paper", list(PaperSize))


def pages_of(pdf: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    texts = [document[i].get_textpage().get_text_range() for i in range(len(document))]
    return [" ".join(text.replace("\u00a0", " ").replace("\u200b", "").split()) for text in texts]


def whole(name: str) -> Letter:
    return forecast_letter()[0] if name == "forecast" else example_letters()[name][0]


@EVERY
@BOTH
def test_the_front_sheet_takes_one_side_and_the_working_begins_on_the_next(
    name: str, paper: PaperSize
) -> None:
    document = pypdfium2.PdfDocument(printed(name, paper))
    for i in range(len(document)):
        width, height = (side / MM for side in document[i].get_size())
        assert (width, height) == pytest.approx(SHEETS[paper], abs=0.1)
    first, second, *_ = pages_of(printed(name, paper))
    letter = whole(name)
    headings = [part.heading for part in letter.front if part.heading]
    assert all(heading in first for heading in headings), headings
    begins = next(part.heading for part in letter.working if part.heading)
    assert begins in second and f"{letter.title} {begins}" in second


@EVERY
def test_a_front_sheet_has_at_most_350_words_and_no_sentence_over_25(name: str) -> None:
    letter = whole(name)
    front = tuple(
        replace(part, blocks=tuple(b for b in part.blocks if not isinstance(b, Figure)))
        for part in letter.front
    )
    text = letter_text(Letter(letter.title, letter.subtitle, front))
    assert len(re.findall(r"[^\W\d_][\w'’-]*|\d[\d.,]*", text)) <= 350, text
    for section in letter.front:
        for block in section.blocks:
            if isinstance(block, (Paragraph, Note)):
                for sentence in re.split(r"(?<=[.!?:;]) ", block.text):
                    assert len(sentence.split()) <= 25, sentence


@EVERY
def test_nothing_is_printed_in_the_outer_margin(name: str) -> None:
    for paper in PaperSize:
        document = pypdfium2.PdfDocument(printed(name, paper))
        for i in range(len(document)):
            picture = document[i].render(scale=1.0).to_pil().convert("L")
            ink = picture.point(lambda value: 255 if value < INK else 0).getbbox()
            assert ink is not None
            left, top, right, bottom = ink
            assert left >= 10 * MM and right <= picture.width - 10 * MM
            assert top >= 5 * MM and bottom <= picture.height - 4 * MM


@EVERY
def test_it_is_tagged_titled_and_in_a_language(name: str) -> None:
    pdf = printed(name, PaperSize.A4)
    document = pypdfium2.PdfDocument(pdf)
    assert pdfium.FPDFCatalog_IsTagged(document)
    letter = forecast_letter()[0] if name == "forecast" else example_letters()[name][0]
    assert letter.day is not None
    title = document.get_metadata_dict()["Title"]
    assert title.startswith(f"{letter.title}, ") and str(letter.day.year) in title
    assert letter.day.strftime("D:%Y%m%d") in document.get_metadata_dict()["CreationDate"]


def test_the_language_is_the_readers() -> None:
    for words, language in ((UK, b"en-GB"), (US, b"en-US")):
        pdf = letter_pdf(every_block(), paper=PaperSize.A4, words=words)
        assert language in pdf


@EVERY
def test_only_our_own_type_is_used_and_all_of_it_is_inside(name: str) -> None:
    pdf = printed(name, PaperSize.A4)
    names = set(re.findall(rb"/FontName ?/([A-Z]{6}\+[\w-]+)", pdf))
    assert names
    assert all(
        re.fullmatch(rb"[A-Z]{6}\+Loam(?:Serif|Sans|Hebrew|Arabic)-\w+", one) for one in names
    ), names


def test_a_letter_gives_the_same_bytes_again() -> None:
    letter, words = example_letters()["bean-rows"]
    again = letter_pdf(letter, paper=PaperSize.A4, words=words)
    assert again == printed("bean-rows", PaperSize.A4)


def test_every_block_is_printed() -> None:
    said = text_of(letter_pdf(every_block("Quincunx"), paper=PaperSize.A4, words=UK))
    assert said.count("Quincunx") >= 18
    assert "example.org/a_b" in said


def test_words_are_never_taken_for_markup() -> None:
    said = text_of(letter_pdf(every_block(HOSTILE), paper=PaperSize.LETTER, words=UK))
    for piece in ("<script>alert(1)</script>", "#panic()", "$x$", "`y`", "@z", "*/", "{{a}}", "□"):
        assert piece in said, piece


@pytest.mark.parametrize("name", ["גן הוורדים", "حديقة ليلى", "Ωδή Сад"])
def test_a_name_in_other_letters_is_set_in_full(name: str) -> None:
    letter = replace(whole("bean-rows"), title=name)
    pdf = letter_pdf(letter, paper=PaperSize.A4, words=UK)
    first = pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_range()
    said = unicodedata.normalize("NFKC", first)  # Arabic letters are drawn as they join
    assert sorted(set(name)) == sorted(set(name) & set(said)) and "□" not in said


def test_a_printed_letter_says_which_characters_it_could_not_set() -> None:
    letter = replace(whole("bean-rows"), title="庭 North 🌹")
    said = text_of(letter_pdf(letter, paper=PaperSize.A4, words=UK))
    assert "□ North [rose]" in said and "(U+5EAD)" in said


def test_pages_are_counted_and_the_title_runs_on() -> None:
    document = pypdfium2.PdfDocument(printed("north-border", PaperSize.A4))
    pages = [document[i].get_textpage().get_text_range() for i in range(len(document))]
    assert len(pages) > 1
    for number, page in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in page
        assert page.lstrip().startswith("North border")


@EVERY
def test_no_type_is_smaller_than_nine_points(name: str) -> None:
    document = pypdfium2.PdfDocument(printed(name, PaperSize.A4))
    for i in range(len(document)):
        page = document[i].get_textpage()
        sizes = {
            round(pdfium.FPDFText_GetFontSize(page, at), 1)
            for at in range(page.count_chars())
            if page.get_text_range(at, 1).isalnum()
        }
        assert min(sizes) >= 9.0, sizes


def test_an_address_is_not_printed_twice() -> None:
    said = pdf_data._address("https://doi.org/10.1/abc", "Somebody, doi 10.1/abc")
    assert said == ""
    assert (
        pdf_data._address("https://doi.org/10.1/abc", "Somebody") == "doi.org/\u200b10.1/\u200babc"
    )
