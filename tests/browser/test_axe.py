"""Every page held against the rules of axe: names, order, landmarks, colours told apart.

The rules come with axe-core, which is fetched for the tests and never shipped; ``LOAMSHIFT_AXE``
names its file. All rules run on a desk in light. A phone lays out the same colours anew, and dark
lays out nothing anew: there the rules of the one and of the other are not asked again.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from browser.everywhere import SIGNED_IN_ONLY, addresses, in_use
from loamshift.store.models import User

pytestmark = pytest.mark.django_db(transaction=True)

AXE = os.environ.get("LOAMSHIFT_AXE", "")
RULES = """async (options) => {
  const found = await axe.run(document, options);
  return found.violations.map((one) => [one.id, one.help,
    one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160) + ' | ' +
      node.failureSummary.split('\\n')[1])]);
}"""
COLOURS = ("color-contrast", "link-in-text-block")
EVERY_RULE: dict[str, Any] = {}
LAYOUT = {"rules": {rule: {"enabled": False} for rule in COLOURS}}
ONLY_COLOURS = {"runOnly": {"type": "rule", "values": list(COLOURS)}}
LOOKS = ((1200, "light", EVERY_RULE), (390, "light", LAYOUT), (390, "dark", ONLY_COLOURS))
SLOW_MS = 60_000


@pytest.fixture
def page(browser: Any) -> Iterator[Any]:
    if not AXE or not Path(AXE).is_file():
        pytest.skip("LOAMSHIFT_AXE names no file of axe-core; tools/check fetches it with npm")
    context = browser.new_context(reduced_motion="reduce")
    context.set_default_timeout(SLOW_MS)
    context.add_init_script(path=AXE)
    made = context.new_page()
    yield made
    made.wait_for_load_state("networkidle")
    context.close()


def faults(page: Any, where: str) -> list[str]:
    """What the rules find on the page that is open, on a desk and a phone, light and dark."""
    found = []
    for width, scheme, options in LOOKS:
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=scheme)
        for rule, said, nodes in page.evaluate(RULES, options):
            found += [f"{where} {width} {scheme} {rule}: {said}: {node}" for node in nodes]
    return found


def test_the_rules_do_find_faults(page: Any) -> None:
    page.goto("about:blank")
    page.set_content("<input><p style='color: #aaa'>Pale</p>")
    rules = {rule for rule, _, _ in page.evaluate(RULES, EVERY_RULE)}
    assert {"label", "color-contrast", "html-has-lang"} <= rules


def test_no_page_breaks_a_rule(page: Any, live_server: Any) -> None:
    in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    found = []
    for many in addresses().values():
        for address in many:
            page.goto(live_server.url + address)
            page.evaluate(
                "document.querySelectorAll('details').forEach((one) => { one.open = true; })"
            )
            page.wait_for_load_state("networkidle")
            found += faults(page, address)
    assert not found, "\n".join(found)


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
