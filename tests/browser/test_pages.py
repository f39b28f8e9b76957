"""Products, letters, claims, settings, first steps in Chromium: desk, phone, dark, print, keys.

The fixture fails on any message of the console and on any request to another host.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any
from urllib.parse import urlencode
from uuid import UUID

import pypdfium2
import pytest

from browser.everywhere import LONG
from browser.traffic import SLOW_MS, settle
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office, Product, SentLetter
from loamshift.web.letters.sending import letter_to_send
from loamshift.web.prepare import add_samples

expect = pytest.importorskip("playwright.sync_api").expect
pytestmark = pytest.mark.django_db(transaction=True)

NewPage = Callable[..., Any]
CLAIMS = urlencode(
    {
        "claim.0.material": "wood ash",
        "claim.0.amount": "100 g/m2",
        "claim.1.material": "pelletised limestone",
        "claim.1.amount": "200 g/m2",
        "soil.texture": "sandy loam",
        "soil.ph": "5.4",
        "aim.target_ph": "6.5",
    }
)


@pytest.fixture
def office() -> Office:
    made = Office.objects.create(pk=UUID(int=1), name="Ours")
    add_samples(made)
    writer = Writer(made, what="Put up products")
    for name, material, pack, price in (
        (LONG, "elemental sulfur, prills", "25 kg", 31.5),
        ("Yellow dust", "elemental sulfur, powder", "1 kg", 6.2),
        ("Pale bag", "ground limestone, calcitic", "20 kg", 5.4),
    ):
        writer.add(
            Product(name=name, material=material, pack=pack, price=price, currency="GBP", note="n")
        )
    return made


@pytest.fixture
def letter(office: Office) -> SentLetter:
    bed = Bed.objects.get(name="Kitchen plot")
    made = letter_to_send(bed, office=office, today=date.today())  # noqa: DTZ011 - the local day
    Writer(office, what="Sent it").add(made)
    return made


def opened(new_page: NewPage, live_server: Any, where: str, **more: Any) -> Any:
    page = new_page(**more)
    page.set_default_timeout(SLOW_MS)
    page.goto(live_server.url + where)
    return page


def test_a_product_is_put_up_ranked_taken_away_and_back_by_keys_alone(
    new_page: NewPage, live_server: Any, office: Office
) -> None:
    page = opened(new_page, live_server, "/shelf/new")
    page.locator("#p-name").focus()
    for text in ("Green bag", "flowers of sulphur", "99", "5 kg", "9.50", "GBP"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
        if text == "99":
            page.keyboard.press("Tab")  # past the analysis of the bag, which stays closed
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector("text=Green bag added to products.")
    page.select_option("select[name=bed]", label="Berry border, Example client (example)")
    page.click("#for-bed + form button")
    expect(page.locator(".letter table tbody th").first).to_contain_text("Green bag")
    page.click(".products >> text=Green bag")
    page.click("text=Delete product")
    page.wait_for_selector("text=Green bag deleted from products.")
    page.click("text=Undo")
    page.wait_for_selector(".products >> text=Green bag")


def test_a_letter_is_sent_and_taken_along(
    new_page: NewPage, live_server: Any, office: Office
) -> None:
    page = opened(new_page, live_server, "/post/", accept_downloads=True)
    page.click("button[aria-label*='Berry border']")
    page.wait_for_selector("article.sent h2")
    verdict = page.locator("article.sent .lead").inner_text()
    with page.expect_download() as waiting:
        page.click("text=PDF")
    assert waiting.value.suggested_filename.endswith(".pdf")
    page.click("text=Compare with today")
    page.wait_for_selector("text=Nothing differs.")
    page.click("text=The letter as it was sent")
    page.wait_for_url(lambda at: not at.partition("/post/")[2].count("/"))
    assert page.locator("article.sent .lead").inner_text() == verdict


def test_a_claim_is_settled_from_the_form(
    new_page: NewPage, live_server: Any, office: Office
) -> None:
    page = opened(new_page, live_server, "/claims/", width=390, height=800)
    page.fill("[name='claim.0.material']", "coffee grounds")
    page.fill("[name='claim.0.amount']", "1 kg/m2")
    page.fill("[name='soil.texture']", "loam")
    page.fill("[name='soil.ph']", "7.2")
    page.fill("[name='aim.target_ph']", "5.5")
    page.keyboard.press("Enter")
    page.wait_for_selector("article .lead")
    assert "coffee grounds" in page.locator("article .lead").inner_text()
    assert page.locator("figure.claims svg:visible").count() == 1
    page.go_back()
    assert page.locator("article").count() == 0


def test_the_first_steps_and_without_a_script(
    new_page: NewPage, live_server: Any, office: Office
) -> None:
    page = opened(new_page, live_server, "/", java_script_enabled=False)
    for number in (2, 3, 4):
        page.click(".tour >> text=Next")
        page.wait_for_url(f"**tour={number}*", wait_until="commit")
    page.click(".tour >> text=Finish")
    expect(page.locator(".tour")).to_have_count(0)
    page.goto(live_server.url + f"/claims/?{CLAIMS}")
    assert page.locator("article .lead").count() == 1


def test_claims_and_letters_print_without_what_is_for_the_screen(
    new_page: NewPage, live_server: Any, letter: SentLetter, tmp_path: Path
) -> None:
    page = opened(new_page, live_server, f"/claims/?{CLAIMS}")
    for address, most in ((f"/claims/?{CLAIMS}", 2), (f"/post/{letter.pk}", 5)):
        page.goto(live_server.url + address)
        path = tmp_path / "page.pdf"
        page.pdf(path=str(path), format="A4", prefer_css_page_size=True)
        printed = pypdfium2.PdfDocument(path)
        text = "\n".join(sheet.get_textpage().get_text_range() for sheet in printed)
        assert len(printed) <= most
        assert "Precautions" in text
        for screen in ("Check it", "Save note", "Compare with today", "Delete letter"):
            assert screen not in text


def test_a_note_stands_while_a_pdf_is_set(
    new_page: NewPage, live_server: Any, letter: SentLetter
) -> None:
    page = new_page(accept_downloads=True)
    page.goto(f"{live_server.url}/post/{letter.pk}")
    note = page.locator("#waiting")
    assert note.get_attribute("role") == "status" and note.is_hidden()
    seen: list[str] = []

    def slowly(route: Any) -> None:
        page.wait_for_selector("#waiting:not(:empty)")
        seen.append(note.inner_text())
        route.continue_()

    page.route("**/letter.pdf", slowly)
    with page.expect_download(timeout=SLOW_MS) as found:
        page.get_by_role("link", name="PDF", exact=True).click()
    page.wait_for_selector("#waiting:empty", state="attached", timeout=SLOW_MS)
    assert len(seen) == 1 and seen[0].startswith("Setting the letter")
    assert found.value.suggested_filename == f"kitchen-plot-{letter.sent_on}.pdf"
    assert Path(found.value.path()).read_bytes().startswith(b"%PDF")
    assert page.url == f"{live_server.url}/post/{letter.pk}"


def test_without_a_script_the_link_gives_the_pdf(
    new_page: NewPage, live_server: Any, letter: SentLetter
) -> None:
    page = new_page(accept_downloads=True, java_script_enabled=False)
    page.goto(f"{live_server.url}/post/{letter.pk}")
    with page.expect_download(timeout=SLOW_MS) as found:
        page.get_by_role("link", name="PDF", exact=True).click()
    assert found.value.suggested_filename == f"kitchen-plot-{letter.sent_on}.pdf"


def test_where_there_is_no_pdf_the_page_that_says_why_is_shown(
    new_page: NewPage, live_server: Any, letter: SentLetter
) -> None:
    SentLetter.objects.filter(pk=letter.pk).update(answer_text="{}")
    page = new_page()
    page.goto(f"{live_server.url}/post/{letter.pk}")
    page.evaluate(
        "document.querySelector('main').insertAdjacentHTML('beforeend',"
        " `<a id=gone href='${location.pathname}/letter.pdf'>PDF</a>`)"
    )
    page.click("#gone")
    settle(page)
    page.wait_for_selector(".told", timeout=SLOW_MS)
    assert page.url == f"{live_server.url}/post/{letter.pk}"
    assert page.locator("#waiting").is_hidden()
