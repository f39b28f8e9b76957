"""A trial shared alone: the picture and the sheet each say whose, when, how large and how sure."""

from __future__ import annotations

import re
from dataclasses import replace

import pypdfium2
import pytest

from invented_trials import TWO, plan, rows
from loamshift.domain.trial_result import TrialResult
from loamshift.report.card.html import card_html
from loamshift.report.card.pdf import card_pdf
from loamshift.report.chart_files import chart_file
from loamshift.report.chart_talk import ChartSize
from loamshift.report.pdf import PaperSize
from loamshift.report.trial_public import MOST_TREATMENTS, trial_card, trial_for_talk, trial_source
from loamshift.report.words import Words
from loamshift.services.trial.analyse import analyse

UK, US = Words("uk", "metric"), Words("us", "us")
MANY = TWO + "".join(
    f'[[treatment]]\nname = "{name}"\nmaterial = "peat"\nrate = "1 kg/m2"\n'
    for name in (
        *("composted pine bark, coarse, 2 a year", "coffee grounds from the office machine"),
        "spruce needles raked from under trees",
    )
)


def falls(name: str, day: int) -> float:
    return 7.8 - (0.6 if name == "peat" and day in (1, 3) else 0.0)


def result(head: str = "", treatments: str = TWO) -> TrialResult:
    made = plan(head, treatments)
    return analyse(made, rows(made, falls), prediction=None)


def printed(found: TrialResult, words: Words, paper: PaperSize) -> str:
    card = trial_card(found, words=words)
    assert card is not None
    document = pypdfium2.PdfDocument(card_pdf(card, paper=paper, words=words))
    assert len(document) == 1
    text = document[0].get_textpage().get_text_range()
    return re.sub(r"\s+", " ", text.replace("\u200b", "").replace("\u00a0", " "))


def shared(found: TrialResult, size: ChartSize, words: Words = UK) -> str:
    told = trial_for_talk(found, words=words)
    assert told is not None
    figure, said = told
    source = trial_source(found, words=words)
    svg = chart_file(figure, ending="svg", size=size, source=source, told=said).decode()
    return re.sub(r"\s+", " ", " ".join(re.findall(r">([^<>]+)<", svg)).replace("\u00a0", " "))


@pytest.mark.parametrize("paper", list(PaperSize))
def test_the_sheet_holds_question_design_effect_and_what_it_does_not_show(
    paper: PaperSize,
) -> None:
    said = printed(result(), UK, paper)
    for text in (
        "Does it last?",
        "Own trial “Peat”, 20 April 2026 to 19 July 2026",
        "15 pots were read on 6 days, 5 of each treatment",
        "“nothing” (untreated), “peat” (moss peat, 10 kg/m²)",
        "What it does not show",
        "says nothing about others",
        "Smaller ones it will mostly miss",
    ):
        assert text in said, text
    assert re.search(r"0\.\d\d lower than with “nothing” on day \d \(95% interval", said)


def test_what_the_sheet_says_of_peat_is_what_was_worked_out() -> None:
    found = result()
    said = printed(found, UK, PaperSize.A4)
    peak = max(
        (row for day in found.days if day.day > 0 for row in day.rows if row.treatment == "peat"),
        key=lambda row: abs(row.estimate),
    )
    assert f"With “peat” the pH was {-peak.estimate:.2f} lower" in said


@pytest.mark.parametrize("size", list(ChartSize))
def test_the_picture_says_whose_when_and_how_sure(size: ChartSize) -> None:
    said = shared(result(), size)
    for text in (
        "Does it last?",
        "“peat” made a difference that was gone again by the last reading.",
        "Bars are 95% intervals",
        "Own trial, 20 April 2026 to 19 July 2026: 5 pots of each of 3 treatments",
    ):
        assert text in said, text
    assert "…" not in said


@pytest.mark.parametrize("size", list(ChartSize))
def test_many_long_names_leave_no_sentence_cut(size: ChartSize) -> None:
    said = shared(result("replicates = 2", MANY), size, US)
    assert "…" not in said and "does not matter." in said


def test_a_long_question_and_many_treatments_still_fit_on_one_sheet() -> None:
    found = result("replicates = 2", MANY)
    question = "Does the coarse sulphur that the neighbour swears by work on our chalk? " * 4
    trial = replace(found.plan.trial, question=question)
    found = replace(found, plan=replace(found.plan, trial=trial))
    said = printed(found, US, PaperSize.LETTER)
    assert "What it does not show" in said and "None" not in said


def test_as_many_treatments_as_are_let_in_fit_on_one_sheet() -> None:
    many = '[[treatment]]\nname = "nothing"\n' + "".join(
        f'[[treatment]]\nname = "composted pine bark, coarse, of year {n:02d}"\n'
        f'material = "peat"\nrate = "{n} kg/m2"\n'
        for n in range(1, MOST_TREATMENTS)
    )
    found = result("replicates = 2", many)
    assert "What it does not show" in printed(found, US, PaperSize.LETTER)


def test_one_pot_of_each_is_nothing_to_share() -> None:
    found = result("replicates = 1")
    assert trial_card(found, words=UK) is None
    assert trial_for_talk(found, words=UK) is None


def test_without_a_question_the_name_stands_at_the_top() -> None:
    found = result()
    trial = replace(found.plan.trial, question="")
    card = trial_card(replace(found, plan=replace(found.plan, trial=trial)), words=UK)
    assert card is not None and card.title == "Peat"


def test_the_page_is_whole_and_asks_nobody_for_anything() -> None:
    card = trial_card(result(), words=UK)
    assert card is not None
    page = card_html(card, paper=PaperSize.A4, words=UK)
    assert "Own trial" in page and "<svg" in page and "None" not in page
    assert not re.search(r'(?:src|href)="https?:', page)
