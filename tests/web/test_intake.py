from __future__ import annotations

import re
from datetime import timedelta
from typing import Any
from uuid import UUID

import pytest
from django.contrib.messages import get_messages
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser
from django.utils import timezone

from loamshift.store.changes import Writer
from loamshift.store.erase import erase_client
from loamshift.store.models import Bed, Change, Client, Garden, IntakeDraft, Office
from loamshift.store.scope import kept

pytestmark = pytest.mark.django_db

REPORT = (
    "Sample;Date sampled;Depth (cm);pH;Organic matter %;Texture\n"
    "North border;2026-03-02;0-15;5,9;3,4;loam\n"
    "Rose bed;2026-03-02;0-15;6,8;4,1;clay loam\n"
)
NORTH = 'case = 1\nname = "North border"\n[soil]\nph = 6.4\nsampled = 2024-03-01\n'


@pytest.fixture
def office() -> Office:
    return Office.objects.create(pk=UUID(int=1), name="Ours")


@pytest.fixture
def garden(office: Office) -> Garden:
    writer = Writer(office, what="Added it")
    owner = Client(name="Höfer")
    writer.add(owner)
    made = Garden(client=owner, name="Home", place={"name": "Minneapolis"})
    writer.add(made)
    return made


@pytest.fixture
def north(office: Office, garden: Garden) -> Bed:
    bed = Bed(garden=garden, name="North border", case_text=NORTH)
    Writer(office, what="Added it").add(bed)
    return bed


def upload(content: str | bytes, *, name: str = "report.csv", laboratory: str = "Riverside") -> Any:
    data = content if isinstance(content, bytes) else content.encode()
    given = {"file": SimpleUploadedFile(name, data), "laboratory": laboratory}
    return Browser().post("/intake/", given)


