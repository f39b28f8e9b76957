"""The sheet of folk remedies: on one sheet of paper, every remedy on it, in either units."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pypdfium2
import pytest

from loamshift.domain.card import Card
from loamshift.domain.claims_sheet import ClaimsSheet
from loamshift.domain.letter import Figure, Table
from loamshift.report.card.claims_sheet import claims_sheet_card, sheet_lead
from loamshift.report.card.html import card_html
from loamshift.report.card.pdf import card_pdf
from loamshift.report.card.plain import card_letter
from loamshift.report.chart_files import chart_file
from loamshift.report.chart_talk import ChartSize
from loamshift.report.figures.claims_sheet import sheet_figure
from loamshift.report.figures.talk import (
    best_sentence,
    claims_for_talk,
    sheet_for_talk,
    talk_source,
)
from loamshift.report.pdf import PaperSize
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.claims_asked import claims_asked
from loamshift.services.claims_sheet import claims_sheet
from services.beds import bed
from wording import read

UK, US = Words("uk", "metric"), Words("us", "us")


@cache
def sheet(ph: float, aim: float) -> ClaimsSheet:
    soil = f'ph = {ph}\nph_method = "water 1:1"\ntexture = "loam"\ncarbonate_pct = 0'
    return claims_sheet(bed(soil, aim=f"target_ph = {aim}"), seed=None)


def card(words: Words, *, ph: float = 7.0, aim: float = 5.5) -> Card:
    found = sheet(ph, aim)
    return claims_sheet_card(found, day=found.case.today, words=words)


@pytest.mark.parametrize("words", [UK, US])
@pytest.mark.parametrize(("ph", "aim"), [(7.0, 5.5), (5.0, 6.5), (6.0, 6.0)])
def test_every_remedy_is_on_it_with_its_amount_and_a_sentence(
    words: Words, ph: float, aim: float
) -> None:
    made = card(words, ph=ph, aim=aim)
    blocks = [block for row in made.rows for part in row for block in part.blocks]
    (figure,) = [block for block in blocks if isinstance(block, Figure)]
    (table,) = [block for block in blocks if isinstance(block, Table)]
    assert len(figure.data[0].rows) == 11 and len(table.rows) == 10
    for row in table.rows:
        assert (
            row[4].endswith(".")
            and len(row[4].split()) < 25
            and row[4].count(".") - row[4].count("0.") <= 2
        )
        assert all(cell.strip() for cell in row)
    assert made.title == "What ten folk remedies add, beside what this soil needs"


def test_the_lead_says_the_need_and_the_best_of_them() -> None:
    assert read(sheet_lead(sheet(7.0, 5.5))).startswith("This bed needs acid equivalent to ")
    assert "Of these, moss peat would add the most: " in read(sheet_lead(sheet(7.0, 5.5)))
    assert "of pure limestone" in read(sheet_lead(sheet(5.0, 6.5)))
    assert read(sheet_lead(sheet(6.0, 6.0))) == "This bed needs neither acid nor lime now."


def test_where_none_of_them_counts_it_is_said() -> None:
    found = sheet(7.0, 5.5)
    weak = tuple(
        replace(line, claim=replace(line.claim, share=min(line.claim.share or 0.0, 0.005)))
        for line in found.lines
    )
    said = read(sheet_lead(replace(found, lines=weak)))
    assert said.endswith("None of these ten adds as much as 1% of that.")


def test_bars_point_the_way_they_work() -> None:
    rows = {row[1]: row[2] for row in sheet_figure(sheet(7.0, 5.5), words=UK).data[0].rows}
    assert float(rows["What the bed needs"] or 0.0) > 0.0 > float(rows["Garden compost"] or 0.0)
    assert float(rows["Moss peat"] or 0.0) > 0.0
    alone = sheet_figure(sheet(7.0, 5.5), words=UK, with_amounts=True)
    assert "Garden compost, a 5 cm mulch" in {row[1] for row in alone.data[0].rows}


@pytest.mark.parametrize("words", [UK, US])
def test_it_runs_no_script_and_reads_in_a_terminal(words: Words) -> None:
    made = card(words)
    page = card_html(made, paper=PaperSize.A4, words=words)
    assert "<script" not in page and made.title in page
    assert "in one sentence" in letter_text(card_letter(made))
    assert ("ulphur" in page) is (words is UK)


@pytest.mark.parametrize("paper", list(PaperSize))
@pytest.mark.parametrize("words", [UK, US])
@pytest.mark.parametrize(("ph", "aim"), [(7.0, 5.5), (5.0, 6.5)])
def test_no_remedy_is_cut_off_on_paper(
    words: Words, paper: PaperSize, ph: float, aim: float
) -> None:
    made = card(words, ph=ph, aim=aim)
    (page,) = pypdfium2.PdfDocument(card_pdf(made, paper=paper, words=words))
    text = " ".join(page.get_textpage().get_text_range().split())
    assert "it continues in" not in text
    for line in sheet(ph, aim).lines:
        name = words.product(line.claim.material)
        assert name.split()[0].lower() in text.lower()


@pytest.mark.parametrize("size", list(ChartSize))
@pytest.mark.parametrize("words", [UK, US])
def test_the_picture_for_a_talk_has_title_sentence_amounts_and_source(
    words: Words, size: ChartSize
) -> None:
    found = sheet(7.0, 5.5)
    source = talk_source(found.case, words=words, usual=True)
    figure = sheet_for_talk(found, words=words)
    svg = chart_file(figure, ending="svg", size=size, source=source).decode()
    drawn = " ".join(re.sub(r"<[^>]*>", " ", svg).replace("\u00a0", " ").split())
    for part in (figure.title, "would add the most", source, "one cup a week for a year"):
        assert part.replace("\u00a0", " ") in drawn, part
    assert "…" not in drawn


def test_the_sentence_of_a_picture_says_when_enough_or_none_is_there() -> None:
    def sentence(ph: float, aim: float) -> str:
        found = sheet(ph, aim)
        return read(best_sentence(found.answer.claims, found.case))

    assert sentence(5.0, 6.5).endswith("enough lime for this bed.")
    assert sentence(6.0, 6.0) == "This bed needs neither acid nor lime now."


def test_one_claim_is_a_picture_with_its_first_sentence() -> None:
    case = bed(
        'ph = 7.0\ntexture = "loam"',
        aim="target_ph = 5.5",
        more='[[claim]]\nmaterial = "vinegar"\namount = "1 L/m2"\n',
    )
    answer = claims_asked(case, seed=None)
    figure = claims_for_talk(answer.claims, case, words=UK)
    assert figure is not None and figure.title == "Vinegar, 1.0 kg/m²"
    assert figure.sentence.startswith("Soil microbes break this acid down: the pH dips by about")
    assert talk_source(case, words=UK).startswith("Loam, pH 7.0. Calculated with loamshift ")


def test_a_bed_that_needs_nothing_has_no_picture_of_one_claim() -> None:
    case = bed(
        'ph = 6.0\nph_method = "water 1:1"\ntexture = "loam"\ncarbonate_pct = 0',
        aim="target_ph = 6.0",
        more='[[claim]]\nmaterial = "gypsum"\namount = "50 g/m2"\n',
    )
    assert claims_for_talk(claims_asked(case, seed=None).claims, case, words=UK) is None
