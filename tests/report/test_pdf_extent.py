"""How many sheets a printed letter takes: the front sheet, and no more working than is needed."""

from __future__ import annotations

import pypdfium2
import pytest

from loamshift.case.read import read_case
from loamshift.report.letter import letter_from_answer
from loamshift.report.pdf import PaperSize, letter_pdf
from loamshift.services.advise import LookAhead, advise
from loamshift.services.own_sum.margin import margin_sums
from report.examples import FOLDER, NAMES, with_forecast
from report.letters import UK, US

MOST = {PaperSize.A4: 5, PaperSize.LETTER: 6}
"""With the notes of the margin and a claim or two; a sheet of Letter is 18 mm shorter [sheets]."""


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", list(PaperSize))
def test_a_printed_letter_takes_few_sheets(name: str, paper: PaperSize) -> None:
    answer, case = with_forecast(name)
    words = UK if paper is PaperSize.A4 else US
    letter = letter_from_answer(answer, case, words=words, sums=margin_sums(case, answer))
    document = pypdfium2.PdfDocument(letter_pdf(letter, paper=paper, words=words))
    assert len(document) <= MOST[paper]


def test_the_longest_example_takes_no_more_with_as_many_beds_as_usual() -> None:
    """Three claims and margin notes: all examples at the usual members would take 30 s."""
    case = read_case(FOLDER / "blue-hydrangeas.toml", today=None)
    answer = advise(case, look_ahead=LookAhead())
    letter = letter_from_answer(answer, case, words=UK, sums=margin_sums(case, answer))
    document = pypdfium2.PdfDocument(letter_pdf(letter, paper=PaperSize.A4, words=UK))
    assert len(document) <= MOST[PaperSize.A4]
