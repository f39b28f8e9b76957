"""An invented bed over three years in the browser: report in, plan, tests, score, year review."""

from __future__ import annotations

import datetime
import json
import os
import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from browser.traffic import settle
from loamshift.store.models import Bed, Office, SentLetter

pytestmark = [pytest.mark.django_db(transaction=True)]
SHOTS = os.environ.get("LOAMSHIFT_SHOTS")
REPORT = (
    "Sample ID;Date sampled;pH (H2O 1:2.5);Org. matter (%);Clay (%);Sand (%);Silt (%);Depth (cm)\n"
    "Long border;12.03.2026;6,9;3,1;18;40;42;0-15\n"
)
WANTED = {
    "place.name": "Minneapolis",
    "bed.area": "20 m2",
    "aim.plant": "highbush blueberry",
    "water.alkalinity": "60 mg/L CaCO3",
    "water.weekly": "20 mm",
}


class _IsDate(type):
    def __instancecheck__(cls, one: object) -> bool:
        return isinstance(one, datetime.date)


class Calendar(datetime.date, metaclass=_IsDate):
    """The local day as the pages see it; the test turns the leaves."""

    now = datetime.date(2026, 3, 20)

    @classmethod
    def today(cls) -> datetime.date:
        return cls.now


@pytest.fixture
def calendar(monkeypatch: pytest.MonkeyPatch) -> type[Calendar]:
    for name in ("loamshift.web.urls", "loamshift.web.beds.templatetags.beds"):
        import_module(name)
    for name, module in list(sys.modules.items()):
        if name.startswith("loamshift.web") and vars(module).get("date") is datetime.date:
            monkeypatch.setattr(module, "date", Calendar)
    return Calendar


def shot(page: Any, name: str) -> None:
    if SHOTS:
        page.screenshot(path=str(Path(SHOTS) / f"{name}.png"), full_page=True)


def press(page: Any, name: str, *, within: str = "main") -> None:
    with page.expect_navigation():
        page.locator(within).get_by_role("button", name=name, exact=True).first.click()
    settle(page)


def test_the_bed_of_three_years(
    live_server: Any, new_page: Callable[..., Any], tmp_path: Path, calendar: type[Calendar]
) -> None:
    Office.objects.create(name="Ours", toured=True)
    (tmp_path / "report.csv").write_text(REPORT, encoding="utf-8")
    page = new_page(width=390)
    page.goto(f"{live_server.url}/intake/")
    page.locator("input[type=file]").set_input_files(tmp_path / "report.csv")
    press(page, "Read file")
    press(page, "Add one row to its bed")
    shot(page, "three-years-entered")
    page.get_by_role("link", name="Long border").click()
    page.get_by_role("heading", name="First, tell us what you want to grow").wait_for()
    with page.expect_navigation():
        page.get_by_role("link", name="Edit everything").click()
    for name, value in WANTED.items():
        page.locator(f"[name='{name}']").fill(value)
    press(page, "Save")

    first = a_year(page, calendar, "6.1", then="Apply nothing yet: the test on")
    second = a_year(page, calendar, "5.2", then="what was applied is still working")
    assert first["amount_g"] > second["amount_g"] > 0
    page.get_by_role("heading", name="Leave the pH of this bed alone").wait_for()

    bed = Bed.objects.get()
    page.goto(f"{live_server.url}/beds/{bed.pk}/scores")
    page.get_by_text("So far 2 of 2 tests were within the range").wait_for()
    shot(page, "three-years-scores")
    page.goto(f"{live_server.url}/beds/{bed.pk}/review?year=2027")
    page.get_by_role("heading", name="In 2027 the pH fell from 6.9 to 6.1").wait_for()
    shot(page, "three-years-review")


def a_year(page: Any, calendar: type[Calendar], ph: str, *, then: str) -> dict[str, Any]:
    """Send the letter, put on what it says on its day, and test on the day it names.

    ``then`` is what the letter says once it is on: a dose is not followed by another.
    """
    press(page, "Mark as sent")
    sent = SentLetter.objects.order_by("-sent_on")[0]
    plan = json.loads(sent.answer_text)["plan"]
    (part,), test = plan["parts"], plan["decides"][0]["test"]
    page.goto(page.url.replace(f"/post/{sent.pk}", f"/beds/{sent.bed_id}"))
    settle(page)
    calendar.now = datetime.date.fromisoformat(part["date"])
    page.get_by_text("Log an application").click()
    form = page.locator("#quick-applied")
    form.locator("[name=date]").fill(part["date"])
    form.locator("[name=material]").fill("sulphur powder")
    form.locator("[name=amount]").fill(f"{part['amount_g']:g} g")
    form.locator("[name=incorporated]").fill("15 cm")
    press(page, "Save", within="#quick-applied")
    shot(page, f"three-years-applied-{ph}")
    page.get_by_role("heading", name=then).wait_for()
    calendar.now = datetime.date.fromisoformat(test)
    page.get_by_text("Add a test").click()
    form = page.locator("#quick-reading")
    form.locator("[name=date]").fill(test)
    form.locator("[name=ph]").fill(ph)
    form.locator("[name=depth]").fill("15 cm")
    press(page, "Save", within="#quick-reading")
    shot(page, f"three-years-tested-{ph}")
    return dict(part)
