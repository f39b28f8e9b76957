from __future__ import annotations

import re
import struct
from urllib.parse import urlencode
from uuid import UUID

import pytest
from django.test import Client as Browser

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Change, Office
from loamshift.web.beds.samples import SAMPLES

pytestmark = [pytest.mark.django_db, pytest.mark.drawn]

SOIL = {"soil.texture": "loam", "soil.ph": "7.2", "aim.target_ph": "5.5"}
COFFEE = {"claim.0.material": "coffee grounds", "claim.0.amount": "1 kg/m2"}
SULFUR = {"claim.1.material": "flowers of sulphur", "claim.1.amount": "60 g/m2"}


@pytest.fixture
def office() -> Office:
    return Office.objects.create(pk=UUID(int=1), name="Ours")


@pytest.fixture
def bed(office: Office) -> Bed:
    made = Bed(name="Kitchen plot", case_text=SAMPLES[1].case_text, is_sample=True)
    Writer(office, what="Added it").add(made)
    return made


def page(browser: Browser, *fields: dict[str, str], **more: str) -> str:
    said: dict[str, str] = {}
    for some in fields:
        said |= some
    answer = browser.get(f"/claims/?{urlencode(said | more)}")
    assert answer.status_code == 200
    return answer.content.decode()


def test_the_empty_page_asks_and_gives_examples_that_are_answered(
    client: Browser, office: Office
) -> None:
    shown = page(client)
    assert "<article" not in shown and 'role="alert"' not in shown
    links = [part.split('"')[0] for part in shown.split('<a href="?')[1:]]
    assert len(links) == 3
    for link in links:
        found = client.get(f"/claims/?{link}".replace("&amp;", "&")).content.decode()
        assert "<article" in found and "<svg" in found and 'role="alert"' not in found


def test_a_claim_against_a_soil_told_in_a_sentence(client: Browser, office: Office) -> None:
    shown = page(client, COFFEE, SOIL)
    assert 'class="lead"' in shown and "Spent coffee grounds" in shown
    assert "pH 7.2 (method not stated). Target: pH 5.5." in shown
    for part in ("<svg", "pH at once", "after a year", "Precautions", "Sources"):
        assert part in shown
    assert 'value="coffee grounds"' in shown and 'value="7.2"' in shown
    assert "claim.1.material" in shown


def test_several_claims_stand_side_by_side(client: Browser, office: Office) -> None:
    shown = page(client, COFFEE, SULFUR, SOIL)
    assert shown.count("<h2") >= 3
    assert "would come nearest" in shown


def test_a_claim_against_a_kept_bed_leaves_the_bed_as_it_is(
    client: Browser, office: Office, bed: Bed
) -> None:
    ash = {"claim.0.material": "wood ash", "claim.0.amount": "100 g/m2"}
    shown = page(client, ash, bed=str(bed.pk))
    assert "lime" in shown and 'class="lead"' in shown
    assert "soil.ph_method" not in shown
    assert Bed.objects.get().case_text == SAMPLES[1].case_text
    assert Change.objects.filter(office=office).count() == 1


def test_every_fault_stands_by_its_field_and_nothing_typed_is_lost(
    client: Browser, office: Office
) -> None:
    shown = page(
        client,
        {
            "claim.0.material": "<i>moon</i> dust",
            "claim.0.amount": "1 kg/m2",
            "claim.1.material": "garden lime",
            "claim.2.amount": "3 kg",
            "soil.texture": "lomm",
            "soil.ph": "72",
        },
    )
    assert "&lt;i&gt;moon" in shown and "<i>moon" not in shown
    assert "Enter how much of it." in shown and "Enter the name of a material." in shown
    assert shown.count('aria-invalid="true"') == 5
    assert "Did you mean 7.2?" in shown and "ph = " not in shown and "`" not in shown
    assert "<article" not in shown


def test_a_soil_without_its_ph_is_asked_for_it(client: Browser, office: Office) -> None:
    shown = page(client, COFFEE, {"soil.texture": "loam"})
    assert "Enter the pH that was measured." in shown and 'aria-invalid="true"' in shown


def test_what_a_bed_lacks_is_told_in_words(client: Browser, office: Office, bed: Bed) -> None:
    cup = {"claim.0.material": "vinegar", "claim.0.amount": "1 cup per plant"}
    shown = page(client, cup, bed=str(bed.pk))
    assert "plant" in shown and "bed.treated_diameter" not in shown


def test_a_broken_bed_is_told_with_the_way_to_it(client: Browser, office: Office) -> None:
    broken = Bed(name="Broken", case_text='case = 1\n[soil]\nph = "lemon"\n')
    Writer(office, what="Added it").add(broken)
    shown = page(client, COFFEE, bed=str(broken.pk))
    assert 'role="alert"' in shown and f"/beds/{broken.pk}" in shown


