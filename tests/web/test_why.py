from __future__ import annotations

import re

import pytest
from django.test import Client as Browser

from loamshift.services.explanations import ANSWER_KEYS
from loamshift.web.letter_page import WHY

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("key", [*WHY.values(), "verdict.decision"])
def test_every_number_of_the_letter_opens(client: Browser, key: str) -> None:
    page = client.get(f"/why/{key}").content.decode()
    assert "loamshift why" not in page
    assert ANSWER_KEYS[key].title.casefold() in page.casefold()


def test_what_goes_in_opens_further_down_to_its_source(client: Browser) -> None:
    page = client.get("/why/dose.acid_mmolc_kg").content.decode()
    inner = re.findall(r'<th scope="row"><a href="(/why/[^"]+)">', page)
    assert inner
    deeper = client.get(inner[0])
    assert deeper.status_code == 200
    assert 'id="source-1"' in deeper.content.decode()


def test_a_misspelt_key_is_told_its_neighbours(client: Browser) -> None:
    answer = client.get("/why/dose.acid_mmolc_kgg")
    assert answer.status_code == 404
    assert "/why/dose.acid_mmolc_kg" in answer.content.decode()


def test_everything_that_can_be_opened(client: Browser) -> None:
    page = client.get("/why/").content.decode()
    links = set(re.findall(r'href="(/why/[^"]+)"', page))
    assert len(links) > 100
    for link in sorted(links)[::25]:
        assert client.get(link).status_code == 200, link
