"""The page in a real browser: no requests, no errors, no sideways scroll, and it prints."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
import pytest

from loamshift.report.html import letter_html
from loamshift.report.letter import letter_from_answer
from report.examples import with_forecast
from report.letters import HOSTILE, UK, every_block

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("page") / "letter.html"
    letter = letter_from_answer(*with_forecast("north-border"), words=UK)
    path.write_text(letter_html(letter, words=UK), encoding="utf-8")
    return path


class Watched:
    """A page whose errors and requests are kept."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.troubles: list[str] = []
        self.asked: list[str] = []
        page.on("console", lambda message: self.troubles.append(message.text))
        page.on("pageerror", lambda error: self.troubles.append(str(error)))
        page.on("request", lambda request: self.asked.append(request.url))

    def go(self, file: Path) -> Page:
        self.page.goto(file.as_uri())
        return self.page

    def is_clean(self) -> bool:
        outside = [url for url in self.asked if not url.startswith(("file:", "data:"))]
        return self.troubles == [] and outside == []


def opened(page: Page) -> None:
    """Open what is folded, as a reader does."""
    for summary in page.locator("details > summary:visible").all():
        summary.click()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_needs_no_script_and_asks_nobody(
    browser: Browser, file: Path, scheme: str
) -> None:
    context = browser.new_context(color_scheme=scheme, java_script_enabled=False)
    watched = Watched(context.new_page())
    page = watched.go(file)
    opened(page)
    figures = page.locator("figure").count()
    assert figures >= 4
    wide = page.locator("figure .pic-wide .chart")
    assert wide.count() >= 2 and page.locator("figure .pic-phone .chart:visible").count() == 0
    assert page.locator("figure .picture > div:visible").count() == figures
    assert watched.is_clean(), (watched.troubles, watched.asked)
    context.close()


COLOURS = """() => [...document.querySelectorAll('.chart')].map((one) =>
  getComputedStyle(one).getPropertyValue('--p-ink').trim())"""


@pytest.mark.parametrize(
    ("media", "scheme", "ink"),
    [("screen", "light", "#22201c"), ("screen", "dark", "#ede7db"), ("print", "dark", "#000000")],
)
def test_one_picture_has_the_colours_of_where_it_is_seen(
    browser: Browser, file: Path, media: str, scheme: str, ink: str
) -> None:
    context = browser.new_context(color_scheme=scheme)
    page = Watched(context.new_page()).go(file)
    page.emulate_media(media=media, color_scheme=scheme)
    assert set(page.evaluate(COLOURS)) == {ink}
    context.close()


SMALLEST = """() => Math.min(...[...document.querySelectorAll('.chart text')].map((text) => {
  const box = text.ownerSVGElement.getBoundingClientRect();
  if (!box.width) return Infinity;
  const scale = box.width / text.ownerSVGElement.viewBox.baseVal.width;
  return scale * parseFloat(getComputedStyle(text).fontSize);
}))"""


@pytest.mark.parametrize("width", [360, 390, 600, 800, 1400])
def test_no_word_in_a_picture_is_too_small_to_read(
    browser: Browser, file: Path, width: int
) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800})
    page = Watched(context.new_page()).go(file)
    assert 11.8 <= page.evaluate(SMALLEST) < 17.0
    context.close()


def test_no_word_in_a_printed_picture_is_below_nine_points(browser: Browser, file: Path) -> None:
    context = browser.new_context(viewport={"width": 672, "height": 900})  # 178 mm of A4
    page = Watched(context.new_page()).go(file)
    page.emulate_media(media="print")
    assert page.evaluate(SMALLEST) >= 12.0  # CSS has 96 px to the inch: 9 pt
    context.close()


@pytest.mark.parametrize("width", [390, 600, 800, 1000, 1400])
def test_nothing_needs_a_scroll_sideways(browser: Browser, file: Path, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800})
    page = Watched(context.new_page()).go(file)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    context.close()


def test_a_phone_gets_a_picture_drawn_for_it(browser: Browser, file: Path) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 800})
    page = Watched(context.new_page()).go(file)
    opened(page)
    figures = page.locator("figure").count()
    assert page.locator("figure .pic-phone .chart").count() >= 2
    assert page.locator("figure .pic-wide .chart:visible").count() == 0
    assert page.locator("figure .picture > div:visible").count() == figures
    context.close()


def test_it_prints(browser: Browser, file: Path) -> None:
    context = browser.new_context()
    watched = Watched(context.new_page())
    pdf = pypdfium2.PdfDocument(watched.go(file).pdf(format="A4", prefer_css_page_size=True))
    said = "".join(pdf[i].get_textpage().get_text_range() for i in range(len(pdf)))
    assert "North border" in said and "Precautions" in said and f"1 of {len(pdf)}" in said
    assert len(pdf) <= 6
    context.close()


def test_hostile_text_runs_nothing(browser: Browser, tmp_path: Path) -> None:
    file = tmp_path / "letter.html"
    file.write_text(letter_html(every_block(HOSTILE), words=UK), encoding="utf-8")
    context = browser.new_context()
    watched = Watched(context.new_page())
    opened: list[str] = []
    watched.page.on("dialog", lambda dialog: opened.append(dialog.message))
    watched.go(file)
    assert opened == [] and watched.is_clean(), (watched.troubles, watched.asked)
    context.close()
