"""The page of a letter: the heading that decides, its sheets on A4, and the way to it by keys."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from datetime import date
from typing import Any

import pypdfium2
import pytest

from browser.everywhere import WALK_IN, addresses, in_use
from browser.traffic import settle
from loamshift.store.models import Bed, SentLetter

pytestmark = pytest.mark.django_db(transaction=True)

UNHURRIED_S = 0.5


def addresses_of_use() -> dict[str, tuple[str, ...]]:
    in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    return addresses()


@pytest.mark.parametrize(("name", "most"), [("plan", 7), ("bed", 7), ("letter", 7)])
def test_the_letter_is_printed_whole_on_few_sheets_of_a4(
    new_page: Callable[..., Any], live_server: Any, name: str, most: int
) -> None:
    """The working is folded on the screen and printed all the same, on sheets of its own."""
    page = new_page()
    (address,) = [one for one in addresses_of_use()[name] if name != "plan" or WALK_IN in one][:1]
    page.goto(live_server.url + address)
    settle(page)
    letter = page.locator("main article").first.text_content()
    printed = pypdfium2.PdfDocument(page.pdf(format="A4", prefer_css_page_size=True))
    sheets = [sheet.get_textpage().get_text_range() for sheet in printed]
    said = re.sub(r"\W+", "", "".join(sheets))
    for heading in page.locator("main article h2").all_text_contents():
        assert re.sub(r"\W+", "", heading) in said
    sources = re.findall(r"doi 10\.\S+|[A-Z][a-z]+ [A-Z]\.[A-Z]?\.?,", letter)
    assert sources
    assert [one for one in sources if re.sub(r"\W+", "", one) not in said] == []
    for screen in ("Save this bed", "Download:", "History", "Skip to content", "Target pH"):
        assert re.sub(r"\W+", "", screen) not in said
    for sheet in printed:
        ink = sheet.render(scale=0.5).to_pil().convert("L").point(lambda tone: tone < 200 and 255)
        left, top, right, bottom = ink.getbbox()
        assert left >= 15 and right <= 297.6 - 15 and top >= 15 and bottom <= 421 - 15
    assert len(printed) <= most


def test_a_walk_in_reaches_the_letter_by_keys_alone(
    new_page: Callable[..., Any], live_server: Any, record_property: Callable[[str, object], None]
) -> None:
    in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    page = new_page()
    page.goto(live_server.url)
    settle(page)
    began = time.monotonic()
    strokes = 0

    def press(key: str) -> None:
        nonlocal strokes
        page.keyboard.press(key)
        strokes += 1

    said = {"soil.ph": "7.3", "soil.texture": "loam", "place.name": "Minneapolis",
            "aim.plant": "blueberries"}  # fmt: skip
    while said:
        press("Tab")
        name = page.evaluate("document.activeElement.name")
        for letter in said.pop(name, ""):
            press(letter)
        assert strokes < 80, f"never came to {said}"
    press("Enter")
    page.wait_for_selector("#sections h2")
    took_s = time.monotonic() - began
    assert page.locator("#verdict").inner_text()
    page.wait_for_url("**soil.ph=7.3*", wait_until="commit")
    record_property("walk_in_keystrokes", strokes)
    record_property("walk_in_s", round(took_s, 2))
    assert strokes <= 60
    assert took_s + strokes * UNHURRIED_S < 60.0


def test_the_verdict_is_a_heading_of_the_bed_and_of_its_letter(
    new_page: Callable[..., Any], live_server: Any
) -> None:
    in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    page = new_page()
    page.goto(f"{live_server.url}/beds/{Bed.objects.get(name='Berry border').pk}")
    assert page.evaluate("document.getElementById('verdict').tagName") == "H2"
    page.goto(f"{live_server.url}/post/{SentLetter.objects.get().pk}")
    assert page.locator("article h2.lead").count() == 1
