from __future__ import annotations

import pytest

from loamshift.domain.answer import ClaimResult
from loamshift.domain.letter import Items, Paragraph, Table
from loamshift.report.claim import claim_letter
from loamshift.report.letter_claims import reading_words, tells_the_ph
from loamshift.report.words import Words

UK = Words(spelling="uk", units="metric")
US = Words(spelling="us", units="us")


def claim(comment: str = "It limes.", **more: float | None) -> ClaimResult:
    figures: dict[str, float | None] = {"ph_change_now": 0.1, "ph_change_1_year": 0.4} | more
    return ClaimResult(
        material="wood ash",
        acid_brought_mmolc_m2=-2700.0,
        acid_needed_mmolc_m2=12500.0,
        share=-0.2,
        comment=comment,
        ph_change_now=figures["ph_change_now"],
        ph_change_1_year=figures["ph_change_1_year"],
    )


def page(found: ClaimResult, *notes: str, words: Words = UK) -> list[object]:
    letter = claim_letter(found, rate_g_m2=300.0, notes=notes, words=words)
    return list(letter.sections[0].blocks)


def test_a_page_says_the_answer_then_two_bars_then_the_reading() -> None:
    paragraph, bars, items = page(claim(), "Weigh it.")
    assert paragraph == Paragraph("It limes.")
    assert isinstance(bars, Table) and "base" in bars.rows[0][1] and "acid" in bars.rows[1][1]
    assert isinstance(items, Items) and items.items == (
        "The pH would rise by about 0.1 at once and by about 0.4 after a year.",
        "Weigh it.",
    )


def test_what_the_comment_tells_is_not_told_twice() -> None:
    blocks = page(claim("It limes. The pH would rise by about 0.4."))
    assert len(blocks) == 2


def test_a_page_has_the_spelling_and_units_of_its_reader() -> None:
    letter = claim_letter(claim("Sulphate, 300 g/m²."), rate_g_m2=300.0, notes=(), words=US)
    assert "lb/100 ft²" in letter.subtitle and "g/m²" in letter.subtitle
    blocks = letter.sections[0].blocks
    assert isinstance(blocks[0], Paragraph) and "Sulfate" in blocks[0].text


@pytest.mark.parametrize(
    ("comment", "tells"),
    [
        ("The pH would fall by about 0.3.", True),
        ("Soil life burns this acid off: the pH dips by about 0.2.", True),
        ("It feeds iron to the leaves and leaves the pH where it is.", True),
        ("Close to neutral, no use for lowering a pH.", False),
        ("It can take the soil no lower than its own pH.", False),
    ],
)
def test_whether_a_comment_tells_what_the_ph_does(comment: str, tells: bool) -> None:
    assert tells_the_ph(comment) is tells


def test_where_nothing_is_known_nothing_is_said() -> None:
    assert reading_words(claim(ph_change_now=None, ph_change_1_year=None)) == ""
    assert len(page(claim(ph_change_now=None, ph_change_1_year=None))) == 2
