"""Map and labels of a trial: nothing lost, nothing over a cut line, nothing told when blind."""

from __future__ import annotations

import re
from dataclasses import replace

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from invented_trials import plan
from loamshift.domain.trial import TrialPlan
from loamshift.report.pdf import PaperSize
from loamshift.report.trial_labels import GRID, trial_labels_pdf
from loamshift.report.words import Words

UK, US = Words("uk", "metric"), Words("us", "us")
MM = 72.0 / 25.4
MARGINS_MM = (8.0, 12.0)
LONG = "composted pine bark, coarse, and " + "M" * 60
CASES = {
    "few": plan(),
    "blocks": plan('design = "blocks"\nreplicates = 6'),
    "many": plan("replicates = 40\nper_row = 20"),
    "blind": plan("blind = true\nreplicates = 12\nper_row = 12"),
}
EVERY = pytest.mark.parametrize("name", CASES)
BOTH = pytest.mark.parametrize("paper", list(PaperSize))


def made(found: TrialPlan, paper: PaperSize, words: Words = UK) -> pypdfium2.PdfDocument:
    return pypdfium2.PdfDocument(trial_labels_pdf(found, paper=paper, words=words))


def text_of(page: pypdfium2.PdfPage) -> str:
    return re.sub(r"\s+", " ", page.get_textpage().get_text_range().replace("\u200b", ""))


def long_named(found: TrialPlan) -> TrialPlan:
    """The same trial, with names far longer than a trial file may hold."""
    trial = found.trial
    treatments = tuple(replace(one, name=f"{LONG} {one.name}") for one in trial.treatments)
    return replace(found, trial=replace(trial, name=LONG * 3, treatments=treatments))


@EVERY
@BOTH
def test_every_pot_has_one_label_at_the_place_on_its_map(name: str, paper: PaperSize) -> None:
    found = CASES[name]
    document = made(found, paper)
    across, down = GRID[paper]
    assert len(document) == 1 + -(-len(found.places) // (across * down))
    labels = " ".join(text_of(document[n]) for n in range(1, len(document)))
    for place in found.places:
        assert (
            labels.count(f"Row {place.row}, place {place.column} ")
            + labels.endswith(f"Row {place.row}, place {place.column}")
            == 1
        )
    numbers = set(re.findall(r"\d+", text_of(document[0])))
    assert {place.label for place in found.places} <= numbers


def test_labels_name_treatment_trial_and_start() -> None:
    said = text_of(made(CASES["few"], PaperSize.A4)[1])
    assert said.count("sulfur") == 5 and said.count("Start: 20 April 2026") == 15
    us = text_of(made(CASES["few"], PaperSize.LETTER, US)[1])
    assert us.count("Start: April 20, 2026") == 15 and "None" not in us


@BOTH
def test_blind_labels_and_map_do_not_tell(paper: PaperSize) -> None:
    found = CASES["blind"]
    named = replace(found, trial=replace(found.trial, name="Trial one"))
    document = made(named, paper)
    said = " ".join(text_of(document[n]) for n in range(len(document)))
    assert not any(f" {one.name}" in said for one in found.trial.treatments)
    assert "should not see the key" in said


@EVERY
@BOTH
def test_long_names_stay_within_the_cut_lines(name: str, paper: PaperSize) -> None:
    """What is set in one label stands inside it, whatever it is called."""
    document = made(long_named(CASES[name]), paper)
    assert len(document) == len(made(CASES[name], paper))
    across, down = GRID[paper]
    for number in range(1, len(document)):
        page = document[number]
        width, height = page.get_size()
        left, top = (side * MM for side in MARGINS_MM)
        wide, tall = (width - 2 * left) / across, (height - 2 * top) / down
        texts = page.get_textpage()
        for index in range(texts.count_rects()):
            x0, y0, x1, y1 = texts.get_rect(index)
            column, row = (x0 - left) / wide, (height - y1 - top) / tall
            assert (x1 - left) / wide < int(column) + 1, texts.get_text_bounded(x0, y0, x1, y1)
            assert (height - y0 - top) / tall < int(row) + 1


def test_it_is_tagged_and_the_same_each_time() -> None:
    first = trial_labels_pdf(CASES["few"], paper=PaperSize.A4, words=UK)
    assert first == trial_labels_pdf(CASES["few"], paper=PaperSize.A4, words=UK)
    document = pypdfium2.PdfDocument(first)
    assert pdfium.FPDFCatalog_IsTagged(document)
    assert document.get_metadata_dict()["Title"] == "Peat, 20 April 2026"
