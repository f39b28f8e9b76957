from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.test import Client as Browser

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office
from loamshift.web.beds.samples import SAMPLES
from loamshift.web.compiled import COMPILED
from loamshift.web.forecasts import Forecasts

pytestmark = [pytest.mark.django_db, pytest.mark.drawn]

SAID = "This computer is preparing its first forecast"
COURSE = '<figure class="course">'
HTMX = {"HX-Request": "true"}


@pytest.fixture
def ready() -> Iterator[list[bool]]:
    """Whether the code is compiled; it is not until a test says so."""
    told = [False]
    COMPILED.ask(lambda: told[0])
    yield told
    COMPILED.ask(lambda: True)


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture
def bed(office: Office) -> Bed:
    made = Bed(
        name="Here", case_text=SAMPLES[0].case_text.replace("6.8", "6.73")
    )  # answered nowhere
    Writer(office, what="Added").add(made)
    return made


def test_a_plan_is_there_without_its_course_and_the_course_comes(
    client: Browser, bed: Bed, ready: list[bool], monkeypatch: pytest.MonkeyPatch
) -> None:
    def never(*_args: object) -> None:
        pytest.fail("a page waited for the compiler")

    with monkeypatch.context() as patched:
        patched.setattr(Forecasts, "take", never)
        page = client.get(f"/beds/{bed.pk}").content.decode()
        assert page.count(SAID) == 1, page
        assert "m²" in page, page
        assert COURSE not in page, page
        assert f'hx-get="/beds/{bed.pk}/whole"' in page
        again = client.get(f"/beds/{bed.pk}/whole", headers=HTMX).content.decode()
        assert SAID in again and "delay:2s" in again
    ready[0] = True
    whole = client.get(f"/beds/{bed.pk}/whole", headers=HTMX).content.decode()
    assert SAID not in whole and COURSE in whole


@pytest.mark.parametrize("page", ["history", "letter.json"])
def test_a_page_that_is_nothing_without_a_forecast_opens_by_itself_later(
    client: Browser, bed: Bed, ready: list[bool], page: str
) -> None:
    waits = client.get(f"/beds/{bed.pk}/{page}")
    assert waits.status_code == 503 and SAID in waits.content.decode()
    assert waits.headers["Refresh"] == waits.headers["Retry-After"] == "3"
    assert client.get(f"/beds/{bed.pk}/edit").status_code == 200
    assert client.get("/why/").status_code == client.get("/claims/").status_code == 200
    assert client.get(f"/why/?bed={bed.pk}").status_code == 503
    ready[0] = True
    assert client.get(f"/beds/{bed.pk}/{page}").status_code == 200
