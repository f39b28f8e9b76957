from __future__ import annotations

import re
from html import unescape
from urllib.parse import urlencode

import pytest
from django.test import Client as Browser

from loamshift.services.explanation_entry import title_of
from loamshift.services.own_sum.sums import own_keys
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office
from loamshift.web.answers import answered
from loamshift.web.beds.samples import SAMPLES
from loamshift.web.letters.letter_page import WHY
from loamshift.web.plan.views.plan import today
from wording import read

pytestmark = [pytest.mark.django_db, pytest.mark.drawn]

FIELDS = {
    "soil.ph": "6.8",
    "soil.ph_method": "water 1:1",
    "soil.texture": "loam",
    "soil.fizz": "none",
    "soil.fizz_acid": "HCl",
    "aim.plant": "highbush blueberry",
    "place.name": "Minneapolis",
    "bed.area": "20 m2",
}


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture
def bed(office: Office) -> Bed:
    sample = SAMPLES[0]
    made = Bed(name=sample.name, case_text=sample.case_text, ph=6.8)
    Writer(office, what="Added it").add(made)
    return made


def text_of(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).replace("\xa0", " ").split())


@pytest.mark.parametrize("key", [*WHY.values(), "verdict.decision"])
def test_every_number_of_the_letter_opens(client: Browser, key: str) -> None:
    page = client.get(f"/why/{key}").content.decode()
    assert "loamshift why" not in page
    assert read(title_of(key)).casefold() in text_of(page).casefold()


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


def test_a_number_of_a_bed_opens_to_its_own_sum(client: Browser, bed: Bed, office: Office) -> None:
    page = client.get(f"/why/dose.sulfur_as_s_g_m2?bed={bed.pk}").content.decode()
    found = answered(bed.case_json, office=office, today=today())
    dose = found.answer.dose.sulfur_as_s_g_m2
    assert dose is not None
    last = re.findall(r'<p class="equation figures">([^<]+)</p>', page)[-1]
    printed = float(last.rpartition("=")[2].replace("\xa0", " ").split()[0].replace(",", ""))
    assert printed == pytest.approx(dose.mid, rel=1e-3)
    assert bed.name in text_of(page)
    assert f'href="/beds/{bed.pk}"' in page
    assert f"?bed={bed.pk}" in re.findall(r'href="(/why/[^"]+)"', page)[0]


def test_every_key_listed_for_a_bed_opens_to_a_sum(
    client: Browser, bed: Bed, office: Office
) -> None:
    answer = answered(bed.case_json, office=office, today=today()).answer
    listing = unescape(client.get(f"/why/?bed={bed.pk}").content.decode())
    for key in own_keys(answer)[::6]:
        assert f'href="/why/{key}?bed={bed.pk}"' in listing
        page = client.get(f"/why/{key}?bed={bed.pk}")
        assert page.status_code == 200
        assert 'class="steps"' in page.content.decode(), key


def test_quick_advice_opens_with_what_its_address_says(client: Browser) -> None:
    page = client.get(f"/why/verdict.ph_now?{urlencode(FIELDS)}").content.decode()
    assert 'class="steps"' in page
    assert f'href="/plan?{urlencode(FIELDS)}"' in unescape(page)


def test_the_letter_of_a_bed_links_to_its_own_sums(client: Browser, bed: Bed) -> None:
    plan = unescape(client.get(f"/beds/{bed.pk}").content.decode())
    links = re.findall(r'href="(/why/[^"]+)"', plan)
    assert links
    assert all(f"?bed={bed.pk}" in link for link in links)
    quick = unescape(client.get(f"/plan?{urlencode(FIELDS)}").content.decode())
    links = re.findall(r'href="(/why/[^"]+)"', quick)
    assert links and all("soil.ph=6.8" in link for link in links)


def test_a_bed_that_is_not_there_is_not_found(client: Browser, office: Office) -> None:
    assert client.get("/why/plan?bed=nonsense").status_code == 404
    assert client.get("/why/plan?bed=00000000-0000-0000-0000-000000000000").status_code == 404


def test_a_bed_of_another_office_does_not_open(client: Browser, bed: Bed) -> None:
    theirs = Office.objects.create(name="Theirs")
    other = Bed(name="Hidden", case_text=bed.case_text, ph=6.8)
    Writer(theirs, what="Added it").add(other)
    assert client.get(f"/why/plan?bed={other.pk}").status_code == 404


def test_faulty_fields_still_show_what_a_number_means(client: Browser) -> None:
    page = client.get("/why/dose.acid_mmolc_kg?soil.ph=nonsense")
    assert page.status_code == 200
    assert 'class="steps"' not in page.content.decode()
