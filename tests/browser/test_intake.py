"""A laboratory's file from upload to beds and back, on a phone and without scripts."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.web.prepare import add_samples

pytestmark = [pytest.mark.django_db(transaction=True)]
REPORT = (
    "Riverside soil laboratory;;;;;\n\n"
    "Sample;Date sampled;Depth (cm);pH;Organic matter %;Lab remark\n"
    "Berry border;2026-03-02;0-15;5,9;3,4;fine\n"
    "Rose bed;2026-03-02;0-15;6,8;4,1;stony\n"
    "Bery border;2026-03-02;0-15;6,4;<0,5;\n"
)
SHOTS = os.environ.get("LOAMSHIFT_SHOTS")


def shot(page: Any, name: str) -> None:
    if SHOTS:
        page.screenshot(path=str(Path(SHOTS) / f"{name}.png"), full_page=True)


@pytest.mark.parametrize(
    ("width", "more"),
    [(1200, {}), (390, {"java_script_enabled": False}), (390, {"color_scheme": "dark"})],
    ids=["wide", "phone without scripts", "phone in the dark"],
)
def test_a_file_is_read_answered_entered_and_undone(
    width: int, more: dict[str, Any], live_server: Any, new_page: Callable[..., Any],
    tmp_path: Path,
) -> None:  # fmt: skip
    office = Office.objects.create(name="Ours", toured=True)
    add_samples(office)
    (tmp_path / "report.csv").write_text(REPORT, encoding="utf-8")
    page = new_page(width=width, **more)
    page.goto(f"{live_server.url}/intake/")
    page.locator("input[type=file]").set_input_files(tmp_path / "report.csv")
    page.locator("[name=laboratory]").fill("Riverside")
    shot(page, f"upload-{width}")
    page.get_by_role("button", name="Read file").click()
    page.wait_for_url("**/intake/*-*/")
    shot(page, f"asked-{width}-{len(more)}-{more.get('color_scheme', 'light')}")
    page.locator("label select[name='answer:pH: method']").select_option("CaCl2")
    page.get_by_role("button", name="Save answers").click()
    page.wait_for_load_state()
    shot(page, f"answered-{width}-{len(more)}-{more.get('color_scheme', 'light')}")
    beds = kept(Bed, office)
    assert beds.count() == 2
    page.get_by_role("button", name="Add 2 rows to beds").click()
    page.get_by_text("one new bed, one bed updated").wait_for(timeout=60_000)
    shot(page, f"entered-{width}-{len(more)}-{more.get('color_scheme', 'light')}")
    assert beds.get(name="Rose bed").ph == 6.8
    page.get_by_role("button", name="Undo this import").click()
    page.get_by_text("Nothing of this file has been entered yet").wait_for(timeout=60_000)
    assert beds.count() == 2
