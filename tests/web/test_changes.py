from __future__ import annotations

import uuid

import pytest
from django.contrib.messages import get_messages
from django.test import Client as Browser

from loamshift.domain.message import Given, message
from loamshift.store.changes import Writer, take_back
from loamshift.store.models import Bed, Change, Client, Garden, Office
from loamshift.store.recorded import what_of
from loamshift.store.scope import kept

pytestmark = pytest.mark.django_db


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture
def bed(office: Office) -> Bed:
    writer = Writer(office, what="Added <b>North</b> border")
    client = Client(name="A client")
    writer.add(client)
    garden = Garden(client=client, name="A garden")
    writer.add(garden)
    bed = Bed(garden=garden, name="North border", case_text="case = 1\n")
    writer.add(bed)
    return bed


def test_the_empty_list_says_what_it_is_for(client: Browser, office: Office) -> None:
    assert "is listed here" in client.get("/changes/").content.decode()


def test_an_act_is_one_line_and_its_words_are_no_markup(client: Browser, bed: Bed) -> None:
    page = client.get("/changes/").content.decode()
    assert page.count("Added &lt;b&gt;North&lt;/b&gt; border</span>") == 1
    assert "<b>North" not in page
    assert "3 items" in page


def test_a_deletion_is_taken_back_and_the_page_says_so_with_the_way_to_do_it_again(
    client: Browser, office: Office, bed: Bed
) -> None:
    writer = Writer(office, what="Deleted North border")
    writer.put_away(bed)
    answer = client.post(f"/changes/{writer.act}/take-back", {"next": "/changes/?page=1"})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/changes/?page=1")
    assert kept(Bed, office).get() == bed
    page = client.get("/changes/").content.decode()
    assert "Undone: Deleted North border" in page
    assert ">undone<" in page
    assert ">Redo<" in page
    (undone,) = [m.extra_tags for m in get_messages(answer.wsgi_request)]
    assert f"/changes/{undone}/take-back" in page
    take_back(office, uuid.UUID(undone))
    assert not kept(Bed, office).exists()


def test_what_cannot_be_taken_back_is_told(client: Browser, office: Office, bed: Bed) -> None:
    page = client.post(f"/changes/{uuid.uuid4()}/take-back", follow=True).content.decode()
    assert "There is no such change" in page
    assert 'role="alert"' in page


def test_it_goes_to_no_other_host(client: Browser, office: Office, bed: Bed) -> None:
    answer = client.post(f"/changes/{uuid.uuid4()}/take-back", {"next": "https://elsewhere.test/"})
    assert answer.headers["Location"] == "/changes/"


def test_looking_at_the_address_of_taking_back_changes_nothing(client: Browser, bed: Bed) -> None:
    assert client.get(f"/changes/{uuid.uuid4()}/take-back").status_code == 405


def test_the_acts_of_one_thing(client: Browser, office: Office, bed: Bed) -> None:
    other = Client(name="Other")
    Writer(office, what="Added Other").add(other)
    page = client.get(f"/changes/?thing={bed.pk}").content.decode()
    assert "border" in page
    assert "Added Other" not in page


def test_another_offices_acts_are_not_listed(client: Browser, office: Office, bed: Bed) -> None:
    from django.utils import timezone

    from loamshift.web.data.views.changes import acts_of

    other = Office.objects.create(name="Other")
    assert acts_of(office, now=timezone.now()).count() == 1
    assert not acts_of(other, now=timezone.now()).exists()


def test_a_long_list_has_pages(client: Browser, office: Office) -> None:
    for number in range(55):
        Writer(office, what=f"Added client {number}").add(Client(name=f"C{number}"))
    first = client.get("/changes/").content.decode()
    second = client.get("/changes/?page=2").content.decode()
    assert "Added client 54<" in first and "Added client 4<" not in first
    assert "Added client 4<" in second
    assert ">Next<" in first and ">Previous<" in second


def test_what_an_earlier_version_recorded_in_words_still_shows(
    client: Browser, office: Office, bed: Bed
) -> None:
    Change.objects.filter(office=office).update(what="Took back: Deleted Äpfel", said="")
    page = client.get("/changes/").content.decode()
    assert "Took back: Deleted Äpfel" in page and ">Redo<" in page
    act = Change.objects.filter(office=office).values_list("act", flat=True)[0]
    client.post(f"/changes/{act}/take-back")
    assert "Redone: Deleted Äpfel" in client.get("/changes/").content.decode()


def test_the_words_of_the_history_are_those_of_who_reads_it(
    client: Browser, office: Office, bed: Bed
) -> None:
    what = message("gardens-size-changed", bed=Given("North"), size=Given("20 m²"))
    writer = Writer(office, what=what)
    bed.name = "South"
    writer.change(bed, seen_version=bed.version)
    (row,) = Change.objects.filter(act=writer.act)
    assert what_of(row.said, row.what) == what
    assert "Size of North changed to 20 m²." in client.get("/changes/").content.decode()
