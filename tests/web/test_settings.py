from __future__ import annotations

import pytest
from django.test import Client as Browser

from loamshift.store.models import Office
from loamshift.tables.rows import tables_fingerprint

pytestmark = pytest.mark.django_db

GOOD = {"name": "Two trees", "units": "us", "words": "us", "paper": "letter", "currency": "usd"}


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
    assert "Letters sent stay in the words they were sent in." in shown
    assert "Sulfur dust" in shown and "Sulphur dust" not in shown


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("name", "  ", "Give it a name"),
        ("name", "x" * 121, "Shorten it"),
        ("name", "a\x00b", "Shorten it"),
        ("units", "cubits", "Choose one"),
        ("words", "", "Choose one"),
        ("paper", "a3", "Choose one"),
        ("currency", "Euro", "three letters"),
        ("currency", "12€", "three letters"),
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
    assert "letterhead" not in shown.casefold()


def test_no_other_field_can_be_set(client: Browser, office: Office) -> None:
    client.post("/settings/", {**GOOD, "toured": "1", "letterhead": "x", "id": "1"})
    office.refresh_from_db()
    assert (office.toured, office.letterhead) == (False, "")
