from __future__ import annotations

import pytest

from loamshift.errors import InputError
from loamshift.store.changes import Overtaken, Writer, take_back
from loamshift.store.models import Bed, Change, Client, Garden, Office
from loamshift.store.scope import kept

pytestmark = pytest.mark.django_db


@pytest.fixture
def office() -> Office:
    return Office.objects.create(name="Ours")


def planted(office: Office) -> tuple[Client, Garden, Bed]:
    writer = Writer(office, what="Added")
    client = Client(name="A client")
    writer.add(client)
    garden = Garden(client=client, name="A garden")
    writer.add(garden)
    bed = Bed(garden=garden, name="A bed", case_text="case = 1\n")
    writer.add(bed)
    return client, garden, bed


def test_a_change_is_kept_and_taken_back(office: Office) -> None:
    _, _, bed = planted(office)
    bed.name = "Renamed"
    writer = Writer(office, what="Renamed it")
    writer.change(bed, seen_version=1)
    assert Bed.objects.get(pk=bed.pk).version == 2
    assert take_back(office, writer.act).what == "Took back: Renamed it"
    again = Bed.objects.get(pk=bed.pk)
    assert (again.name, again.version) == ("A bed", 3)
    with pytest.raises(InputError, match="already"):
        take_back(office, writer.act)


def test_the_later_of_two_is_told_and_nothing_is_written(office: Office) -> None:
    _, _, bed = planted(office)
    mine, theirs = Bed.objects.get(pk=bed.pk), Bed.objects.get(pk=bed.pk)
    theirs.name = "Theirs"
    Writer(office, what="Theirs").change(theirs, seen_version=1)
    mine.name = "Mine"
    with pytest.raises(Overtaken):
        Writer(office, what="Mine").change(mine, seen_version=1)
    assert Bed.objects.get(pk=bed.pk).name == "Theirs"


def test_a_client_put_away_takes_its_beds_along_and_brings_them_back(office: Office) -> None:
    client, _, _ = planted(office)
    writer = Writer(office, what="Deleted A client")
    writer.put_away(client)
    assert not kept(Bed, office).exists()
    take_back(office, writer.act)
    assert kept(Bed, office).count() == kept(Client, office).count() == 1


def test_taking_back_refuses_what_was_changed_since(office: Office) -> None:
    _, _, bed = planted(office)
    first = Writer(office, what="First")
    bed.name = "One"
    first.change(bed, seen_version=1)
    bed.name = "Two"
    Writer(office, what="Second").change(bed, seen_version=2)
    with pytest.raises(InputError, match="changed again"):
        take_back(office, first.act)
    assert Bed.objects.get(pk=bed.pk).name == "Two"


def test_another_offices_act_cannot_be_taken_back(office: Office) -> None:
    planted(office)
    other = Office.objects.create(name="Other")
    act = Change.objects.filter(office=office).values_list("act", flat=True)[0]
    with pytest.raises(InputError):
        take_back(other, act)
