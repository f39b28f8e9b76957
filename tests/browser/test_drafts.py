"""What is typed and not saved comes back, and leaving it asks first."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office
from loamshift.web.beds.keeping import put_case

pytestmark = [pytest.mark.django_db(transaction=True)]
CASE = 'case = 1\nname = "Berry border"\n[soil]\nph = 5.4\n[aim]\nplant = "cabbage"\n'


@pytest.fixture
def bed() -> Bed:
    office = Office.objects.create(name="Ours", toured=True)
    bed = Bed()
    put_case(bed, CASE, today=date.today())  # noqa: DTZ011 - the local day
    Writer(office, what="Added").add(bed)
    return bed


def test_leaving_a_changed_form_asks_and_the_draft_comes_back(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    asked: list[str] = []
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
    page.goto(f"{live_server.url}/beds/{bed.pk}/edit")
    page.goto(f"{live_server.url}/claims/")
    assert asked == [], "nothing was typed"
    page.goto(f"{live_server.url}/beds/{bed.pk}/edit")
    assert page.locator("#draft").is_hidden()
    page.locator("[name='soil.ph']").fill("6.1")
    page.goto(f"{live_server.url}/claims/")
    assert asked == ["beforeunload"]
    page.goto(f"{live_server.url}/beds/{bed.pk}/edit")
    assert page.locator("[name='soil.ph']").input_value() == "5.4"
    page.locator("#draft [data-restore]").click()
    assert page.locator("[name='soil.ph']").input_value() == "6.1"
    page.locator(".acts.keep button").click(no_wait_after=True)
    page.wait_for_url(f"{live_server.url}/beds/{bed.pk}", timeout=120_000)
    assert Bed.objects.get().ph == 6.1
    assert asked == ["beforeunload"], "what is sent is not asked about"
    page.goto(f"{live_server.url}/beds/{bed.pk}/edit")
    assert page.locator("#draft").is_hidden()
    assert page.evaluate("Object.keys(localStorage)") == []


def test_a_draft_is_dropped_when_one_says_so_and_stays_after_a_fault(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.on("dialog", lambda dialog: dialog.accept())
    page.goto(f"{live_server.url}/beds/new")
    page.locator("[name='name']").fill("Hedge")
    page.reload()
    page.locator("#draft [data-drop]").click()
    assert page.evaluate("Object.keys(localStorage)") == []
    page.locator("[name='name']").fill("Hedge")
    page.reload()
    page.locator("#draft [data-restore]").click()
    assert page.locator("[name='name']").input_value() == "Hedge"


@pytest.mark.parametrize("address", ["/clients/new", "/shelf/new"])
def test_other_forms_keep_a_draft_too(
    live_server: Any, new_page: Callable[..., Any], bed: Bed, address: str
) -> None:
    page = new_page()
    page.on("dialog", lambda dialog: dialog.accept())
    page.goto(live_server.url + address)
    page.locator("[name='name']").fill("Rowan")
    page.reload()
    page.locator("#draft [data-restore]").click()
    assert page.locator("[name='name']").input_value() == "Rowan"