@pytest.mark.parametrize("bed", ["x", "00000000-0000-0000-0000-00000000000f"])
def test_a_bed_that_is_not_there_leaves_the_soil_of_the_sentence(
    client: Browser, office: Office, bed: str
) -> None:
    assert 'class="lead"' in page(client, COFFEE, SOIL, bed=bed)


def test_another_offices_bed_is_not_ours(client: Browser, office: Office) -> None:
    other = Office.objects.create(name="Other")
    theirs = Bed(name="Theirs", case_text=SAMPLES[1].case_text)
    Writer(other, what="Added it").add(theirs)
    assert "Theirs" not in page(client, COFFEE, bed=str(theirs.pk))


def test_nothing_is_changed_by_asking(client: Browser, office: Office) -> None:
    assert client.post("/claims/").status_code == 405


def test_odd_addresses_are_borne(client: Browser, office: Office) -> None:
    page(client, {"claim.0.material": "x" * 5000, "claim.9.material": "lime", "soil.ph": "\u200b"})
    page(client, COFFEE, {"soil.ph": "9e99"})
    page(client, COFFEE, {"soil.ph": "7", "aim.plant": "💐", "bed.area": "-1 m2"})


def test_us_words(client: Browser, office: Office) -> None:
    office.units, office.words = "us", "us"
    office.save()
    shown = page(client, COFFEE, SULFUR, SOIL).split("<article")[1]
    shown = re.sub(r'href="[^"]*"', "", shown)
    assert "ulphur" not in shown and "lb" in shown


def test_folk_remedies_side_by_side_for_a_soil(client: Browser, office: Office) -> None:
    shown = page(client, SOIL, sheet="1")
    assert "What ten folk remedies add, beside what this soil needs" in shown
    for name in ("Rainwater", "Garden compost", "Used tea leaves", "cm mulch", "<svg"):
        assert name in shown
    assert "pH 7.2 (method not stated). Target: pH 5.5." in shown
    query = shown.split("/claims/sheet.pdf?")[1].split('"')[0].replace("&amp;", "&")
    sheet = client.get(f"/claims/sheet.pdf?{query}")
    assert sheet.status_code == 200 and sheet.content.startswith(b"%PDF")
    assert "folk" in sheet["Content-Disposition"]


def test_folk_remedies_for_a_kept_bed(client: Browser, office: Office, bed: Bed) -> None:
    shown = page(client, bed=str(bed.pk), sheet="1")
    assert "folk remedies add" in shown
    assert Bed.objects.get().case_text == SAMPLES[1].case_text


def test_folk_remedies_need_the_ph_of_the_soil(client: Browser, office: Office) -> None:
    for soil in ({"soil.texture": "loam"}, {"soil.ph": "72"}):
        shown = page(client, soil, sheet="1")
        assert "<article" not in shown and 'aria-invalid="true"' in shown
        sheet = client.get(f"/claims/sheet.pdf?{urlencode(soil)}")
        assert sheet.status_code == 302 and sheet["Location"].startswith("/claims/?")


@pytest.mark.parametrize("asked", [{"sheet": "1"}, COFFEE, COFFEE | SULFUR])
def test_pictures_for_a_talk(client: Browser, office: Office, asked: dict[str, str]) -> None:
    shown = page(client, asked, SOIL)
    links = [part.split('"')[0].replace("&amp;", "&") for part in shown.split('href="')]
    pictures = [link for link in links if link.startswith("/claims/picture-")]
    assert len(pictures) == 4
    for link in pictures:
        picture = client.get(link)
        assert picture.status_code == 200
        if ".png" in link:
            width, height = struct.unpack(">II", picture.content[16:24])
            assert (width, height) == ((1600, 900) if "slide" in link else (1080, 1080))
        else:
            assert "Loam, pH 7.2." in picture.content.decode().replace("\u00a0", " ")


def test_a_picture_that_cannot_be_drawn_leads_back(client: Browser, office: Office) -> None:
    query = urlencode(COFFEE | {"soil.texture": "loam"})
    assert client.get(f"/claims/picture-slide.png?{query}").status_code == 302
    assert client.get(f"/claims/picture-poster.png?{query}").status_code == 404
    assert client.get(f"/claims/picture-slide.gif?{query}").status_code == 404
    there = {"soil.ph": "6", "soil.ph_method": "water 1:1", "aim.target_ph": "6"}
    query = urlencode(COFFEE | {"soil.texture": "loam"} | there)
    assert client.get(f"/claims/picture-slide.png?{query}").status_code == 302


def test_a_year_of_rain_can_be_claimed_and_a_river_cannot(client: Browser, office: Office) -> None:
    rain = {"claim.0.material": "rain", "claim.0.amount": "700 L/m2"}
    assert "Rainwater: rain itself contains next to no acid." in page(client, rain, SOIL)
    river = page(client, rain | {"claim.0.amount": "700 m3/m2"}, SOIL)
    assert "<article" not in river and 'aria-invalid="true"' in river
