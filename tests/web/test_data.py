from __future__ import annotations

import io
import zipfile
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser

from loamshift.store.changes import Writer
from loamshift.store.export import store_zip
from loamshift.store.models import Bed, Change, Client, Garden, Office, SentLetter
from loamshift.store.scope import kept
from store.stores import NOW, everything, small

pytestmark = pytest.mark.django_db

GOOD = 'case = 1\r\nname = "North border"\n[soil]\nph = 6.4\n[aim]\nplant = "cabbage"\n'
BAD = 'case = 1\nname = "</textarea><b>South"\n[soil]\nph = 64\ntexture = "moon"\n'


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture(autouse=True)
def folder(settings: Any, tmp_path: Path) -> Path:
    settings.DATA_FOLDER = tmp_path
    return tmp_path


def sent(browser: Browser, data: bytes, **said: str) -> tuple[int, str]:
    upload = SimpleUploadedFile("store.zip", data)
    answer = browser.post("/settings/data/bring-in", {"zip": upload, **said}, follow=True)
    return answer.status_code, answer.content.decode()


@pytest.mark.django_db(transaction=True)
def test_everything_goes_out_and_comes_back_into_an_empty_store(
    client: Browser, office: Office
) -> None:
    office.letterhead = "Ours,\nHere"
    office.save()
    small(office)
    before = everything(office)
    answer = client.get("/settings/data/store.zip")
    assert answer.headers["Content-Disposition"].startswith('attachment; filename="ours-')
    office.delete()
    again = Office.objects.create()
    status, page = sent(client, answer.content)
    assert (status, "5 items were added" in page) == (200, True)
    again.refresh_from_db()
    assert everything(again) == before


@pytest.mark.django_db(transaction=True)
def test_replacing_asks_twice_and_keeps_a_backup(
    client: Browser, office: Office, folder: Path
) -> None:
    small(office)
    data = store_zip(office, now=NOW)
    small(office)
    status, page = sent(client, data, how="replace")
    assert (status, "have not confirmed that" in page) == (422, True)
    assert kept(Bed, office).count() == 2
    status, page = sent(client, data, how="replace", sure="yes")
    assert status == 200
    assert kept(Bed, office).count() == 1
    (backup,) = (folder / "backups").iterdir()
    assert str(backup) in page


def test_adding_can_be_taken_back_from_the_page(client: Browser, office: Office) -> None:
    thing = small(office)[0]
    data = store_zip(office, now=NOW)
    thing.delete()
    _, page = sent(client, data)
    assert "4 items were added. One item was here already and has not been changed." in page
    assert ">Undo<" in page


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"case = 1", "not a zip file, or it is damaged"),
        (b"\x00" * 50_000_000, "has 50 MB. The limit is 32 MB"),
    ],
    ids=["no zip", "50 MB"],
)
def test_what_cannot_be_brought_in_is_told(
    client: Browser, office: Office, data: bytes, said: str
) -> None:
    status, page = sent(client, data)
    assert status == 422
    assert said in page


def test_no_file_is_told(client: Browser, office: Office) -> None:
    answer = client.post("/settings/data/bring-in", {})
    assert answer.status_code == 422
    assert "No file was chosen" in answer.content.decode()


def test_markup_in_a_zip_is_no_markup_on_the_page(client: Browser, office: Office) -> None:
    file = io.BytesIO(store_zip(office, now=NOW))
    with zipfile.ZipFile(file, "a") as archive:
        archive.writestr("<script>x</script>", b"x")
    status, page = sent(client, file.getvalue())
    assert status == 422
    assert "&lt;script&gt;" in page
    assert "<script>x" not in page


@pytest.mark.django_db(transaction=True)
def test_a_backup_on_demand_is_a_sound_copy(client: Browser, office: Office, folder: Path) -> None:
    small(office)
    page = client.post("/settings/data/backup", follow=True).content.decode()
    (backup,) = (folder / "backups").iterdir()
    assert str(backup) in page
    assert "by-hand" in backup.name


