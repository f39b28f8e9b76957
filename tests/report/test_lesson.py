"""A lesson on a page and on paper: its sums, its strips, and no answer among the questions."""

from __future__ import annotations

import re
from datetime import date
from io import BytesIO

import pypdfium2
import pytest

from loamshift.case.read import parse_case
from loamshift.domain.lesson import Lesson
from loamshift.domain.letter import Figure, Letter, Table
from loamshift.report.chart import draw
from loamshift.report.html import letter_html
from loamshift.report.lesson import lesson_letter, worksheet_letter
from loamshift.report.pdf import PaperSize, letter_pdf
from loamshift.report.words import Words
from loamshift.services.lesson import lesson_of

UK, US = Words(), Words(units="us", spelling="us")
BED = """case = 1
today = 2026-04-12
place.name = "Minneapolis"
bed.depth = "20 cm"
soil.ph = 6.8
soil.texture = "sandy loam"
[[claim]]
material = "elemental sulfur, powder"
amount = "80 g/m2"
"""


@pytest.fixture(scope="module")
def lesson() -> Lesson:
    return lesson_of(parse_case(BED, today=date(2026, 4, 12)), seed=1)


def texts(letter: Letter) -> str:
    return letter_html(letter, words=UK)


@pytest.mark.parametrize("words", [UK, US])
def test_the_page_says_the_sum_and_shows_the_layers(lesson: Lesson, words: Words) -> None:
    letter = lesson_letter(lesson, words=words)
    html = texts(letter)
    assert ("Sulphur" if words is UK else "Sulfur") in html
    assert "Z = R × a" in html
    assert not re.search(r"\bNone\b|\bnan\b", html)
    (strips,) = [b for s in letter.sections for b in s.blocks if isinstance(b, Figure)]
    assert draw(strips, width=320).layers
    assert len(strips.table.rows) == len(lesson.layers.layers)


def test_the_questions_do_not_give_the_answers_away(lesson: Lesson) -> None:
    letter = worksheet_letter(lesson, words=UK)
    asked = texts(Letter("", "", letter.front))
    brought = f"{lesson.answer.claims[0].acid_brought_mmolc_m2:,.0f}"
    assert brought not in asked
    assert brought in texts(letter)
    (predict,) = [
        b for s in letter.front for b in s.blocks if isinstance(b, Table) and len(b.columns) > 2
    ]
    assert all(row[1] and not any(row[2:]) for row in predict.rows)


def test_the_worksheet_is_one_sheet_with_its_answers_on_the_next(lesson: Lesson) -> None:
    data = letter_pdf(worksheet_letter(lesson, words=UK), paper=PaperSize.A4, words=UK)
    with pypdfium2.PdfDocument(BytesIO(data)) as pages:
        first = pages[0].get_textpage().get_text_range()
        second = pages[1].get_textpage().get_text_range()
    assert "Your working" in first and "Answers: next sheet" in first
    assert "Answers" in second
