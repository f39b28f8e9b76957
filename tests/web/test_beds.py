from __future__ import annotations

import tomllib
import uuid
from datetime import date, timedelta

import pytest
from django.test import Client as Browser

from loamshift.case.answer import answer_to_json
from loamshift.services.advise import advise
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office, SentLetter
from loamshift.store.scope import kept
from loamshift.web.beds.keeping import put_case
from loamshift.web.beds.next_thing import next_thing
from loamshift.web.beds.views.listing import decided
from loamshift.web.cases import case_of
from wording import read

pytestmark = pytest.mark.django_db
LAST = uuid.UUID(int=2**128 - 1)
"""The office of a single adviser is the first one; this one never is."""
TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day

CASE = """case = 1
name = "Berry border"

[place]
name = "Minneapolis"

[bed]
area = "18 m2"
depth = "15 cm"
planted = false

[soil]
ph = 6.8
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"

[aim]
plant = "highbush blueberry"
"""
AS_HTMX = {"HX-Request": "true"}


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


def a_bed(office: Office, *, client: str, garden: str, name: str, case: str = CASE) -> Bed:
    writer = Writer(office, what=f"Added {name}")
    who = Client.objects.filter(name=client, office=office).first()
    if who is None:
        who = Client(name=client)
        writer.add(who)
    where = Garden(client=who, name=garden, place={"name": "Minneapolis"})
    writer.add(where)
    bed = Bed(garden=where, name=name)
    put_case(bed, case.replace("Berry border", name), today=TODAY)
    writer.add(bed)
    return bed


@pytest.fixture
def bed(office: Office) -> Bed:
    return a_bed(office, client="Vosberg", garden="Walled garden", name="Berry border")


def test_an_empty_store_says_what_a_bed_is_and_where_to_begin(
    client: Browser, office: Office
) -> None:
    page = client.get("/beds/").content.decode()
    assert "one soil and one purpose" in page
    assert "/beds/new" in page and "/clients/new" in page
    assert 'role="search"' not in page


def test_beds_stand_under_client_and_garden_with_what_comes_next(client: Browser, bed: Bed) -> None:
    page = client.get("/beds/").content.decode()
    assert page.index("Vosberg") < page.index("Walled garden") < page.index("Berry border")
    assert "pH 6.8" in page and "highbush blueberry" in page
    assert "sulphur powder on " in page
    assert f"/beds/{bed.pk}/history" in page


@pytest.mark.parametrize("q", ["berry", "BLUEB", "walled", "vosb", "border vosberg"])
def test_a_bed_is_found_by_its_name_its_plant_its_garden_and_its_client(
    client: Browser, office: Office, bed: Bed, q: str
) -> None:
    a_bed(office, client="Other", garden="Home", name="Lawn", case='case = 1\nname = "Lawn"\n')
    page = client.get("/beds/", {"q": q}).content.decode()
    assert "Berry border" in page and ">Lawn<" not in page


def test_what_is_not_found_is_said_and_no_markup(client: Browser, bed: Bed) -> None:
    page = client.get("/beds/", {"q": "<b>zz"}).content.decode()
    assert "No results for" in page and "&lt;b&gt;zz" in page and "<b>zz" not in page


def test_while_typing_only_the_list_comes(client: Browser, bed: Bed) -> None:
    part = client.get("/beds/", {"q": "berry"}, headers=AS_HTMX).content.decode()
    assert part.strip().startswith('<div id="beds">') and "Berry border" in part
    back = {**AS_HTMX, "HX-History-Restore-Request": "true"}
    assert "<!doctype html>" in client.get("/beds/", headers=back).content.decode()


def test_sorted_by_what_is_due(client: Browser, office: Office, bed: Bed) -> None:
    a_bed(office, client="A first client", garden="G", name="Nothing known", case="case = 1\n")
    page = client.get("/beds/", {"by": "next"}).content.decode()
    assert page.index("Berry border") < page.index("Unnamed bed")
    assert "<bdi>Vosberg</bdi>, <bdi>Walled garden</bdi>" in page


