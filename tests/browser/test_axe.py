"""The rules of axe find faults where there are some, and none on the pages of an office."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from browser.axe import AXE, EVERY_RULE, LAYOUT, ONLY_COLOURS, RULES, broken_rules, needs_axe
from browser.everywhere import SIGNED_IN_ONLY, in_use
from browser.traffic import SLOW_MS, settle, watch
from loamshift.store.models import User

pytestmark = [pytest.mark.django_db(transaction=True), needs_axe]

LOOKS = ((1200, "light", EVERY_RULE), (390, "light", LAYOUT), (390, "dark", ONLY_COLOURS))


@pytest.fixture
def page(browser: Any) -> Iterator[Any]:
    context = browser.new_context(reduced_motion="reduce")
    watch(context)
    context.set_default_timeout(SLOW_MS)
    context.add_init_script(path=AXE)
    made = context.new_page()
    yield made
    settle(made)
    context.close()


def faults(page: Any, where: str) -> list[str]:
    """What the rules find on the page that is open, on a desk and a phone, light and dark."""
    found = []
    for width, scheme, options in LOOKS:
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=scheme)
        found += [f"{where} {width} {scheme} {one}" for one in broken_rules(page, options)]
    return found


def test_the_rules_do_find_faults(page: Any) -> None:
    page.goto("about:blank")
    page.set_content("<input><p style='color: #aaa'>Pale</p>")
    rules = {rule for rule, _, _ in page.evaluate(RULES, EVERY_RULE)}
    assert {"label", "color-contrast", "html-has-lang"} <= rules


def test_no_page_of_an_office_breaks_a_rule(page: Any, live_server: Any, settings: Any) -> None:
    settings.OFFICE_MODE = True
    office = in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    user = User.objects.create_user("ada", password="a long word of many")
    user.office, user.role = office, "adviser"
    user.save()
    found = []
    page.goto(f"{live_server.url}/account/sign-in")
    found += faults(page, "sign-in")
    page.fill("[name=name]", "ada")
    page.fill("[name=password]", "wrong")
    page.keyboard.press("Enter")
    page.wait_for_selector(".fault, [role=alert]")
    found += faults(page, "sign-in, wrong")
    page.fill("[name=password]", "a long word of many")
    page.keyboard.press("Enter")
    page.wait_for_selector("nav")
    for address in ("/account/", "/account/password", "/"):
        answer = page.goto(live_server.url + address)
        assert answer.status == 200 or address == "/account/password"
        if answer.status == 200:
            found += faults(page, address)
    assert SIGNED_IN_ONLY
    assert not found, "\n".join(found)
