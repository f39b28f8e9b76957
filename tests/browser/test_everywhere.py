"""Every page of a workbench in use, visited once and held to every rule that all pages share.

Names, order, landmarks and colours by the rules of axe; nothing over the edge on phones and desks;
headings in order; targets large enough; nothing complained of; every address reached. The rules
of axe come with axe-core, which is fetched for the tests and never shipped; ``LOAMSHIFT_AXE`` names
its file. All its rules run on a desk in light. A phone lays out the same colours anew, and dark
lays out nothing anew: there the rules of the one and of the other are not asked again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from itertools import pairwise
from typing import Any

import pytest

from browser.axe import (
    AXE,
    EVERY_RULE,
    HAS_AXE,
    LAYOUT,
    ONLY_COLOURS,
    broken_rules,
    needs_axe,
)
from browser.everywhere import NO_PAGES, SIGNED_IN_ONLY, addresses, in_use, named
from browser.traffic import settle

pytestmark = pytest.mark.django_db(transaction=True)
NewPage = Callable[..., Any]

REFUSED = {"not found"}
LEAST_PX = 24
DESK = (1200, 900)
TARGETS = (360, 740)
"""A narrow phone, where what is to press is measured [px]."""
PHONE = (390, 844)
LIGHT_PX = (DESK, (640, 450), (600, 450), PHONE, TARGETS, (320, 640))
DARK_PX = (PHONE, (600, 450), DESK)
"""Widths in the order of the visit; 640 is a desk at 200 % [px]."""
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
RULES_AT = {
    (DESK[0], "light"): EVERY_RULE,
    (PHONE[0], "light"): LAYOUT,
    (PHONE[0], "dark"): ONLY_COLOURS,
}
DRAWN_ANEW = "() => new Promise((done) => requestAnimationFrame(() => setTimeout(done)))"
OPEN_ALL = "document.querySelectorAll('details').forEach((one) => { one.open = true; })"
LEVELS = """() => [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')]
  .filter((one) => one.getClientRects().length).map((one) => Number(one.tagName[1]))"""
SMALL = """(least) => {
  const inText = (one) => one.matches('a') && getComputedStyle(one).display === 'inline' &&
    [...one.parentElement.childNodes].some((near) =>
      near.nodeType === 3 && /[\\p{L}\\d]/u.test(near.textContent));
  return [...document.querySelectorAll('main :is(a[href], button, input, select, summary)')]
    .filter((one) => one.type !== 'hidden' && !one.closest('.unseen, [hidden]') &&
      !one.matches('.unseen') && one.getClientRects().length && !inText(one))
    .map((one) => [one, one.getBoundingClientRect()])
    .filter(([, box]) => box.width < least || box.height < least)
    .map(([one, box]) => `${one.outerHTML.slice(0, 90)} ${box.width} x ${box.height}`);
}"""
TWICE = """() => { const all = [...document.querySelectorAll('[id]')].map((one) => one.id);
  return all.filter((one, at) => all.indexOf(one) < at); }"""
NAMELESS = """() => [...document.querySelectorAll('input:not([type=hidden]), select, textarea')]
  .filter((one) => !one.labels.length && !one.ariaLabel).map((one) => one.outerHTML.slice(0, 90))"""
PALE = """() => {
  const light = c => { const v = c.match(/[\\d.]+/g).slice(0, 3).map(x => x / 255)
    .map(x => x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4);
    return 0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2]; };
  const paper = light(getComputedStyle(document.documentElement).backgroundColor);
  const low = new Set();
  for (const one of document.querySelectorAll('main p, main li, main td, main th, main a, ' +
      'main span, main h1, main h2')) {
    if (!one.textContent.trim() || one.closest('button, .button, svg')) continue;
    const ink = light(getComputedStyle(one).color);
    const ratio = (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
    if (ratio < 4.5) low.add(one.tagName + ' ' + one.className + ' ' + ratio.toFixed(2));
  }
  return [...low];
}"""


@dataclass
class Seen:
    """What was wrong on the pages, by the claim that it goes against."""

    axe: list[str] = field(default_factory=list)
    over: list[str] = field(default_factory=list)
    gaps: list[str] = field(default_factory=list)
    titles: list[str] = field(default_factory=list)
    small: list[str] = field(default_factory=list)
    twice: list[str] = field(default_factory=list)
    nameless: list[str] = field(default_factory=list)
    pale: list[str] = field(default_factory=list)
    visited: list[str] = field(default_factory=list)


_SEEN: list[Seen] = []
"""The one visit of this run; whichever test comes first makes it."""


@pytest.fixture
def seen(new_page: NewPage, live_server: Any) -> Seen:
    if not _SEEN:
        in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
        found = Seen()
        pages = {lost: new_page(lost=lost, reduced_motion="reduce") for lost in (False, True)}
        for page in pages.values() if HAS_AXE else ():
            page.context.add_init_script(path=AXE)
        for name, many in addresses().items():
            for address in many:
                page = pages[name in REFUSED]
                page.set_viewport_size({"width": DESK[0], "height": DESK[1]})
                page.emulate_media(color_scheme="light")
                page.goto(live_server.url + address)
                page.evaluate(OPEN_ALL)
                settle(page)
                look(page, address, found)
        _SEEN.append(found)
    return _SEEN[0]


def look(page: Any, address: str, found: Seen) -> None:
    """Hold the page that is open to every rule, on desks and phones, in light and dark."""
    levels = [0, *page.evaluate(LEVELS)]
    found.gaps += [f"{address} {levels}" for a, b in pairwise(levels) if a + 1 < b]
    found.titles += [address] if levels.count(1) != 1 else []
    found.twice += [f"{address} {one}" for one in page.evaluate(TWICE)]
    found.nameless += [f"{address} {one}" for one in page.evaluate(NAMELESS)]
    for scheme, sizes in (("light", LIGHT_PX), ("dark", DARK_PX)):
        page.emulate_media(color_scheme=scheme)
        for width, height in sizes:
            page.set_viewport_size({"width": width, "height": height})
            page.evaluate(DRAWN_ANEW)
            where = f"{address} {width} {scheme}"
            wide = page.evaluate(SIDEWAYS)
            found.over += [f"{where}: {wide} px"] if wide > 0 else []
            if (width, height) == TARGETS:
                found.small += [f"{where} {one}" for one in page.evaluate(SMALL, LEAST_PX)]
            rules = RULES_AT.get((width, scheme))
            if rules is not None and HAS_AXE:
                found.axe += [f"{where} {one}" for one in broken_rules(page, rules)]
        found.pale += [f"{where} {one}" for one in page.evaluate(PALE)]
    found.visited.append(address)


def test_every_named_address_is_tried_or_is_no_page() -> None:
    in_use(date.today())  # noqa: DTZ011 - the local day, as the views take it
    assert named() >= NO_PAGES | SIGNED_IN_ONLY
    assert named() - NO_PAGES - SIGNED_IN_ONLY == set(addresses()) - REFUSED


FAULTY = """<!doctype html><html lang="en"><title>Faulty</title><main><h1>One</h1><h3>Three</h3>
  <p style="color: #ddd">Pale</p><input><button id="a" style="width: 9px">x</button>
  <p id="a" style="width: 2000px">Wide</p></main></html>"""


def test_the_visit_does_find_faults(new_page: NewPage) -> None:
    page = new_page()
    if HAS_AXE:
        page.context.add_init_script(path=AXE)
        page.goto("about:blank")
    page.set_content(FAULTY)
    found = Seen()
    look(page, "faulty", found)
    for claim in ("over", "gaps", "small", "twice", "nameless", "pale"):
        assert getattr(found, claim), claim
    assert found.axe or not HAS_AXE
    assert not found.titles
    page.set_content("<main><h1>One</h1><h1>Another</h1></main>")
    look(page, "two titles", found)
    assert found.titles == ["two titles"]


@needs_axe
def test_no_page_breaks_a_rule_of_axe(seen: Seen) -> None:
    assert len(seen.visited) > 50
    assert not seen.axe, "\n".join(seen.axe)


def test_no_page_hangs_over_the_edge(seen: Seen) -> None:
    assert not seen.over, "\n".join(seen.over)


def test_headings_leave_no_gap_and_the_title_is_one(seen: Seen) -> None:
    assert not seen.gaps, "\n".join(seen.gaps)
    assert not seen.titles, "\n".join(seen.titles)


def test_everything_to_press_is_large_enough(seen: Seen) -> None:
    assert not seen.small, "\n".join(seen.small)


def test_no_name_stands_twice_and_every_field_has_one(seen: Seen) -> None:
    assert not seen.twice, "\n".join(seen.twice)
    assert not seen.nameless, "\n".join(seen.nameless)


def test_words_are_told_from_paper_in_both_lights(seen: Seen) -> None:
    assert not seen.pale, "\n".join(seen.pale)
