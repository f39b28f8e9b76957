from __future__ import annotations

import math
import tomllib
import uuid
from datetime import date

import pytest
from django.http import QueryDict
from django.test import Client as Browser
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.worded_error import WordedFault
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Change, Client, Garden, Office
from loamshift.store.scope import kept
from loamshift.web.beds.keeping import put_case
from loamshift.web.clients.garden_drawing import SCALES, draw_plan, size_said
from loamshift.web.clients.garden_plan import (
    FOOT_M,
    MOST_AREAS,
    Area,
    Plan,
    drawn_m2,
    fitted,
    plan_from_form,
    plan_from_kept,
    plan_to_keep,
)
from wording import read

LAST = uuid.UUID(int=2**128 - 1)
"""The office of a single adviser is the first one; this one never is."""
TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.5), (0.0, 2.5))
BENT = ((0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (2.0, 1.0), (2.0, 3.0), (0.0, 3.0))


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture
def garden(office: Office) -> Garden:
    writer = Writer(office, what="Added")
    who = Client(name="Vosberg")
    writer.add(who)
    garden = Garden(client=who, name="Walled garden", place={"name": "Minneapolis"})
    writer.add(garden)
    return garden


def a_bed(garden: Garden, *, area: str = "") -> Bed:
    bed = Bed(garden=garden)
    text = 'case = 1\nname = "Border"\n[soil]\nph = 5.4\n'
    put_case(bed, text + (f'[bed]\narea = "{area}"\n' if area else ""), today=TODAY)
    Writer(garden.office, what="Added").add(bed)
    return bed


def typed(**more: str) -> dict[str, str]:
    return {"width": "20", "height": "12", **more}


def row(number: int, **more: str) -> dict[str, str]:
    return {f"area.{number}.{key}": value for key, value in more.items()}


def sent(fields: dict[str, str]) -> QueryDict:
    post = QueryDict(mutable=True)
    post.update(fields)
    return post


def test_the_size_of_any_shape() -> None:
    assert Area(name="", bed="", points=SQUARE).area_m2 == pytest.approx(10.0)
    bent = Area(name="", bed="", points=BENT)
    assert bent.area_m2 == pytest.approx(8.0)
    wider = fitted(bent, left=1.0, top=1.0, width=8.0, length=3.0)
    assert wider.area_m2 == pytest.approx(16.0)


corners = st.tuples(st.floats(0, 100), st.floats(0, 100))


@given(st.lists(st.lists(corners, min_size=3, max_size=8), max_size=5))
def test_a_plan_comes_back_as_it_was_kept(shapes: list[list[tuple[float, float]]]) -> None:
    areas = tuple(Area(name=f"a{i}", bed="", points=tuple(p)) for i, p in enumerate(shapes))
    kept_plan = plan_to_keep(Plan(width_m=100.0, height_m=100.0, areas=areas))
    assert plan_to_keep(plan_from_kept(kept_plan)) == kept_plan


@pytest.mark.parametrize(
    "broken",
    [
        {},
        {"areas": None, "width_m": "x"},
        {"areas": [{"points": [[0, math.nan], [1, 1], [2, 2]]}, 7, {"points": "abc"}]},
        {"areas": [{"points": [[0, 0], [1e9, 1], [2, 2]]}], "height_m": math.inf},
    ],
)
def test_a_plan_out_of_shape_opens_empty(broken: dict[str, object]) -> None:
    plan = plan_from_kept(broken)
    assert plan.areas == () and (plan.width_m, plan.height_m) == (20.0, 12.0)
    draw_plan(plan, beds={}, us=False)


def test_typing_a_width_stretches_what_is_drawn() -> None:
    points = " ".join(f"{x},{y}" for x, y in BENT)
    same = row(0, points=points, width="4", length="3", left="0", top="0")
    plan, faults = plan_from_form(sent(typed(**same)), unit_m=1.0, beds=())
    assert not faults and plan.areas[0].points == BENT
    wider = row(0, points=points, width="8", length="3", left="0", top="0")
    plan, faults = plan_from_form(sent(typed(**wider)), unit_m=1.0, beds=())
    assert not faults and plan.areas[0].area_m2 == pytest.approx(16.0)


def test_a_row_typed_without_a_drawing_is_a_rectangle_in_the_unit_shown() -> None:
    feet = row(0, name="Border", width="10", length="20")
    plan, faults = plan_from_form(sent(typed(**feet)), unit_m=FOOT_M, beds=())
    assert not faults
    assert plan.areas[0].area_m2 == pytest.approx(200 * FOOT_M**2)
    assert size_said(plan.areas[0].area_m2, us=True) == "200 sq ft"


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("width", "nan", "gardens-length-wrong"),
        ("width", "inf", "gardens-length-wrong"),
        ("width", "-3", "gardens-length-wrong"),
        ("width", "1e9", "gardens-length-wrong"),
        ("width", "wide", "gardens-length-wrong"),
        ("length", "", "gardens-size-half"),
        ("left", "-1", "gardens-length-wrong"),
        ("name", "x" * 200, "gardens-name-long"),
        ("bed", "somebody else's", "gardens-bed-unknown"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(field: str, value: str, says: str) -> None:
    fields = {"width": "3", "length": "2", "left": "1", "top": "1", field: value}
    _plan, faults = plan_from_form(sent(typed(**row(4, **fields))), unit_m=1.0, beds=())
    assert [fault.path for fault in faults] == [f"area.4.{field}"]
    assert isinstance(faults[0], WordedFault)
    wrong, right = faults[0].said.sentences
    assert wrong.key == says and read(right)


def test_a_plan_has_room_for_what_is_on_it_and_no_more_areas_than_can_be_read() -> None:
    far = row(0, width="30", length="2", left="5", top="0")
    plan, _faults = plan_from_form(sent(typed(**far)), unit_m=1.0, beds=())
    assert plan.width_m == pytest.approx(35.0)
    many: dict[str, str] = {}
    for number in range(MOST_AREAS + 1):
        many |= row(number, width="1", length="1")
    plan, faults = plan_from_form(sent(typed(**many)), unit_m=1.0, beds=())
    assert len(plan.areas) == MOST_AREAS and faults[0].path == "areas"


def test_a_print_is_to_a_scale_of_the_trade() -> None:
    areas = (Area(name="Border", bed="", points=SQUARE),)
    for width in (2.0, 20.0, 170.0, 1999.0):
        drawing = draw_plan(Plan(width_m=width, height_m=width / 2, areas=areas), beds={}, us=False)
        assert drawing.scale in SCALES
        assert drawing.print_width_mm == pytest.approx(1000 * width / drawing.scale, abs=0.01)
        assert drawing.print_width_mm <= 200.0


def test_a_drawn_area_gives_a_bed_without_size_its_size_in_the_same_act(
    client: Browser, office: Office, garden: Garden
) -> None:
    bed = a_bed(garden)
    fields = typed(**row(0, bed=str(bed.pk), width="4", length="2.5"), version="1")
    client.post(f"/gardens/{garden.pk}", fields)
    after = kept(Bed, office).get()
    assert tomllib.loads(after.case_text)["bed"]["area"] == "10 m2"
    acts = Change.objects.filter(kind__in=("garden", "bed")).order_by("-id")
    assert acts[0].act == acts[1].act
    assert drawn_m2(plan_from_kept(kept(Garden, office).get().plan)) == {str(bed.pk): 10.0}


def test_a_size_that_stands_is_changed_only_when_asked(
    client: Browser, office: Office, garden: Garden
) -> None:
    bed = a_bed(garden, area="18 m2")
    fields = typed(**row(0, bed=str(bed.pk), width="4", length="2.5"), version="1")
    page = client.post(f"/gardens/{garden.pk}", fields, follow=True).content.decode()
    assert "18 m2" in kept(Bed, office).get().case_text
    assert "10 m² in the plan, 18 m² in the bed" in page
    client.post(f"/gardens/{garden.pk}/sizes/{bed.pk}")
    assert 'area = "10 m2"' in kept(Bed, office).get().case_text
    page = client.get(f"/gardens/{garden.pk}").content.decode()
    assert "the same in the plan and in the bed" in page


def test_faults_keep_what_was_typed_and_nothing_is_saved(
    client: Browser, office: Office, garden: Garden
) -> None:
    fields = typed(**row(0, name="<b>A", width="wide", length="2"), version="1")
    answer = client.post(f"/gardens/{garden.pk}", fields)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="wide"' in page and "&lt;b&gt;A" in page and "<b>A" not in page
    assert kept(Garden, office).get().plan["areas"] == []


def test_of_two_who_draw_different_areas_neither_is_asked(
    client: Browser, office: Office, garden: Garden
) -> None:
    first = typed(**row(0, name="Mine", width="4", length="2"), version="1")
    client.post(f"/gardens/{garden.pk}", first)
    second = typed(**row(0, name="Other", width="3", length="2"), version="1")
    answer = client.post(f"/gardens/{garden.pk}", second, follow=True)
    page = answer.content.decode()
    assert "both changes were saved" in page
    assert "Mine, 8 m²" in page and "Other, 6 m²" in page
    (mine, other) = kept(Garden, office).get().plan["areas"]
    assert (mine["name"], other["name"]) == ("Mine", "Other")
    moved = typed(
        **row(0, name="Mine", width="4", length="2", left="5"),
        **row(1, name="Other", width="3", length="2"),
        version="3",
    )
    client.post(f"/gardens/{garden.pk}", moved)
    gone = typed(**row(0, name="Mine", width="4", length="2"), version="3")
    client.post(f"/gardens/{garden.pk}", gone)
    (left,) = kept(Garden, office).get().plan["areas"]
    assert left["name"] == "Mine" and left["points"][0][0] == 5.0


def test_of_two_who_draw_one_area_the_later_sees_both(
    client: Browser, office: Office, garden: Garden
) -> None:
    first = typed(**row(0, name="Mine", width="4", length="2"), version="1")
    client.post(f"/gardens/{garden.pk}", first)
    second = typed(**row(0, name="Mine", width="3", length="2"), version="1")
    answer = client.post(f"/gardens/{garden.pk}", second)
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Mine, 8 m²" in page and "Mine, 6 m²" in page
    assert kept(Garden, office).get().plan["areas"][0]["points"][2] == [4.0, 2.0]


def test_the_ph_of_a_bed_is_written_on_its_area(client: Browser, garden: Garden) -> None:
    bed = a_bed(garden)
    fields = typed(**row(0, bed=str(bed.pk), width="8", length="6"), version="1")
    client.post(f"/gardens/{garden.pk}", fields)
    page = client.get(f"/gardens/{garden.pk}").content.decode()
    assert 'class="area acid"' in page and ">pH 5.4</text>" in page and "One square is 1 m" in page


def test_a_garden_is_added_with_a_place_of_the_list(
    client: Browser, office: Office, garden: Garden
) -> None:
    who = str(garden.client_id)
    wrong = client.post("/gardens/new", {"name": "B", "client": who, "place": "Minneapols"})
    assert wrong.status_code == 422
    assert (
        "Minneapolis" in wrong.content.decode() and 'value="Minneapols"' in wrong.content.decode()
    )
    nobody = client.post("/gardens/new", {"name": "B", "client": "x"})
    assert nobody.status_code == 422
    client.post("/gardens/new", {"name": "B", "client": who, "place": "Minneapolis"})
    assert kept(Garden, office).get(name="B").place == {"name": "Minneapolis"}


def test_of_two_who_change_a_garden_only_what_both_changed_is_asked(
    client: Browser, office: Office, garden: Garden
) -> None:
    owner, seen = str(garden.client_id), garden.version
    was = garden.name
    garden.name = "Their garden"
    Writer(office, what="x").change(garden, seen_version=seen)
    typed = {"name": was, "client": owner, "place": "Minneapolis", "version": seen}
    answer = client.post(f"/gardens/{garden.pk}/edit", typed, follow=True)
    assert "both changes were saved" in answer.content.decode()
    now = kept(Garden, office).get()
    assert (now.name, now.place["name"]) == ("Their garden", "Minneapolis")
    asked = client.post(f"/gardens/{garden.pk}/edit", typed | {"name": "Mine"})
    text = asked.content.decode()
    assert asked.status_code == 409 and "Saved value: Their garden" in text
    assert text.count("Saved value:") == 1 and 'value="Mine"' in text


def test_a_plan_is_not_held_up_by_a_new_name(
    client: Browser, office: Office, garden: Garden
) -> None:
    seen = garden.version
    garden.name = "Their garden"
    Writer(office, what="x").change(garden, seen_version=seen)
    drawn = {"version": seen, "width": "20", "height": "12", "area.0.name": "Shed",
             "area.0.width": "3", "area.0.length": "2"}  # fmt: skip
    assert client.post(f"/gardens/{garden.pk}", drawn).status_code == 302
    now = kept(Garden, office).get()
    assert (now.name, len(now.plan["areas"])) == ("Their garden", 1)


def test_a_garden_goes_with_its_beds_and_comes_back(
    client: Browser, office: Office, garden: Garden
) -> None:
    a_bed(garden)
    page = client.post(f"/gardens/{garden.pk}/put-away", follow=True).content.decode()
    assert "Walled garden deleted." in page
    assert not kept(Garden, office).exists() and not kept(Bed, office).exists()


def test_anothers_garden_is_not_there(client: Browser, office: Office) -> None:
    theirs = Office.objects.create(id=LAST, name="Theirs")
    who = Client(name="C")
    Writer(theirs, what="x").add(who)
    garden = Garden(client=who, name="G")
    Writer(theirs, what="x").add(garden)
    assert client.get(f"/gardens/{garden.pk}").status_code == 404
    assert client.post(f"/gardens/{garden.pk}", {}).status_code == 404
    sent_ = client.post("/gardens/new", {"name": "B", "client": str(who.pk)})
    assert sent_.status_code == 422


def test_a_plan_in_feet_is_not_moved_by_being_saved_again(
    client: Browser, office: Office, garden: Garden
) -> None:
    Office.objects.update(units="us")
    page = client.get(f"/gardens/{garden.pk}").content.decode()
    assert 'name="width" value="60"' in page and "Areas, in feet" in page
    points = "1,1 9,1 9,4 1,4"
    drawn = row(0, points=points, width="26.25", length="9.84", left="3.28", top="3.28")
    fields = {"width": "65.62", "height": "39.37", "version": "1", **drawn}
    kept_plan = {"width_m": 20.0, "height_m": 12.0, "areas": [{"name": "x", "bed": None,
        "points": [[1, 1], [9, 1], [9, 4], [1, 4]]}]}  # fmt: skip
    Garden.objects.filter(pk=garden.pk).update(plan=kept_plan)
    client.post(f"/gardens/{garden.pk}", {**fields, "area.0.name": "x"})
    assert kept(Garden, office).get().plan == kept_plan
