from __future__ import annotations

import re

import pytest
from django.test import Client as Browser
from pypdfium2 import PdfDocument

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office, SentLetter
from loamshift.tables.rows import tables_fingerprint
from loamshift.web.beds.samples import SAMPLES

pytestmark = pytest.mark.django_db

GOOD = {
    "name": "Two trees", "units": "us", "words": "us", "paper": "letter", "currency": "usd",
    "letterhead": "Two trees\r\n\r\n 1 The Lane ",
}  # fmt: skip


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


def test_settings_are_kept_and_used(client: Browser, office: Office) -> None:
    answer = client.post("/settings/", GOOD, follow=True)
    office.refresh_from_db()
    assert (office.name, office.units, office.words, office.paper, office.currency) == (
        "Two trees", "us", "us", "letter", "USD",
    )  # fmt: skip
    shown = answer.content.decode()
    assert "Letters already sent stay as they are." in shown
    assert "Sulfur dust" in shown and "Sulphur dust" not in shown


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("name", "  ", "Enter a name"),
        ("name", "x" * 121, "Use no more than 120 characters"),
        ("name", "a\x00b", "a character that cannot be stored"),
        ("units", "cubits", "Choose one"),
        ("words", "", "Choose one"),
        ("paper", "a3", "Choose one"),
        ("currency", "Euro", "three letters"),
        ("currency", "12€", "three letters"),
        ("letterhead", "x" * 601, "6 lines and 600 characters"),
        ("letterhead", "x\n" * 7, "6 lines and 600 characters"),
        ("letterhead", "a\x00b", "a character that cannot be stored"),
        ("letterhead", "a\x1bb", "characters that cannot be printed"),
    ],
)
def test_what_cannot_be_kept_is_told_and_stays_in_its_field(
    client: Browser, office: Office, field: str, value: str, said: str
) -> None:
    answer = client.post("/settings/", {**GOOD, field: value})
    assert answer.status_code == 422
    assert said in answer.content.decode()
    office.refresh_from_db()
    assert office.name == "Ours"


def test_the_page_says_where_data_lies_what_always_holds_and_what_made_it(
    client: Browser, office: Office
) -> None:
    from django.conf import settings as ours

    shown = client.get("/settings/").content.decode()
    assert str(ours.DATA_FOLDER) in shown
    assert "water, never water into acid" in shown and "Never let acid meet hypochlorite" in shown
    assert "poison" in shown and "organic" in shown
    assert tables_fingerprint() in shown and "Apache-2.0" in shown
    assert 'href="/settings/data"' in shown and 'href="/api/"' in shown


@pytest.mark.drawn
def test_letters_from_now_on_have_the_letterhead_and_those_sent_keep_theirs(
    client: Browser, office: Office
) -> None:
    bed = Bed(name="Kitchen plot", case_text=SAMPLES[1].case_text)
    Writer(office, what="Added it").add(bed)
    client.post(f"/beds/{bed.pk}/send", {"version": "1"})
    client.post("/settings/", GOOD)
    client.post(f"/beds/{bed.pk}/send", {"version": "1"})
    newest, oldest = SentLetter.objects.order_by("-created_at")
    for address, also in (
        (f"/beds/{bed.pk}", " on-paper"),
        (f"/post/{newest.pk}", ""),
        (f"/post/{newest.pk}/letter.html", ""),
    ):
        shown = re.sub(r"</?bdi>", "", client.get(address).content.decode())
        head = f'<p class="letterhead{also}"[^>]*>Two trees<br>1 The Lane</p>'
        assert re.search(head, shown), address
    assert "1 The Lane" in client.get(f"/post/{newest.pk}/letter.md").content.decode()
    first = PdfDocument(client.get(f"/post/{newest.pk}/letter.pdf").content)[0]
    words = first.get_textpage().get_text_range()
    assert words.index("1 The Lane") < words.index("Kitchen plot")
    for ending in ("html", "md", "json"):
        old = client.get(f"/post/{oldest.pk}/letter.{ending}").content.decode()
        assert "The Lane" not in old and '"letterhead"' not in old


def test_no_other_field_can_be_set(client: Browser, office: Office) -> None:
    client.post("/settings/", {**GOOD, "toured": "1", "id": "1"})
    office.refresh_from_db()
    assert not office.toured and office.pk == Office.objects.get().pk
