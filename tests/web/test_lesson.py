"""The page for a class: its choices in the address, faults beside their fields, the worksheet."""

from __future__ import annotations

from uuid import UUID

import pytest
from django.test import Client as Browser

from loamshift.store.models import Office

pytestmark = [pytest.mark.django_db, pytest.mark.drawn]
ASKED = {
    "texture": "sand", "ph": "6.8", "organic": "low", "lime": "none", "water": "hard",
    "material": "sulphur powder", "amount": "60 g/m2", "month": "5", "place": "Minneapolis",
}  # fmt: skip


@pytest.fixture
def browser(client: Browser) -> Browser:
    Office.objects.create(pk=UUID(int=1), name="Ours")
    return client


def test_a_lesson_shows_layers_and_sums_and_hands_out_its_worksheet(browser: Browser) -> None:
    page = browser.get("/lesson/", ASKED)
    text = page.content.decode()
    assert page.status_code == 200
    assert "Top 5 cm" in text and "Z = R × a" in text
    assert 'value="hard" selected' in text
    sheet = browser.get("/lesson/worksheet.pdf", ASKED)
    assert sheet["Content-Type"] == "application/pdf"
    assert sheet.content.startswith(b"%PDF")


def test_what_cannot_be_used_is_told_beside_its_field(browser: Browser) -> None:
    wrong = ASKED | {"ph": "17", "amount": "much", "place": "Hull", "lime": "lots", "month": "13"}
    page = browser.get("/lesson/", wrong)
    text = page.content.decode()
    assert page.status_code == 200
    for said in ("must be from 2 to 11", "must start with a number", "Kingston upon Hull"):
        assert said in text
    assert 'value="17"' in text
    assert browser.get("/lesson/worksheet.pdf", wrong).status_code == 302


def test_nothing_is_worked_out_before_somebody_asks(browser: Browser) -> None:
    text = browser.get("/lesson/").content.decode()
    assert "Choose, then press Show." in text
    assert "Layer by layer" not in text
