"""A letter sent by few keys, and pages that hold a long name of two directions."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any
from urllib.parse import urlencode

import pytest

from browser.everywhere import in_use
from browser.traffic import settle
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, SentLetter
from loamshift.web.beds.keeping import put_case

pytestmark = pytest.mark.django_db(transaction=True)
NewPage = Callable[..., Any]

WIDTH = "document.documentElement.scrollWidth"
NAME = "שלום 🌱 " + "W" * 112


def test_a_letter_is_marked_as_sent_by_few_keys(new_page: NewPage, live_server: Any) -> None:
    in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    bed = Bed.objects.get(name="Berry border")
    page = new_page()
    page.goto(f"{live_server.url}/beds/{bed.pk}")
    stops = 0
    for wanted in ("#acts", None):
        while True:
            page.keyboard.press("Tab")
            stops += 1
            assert stops <= 10
            on = page.evaluate("document.activeElement.getAttribute('href')")
            text = page.evaluate("document.activeElement.textContent.trim()")
            seen = page.evaluate(
                "parseFloat(getComputedStyle(document.activeElement).outlineWidth) >= 2 &&"
                " document.activeElement.getBoundingClientRect().left >= 0"
            )
            assert seen, text
            if (wanted is None and text == "Mark as sent") or (wanted and on == wanted):
                break
        if wanted:
            page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    page.wait_for_url("**/post/**")
    assert SentLetter.objects.filter(bed=bed).count() == 1


def test_a_long_name_of_two_directions_holds_everywhere(
    new_page: NewPage, live_server: Any
) -> None:
    office = in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    writer = Writer(office, what="Renamed them")
    for kind in (Client, Garden):
        one = kind.objects.get()
        one.name = NAME
        writer.change(one, seen_version=one.version)
    bed = Bed.objects.get(name="Kitchen plot")
    text = bed.case_text.replace('"Kitchen plot"', f'"{NAME}"')
    put_case(bed, text, today=date.today())  # noqa: DTZ011
    writer.change(bed, seen_version=bed.version)
    letter = SentLetter.objects.get()
    letter.title = NAME
    writer.change(letter, seen_version=letter.version)
    page = new_page(width=390, height=844)
    garden, client = Garden.objects.get(), Client.objects.get()
    over: dict[str, int] = {}
    bare: dict[str, list[str]] = {}
    for address in (
        "/", "/beds/", f"/beds/{bed.pk}", f"/beds/{bed.pk}/edit", f"/beds/{bed.pk}/history",
        f"/gardens/{garden.pk}", f"/gardens/{garden.pk}/edit", f"/clients/{client.pk}",
        "/post/", "/post/?show=sent", f"/post/{letter.pk}", f"/post/{letter.pk}/today",
        "/changes/", "/settings/data", f"/shelf/?bed={bed.pk}",
        f"/claims/?{urlencode({'bed': bed.pk})}",
    ):  # fmt: skip
        page.goto(live_server.url + address)
        settle(page)
        wide = page.evaluate(WIDTH)
        if wide > 390:
            over[address] = wide
        loose = page.evaluate(
            """(name) => [...document.querySelectorAll('main *')].filter((one) =>
              [...one.childNodes].some((near) => near.nodeType === 3 &&
                near.textContent.replace(/\\u2068[^\\u2069]*\\u2069/g, '').includes(name)) &&
              !one.closest('bdi, [dir=auto], svg, textarea, .across td'))
              .map((one) => one.outerHTML.slice(0, 80))""",
            NAME[:5],
        )
        if loose:
            bare[address] = loose
    assert not over
    assert not bare
    card = page.request.get(f"{live_server.url}/beds/{bed.pk}/sheets/card.pdf")
    assert card.ok and card.body().startswith(b"%PDF")