def fields(page: str) -> dict[str, str]:
    """What a browser would send of the form: selects and inputs as they stand."""
    found = {}
    for name, body in re.findall(r'<select name="([^"]+)"[^>]*>(.*?)</select>', page, re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', body)
        found[name] = chosen[1] if chosen else ""
    for name, value in re.findall(r'<input name="([^"]+)" value="([^"]*)"', page):
        found[name] = value
    return {k.replace("&quot;", '"').replace("&#x27;", "'"): v for k, v in found.items()}


def page_of(draft: IntakeDraft) -> str:
    return Browser().get(f"/intake/{draft.pk}/").content.decode()


def send(draft: IntakeDraft, do: str, **more: str) -> Any:
    return Browser().post(f"/intake/{draft.pk}/", {**fields(page_of(draft)), **more, "do": do})


def answer_method(draft: IntakeDraft) -> None:
    send(draft, "save", **{"answer:pH: method": "CaCl2"})
    draft.refresh_from_db()


def test_a_file_is_understood_asked_about_entered_and_undone(
    office: Office, garden: Garden, north: Bed
) -> None:
    assert upload(REPORT).status_code == 302
    draft = IntakeDraft.objects.get()
    page = page_of(draft)
    assert "How was “pH” measured?" in page
    assert "Nothing of this file has been entered yet" in page
    before = (Bed.objects.count(), Change.objects.count(), north.case_json)

    answer_method(draft)
    assert (Bed.objects.count(), Change.objects.count()) == before[:2]
    page = page_of(draft)
    assert "How was “pH” measured?" not in page
    assert "new bed" in page and "existing bed" in page

    assert send(draft, "enter", garden=str(garden.pk)).status_code == 302
    north.refresh_from_db()
    assert north.case_json["soil"]["ph"] == 6.4
    assert north.case_json["soil"]["texture"] == "loam"
    assert [
        (str(one["ph"]), one["date"], one["ph_method"]) for one in north.case_json["reading"]
    ] == [("5.9", "2026-03-02", "CaCl2")]
    rose = Bed.objects.get(name="Rose bed")
    assert rose.garden_id == garden.pk
    assert rose.case_json["place"] == {"name": "Minneapolis"}
    assert rose.ph == 6.8
    draft.refresh_from_db()
    assert draft.act is not None
    assert "Undo this import" in page_of(draft)

    Browser().post(f"/changes/{draft.act}/take-back", {"next": f"/intake/{draft.pk}/"})
    north.refresh_from_db()
    assert north.case_json == before[2]
    assert [bed.name for bed in kept(Bed, office)] == ["North border"]
    assert "Nothing of this file has been entered yet" in page_of(draft)


def test_a_bed_changed_later_keeps_its_change_and_the_undoing_is_refused(
    office: Office, garden: Garden, north: Bed
) -> None:
    upload(REPORT)
    draft = IntakeDraft.objects.get()
    answer_method(draft)
    send(draft, "enter")
    draft.refresh_from_db()
    north.refresh_from_db()
    north.take_case({**north.case_json, "aim": {"plant": "cabbage"}})
    Writer(office, what="Aimed").change(north, seen_version=north.version)
    said = Browser().post(f"/changes/{draft.act}/take-back", follow=True).content.decode()
    assert "changed" in said
    north.refresh_from_db()
    assert north.case_json["aim"] == {"plant": "cabbage"}
    assert Bed.objects.filter(name="Rose bed", deleted_at=None).exists()


def test_what_was_answered_is_proposed_for_the_next_file_of_the_laboratory(office: Office) -> None:
    upload(REPORT)
    first = IntakeDraft.objects.get()
    answer_method(first)
    send(first, "enter")
    upload(REPORT.replace("2026-03-02", "2026-04-02"), name="next.csv")
    second = IntakeDraft.objects.get(name="next.csv")
    assert "How was “pH” measured?" not in page_of(second)
    upload(REPORT, name="other.csv", laboratory="Another")
    assert "How was “pH” measured?" in page_of(IntakeDraft.objects.get(name="other.csv"))


def test_the_same_file_twice_adds_no_reading_twice(office: Office, north: Bed) -> None:
    for name in ("one.csv", "two.csv"):
        upload(REPORT, name=name)
        draft = IntakeDraft.objects.get(name=name)
        if name == "one.csv":
            answer_method(draft)
        send(draft, "enter")
    north.refresh_from_db()
    assert len(north.case_json["reading"]) == 1
    assert Bed.objects.filter(name="Rose bed").count() == 1


def test_an_answer_together_with_enter_is_looked_at_again_first(office: Office) -> None:
    upload(REPORT)
    draft = IntakeDraft.objects.get()
    answer = send(draft, "enter", **{"answer:pH: method": "CaCl2"})
    assert not Bed.objects.exists()
    said = [str(one) for one in get_messages(answer.wsgi_request)]
    assert said == ["Answers saved. Check the rows again, then add them."]
    draft.refresh_from_db()
    assert draft.answers == {"ph: method": "CaCl2"}


def test_a_cleared_bed_leaves_its_row_out_and_a_like_name_is_asked_about(
    office: Office, north: Bed
) -> None:
    upload(REPORT.replace("North border", "Nort border"))
    draft = IntakeDraft.objects.get()
    answer_method(draft)
    page = page_of(draft)
    assert "No bed has this name. Perhaps:" in page
    (place,) = [name for name in fields(page) if "Rose bed" in name]
    send(draft, "enter", **{place: ""})
    assert Bed.objects.count() == 1
    assert "No row has a bed to go to" in send(draft, "enter", **{place: ""}).content.decode()


def test_field_notes_become_readings(office: Office, north: Bed) -> None:
    upload("bed,date,pH (water 1:5)\nNorth border,2026-04-10,6.1\n", laboratory="")
    send(IntakeDraft.objects.get(), "enter")
    north.refresh_from_db()
    (reading,) = north.case_json["reading"]
    assert (reading["ph_method"], reading["date"]) == ("water 1:5", "2026-04-10")


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("scan.png", b"\x89PNG\r\n\x1a\n0000", "is a picture"),
        ("empty.csv", b" ", "is empty"),
        ("large.csv", b"a,b\n" * 1_400_000, "larger than 5 MB"),
        ("many.csv", b"Sample,pH (CaCl2)\n" + b"".join(b"S%d,6.1\n" % n for n in range(300)),
         "has 300 rows"),
        ("huge.csv", b"Sample,pH (CaCl2)\n" + b"S,6.1\n" * 21_000, "has 21,001 rows"),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_used_is_named(
    name: str, content: bytes, says: str, office: Office
) -> None:
    answer = upload(content, name=name)
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not IntakeDraft.objects.exists()


def test_no_file_and_wrong_answers_lose_nothing(office: Office) -> None:
    assert Browser().post("/intake/", {"laboratory": "Riverside"}).status_code == 422
    upload(REPORT)
    draft = IntakeDraft.objects.get()
    answer = send(draft, "save", **{"answer:pH: method": "by taste"})
    assert answer.status_code == 422
    assert "by taste" in answer.content.decode()
    draft.refresh_from_db()
    assert draft.beds and not draft.answers


def test_files_of_another_office_are_not_there_and_old_ones_go(office: Office) -> None:
    other = Office.objects.create(name="Theirs")
    theirs = IntakeDraft.objects.create(office=other, name="x.csv", content=b"a,b\n1,2\n")
    for address in (f"/intake/{theirs.pk}/", f"/intake/{theirs.pk}/delete"):
        assert Browser().post(address).status_code == 404
    upload(REPORT)
    IntakeDraft.objects.filter(office=office).update(changed_at=timezone.now() - timedelta(days=31))
    assert "report.csv" not in Browser().get("/intake/").content.decode()
    assert not IntakeDraft.objects.filter(office=office).exists()


def test_a_file_is_deleted_and_what_it_added_stays(office: Office) -> None:
    upload(REPORT)
    draft = IntakeDraft.objects.get()
    answer_method(draft)
    send(draft, "enter")
    Browser().post(f"/intake/{draft.pk}/delete")
    assert not IntakeDraft.objects.exists()
    assert Bed.objects.count() == 2


def test_a_client_removed_for_good_takes_the_files_along(
    office: Office, garden: Garden, north: Bed
) -> None:
    upload(REPORT)
    upload(REPORT.replace("North border", "Elsewhere"))
    entered, waiting = IntakeDraft.objects.order_by("changed_at")
    answer_method(entered)
    send(entered, "enter")
    erase_client(office, garden.client)
    assert list(IntakeDraft.objects.all()) == [waiting], "its other rows were of nobody’s garden"
