from __future__ import annotations

import re
from html import unescape
from urllib.parse import urlencode
from uuid import UUID

import pytest
from django.test import Client as Browser
from pypdfium2 import PdfDocument

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office
from loamshift.web.beds.samples import SAMPLES

pytestmark = [pytest.mark.django_db, pytest.mark.drawn]

OVERDONE = """case = 1
name = "Overdone"
[soil]
ph = 3.9
ph_method = "water 1:1"
texture = "loam"
[aim]
plant = "highbush blueberry"
[[applied]]
date = 2026-03-01
material = "elemental sulfur, powder"
rate = "600 g/m2"
"""


@pytest.fixture
def office() -> Office:
    return Office.objects.create(pk=UUID(int=1), name="Ours")


def bed_of(office: Office, text: str) -> Bed:
    made = Bed(name="Here", case_text=text)
    Writer(office, what="Added it").add(made)
    return made


def read(data: bytes) -> tuple[str, int, float]:
    """Text, pages and width [mm] of a PDF."""
    document = PdfDocument(data)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    return " ".join(text.split()), len(document), document[0].get_width() / 72.0 * 25.4


def sheets(page: str) -> dict[str, str]:
    """The sheets that a page links to, by their names in the address."""
    found = re.findall(r'href="([^"]*/sheets/(\w+)\.pdf[^"]*)"', page)
    return {name: unescape(address) for address, name in found}


@pytest.mark.parametrize(("paper", "width_mm"), [("a4", 210.0), ("letter", 215.9)])
def test_a_bed_has_a_card_on_the_paper_of_its_office(
    client: Browser, office: Office, paper: str, width_mm: float
) -> None:
    Office.objects.update(paper=paper)
    bed = bed_of(office, SAMPLES[0].case_text)
    linked = sheets(client.get(f"/beds/{bed.pk}").content.decode())
    assert set(linked) == {"card", "sampling"}
    answer = client.get(linked["card"])
    text, pages, width = read(answer.content)
    assert answer.headers["Content-Type"] == "application/pdf"
    told = answer.headers["Content-Disposition"]
    assert re.search(r'filename="berry-border-card-\d{4}-\d\d-\d\d\.pdf"', told)
    assert "Berry border" in text and pages == 1
    assert width == pytest.approx(width_mm, abs=0.5)


def test_the_sheet_to_sample_with_is_for_this_bed(client: Browser, office: Office) -> None:
    bed = bed_of(office, SAMPLES[1].case_text)
    text, pages, _width = read(client.get(f"/beds/{bed.pk}/sheets/sampling.pdf").content)
    assert "Taking the sample: Kitchen plot" in text and pages == 1
    assert "0 to 20 cm" in text


def test_what_if_stands_on_the_card_too(client: Browser, office: Office) -> None:
    bed = bed_of(office, SAMPLES[1].case_text)
    page = client.get(f"/beds/{bed.pk}?soil.ph=4.6").content.decode()
    text, _pages, _width = read(client.get(sheets(page)["card"]).content)
    assert "pH 4.6" in text


def test_only_a_bed_to_put_right_has_a_sheet_for_it(client: Browser, office: Office) -> None:
    overdone = bed_of(office, OVERDONE)
    linked = sheets(client.get(f"/beds/{overdone.pk}").content.decode())
    text, pages, _width = read(client.get(linked["rescue"]).content)
    assert "Whom to ask" in text and pages == 1
    calm = bed_of(office, SAMPLES[1].case_text)
    answer = client.get(f"/beds/{calm.pk}/sheets/rescue.pdf", follow=True)
    assert "There is nothing to put right in this bed" in answer.content.decode()


def test_a_walk_in_has_sheets_and_one_with_faults_is_told(client: Browser, office: Office) -> None:
    said = {"soil.ph": "6.8", "soil.texture": "loam", "aim.plant": "cabbage"}
    linked = sheets(client.get(f"/plan?{urlencode(said)}").content.decode())
    assert read(client.get(linked["card"]).content)[1] == 1
    answer = client.get(f"/plan/sheets/card.pdf?{urlencode(said | {'soil.ph': '19'})}")
    assert answer.status_code == 302 and "soil.ph=19" in answer.headers["Location"]
    assert client.get("/plan/sheets/other.pdf").status_code == 404


def test_each_claim_has_a_card(client: Browser, office: Office) -> None:
    said = {
        "claim.0.material": "coffee grounds",
        "claim.0.amount": "1 kg/m2",
        "claim.1.material": "flowers of sulphur",
        "claim.1.amount": "60 g/m2",
        "soil.texture": "loam",
        "soil.ph": "7.2",
        "aim.target_ph": "5.5",
        "bed.area": "20 m2",
    }
    page = client.get(f"/claims/?{urlencode(said)}").content.decode()
    linked = [unescape(one) for one in re.findall(r'href="(/claims/card/[^"]+)"', page)]
    texts = [read(client.get(one).content) for one in linked]
    assert [pages for _text, pages, _width in texts] == [1, 1]
    assert "coffee grounds, 1.0 kg/m²" in texts[0][0]
    assert "60 g/m²" in texts[1][0]
    assert "A fair test" in texts[0][0] and "at once" in texts[0][0]


def test_a_card_says_what_the_amount_was_taken_for(client: Browser, office: Office) -> None:
    bed = bed_of(office, SAMPLES[0].case_text.replace("[bed]", "[bed]\nplants = 6"))
    said = {
        "claim.0.material": "coffee grounds",
        "claim.0.amount": "1 cup per plant",
        "claim.1.material": "vinegar",
        "claim.1.amount": "2 cups per plant",
        "bed": str(bed.pk),
    }
    text, _pages, _width = read(client.get(f"/claims/card/2.pdf?{urlencode(said)}").content)
    assert "2 cups per plant" in text and "Weigh it rather than measure it" in text
    assert "1 cup per plant" not in text and "claim[" not in text


def test_a_claim_that_is_not_there_has_no_card(client: Browser, office: Office) -> None:
    said = {"claim.0.material": "gypsum", "claim.0.amount": "1 kg/m2", "soil.ph": "7"}
    for number in ("0", "2", "x", "9999"):
        assert client.get(f"/claims/card/{number}.pdf?{urlencode(said)}").status_code == 404
    answer = client.get(f"/claims/card/1.pdf?{urlencode(said | {'soil.ph': ''})}")
    assert answer.status_code == 302 and answer.headers["Location"].startswith("/claims/?")
