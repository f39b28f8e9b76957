from __future__ import annotations

from datetime import timedelta

import pytest
from django.utils import timezone

from loamshift.domain.message import Given, message
from loamshift.errors import InputError
from loamshift.report.messages.refusal import refusal
from loamshift.report.words import Words
from loamshift.store.changes import Overtaken, Writer, purge, take_back
from loamshift.store.limits import Unfit
from loamshift.store.models import Bed, Change, Client, Garden, Office
from loamshift.store.scope import found, kept

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
    assert take_back(office, writer.act).what == message("store-undone", what=Given("Renamed it"))
    again = Bed.objects.get(pk=bed.pk)
    assert (again.name, again.version) == ("A bed", 3)
    with pytest.raises(InputError, match="store-already-undone"):
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
    with pytest.raises(InputError, match="store-changed-again"):
        take_back(office, first.act)
    assert Bed.objects.get(pk=bed.pk).name == "Two"


def test_another_offices_act_cannot_be_taken_back(office: Office) -> None:
    planted(office)
    other = Office.objects.create(name="Other")
    act = Change.objects.filter(office=office).values_list("act", flat=True)[0]
    with pytest.raises(InputError):
        take_back(other, act)


def test_undoing_an_undo_does_it_again_and_so_on(office: Office) -> None:
    _, _, bed = planted(office)
    bed.name = "Renamed"
    writer = Writer(office, what="Renamed it")
    writer.change(bed, seen_version=1)
    undone = take_back(office, writer.act)
    again = take_back(office, undone.act)
    what = Given("Renamed it")
    assert again.what == message("store-redone", what=what)
    assert Bed.objects.get().name == "Renamed"
    once_more = take_back(office, again.act)
    assert once_more.what == message("store-undone", what=what)
    assert Bed.objects.get().name == "A bed"
    assert Bed.objects.get().version == 5


def test_what_others_changed_beside_it_stays(office: Office) -> None:
    _, _, bed = planted(office)
    writer = Writer(office, what="Renamed it")
    bed.name = "Renamed"
    writer.change(bed, seen_version=1)
    bed.case_text = "case = 1\n# newer\n"
    Writer(office, what="Changed the case").change(bed, seen_version=2)
    take_back(office, writer.act)
    again = Bed.objects.get()
    assert (again.name, again.case_text) == ("A bed", "case = 1\n# newer\n")


def test_an_addition_is_not_taken_back_from_under_what_was_added_to_it(office: Office) -> None:
    client = Client(name="A client")
    first = Writer(office, what="Added A client")
    first.add(client)
    garden = Garden(client=client, name="A garden")
    Writer(office, what="Added A garden").add(garden)
    with pytest.raises(
        InputError, match=r"store-something-inside \(inside: A garden, name: A client"
    ):
        take_back(office, first.act)
    assert kept(Client, office).exists()


def test_a_bed_does_not_come_back_into_a_garden_that_is_gone(office: Office) -> None:
    _, garden, bed = planted(office)
    writer = Writer(office, what="Deleted bed")
    writer.put_away(bed)
    Writer(office, what="Deleted garden").put_away(garden)
    with pytest.raises(InputError, match="store-parent-deleted"):
        take_back(office, writer.act)
    assert not kept(Bed, office).exists()
    with pytest.raises(InputError, match="store-parent-deleted"):
        Writer(office, what="x").add(Bed(garden=garden, name="b", case_text="case = 1\n"))


def test_deleting_from_a_stale_page_keeps_what_others_wrote(office: Office) -> None:
    _, _, bed = planted(office)
    stale = Bed.objects.get()
    bed.name = "Theirs"
    Writer(office, what="Renamed").change(bed, seen_version=1)
    with pytest.raises(Overtaken):
        Writer(office, what="Deleted").put_away(stale, seen_version=1)
    writer = Writer(office, what="Deleted")
    writer.put_away(stale)
    with pytest.raises(Overtaken, match=r"store-overtaken \(how: deleted"):
        Writer(office, what="Deleted").put_away(bed)
    take_back(office, writer.act)
    assert Bed.objects.get().name == "Theirs"


