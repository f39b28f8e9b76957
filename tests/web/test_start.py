from __future__ import annotations

import pytest
from django.test import Client

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office
from loamshift.web.beds.samples import SAMPLES

pytestmark = pytest.mark.django_db


def test_the_start_page_answers_a_stranger_without_sign_in(client: Client) -> None:
    page = client.get("/")
    assert page.status_code == 200
    assert "default-src 'self'" in page.headers["Content-Security-Policy"]
    assert "unsafe" not in page.headers["Content-Security-Policy"]


def test_it_asks_the_four_things_that_matter_most(client: Client) -> None:
    page = client.get("/").content.decode()
    for name in ("soil.ph", "soil.ph_method", "soil.texture", "aim.plant", "place.name"):
        assert f'name="{name}"' in page
    assert 'action="/plan"' in page
    assert "No beds yet" in page


def test_beds_changed_last_come_first(client: Client) -> None:
    office = Office.objects.create()
    for name in ("First", "Second <i>"):
        Writer(office, what="Added").add(Bed(name=name, case_text=SAMPLES[0].case_text))
    page = client.get("/").content.decode()
    assert page.index(">Second &lt;i&gt;<") < page.index(">First<")