def test_a_client_is_deleted_with_all_its_own_and_taken_back(
    client: Browser, office: Office
) -> None:
    thing = small(office)[0]
    asked = client.get(f"/clients/{thing.pk}/delete").content.decode()
    assert "One bed is deleted too. One letter is deleted with it." in asked
    assert kept(Client, office).exists()
    page = client.post(f"/clients/{thing.pk}/delete", follow=True).content.decode()
    assert ">Undo<" in page
    assert not kept(Bed, office).exists()
    assert "Delete permanently" in page
    act = Change.objects.first()
    assert act is not None
    client.post(f"/changes/{act.act}/take-back")
    assert kept(SentLetter, office).exists()


def test_removing_for_good_asks_for_the_name_and_leaves_nothing(
    client: Browser, office: Office
) -> None:
    thing = small(office)[0]
    bed = Bed.objects.get()
    Writer(office, what="Deleted A bed").put_away(bed)
    address = f"/clients/{thing.pk}/delete/for-good"
    assert client.get(address).status_code == 200
    wrong = client.post(address, {"name": "a client"})
    assert (wrong.status_code, "That is not the name" in wrong.content.decode()) == (422, True)
    assert Client.objects.exists()
    page = client.post(address, {"name": "=A client"}, follow=True).content.decode()
    assert "4 items in all" in page
    for model in (Client, Garden, Bed, SentLetter):
        assert not model._default_manager.exists()
    assert [change.kind for change in Change.objects.all()] == ["product"]


def test_another_offices_client_is_not_there(client: Browser, office: Office) -> None:
    theirs = Office.objects.create(pk="ffffffff-ffff-4fff-bfff-ffffffffffff", name="Theirs")
    thing, garden, bed, *_ = small(theirs)
    Office.objects.exclude(pk=theirs.pk).update(name="Ours")
    for address in (
        f"/clients/{thing.pk}/client.zip",
        f"/clients/{thing.pk}/delete",
        f"/clients/{thing.pk}/delete/for-good",
        f"/beds/{bed.pk}/case.toml",
        f"/gardens/{garden.pk}/cases",
    ):
        assert client.get(address).status_code == 404, address


def test_a_case_file_goes_out_to_the_letter(client: Browser, office: Office) -> None:
    bed = small(office)[2]
    bed.case_text = GOOD
    Writer(office, what="x").change(bed, seen_version=1)
    answer = client.get(f"/beds/{bed.pk}/case.toml")
    assert answer.content.decode() == GOOD
    assert 'filename="a-bed.toml"' in answer.headers["Content-Disposition"]


def test_good_case_files_become_beds_and_the_others_come_back_with_every_fault(
    client: Browser, office: Office
) -> None:
    garden = small(office)[1]
    files = [
        SimpleUploadedFile("north.toml", GOOD.encode()),
        SimpleUploadedFile("south.toml", BAD.encode()),
        SimpleUploadedFile("photo.toml", b"\x89PNG\xff"),
        SimpleUploadedFile("large.toml", b"#" * 1_000_001),
    ]
    answer = client.post(f"/gardens/{garden.pk}/cases", {"files": files})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "One bed imported into A garden." in page
    added = Bed.objects.get(name="North border")
    assert (added.case_text, added.ph, added.plants) == (GOOD, 6.4, "cabbage")
    for said in ("south.toml", "soil.ph", "soil.texture", "not UTF-8 text", "than 1 MB"):
        assert said in page
    assert "&lt;/textarea&gt;&lt;b&gt;South" in page
    mended = {
        "mended-name": "south.toml",
        "mended": BAD.replace("64", "6.4").replace("moon", "loam"),
    }
    client.post(f"/gardens/{garden.pk}/cases", mended)
    assert Bed.objects.get(ph=6.4, plants="").name == "</textarea><b>South"


def test_no_case_file_at_all_is_told(client: Browser, office: Office) -> None:
    garden = small(office)[1]
    answer = client.post(f"/gardens/{garden.pk}/cases", {})
    assert (answer.status_code, "No file was chosen" in answer.content.decode()) == (422, True)
