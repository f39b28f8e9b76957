"""Texts in pieces: a day keeps its month, a figure its unit."""

from __future__ import annotations

from datetime import date

import pytest

from loamshift.report import inline
from loamshift.report.inline import pieces
from loamshift.report.messages.book import languages
from loamshift.report.words import Words

DAY = date(2027, 3, 12)


@pytest.mark.parametrize("language", ["uk", *languages()])
def test_a_line_never_ends_between_a_day_and_its_month(language: str) -> None:
    words = Words(language)
    for month in range(1, 13):
        for said in (words.date(DAY.replace(month=month)), words.day(DAY.replace(month=month))):
            text = "".join(piece.text for piece in pieces(f"on {said} and later"))
            if said.startswith("12"):
                assert text.startswith(f"on 12\u00a0{words.month(month)}"), text


def test_the_months_of_a_new_language_are_known(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(inline, "languages", lambda: ("en", "de"))
    monkeypatch.setattr("loamshift.report.words.languages", lambda: ("en", "de"))
    assert {"März", "March", "Dezember"} <= inline.months_written()


def test_a_figure_keeps_its_unit_and_emphasis_parts_runs() -> None:
    run, bold = pieces("add **40 g/m²**")
    assert (run.text, bold.text, bold.bold) == ("add ", "40\u00a0g/m²", True)
