from __future__ import annotations

import pytest

from loamshift.domain.answer import ClaimResult
from loamshift.domain.letter import Items, Paragraph, Table
from loamshift.domain.message import Worded, message, ph, prose
from loamshift.report.claim import claim_letter
from loamshift.report.letter_claims import reading_words, tells_the_ph
from loamshift.report.words import Words
from report.answers import ALL

UK = Words(spelling="uk", units="metric")
US = Words(spelling="us", units="us")


LIMES = prose(message("claim-neither"))
TELLS = prose(message("claim-neither"), message("claim-year-still"))
_, CASE = ALL["leave"]()


def claim(comment: Worded = LIMES, **more: float | None) -> ClaimResult:
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
    letter = claim_letter(found, CASE, rate_g_m2=300.0, notes=notes, words=words)
    return list(letter.sections[0].blocks)


def test_a_page_says_the_answer_then_two_bars_then_the_reading() -> None:
    paragraph, bars, items = page(claim(), "Weigh it.")
    assert paragraph == Paragraph("This neither acidifies nor limes.")
    assert isinstance(bars, Table)
    assert bars.rows[0][1] == "135 g/m² of limestone" and bars.rows[1][1] == "200 g/m² of sulphur"
    assert [row[2].count("█") for row in bars.rows] == [6, 30]
    assert isinstance(items, Items) and items.items == (
        "At once the pH would rise by about 0.1. After a year the pH would be about 0.4 higher "
        "than without it.",
        "Weigh it.",
    )


def test_what_the_comment_tells_is_not_told_twice() -> None:
    blocks = page(claim(TELLS))
    assert len(blocks) == 2


def test_a_page_has_the_spelling_and_units_of_its_reader() -> None:
    letter = claim_letter(claim(), CASE, rate_g_m2=300.0, notes=(), words=US)
    assert letter.subtitle == "6.1 lb/100 sq ft (300 g/m²)"
    bars = letter.sections[0].blocks[1]
    assert isinstance(bars, Table) and bars.rows[1][1] == "4.1 lb/100 sq ft of sulfur"


@pytest.mark.parametrize(
    ("comment", "tells"),
    [
        (TELLS, True),
        (prose(message("claim-dips", fall=ph(0.2))), True),
        (message("claim-iron"), True),
        (prose(message("material-coffee-grounds-spent-comment")), False),
        (prose(message("claim-peat-lime")), False),
        ("The pH would fall by about 0.3.", True),
        ("It can take the soil no lower than its own pH.", False),
    ],
)
def test_whether_a_comment_tells_what_the_ph_does(comment: Worded, tells: bool) -> None:
    assert tells_the_ph(comment) is tells


def test_where_nothing_is_known_nothing_is_said() -> None:
    assert not reading_words(claim(ph_change_now=None, ph_change_1_year=None))
    assert len(page(claim(ph_change_now=None, ph_change_1_year=None))) == 2