def test_a_change_to_what_somebody_deleted_is_told(office: Office) -> None:
    _, _, bed = planted(office)
    mine = Bed.objects.get()
    Writer(office, what="Deleted").put_away(bed)
    mine.name = "Mine"
    with pytest.raises(Overtaken, match=r"store-overtaken \(how: deleted"):
        Writer(office, what="Mine").change(mine, seen_version=1)


def test_nothing_of_another_office_is_changed_or_built_upon(office: Office) -> None:
    client, garden, bed = planted(office)
    other = Office.objects.create(name="Other")
    bed.name = "Taken"
    with pytest.raises(InputError):
        Writer(other, what="x").change(bed, seen_version=1)
    with pytest.raises(InputError, match="store-removed"):
        Writer(other, what="x").put_away(client)
    with pytest.raises(InputError, match="store-parent-missing"):
        Writer(other, what="x").add(Bed(garden=garden, name="b", case_text="case = 1\n"))
    assert Bed.objects.get().name == "A bed"
    assert Bed.objects.get().office == office


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("name", " ", "name, “ ”: Nothing is entered."),
        ("name", "x" * 161, "Use no more than 160 characters."),
        ("name", "a\x00b", "a character that cannot be stored"),
        ("name", "a\ud800b", "a character that cannot be stored"),
        ("case_text", "case = ", "This is not valid TOML"),
        ("ph", float("nan"), "This is not a number."),
        ("ph", "acid", "This is not the kind of value"),
        ("case_text", "case = 1\n" + "#" * 1_000_000, "Use no more than 1,000,000 characters."),
    ],
)
def test_what_cannot_be_kept_is_told_before_anything_is_written(
    office: Office, field: str, value: object, said: str
) -> None:
    _, _, bed = planted(office)
    setattr(bed, field, value)
    with pytest.raises(Unfit) as caught:
        Writer(office, what="x").change(bed, seen_version=1)
    assert said in refusal(caught.value, Words())
    assert Bed.objects.get().version == 1


def test_a_value_typed_in_a_form_is_kept_and_taken_back_as_what_it_is(office: Office) -> None:
    _, _, bed = planted(office)
    bed.ph = "7.3"  # type: ignore[assignment]
    writer = Writer(office, what="Read the pH")
    writer.change(bed, seen_version=1)
    assert Bed.objects.get().ph == 7.3
    take_back(office, writer.act)
    assert Bed.objects.get().ph is None


def test_after_thirty_days_it_stays(office: Office) -> None:
    client, _, bed = planted(office)
    writer = Writer(office, what="Deleted")
    writer.put_away(bed)
    late = timezone.now() - timedelta(days=30, minutes=1)
    Change.objects.update(at=late)
    with pytest.raises(InputError, match=r"store-no-such-act \(days: 30"):
        take_back(office, writer.act)
    Bed.objects.update(deleted_at=late)
    assert purge(now=timezone.now()) == 1
    assert not Bed.objects.exists()
    assert not Change.objects.exists()
    assert Client.objects.get() == client
    assert purge(now=timezone.now()) == 0


def test_nothing_is_purged_a_minute_early(office: Office) -> None:
    client, *_ = planted(office)
    Writer(office, what="Deleted").put_away(client)
    assert purge(now=timezone.now() + timedelta(days=30) - timedelta(minutes=1)) == 0
    assert purge(now=timezone.now() + timedelta(days=30, minutes=1)) == 3
    assert not Change.objects.exists()


def test_lists_are_found_by_words_without_capitals_and_accents(office: Office) -> None:
    _, garden, bed = planted(office)
    bed.name, bed.plants = "ÖSTERSUND Rabatte", "Möhre"
    Writer(office, what="x").change(bed, seen_version=1)
    other = Bed(garden=garden, name="apple", case_text="case = 1\n")
    Writer(office, what="x").add(other)
    beds = kept(Bed, office)
    assert list(found(beds, "ostersund MOHRE")) == [bed]
    assert list(found(beds, "rabatte client")) == [bed]
    assert list(found(beds, "nobody")) == []
    assert list(found(beds, "100%_")) == []
    assert list(found(beds, "  ")) == [other, bed]
