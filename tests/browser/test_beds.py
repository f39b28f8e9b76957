"""Beds by finger and by key: the plan of a garden, the form that asks everything."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from browser.traffic import settle
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.web.beds.keeping import put_case

expect = pytest.importorskip("playwright.sync_api").expect
pytestmark = [pytest.mark.django_db(transaction=True)]
CASE = """case = 1
name = "Berry border"
[place]
name = "Minneapolis"
[soil]
ph = 5.4
ph_method = "water 1:1"
texture = "loam"
sampled = 2026-04-01
[aim]
plant = "highbush blueberry"
"""


@pytest.fixture
def bed() -> Bed:
    office = Office.objects.create(name="Ours", toured=True)
    writer = Writer(office, what="Added")
    who = Client(name="Vosberg")
    writer.add(who)
    garden = Garden(client=who, name="Walled garden", place={"name": "Minneapolis"})
    writer.add(garden)
    bed = Bed(garden=garden)
    put_case(bed, CASE, today=date.today())  # noqa: DTZ011 - the local day
    writer.add(bed)
    return bed


def drag(page: Any, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Pull from one place of the ground to another [m]."""
    ground = page.locator("svg.ground").first
    ground.scroll_into_view_if_needed()
    box = ground.bounding_box()
    per_m = box["width"] / 20.0
    places = [(box["x"] + x * per_m, box["y"] + y * per_m) for x, y in (start, end)]
    page.mouse.move(*places[0])
    page.mouse.down()
    page.mouse.move(*((a + b) / 2 for a, b in zip(*places, strict=True)))
    page.mouse.move(*places[1])
    page.mouse.up()


def test_an_area_is_drawn_named_bent_and_kept(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/gardens/{bed.garden_id}")
    drag(page, (2.0, 1.0), (8.0, 5.0))
    row = page.locator("#plan-rows tr").first
    sizes = [row.locator(f'[name="area.0.{k}"]').input_value() for k in ("width", "length")]
    assert sizes == ["6", "4"]
    drag(page, (8.0, 5.0), (9.0, 6.0))
    bent = row.locator('[name="area.0.points"]').input_value()
    assert bent == "2,1 8,1 9,6 2,5"
    drag(page, (3.0, 3.0), (4.0, 3.0))
    assert row.locator('[name="area.0.left"]').input_value() == "3"
    row.locator("select").select_option(label="Berry border")
    assert page.locator(".area.acid").get_attribute("aria-label").startswith("Berry border, pH 5.4")
    page.get_by_role("button", name="Save plan").click()
    page.wait_for_selector(
        "text=Plan of Walled garden saved. The plan also set the size of Berry border."
    )
    kept = Garden.objects.get().plan["areas"][0]
    assert kept["points"] == [[3, 1], [9, 1], [10, 6], [3, 5]]
    assert 'area = "29 m2"' in Bed.objects.get().case_text


def test_an_area_is_drawn_by_keys_alone(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/gardens/{bed.garden_id}")
    page.get_by_role("button", name="Add an area").focus()
    page.keyboard.press("Enter")
    left = page.locator('[name="area.0.left"]')
    assert left.input_value() == "9"
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowRight")
    assert left.input_value() == "10.1"
    page.keyboard.press("Enter")
    page.keyboard.press("Shift+ArrowLeft")
    assert page.locator('[name="area.0.width"]').input_value() == "3"
    page.keyboard.press("+")
    assert len(page.locator('[name="area.0.points"]').input_value().split(" ")) == 5
    page.keyboard.press("Delete")
    assert len(page.locator('[name="area.0.points"]').input_value().split(" ")) == 4
    page.keyboard.press("Escape")
    page.keyboard.press("Delete")
    assert page.locator('[name="area.0.points"]').input_value() == ""
    assert "Removed from the plan" in page.locator("#plan-said").inner_text()


def test_a_finger_that_scrolls_past_draws_nothing_and_a_tap_chooses(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page(width=390, height=800, has_touch=True)
    page.goto(f"{live_server.url}/gardens/{bed.garden_id}")
    ground = page.locator("svg.ground").first
    ground.tap(position={"x": 40, "y": 40})
    assert page.locator(".area").count() == 0
    page.get_by_role("button", name="Add an area").tap()
    ground.tap(position={"x": 40, "y": 40})
    assert page.locator(".corner").count() == 0
    page.locator(".area").tap()
    assert page.locator(".corner").count() == 4


def test_typed_sizes_are_drawn_at_once(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/gardens/{bed.garden_id}")
    for key, value in (("width", "4"), ("length", "2")):
        page.fill(f'[name="area.0.{key}"]', value)
    page.locator('[name="area.0.length"]').blur()
    assert page.locator(".area").get_attribute("aria-label") == "8 m²"


def test_rows_come_and_go_without_leaving_the_form(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/beds/{bed.pk}/edit")
    page.locator("summary", has_text="pH tests").click()
    page.fill('[name="reading.0.ph"]', "6.1")
    page.fill('[name="soil.ph"]', "5.5")
    rows = page.locator("#g-reading")
    rows.get_by_role("button", name="Add another").click()
    page.wait_for_selector('[name="reading.1.ph"]')
    settle(page)
    assert page.input_value('[name="reading.0.ph"]') == "6.1"
    assert page.input_value('[name="soil.ph"]') == "5.5"
    rows.get_by_role("button", name="Remove Tests 1").click()
    expect(page.locator('[name="reading.0.ph"]')).to_have_value("")
    assert page.url.endswith("/edit")


def test_enter_in_a_field_saves_and_takes_no_row_out(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/beds/{bed.pk}/edit")
    page.fill('[name="name"]', "North border")
    page.press('[name="name"]', "Enter")
    page.wait_for_url(f"**/beds/{bed.pk}")
    assert Bed.objects.get().name == "North border"


def test_a_material_is_suggested_when_something_put_on_is_noted(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/beds/{bed.pk}/history")
    page.locator("summary", has_text="Log an application").click()
    page.wait_for_selector("datalist#materials", state="attached")
    page.fill('[name="material"]', "elemental sulfur, powder")
    page.fill('[name="rate"]', "30 g/m2")
    page.locator("details[open]").get_by_role("button", name="Save").click()
    page.wait_for_url(f"**/beds/{bed.pk}#*")
    assert "elemental sulfur, powder" in Bed.objects.get().case_text


def test_the_list_follows_what_is_typed(
    live_server: Any, new_page: Callable[..., Any], bed: Bed
) -> None:
    page = new_page()
    page.goto(f"{live_server.url}/beds/")
    page.type("#q", "zzz")
    page.wait_for_url("**?q=zzz*")  # the first letter's own answer may come before
    page.wait_for_selector("text=No results for")
