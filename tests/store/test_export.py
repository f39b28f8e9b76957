from __future__ import annotations

import csv
import io
import zipfile

import pytest
from django.db import transaction
from hypothesis import given

from loamshift.store.changes import Writer
from loamshift.store.export import client_zip, store_zip
from loamshift.store.limits import faults_in
from loamshift.store.models import Bed, Client, Kept, Office
from loamshift.store.put_in import add_missing, is_empty, replace_all
from loamshift.store.restore import read_zip
from store.stores import NOW, everything, keep, offices, small, things
from tries import tries

pytestmark = pytest.mark.django_db


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


def emptied(office: Office) -> Office:
    office.delete()
    return Office.objects.create(name="Empty")


@tries(40)
@given(office=offices, some=things())
def test_any_store_comes_back_from_its_zip_as_it_was(office: Office, some: list[Kept]) -> None:
    assert not [fault for thing in some for fault in faults_in(thing)]
    with transaction.atomic():
        keep(office, some)
        before = everything(office)
        data = store_zip(office, now=NOW)
        empty = emptied(office)
        assert is_empty(empty)
        done = replace_all(read_zip(data), empty)
        assert done.added == len(some)
        again = Office.objects.get(pk=empty.pk)
        assert everything(again) == before
        assert store_zip(again, now=NOW) == data
        transaction.set_rollback(True)


def test_no_cell_of_any_table_starts_a_formula(office: Office) -> None:
    _, garden, *_ = small(office)
    starts = ("=", "+", "-", "@", "\t", "\r", "＝")
    writer = Writer(office, what="Added")
    for number, sign in enumerate(starts):
        writer.add(Client(name=f"{sign}1", contact=sign, note=f"{sign}HYPERLINK()"))
        writer.add(Bed(garden=garden, name=f"{sign}{number}", case_text="case = 1\n", ph=5.0))
    with zipfile.ZipFile(io.BytesIO(store_zip(office, now=NOW))) as archive:
        cells = [
            cell
            for name in archive.namelist()
            if name.endswith(".csv")
            for row in csv.reader(io.StringIO(archive.read(name).decode("utf-8-sig"), newline=""))
            for cell in row
        ]
    assert any("HYPERLINK" in cell for cell in cells)
    assert not [cell for cell in cells if cell.startswith(starts)]


def test_a_client_goes_out_whole_and_alone(office: Office) -> None:
    client, garden, bed, letter, _ = small(office)
    writer = Writer(office, what="Added")
    writer.add(Client(name="Somebody else"))
    gone = Bed(garden=garden, name="Put away", case_text="case = 1\n")
    writer.add(gone)
    writer.put_away(gone)
    archive = read_zip(client_zip(client, now=NOW))
    assert archive.scope == "client"
    assert {thing.pk for thing in archive.things} == {client.pk, garden.pk, bed.pk, letter.pk}


def test_a_client_put_away_for_good_comes_back_from_its_zip_and_that_is_taken_back(
    office: Office,
) -> None:
    from loamshift.store.changes import take_back
    from loamshift.store.scope import kept

    client, *_ = small(office)
    before = everything(office)
    data = client_zip(client, now=NOW)
    client.delete()
    done = add_missing(read_zip(data), office, what="Brought in A client")
    assert (done.added, done.left) == (4, 0)
    assert everything(office) == before
    assert done.act is not None
    take_back(office, done.act)
    assert not kept(Client, office).exists()
    assert not kept(Bed, office).exists()


def test_what_is_here_stays_as_it_is_and_the_difference_is_told(office: Office) -> None:
    _, _, bed, *_ = small(office)
    data = store_zip(office, now=NOW)
    bed.name = "Renamed here"
    Writer(office, what="Renamed").change(bed, seen_version=1)
    done = add_missing(read_zip(data), office, what="Brought in")
    assert (done.added, done.left, done.differing, done.act) == (0, 5, 1, None)
    assert Bed.objects.get().name == "Renamed here"
