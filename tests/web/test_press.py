"""Letters and cards as a page hands them out."""

from __future__ import annotations

from typing import Any

import pytest

from loamshift.report.card.pdf import card_pdf
from loamshift.report.pdf import PaperSize, letter_pdf
from loamshift.web.letters.press import press
from report.cards import bed_cards
from report.letters import example_letters

pytestmark = pytest.mark.drawn


def test_a_letter_is_the_one_of_the_command_line() -> None:
    letter, words = example_letters()["bean-rows"]
    made = press(letter, paper=PaperSize.A4, words=words)
    assert made == letter_pdf(letter, paper=PaperSize.A4, words=words)


def test_a_card_is_set_as_a_card() -> None:
    card, words = next(iter(bed_cards().values()))
    made: Any = press(card, paper=PaperSize.LETTER, words=words)
    assert made == card_pdf(card, paper=PaperSize.LETTER, words=words)
