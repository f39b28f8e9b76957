"""A whole invented trial from design to report in the workbench, on a desk and on a phone."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from loamshift.services.trial import expect
from loamshift.store.models import Office, Trial
from loamshift.web.prepare import add_samples
from loamshift.web.trials import opened as opening
from loamshift.web.trials.opened import opened

pytestmark = [pytest.mark.django_db(transaction=True)]
SHOTS = os.environ.get("LOAMSHIFT_SHOTS")


def shot(page: Any, name: str) -> None:
    if SHOTS:
        page.screenshot(path=str(Path(SHOTS) / f"{name}.png"), full_page=True)


@pytest.mark.parametrize(
    ("width", "more"),
    [(1200, {}), (390, {"color_scheme": "dark"})],
    ids=["wide", "phone in the dark"],
)
def test_from_a_question_to_a_page_for_everybody(
    width: int, more: dict[str, Any], live_server: Any, new_page: Callable[..., Any],
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path,
) -> None:  # fmt: skip
    monkeypatch.setattr(
        opening, "predict", lambda *a, **k: expect.predict(*a, **{**k, "members": 12})
    )
    office = Office.objects.create(name="Ours", toured=True)
    add_samples(office)
    page = new_page(width=width, **more)
    page.goto(f"{live_server.url}/trials/")
    page.get_by_role("link", name="New trial").click()
    page.get_by_label("Name", exact=True).first.fill("Peat for how long?")
    page.get_by_label("Question").fill("Does peat lower the pH of our soil for long?")
    page.get_by_label("Bed or client").select_option(index=1)
    page.get_by_label("Name, row 1").fill("nothing")
    page.get_by_label("Name, row 2").fill("peat")
    page.get_by_label("Product, row 2").fill("peat")
    page.get_by_label("Rate or amount, row 2").fill("10 kg/m2")
    page.get_by_label("Number of each treatment").fill("4")
    page.get_by_label("Area of each").fill("0.03 m2")
    page.get_by_label("Start").fill("2026-04-20")
    page.get_by_label("Days of reading").fill("0, 1, 9")
    page.get_by_role("button", name="See what it can show").click()

    page.get_by_text("likely to show a difference").wait_for()
    shot(page, f"design-{width}")
    page.get_by_role("button", name="Save trial").click()
    page.wait_for_url("**/trials/*-*")
    trial = Trial.objects.get()
    shot(page, f"made-{width}")
    there = opened(trial)
    assert there.prediction is not None
    for day in (0, 1, 9):
        page.get_by_role("link", name="Enter readings").click()
        for place in there.plan.places:
            fall = 0.6 if place.treatment == 1 and day == 1 else 0.0
            ph = 6.8 - fall + 0.01 * (int(place.label) % 4)
            page.locator(f"[name='ph-{place.label}']").fill(f"{ph:.2f}")
        shot(page, f"typed-{width}-{day}")
        page.get_by_role("button", name="Save readings").click()
        page.get_by_text(f"Readings of day {day} saved").wait_for()
    page.get_by_text("gone again by the last reading").first.wait_for()
    shot(page, f"shown-{width}")
    with page.expect_download() as got:
        page.get_by_role("link", name="One page (PDF)").click()
    assert Path(got.value.path()).read_bytes().startswith(b"%PDF")
    with page.expect_download() as got:
        page.get_by_role("link", name="Picture (PNG)", exact=True).click()
    assert Path(got.value.path()).read_bytes().startswith(b"\x89PNG")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
