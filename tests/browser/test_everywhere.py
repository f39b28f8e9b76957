"""Every page of a workbench in use: nothing over the edge, nothing complained of, all reached."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from datetime import date
from typing import Any

import pypdfium2
import pytest

from browser.everywhere import NO_PAGES, SIGNED_IN_ONLY, WALK_IN, addresses, in_use, named

pytestmark = pytest.mark.django_db(transaction=True)

SIDEWAYS = "document.documentElement.scrollWidth - window.innerWidth"
DRAWN_ANEW = "() => new Promise((done) => requestAnimationFrame(() => setTimeout(done)))"
OPEN_ALL = "document.querySelectorAll('details').forEach((one) => { one.open = true; })"
WIDTHS_PX = {"phone": (390, 844), "small phone": (320, 640), "desk at 200 %": (640, 450)}
REFUSED = {"not found"}
SLOW_MS = 60_000
UNHURRIED_S = 0.5


def test_every_named_address_is_tried_or_is_no_page() -> None:
    tried = set(addresses_of_use())
    assert named() >= NO_PAGES | SIGNED_IN_ONLY
    assert named() - NO_PAGES - SIGNED_IN_ONLY == tried - REFUSED


def test_no_page_hangs_over_the_edge(new_page: Callable[..., Any], live_server: Any) -> None:
    page = new_page()
    page.set_default_timeout(SLOW_MS)
    over = {}
    for key, many in addresses_of_use().items():
        for address in many if key not in REFUSED else ():
            page.goto(live_server.url + address)
            page.evaluate(OPEN_ALL)
            for name, (width, height) in WIDTHS_PX.items():
                page.set_viewport_size({"width": width, "height": height})
                page.evaluate(DRAWN_ANEW)
                wide = page.evaluate(SIDEWAYS)
                if wide > 0:
                    over[address, name] = wide
    assert not over


def addresses_of_use() -> dict[str, tuple[str, ...]]:
    in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    return addresses()


@pytest.mark.parametrize(("name", "most"), [("plan", 7), ("bed", 7), ("letter", 7)])
def test_the_letter_is_printed_whole_on_few_sheets_of_a4(
    new_page: Callable[..., Any], live_server: Any, name: str, most: int
) -> None:
    """The working is folded on the screen and printed all the same, on sheets of its own."""
    page = new_page()
    page.set_default_timeout(SLOW_MS)
    (address,) = [one for one in addresses_of_use()[name] if name != "plan" or WALK_IN in one][:1]
    page.goto(live_server.url + address)
    page.wait_for_load_state("networkidle")
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
    page.set_default_timeout(SLOW_MS)
    page.goto(live_server.url)
    page.wait_for_load_state("networkidle")
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
    assert "soil.ph=7.3" in page.url
    record_property("walk_in_keystrokes", strokes)
    record_property("walk_in_s", round(took_s, 2))
    assert strokes <= 60
    assert took_s + strokes * UNHURRIED_S < 60.0
