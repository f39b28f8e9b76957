from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client as Browser

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office, Product
from loamshift.web.beds.keeping import put_case

pypdfium2 = pytest.importorskip("pypdfium2")
TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
LAST = TODAY.year - 1


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours", letterhead="Ours & Co")


def a_bed(office: Office, name: str, garden: Garden | None = None, area: str = "20 m2") -> Bed:
    text = f"""case = 1
name = "{name}"
[place]
name = "London"
[bed]
area = "{area}"
depth = "15 cm"
planted = false
[soil]
ph = 5.2
ph_method = "water 1:1"
sampled = {LAST}-03-01
texture = "loam"
organic_matter_pct = 3
[aim]
plant = "cabbage"
[[applied]]
date = {LAST}-04-01
material = "ground limestone"
rate = "100 g/m2"
[[reading]]
date = {LAST}-10-01
ph = 5.6
ph_method = "water 1:1"
"""
    bed = Bed(garden=garden)
    put_case(bed, text, today=TODAY)
    Writer(office, what="Added").add(bed)
    return bed


def garden_of(office: Office, name: str) -> Garden:
    writer = Writer(office, what="Added")
    client = Client(name=name)
    writer.add(client)
    garden = Garden(client=client, name="Home")
    writer.add(garden)
    return garden


def text_of(data: bytes) -> str:
    with pypdfium2.PdfDocument(data) as pdf:
        return "\n".join(sheet.get_textpage().get_text_range() for sheet in pdf)


def test_an_office_without_beds_is_told_so(client: Browser, office: Office) -> None:
    assert "There is no bed to review yet." in client.get("/review/").content.decode()


def test_a_year_of_a_bed_is_told(client: Browser, office: Office) -> None:
    bed = a_bed(office, "Plot")
    page = client.get(f"/beds/{bed.pk}/review?year={LAST}").content.decode()
    assert f"In {LAST} the pH rose from 5.2 to 5.6." in page
    assert "100" in page and "limestone" in page
    assert "The last test was below the target range" in page
    now = client.get(f"/beds/{bed.pk}/review").content.decode()
    assert "No application was logged." in now


@pytest.mark.parametrize("year", ["1812", "9999", "x", "0", "²"])
def test_a_year_that_is_none_of_theirs_is_this_one(
    client: Browser, office: Office, year: str
) -> None:
    a_bed(office, "Plot")
    page = client.get("/review/", {"year": year})
    assert page.status_code == 200
    assert f"in {TODAY.year}" in page.content.decode()


def test_the_shopping_list_is_over_all_beds(client: Browser, office: Office) -> None:
    for name in ("One", "Two"):
        a_bed(office, name)
    product = Product(
        name="Pale bag",
        material="ground limestone, calcitic",
        pack="20 kg",
        price=5.0,
        currency="GBP",
    )
    Writer(office, what="Added").add(product)
    page = client.get(f"/review/?year={LAST}").content.decode()
    assert page.count("Pale bag") == 1
    assert "In all: " in page


def test_a_client_sees_no_bed_of_another(client: Browser, office: Office) -> None:
    ann, bob = garden_of(office, "Ann"), garden_of(office, "Bob")
    a_bed(office, "Roses of Ann", ann)
    a_bed(office, "Beans of Bob", bob)
    page = client.get(f"/clients/{ann.client_id}/review?year={LAST}").content.decode()
    assert "Ann: the beds in" in page
    assert "Beans of Bob" not in page
    everybody = client.get(f"/review/?year={LAST}").content.decode()
    assert "Roses of Ann, Ann" in everybody and "Beans of Bob, Bob" in everybody


@pytest.mark.parametrize(("paper", "width"), [("a4", 595), ("letter", 612)])
def test_it_is_printed_on_the_paper_of_the_office(
    client: Browser, office: Office, paper: str, width: int
) -> None:
    Office.objects.update(paper=paper)
    bed = a_bed(office, "Plot")
    response = client.get(f"/beds/{bed.pk}/review?year={LAST}&file=pdf")
    assert response["Content-Type"] == "application/pdf"
    with pypdfium2.PdfDocument(response.content) as pdf:
        assert round(pdf[0].get_width()) == width
    told = text_of(response.content)
    assert "Ours & Co" in told and f"Plot in {LAST}" in told


def test_a_bed_that_cannot_be_read_is_left_out_and_told(client: Browser, office: Office) -> None:
    a_bed(office, "Good")
    bad = a_bed(office, "Bad")
    bad.case_json["soil"]["ph"] = 51
    Bed.objects.filter(pk=bad.pk).update(case_json=bad.case_json)
    page = client.get(f"/review/?year={LAST}").content.decode()
    assert "One bed could not be read and is left out." in page


def test_the_first_day_of_the_year_is_of_the_year(client: Browser, office: Office) -> None:
    bed = a_bed(office, "Plot")
    day = date(LAST, 1, 1)
    bed.case_json["reading"].append(
        {"date": str(day - timedelta(days=1)), "ph": 5.0, "ph_method": "water 1:1"}
    )
    Bed.objects.filter(pk=bed.pk).update(case_json=bed.case_json)
    page = client.get(f"/beds/{bed.pk}/review?year={LAST}").content.decode()
    assert f"In {LAST} the pH rose from 5.0 to 5.6." in page
    assert f"?year={LAST - 1}" in page
