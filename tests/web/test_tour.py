from __future__ import annotations

from html import unescape
from uuid import UUID

import pytest
from django.contrib.messages import get_messages
from django.test import Client as Browser

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.store.scope import kept
from loamshift.web.middleware import the_office
from loamshift.web.plan.tour import ALONE, STEPS
from loamshift.web.prepare import add_samples
from wording import read

pytestmark = [pytest.mark.django_db, pytest.mark.drawn]


@pytest.fixture
def office() -> Office:
    made = Office.objects.create(name="Ours")
    add_samples(made)
    return made


def page(browser: Browser, address: str = "/") -> str:
    return browser.get(address).content.decode()


def test_the_invented_beds_are_worked_out_like_any_other(office: Office) -> None:
    berries, plot = kept(Bed, office).order_by("name")
    assert (berries.name, berries.plants, berries.ph) == ("Berry border", "highbush blueberry", 6.8)
    assert (plot.name, plot.plants, plot.ph) == ("Kitchen plot", "cabbage", 5.6)
    assert berries.decision and plot.decision and berries.is_sample and plot.is_sample


def test_a_single_adviser_keeps_the_first_office_whatever_its_id(office: Office) -> None:
    for id_ in (UUID(int=0), UUID(int=2**128 - 1)):
        Office.objects.create(pk=id_, name="Later")
    assert the_office() == office


def test_the_first_steps_follow_one_another_without_a_script(
    client: Browser, office: Office
) -> None:
    address = "/"
    for number, said in enumerate(STEPS, 1):
        shown = page(client, address)
        assert read(said) in unescape(shown)
        assert f"{number} of {len(STEPS)}" in shown
        address = f"/?tour={number + 1}"
        assert (f'href="{address}"' in shown) is (number < len(STEPS))
    assert "Delete the example beds" in shown


def test_the_other_things_an_address_says_stay(client: Browser, office: Office) -> None:
    shown = page(client, "/plan?soil.ph=7.3&tour=2")
    assert "/plan?soil.ph=7.3&amp;tour=3" in shown


@pytest.mark.parametrize("step", ["0", "9", "x", "-1", "²", "11111"])
def test_a_step_that_is_none_is_borne(client: Browser, office: Office, step: str) -> None:
    assert client.get("/", {"tour": step}).status_code == 200


def test_put_away_for_good_and_shown_again_on_request(client: Browser, office: Office) -> None:
    answer = client.post("/tour/done", {"next": "/plan?soil.ph=7"})
    assert answer.headers["Location"] == "/plan?soil.ph=7"
    assert 'class="tour' not in page(client)
    assert "Show the tour again" in page(client, "/settings/")
    client.post("/tour/again")
    assert 'class="tour' in page(client)


def test_it_goes_to_no_other_host(client: Browser, office: Office) -> None:
    answer = client.post("/tour/done", {"next": "https://elsewhere.test/"})
    assert answer.headers["Location"] == "/"


def test_the_invented_beds_go_as_one_act_and_come_back(client: Browser, office: Office) -> None:
    answer = client.post("/tour/samples-away")
    for model in (Bed, Garden, Client):
        assert not kept(model, office).exists()
    act = [m.extra_tags for m in get_messages(answer.wsgi_request)][-1]
    client.post(f"/changes/{act}/take-back")
    assert kept(Bed, office).count() == 2
    assert kept(Garden, office).exists() and kept(Client, office).exists()


def test_a_bed_of_yours_beside_them_stays(client: Browser, office: Office) -> None:
    garden = kept(Garden, office).get()
    mine = Bed(name="Mine", case_text="case = 1\n", garden=garden)
    Writer(office, what="Added Mine").add(mine)
    client.post("/tour/samples-away")
    assert list(kept(Bed, office)) == [mine]
    assert kept(Garden, office).exists() and kept(Client, office).exists()


def test_without_invented_beds_nothing_is_done(client: Browser, office: Office) -> None:
    client.post("/tour/samples-away")
    answer = client.post("/tour/samples-away")
    assert answer.status_code == 302
    assert "Delete the example beds" not in page(client, "/?tour=4")
    assert read(ALONE) in page(client) and "Two example beds" not in page(client)