def test_the_list_does_not_think_longer_than_it_may_and_the_rest_comes_after(
    client: Browser, bed: Bed, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("loamshift.web.beds.views.listing.PATIENCE_S", -1.0)
    monkeypatch.setattr("loamshift.web.beds.next_thing._known", {})
    page = client.get("/beds/").content.decode()
    assert f'hx-get="/beds/{bed.pk}/next"' in page
    assert read(decided(bed.decision)) in page
    assert "sulphur powder on" in client.get(f"/beds/{bed.pk}/next").content.decode()


def test_a_part_promised_in_a_letter_is_due_until_it_was_put_on(office: Office, bed: Bed) -> None:
    then = TODAY - timedelta(days=400)
    case = case_of(tomllib.loads(CASE) | {"today": then}, today=then)
    answer = advise(case)
    assert answer.applications
    sent = answer_to_json(answer)
    late = next_thing(tomllib.loads(CASE), uuid.uuid4(), today=TODAY, read=lambda _pk: sent)
    assert (late.kind, late.on) == ("part", answer.applications[0].date)
    assert late.is_late(TODAY) and late.is_sent
    done = CASE + (
        f"\n[[applied]]\ndate = {answer.applications[0].date}\n"
        'material = "elemental sulfur, powder"\nrate = "30 g/m2"\n'
    )
    after = next_thing(tomllib.loads(done), uuid.uuid4(), today=TODAY, read=lambda _pk: sent)
    assert (after.kind, after.on) == ("test", answer.retest[0])
    read_again = done + f"\n[[reading]]\ndate = {answer.retest[0]}\nph = 5.0\n"
    now = next_thing(tomllib.loads(read_again), uuid.uuid4(), today=TODAY, read=lambda _pk: sent)
    assert not now.is_sent, "what a test decides is said by a look today, not by the letter"


def test_a_letter_of_unknown_shape_does_not_break_the_list(office: Office, bed: Bed) -> None:
    found = next_thing(tomllib.loads(CASE), uuid.uuid4(), today=TODAY, read=lambda _pk: '{"a": 1}')
    assert found.kind == "part" and not found.is_sent


def test_a_bed_is_put_away_and_comes_back(client: Browser, office: Office, bed: Bed) -> None:
    page = client.post(f"/beds/{bed.pk}/put-away", {"version": bed.version}, follow=True)
    text = page.content.decode()
    assert "Berry border deleted." in text and ">Undo<" in text
    assert not kept(Bed, office).exists()


def test_of_a_bed_changed_in_the_meantime_nothing_is_put_away(
    client: Browser, office: Office, bed: Bed
) -> None:
    client.post(f"/beds/{bed.pk}/put-away", {"version": bed.version + 1})
    assert kept(Bed, office).exists()


def test_another_offices_bed_is_not_there(client: Browser, office: Office) -> None:
    other = a_bed(
        Office.objects.create(id=LAST, name="Theirs"), client="C", garden="G", name="Theirs"
    )
    for address in ("history", "edit", "next"):
        assert client.get(f"/beds/{other.pk}/{address}").status_code == 404
    assert client.post(f"/beds/{other.pk}/put-away").status_code == 404
    assert "Theirs" not in client.get("/beds/").content.decode()


def test_the_page_of_a_client_shows_gardens_beds_and_letters(
    client: Browser, office: Office, bed: Bed
) -> None:
    assert bed.garden is not None
    writer = Writer(office, what="Sent")
    writer.add(
        SentLetter(bed=bed, title="Plan", sent_on=TODAY, decision="go", answer_text='{"a": 1}')
    )
    page = client.get(f"/clients/{bed.garden.client_id}").content.decode()
    assert "Walled garden" in page and "Berry border" in page and ">Plan<" in page


def test_a_client_is_added_changed_and_its_faults_stand_beside_the_field(
    client: Browser, office: Office
) -> None:
    page = client.post("/clients/new", {"name": " ", "note": "Ring first"})
    assert page.status_code == 422
    assert "Enter a name" in page.content.decode() and "Ring first" in page.content.decode()
    client.post("/clients/new", {"name": "<i>Ann", "contact": "Lane"})
    ann = kept(Client, office).get()
    assert "&lt;i&gt;Ann" in client.get(f"/clients/{ann.pk}").content.decode()
    client.post(f"/clients/{ann.pk}/edit", {"name": "Ann", "version": ann.version})
    assert kept(Client, office).get().name == "Ann"


def test_two_who_change_one_client_see_both(client: Browser, office: Office) -> None:
    ann = Client(name="Ann", contact="Old")
    Writer(office, what="x").add(ann)
    seen = ann.version
    ann.contact = "New lane"
    Writer(office, what="x").change(ann, seen_version=seen)
    page = client.post(
        f"/clients/{ann.pk}/edit", {"name": "Ann", "contact": "My lane", "version": seen}
    )
    text = page.content.decode()
    assert page.status_code == 409 and "New lane" in text and "My lane" in text
    assert kept(Client, office).get().contact == "New lane"


def test_of_two_who_change_different_fields_of_a_client_neither_is_asked(
    client: Browser, office: Office
) -> None:
    ann = Client(name="Ann", contact="Old", note="Old")
    Writer(office, what="x").add(ann)
    seen = ann.version
    ann.contact = "New lane"
    Writer(office, what="x").change(ann, seen_version=seen)
    typed = {"name": "Ann Other", "contact": "Old", "note": "Mine", "version": seen}
    answer = client.post(f"/clients/{ann.pk}/edit", typed, follow=True)
    assert "both changes were saved" in answer.content.decode()
    now = kept(Client, office).get()
    assert (now.name, now.contact, now.note) == ("Ann Other", "New lane", "Mine")
    both = client.post(f"/clients/{ann.pk}/edit", typed | {"note": "Again"})
    text = both.content.decode()
    assert both.status_code == 409 and "Saved value: Mine" in text
    assert text.count("Saved value:") == 1 and ">\nNew lane<" in text


def test_names_to_choose_from_come_once_and_for_all_fields(client: Browser, office: Office) -> None:
    text = client.get("/lists").content.decode()
    for name in ("plants", "places", "materials", "textures"):
        assert f'<datalist id="{name}">' in text
    assert '<option value="highbush blueberry">' in text
    one = client.get("/lists", {"only": "materials"}).content.decode()
    assert one.count("<datalist") == 1 and '<option value="elemental sulfur, powder">' in one


def test_where_the_verdict_waits_the_list_names_the_test_and_no_weight(
    client: Browser, office: Office
) -> None:
    limy = (
        'case = 1\n[place]\nname = "Manchester"\n[bed]\narea = "10 m2"\nplanted = false\n[soil]\n'
        'ph = 7.3\nph_method = "water 1:1"\ntexture = "loam"\n[aim]\nplant = "highbush blueberry"\n'
    )
    found = next_thing(tomllib.loads(limy), None, today=TODAY, read=lambda _pk: "")
    assert (found.kind, found.what, found.on) == ("measure", "soil.fizz", None)
    a_bed(office, client="A client", garden="G", name="Waiting", case=limy)
    page = client.get("/beds/").content.decode()
    assert "first: a fizz test" in page
    told = answer_to_json(advise(case_of(tomllib.loads(limy), today=TODAY)))
    assert (
        next_thing(tomllib.loads(limy), uuid.uuid4(), today=TODAY, read=lambda _pk: told).kind
        == "measure"
    )
    fizzed = limy.replace("[aim]", 'fizz = "none"\nfizz_acid = "HCl"\n[aim]')
    after = next_thing(tomllib.loads(fizzed), uuid.uuid4(), today=TODAY, read=lambda _pk: told)
    assert after.kind == "part"
