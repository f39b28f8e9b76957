"""The sum of a bed in Chromium: phone, without scripts, and on paper."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any
from uuid import UUID

import pypdfium2
import pytest

from loamshift.store.models import Bed, Office
from loamshift.web.prepare import add_samples

pytestmark = pytest.mark.django_db(transaction=True)

NewPage = Callable[..., Any]
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
SMALLEST_PX = 12.0
SMALLEST = """() => Math.min(...Array.from(document.querySelectorAll('main *'))
  .filter((one) => one.textContent.trim() && one.offsetParent !== null)
  .map((one) => parseFloat(getComputedStyle(one).fontSize)))"""


@pytest.fixture
def bed() -> Bed:
    office = Office.objects.create(pk=UUID(int=1), name="Ours")
    add_samples(office)
    return Bed.objects.get(name="Berry border")


@pytest.mark.parametrize(
    "key", ["dose.sulfur_as_s_g_m2", "plan.share_in_range", "ledger.net", "applications"]
)
def test_a_sum_fits_a_phone_without_scripts(
    new_page: NewPage, live_server: Any, bed: Bed, key: str
) -> None:
    page = new_page(width=390, height=800, java_script_enabled=True)
    page.goto(f"{live_server.url}/why/{key}?bed={bed.pk}")
    assert page.locator("ol.steps > li").count() >= 1
    assert page.evaluate(SIDEWAYS) <= 0
    assert page.evaluate(SMALLEST) >= SMALLEST_PX
    plain = new_page(width=390, height=800, java_script_enabled=False)
    plain.goto(f"{live_server.url}/why/{key}?bed={bed.pk}")
    assert plain.locator("ol.steps > li").count() == page.locator("ol.steps > li").count()


def test_a_sum_prints_with_every_step(
    new_page: NewPage, live_server: Any, bed: Bed, tmp_path: Path
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/why/dose.sulfur_as_s_g_m2?bed={bed.pk}")
    steps = page.locator("ol.steps > li > p:first-child").all_inner_texts()
    file = tmp_path / "sum.pdf"
    page.pdf(path=str(file))
    sheets = pypdfium2.PdfDocument(str(file))
    printed = " ".join(" ".join(sheet.get_textpage().get_text_range().split()) for sheet in sheets)
    assert steps
    for step in steps:
        assert " ".join(step.split())[:40] in printed
    assert "Back to the plan" not in printed


def test_a_number_of_the_letter_leads_to_its_sum_and_back(
    new_page: NewPage, live_server: Any, bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/beds/{bed.pk}")
    page.locator("#sections details.working > summary").click()
    page.locator('#sections a[href*="/why/dose"]').first.click()
    page.wait_for_selector("ol.steps")
    page.get_by_role("link", name="Back to the plan").click()
    page.wait_for_url(f"{live_server.url}/beds/{bed.pk}")
