"""Cards in a real browser: no sideways scroll on a phone, no requests, and one printed sheet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
import pytest

from loamshift.report.card.html import card_html
from loamshift.report.pdf import PaperSize
from report.cards import every_card

if TYPE_CHECKING:
    from playwright.sync_api import Browser

SOME = (
    "bed north-border ahead",
    "bed overdone-bed ahead",
    "bed many parts",
    "rescue overdone-bed",
    "claim elemental sulfur, powder metric",
    "sample ground 20.0 1 us",
    "water 180 None us",
)


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("paper", list(PaperSize))
def test_it_fits_the_phone_and_prints_on_one_sheet(
    name: str, paper: PaperSize, browser: Browser, tmp_path: Path
) -> None:
    card, words = every_card()[name]
    file = tmp_path / "card.html"
    file.write_text(card_html(card, paper=paper, words=words), encoding="utf-8")
    page = browser.new_page(viewport={"width": 390, "height": 844})
    troubles: list[str] = []
    asked: list[str] = []
    page.on("console", lambda message: troubles.append(message.text))
    page.on("request", lambda request: asked.append(request.url))
    page.goto(file.as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    printed = pypdfium2.PdfDocument(page.pdf(prefer_css_page_size=True))
    assert len(printed) == 1
    width = printed[0].get_size()[0] / 72.0 * 25.4
    assert width == pytest.approx(210.0 if paper is PaperSize.A4 else 215.9, abs=0.5)
    assert troubles == [] and asked == [file.as_uri()]
    page.close()
