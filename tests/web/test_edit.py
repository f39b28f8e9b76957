from __future__ import annotations

import re
import tomllib
from datetime import date
from html import unescape
from typing import Any

import pytest
from django.test import Client as Browser
from hypothesis import given
from hypothesis import strategies as st

from loamshift.case.questions import case_questions, questions_by_path
from loamshift.errors import Fault
from loamshift.report.words import Words
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.web.beds.case_form import (
    asked_path,
    case_form,
    path_label,
    typed_tree,
    untold,
    value_text,
)
from loamshift.web.beds.forms import method_of
from loamshift.web.beds.keeping import put_case
from loamshift.web.beds.merge import merge
from loamshift.web.cases import case_of, text_of
from tries import tries

UK, US = Words("uk", "metric"), Words("us", "us")

TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
CASE = """case = 1
name = "Berry border"  # my own remark

[bed]
area = "18 m2"

[soil]
ph = 6.8
ph_method = "water 1:1"

[aim]
plant = "highbush blueberry"

[[applied]]
date = 2025-10-05
material = "elemental sulfur, powder"
rate = "30 g/m2"
"""


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours")


@pytest.fixture
def bed(office: Office) -> Bed:
    bed = Bed(name="")
    put_case(bed, CASE, today=TODAY)
    Writer(office, what="Added").add(bed)
    return bed


def sent_back(page: str, *, to: str = "") -> dict[str, str]:
    """What a browser would send of the form in a page, or of the one whose address ends so."""
    from html.parser import HTMLParser

    class Fields(HTMLParser):
        def __init__(self) -> None:
            super().__init__()
            self.found: dict[str, str] = {}
            self.inside, self.select = False, ""

        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            given = dict(attrs)
            if tag == "form":
                action = given.get("action") or ""
                self.inside = action.endswith(to) if to else given.get("id") == "edit"
            if not self.inside:
                return
            name = given.get("name") or ""
            if tag == "input" and name:
                self.found[name] = given.get("value") or ""
            if tag == "select":
                self.select = name
                self.found[name] = ""
            if tag == "option" and "selected" in given:
                self.found[self.select] = given.get("value") or ""

    fields = Fields()
    fields.feed(page)
    return fields.found


def test_every_key_of_the_case_file_has_its_line() -> None:
    paths = {
        line.path
        for group in case_form({})
        for one in (group, *group.lists)
        for line in (*one.usual, *one.others, *(line for row in one.rows for line in row.lines))
    }
    for table in case_questions():
        for question in table.questions:
            if not question.is_asked:
                continue
            row = f"{table.name}.0" if table.is_list else table.name
            assert f"{row}.{question.key}".lstrip(".") in paths
    assert len(paths) > 70


def test_every_line_says_what_it_means_and_shows_how_to_write_it() -> None:
    for group in case_form({}):
        for one in (group, *group.lists):
            rows = [line for row in one.rows for line in row.lines]
            for line in (*one.usual, *one.others, *rows):
                assert line.label and line.hint and line.example
                assert "`" not in line.hint + line.label


def test_every_line_has_words_of_its_own_and_no_words_are_left_over() -> None:
    asked = {
        f"{table.name}.{question.key}".lstrip(".").replace(".", "-").replace("_", "-")
        for table in case_questions()
        for question in table.questions
        if question.is_asked
    }
    for kind in ("ask-", "hint-"):
        worded = {key.removeprefix(kind) for key in tuple(UK.book.keys()) if key.startswith(kind)}
        assert worded <= asked
    assert {f"field-{key}" for key in asked} | {f"means-{key}" for key in asked} <= set(
        UK.book.keys()
    )


def test_an_american_form_asks_in_american_words() -> None:
    hints = [line.hint for group in case_form({}, words=US) for line in group.others]
    assert any("From the lab," in hint for hint in hints)
    assert not any("laboratory" in hint for hint in hints)
    assert "A number alone means cm." in " ".join(hints)


def test_the_examples_of_both_unit_systems_can_be_read() -> None:
    american = [q.reads for q in questions_by_path().values() if q.reads.example_us]
    assert len({reads.example_us for reads in american}) == 9
    for reads in american:
        reads.parse(reads.example_us)


def test_what_is_typed_becomes_the_case_file_a_person_would_write() -> None:
    tree = typed_tree(
        [
            ("name", "A"),
            ("soil.ph", "6.80"),
            ("soil.clay_pct", "20"),
            ("bed.planted", "false"),
            ("soil.sampled", "2026-03-20"),
            ("bed.growing", "lilac; hydrangea"),
            ("water.months", "5, 6, 7"),
            ("place.air_temp_c", "-9 -6 0 8 15 20 23 22 17 10 1 -7"),
            ("applied.3.material", "ash"),
            ("soil.nonsense", "1"),
            ("csrfmiddlewaretoken", "x"),
            ("place.daily_file", "/etc/passwd"),
        ]
    )
    assert tree["soil"] == {"ph": "6.80", "clay_pct": 20, "sampled": date(2026, 3, 20)}
    assert tree["bed"] == {"planted": False, "growing": ["lilac", "hydrangea"]}
    assert tree["water"]["months"] == [5, 6, 7] and tree["place"]["air_temp_c"][0] == -9
    assert tree["applied"] == [{"material": "ash"}]
    assert set(tree) == {"name", "soil", "bed", "water", "place", "applied"}
    assert value_text(tree["bed"]["growing"]) == "lilac; hydrangea"
    assert value_text(tree["water"]["months"]) == "5, 6, 7"


def test_faults_find_their_line() -> None:
    assert asked_path("applied[2].amount") == "applied.1.amount"
    assert asked_path("aim.plant[2]") == "aim.plant"
    assert asked_path("place.soil_temp[1].c") == "place.soil_temp.0.c"
    wrong = Fault("applied[1].rate", "x", "no rate", "Write one.")
    odd = Fault("soil", "", "odd table", "")
    groups = case_form({"applied": [{"rate": "x"}]}, faults=(wrong, odd))
    applied = next(group for group in groups if group.name == "applied")
    assert applied.is_open and len(applied.rows) == 2
    assert any(line.faults == (wrong,) for line in applied.rows[0].lines)
    assert untold(groups, (wrong, odd, Fault("x.y", "", "?", ""))) == (Fault("x.y", "", "?", ""),)


def test_a_word_of_the_file_that_is_no_choice_of_the_form_stays() -> None:
    groups = case_form({"bed": {"kind": "pot"}})
    kind = next(line for group in groups for line in group.usual if line.path == "bed.kind")
    assert kind.value == "pot" and "pot" in kind.choices


def test_sending_the_form_back_unchanged_changes_nothing(
    client: Browser, office: Office, bed: Bed
) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    assert fields["soil.ph"] == "6.8" and fields["applied.0.rate"] == "30 g/m2"
    assert fields["applied.1.rate"] == ""
    assert client.post(f"/beds/{bed.pk}/edit", fields).status_code == 302
    after = kept(Bed, office).get()
    assert after.case_text == CASE and after.version == bed.version


def test_a_change_is_kept_and_lists_follow(client: Browser, office: Office, bed: Bed) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    fields |= {"soil.ph": "5.2", "aim.plant": "lilac", "name": "Lilac border"}
    answer = client.post(f"/beds/{bed.pk}/edit", fields)
    assert answer.headers["Location"] == f"/beds/{bed.pk}"
    after = kept(Bed, office).get()
    assert (after.name, after.ph, after.plants) == ("Lilac border", 5.2, "lilac")
    assert after.decision
    case = case_of(after.case_json, today=TODAY)
    assert case.applied[0].rate_g_m2 == pytest.approx(30.0)


def test_faults_stand_beside_their_fields_and_nothing_typed_is_lost(
    client: Browser, office: Office, bed: Bed
) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    fields |= {
        "soil.ph": "72",
        "aim.plant": "blubery highbush",
        "applied.0.rate": "",
        "bed.area": "<b>20",
    }
    answer = client.post(f"/beds/{bed.pk}/edit", fields)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Check the decimal point. Did you mean 7.2?" in page
    assert 'id="f-soil-ph-fault"' in page and 'id="f-bed-area-fault"' in page
    assert "<b>20" not in page
    assert sent_back(page)["aim.plant"] == "blubery highbush"
    assert sent_back(page)["soil.ph"] == "72" and sent_back(page)["bed.area"] == "<b>20"
    assert kept(Bed, office).get().case_text == CASE


def test_a_row_more_and_a_row_less_without_script(client: Browser, bed: Bed) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    more = client.post(f"/beds/{bed.pk}/edit", fields | {"more": "applied"}).content.decode()
    assert {"applied.1.rate", "applied.2.rate"} <= set(sent_back(more))
    again = client.post(f"/beds/{bed.pk}/edit", sent_back(more) | {"more": "applied"})
    assert "applied.3.rate" in sent_back(again.content.decode())
    less = client.post(f"/beds/{bed.pk}/edit", fields | {"drop": "applied.0"}).content.decode()
    assert sent_back(less)["applied.0.rate"] == ""
    assert Bed.objects.get().case_text == CASE


def test_the_text_and_the_form_lead_to_one_another(client: Browser, bed: Bed) -> None:
    address = f"/beds/{bed.pk}/edit"
    fields = sent_back(client.get(address).content.decode())
    text = client.post(address, fields | {"turn": "text"}).content.decode()
    assert "# my own remark" in text
    changed = client.post(address, fields | {"soil.ph": "6.6", "turn": "text"}).content.decode()
    assert "ph = 6.6" in changed
    form = client.post(address, {"case_text": "case = 1\n[soil]\nph = 6.1\n", "turn": "form"})
    assert sent_back(form.content.decode())["soil.ph"] == "6.1"
    broken = client.post(address, {"case_text": "case = \n", "turn": "form"}).content.decode()
    assert "case = " in broken and "Correct the text" in broken


def test_the_text_is_checked_as_the_form_is(client: Browser, office: Office, bed: Bed) -> None:
    address, sent = f"/beds/{bed.pk}/edit", {"version": bed.version, "garden": ""}
    bad = client.post(address, sent | {"case_text": "case = 1\n[soil]\nhp = 6\n"})
    assert bad.status_code == 422 and "soil.hp" in bad.content.decode()
    broken = client.post(address, sent | {"case_text": "case = 1\n[soil\n"})
    assert broken.status_code == 422 and "[soil" in broken.content.decode()
    good = "case = 1 # kept as it is\r\n[soil]\r\nph = 6.1\r\n"
    assert client.post(address, sent | {"case_text": good}).status_code == 302
    assert kept(Bed, office).get().case_text == good.replace("\r\n", "\n")


def test_of_two_who_change_one_bed_the_later_sees_both(
    client: Browser, office: Office, bed: Bed
) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    put_case(bed, CASE.replace("6.8", "6.4"), today=TODAY)
    Writer(office, what="Other").change(bed, seen_version=bed.version)
    answer = client.post(f"/beds/{bed.pk}/edit", fields | {"soil.ph": "6.1"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "<td>6.4</td><td>6.1</td>" in page
    assert kept(Bed, office).get().ph == 6.4
    assert client.post(f"/beds/{bed.pk}/edit", sent_back(page)).status_code == 302
    assert kept(Bed, office).get().ph == 6.1


def test_of_two_who_change_different_fields_neither_is_asked(
    client: Browser, office: Office, bed: Bed
) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    entry = '[[applied]]\ndate = 2026-05-01\nmaterial = "gypsum"\nrate = "30 g/m2"\n'
    put_case(bed, CASE.replace("6.8", "6.4") + entry, today=TODAY)
    bed.garden = None
    Writer(office, what="Other").change(bed, seen_version=bed.version)
    answer = client.post(
        f"/beds/{bed.pk}/edit", fields | {"soil.texture": "clay", "name": "Long border"}
    )
    assert answer.status_code == 302
    said = client.get(answer.headers["Location"]).content.decode()
    assert "both changes were saved" in said
    now = kept(Bed, office).get()
    tree = tomllib.loads(now.case_text)
    assert (now.ph, now.name) == (6.4, "Long border")
    assert (str(tree["soil"]["ph"]), tree["soil"]["texture"]) == ("6.4", "clay")
    assert tree["applied"][-1]["material"] == "gypsum"


def test_only_what_both_changed_is_asked(client: Browser, office: Office, bed: Bed) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    put_case(bed, CASE.replace("6.8", "6.4").replace("18 m2", "20 m2"), today=TODAY)
    Writer(office, what="Other").change(bed, seen_version=bed.version)
    answer = client.post(f"/beds/{bed.pk}/edit", fields | {"soil.ph": "6.1", "name": "Mine"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert page.count("<td>6.4</td><td>6.1</td>") == 1 and page.count('<th scope="row">') == 1
    back = sent_back(page)
    assert (back["soil.ph"], back["name"]) == ("6.1", "Mine")
    assert client.post(f"/beds/{bed.pk}/edit", back).status_code == 302
    tree = tomllib.loads(kept(Bed, office).get().case_text)
    assert (str(tree["soil"]["ph"]), tree["name"]) == ("6.1", "Mine")


def text_sent(page: str) -> dict[str, str]:
    """What a browser would send of the form in which a bed is written as text."""
    text = re.search(r'<textarea name="case_text"[^>]*>\n(.*?)</textarea>', page, re.DOTALL)
    assert text is not None
    return sent_back(page) | {"case_text": unescape(text[1])}


@pytest.mark.parametrize("in_text", [True, False], ids=["text and text", "form and text"])
def test_of_two_who_change_different_keys_one_as_text_neither_is_asked(
    client: Browser, office: Office, bed: Bed, in_text: bool
) -> None:
    address = f"/beds/{bed.pk}/edit"
    mine = text_sent(client.get(f"{address}?as=text").content.decode())
    others = sent_back(client.get(address).content.decode()) | {"soil.texture": "clay"}
    if in_text:
        others = mine | {"case_text": mine["case_text"].replace('"18 m2"', '"20 m2" # paced')}
    assert client.post(address, others).status_code == 302
    text = mine["case_text"].replace("6.8", "6.1") + "# mine too\n"
    done = client.post(address, mine | {"case_text": text})
    assert done.status_code == 302
    assert "both changes were saved" in client.get(done.headers["Location"]).content.decode()
    now = kept(Bed, office).get()
    assert now.ph == 6.1 and "# mine too" in now.case_text and "# my own remark" in now.case_text
    soil, area = now.case_json["soil"], now.case_json["bed"]["area"]
    assert area == "20 m2" if in_text else soil["texture"] == "clay"


def test_who_changes_values_alone_keeps_the_remarks_that_somebody_else_wrote(
    client: Browser, office: Office, bed: Bed
) -> None:
    address = f"/beds/{bed.pk}/edit"
    mine = text_sent(client.get(f"{address}?as=text").content.decode())
    others = mine["case_text"].replace('"18 m2"', '"20 m2" # paced')
    assert client.post(address, mine | {"case_text": others}).status_code == 302
    text = mine["case_text"].replace("6.8", "6.1")
    assert client.post(address, mine | {"case_text": text}).status_code == 302
    now = kept(Bed, office).get()
    assert now.ph == 6.1 and '"20 m2" # paced' in now.case_text


def test_of_a_text_only_the_keys_that_both_changed_are_asked(
    client: Browser, office: Office, bed: Bed
) -> None:
    address = f"/beds/{bed.pk}/edit"
    mine = text_sent(client.get(f"{address}?as=text").content.decode())
    others = mine["case_text"].replace("6.8", "6.4").replace('"18 m2"', '"20 m2"')
    assert client.post(address, mine | {"case_text": others}).status_code == 302
    text = mine["case_text"].replace("6.8", "6.1")
    answer = client.post(address, mine | {"case_text": text})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert page.count("<td>6.4</td><td>6.1</td>") == 1 and page.count('<th scope="row">') == 1
    assert client.post(address, text_sent(page)).status_code == 302
    tree = kept(Bed, office).get().case_json
    assert (str(tree["soil"]["ph"]), tree["bed"]["area"]) == ("6.1", "20 m2")


SMALL = st.dictionaries(st.sampled_from("abc"), st.sampled_from(["1", "2", "3"]), max_size=3)
TREES = st.dictionaries(st.sampled_from(["soil", "bed"]), SMALL.filter(bool), max_size=2)


@given(base=TREES, theirs=TREES, mine=TREES)
def test_putting_together_loses_nothing(base: Any, theirs: Any, mine: Any) -> None:
    assert merge(base=base, theirs=base, mine=mine).tree == mine
    assert merge(base=base, theirs=theirs, mine=base).tree == theirs
    made = merge(base=base, theirs=theirs, mine=mine)
    asked = {path for path, *_ in made.asked}
    for table in ("soil", "bed"):
        for key in "abc":
            was, there, here, now = (
                t.get(table, {}).get(key) for t in (base, theirs, mine, made.tree)
            )
            both = was != there and was != here and there != here
            assert (f"{table}.{key}" in asked) == both
            assert now == (here if both or here != was else there)


def test_entries_that_both_added_stand_one_after_another() -> None:
    base = {"reading": [{"ph": "6"}]}
    made = merge(
        base=base,
        theirs={"reading": [{"ph": 6}, {"ph": "6.5"}]},
        mine={"reading": [{"ph": "6"}, {"ph": "7"}]},
    )
    assert made.asked == []
    assert [str(one["ph"]) for one in made.tree["reading"]] == ["6", "6.5", "7"]


def test_a_new_bed_begins_with_what_the_address_says(client: Browser, office: Office) -> None:
    page = client.get("/beds/new", {"soil.ph": "7.3", "aim.plant": "lilac", "x.y": "1"})
    fields = sent_back(page.content.decode())
    assert fields["soil.ph"] == "7.3" and fields["aim.plant"] == "lilac"
    answer = client.post("/beds/new", fields | {"name": "Hedge"})
    assert answer.status_code == 302
    assert kept(Bed, office).get().name == "Hedge"


def test_a_garden_that_is_gone_or_anothers_is_refused(client: Browser, office: Office) -> None:
    for garden in ("nonsense", "2b1d5a3c-0000-4000-8000-000000000000"):
        answer = client.post("/beds/new", {"name": "Hedge", "garden": garden})
        assert answer.status_code == 422
        assert "That garden no longer exists" in answer.content.decode()
    assert not kept(Bed, office).exists()


def test_a_quick_test_begins_with_the_beds_own_method(office: Office, bed: Bed) -> None:
    assert method_of(bed.case_json) == "water 1:1"
    bed.case_text += '[[reading]]\ndate = 2026-03-01\nph = 6\nph_method = "CaCl2"\n'
    assert method_of(bed.case_json) == "CaCl2"
    bed.case_text = "broken ["
    assert method_of(bed.case_json) == ""


def test_a_test_is_added_from_the_beds_page(client: Browser, office: Office, bed: Bed) -> None:
    tree = tomllib.loads(bed.case_text)
    assert "sampled" not in tree["soil"] and "reading" not in tree
    sent = {"date": "2026-05-02", "ph": "6.2", "ph_method": "CaCl2", "depth": "6 in"}
    answer = client.post(f"/beds/{bed.pk}/tests", sent)
    assert answer.headers["Location"] == f"/beds/{bed.pk}"
    tree = tomllib.loads(kept(Bed, office).get().case_text)
    assert tree["reading"] == [
        {"date": "2026-05-02", "ph": 6.2, "ph_method": "CaCl2", "depth": "6 in"}
    ]
    assert kept(Bed, office).get().ph == tree["soil"]["ph"], "one without a date is today's"


def test_what_was_put_on_is_noted_after_what_stands_there(
    client: Browser, office: Office, bed: Bed
) -> None:
    sent = {"date": "2026-05-02", "material": "ground limestone", "amount": "2 kg"}
    client.post(f"/beds/{bed.pk}/applied", sent)
    tree = tomllib.loads(kept(Bed, office).get().case_text)
    assert [entry["material"] for entry in tree["applied"]] == [
        "elemental sulfur, powder",
        "ground limestone",
    ]


@pytest.mark.parametrize("page", ["", "history"])
def test_a_quick_add_with_a_fault_is_told_in_its_own_form(
    client: Browser, office: Office, bed: Bed, page: str
) -> None:
    sent = {"date": "2999-01-01", "ph": "62", "depth": "6 in", "page": page}
    answer = client.post(f"/beds/{bed.pk}/tests", sent)
    shown = answer.content.decode()
    assert answer.status_code == 422 and 'id="edit"' not in shown
    assert ('class="list events"' in shown) == (page == "history")
    back = sent_back(shown, to="#quick-reading")
    assert (back["ph"], back["date"], back["depth"]) == ("62", "2999-01-01", "6 in")
    form = shown[shown.index('<details id="quick-reading" open>') : shown.index("quick-applied")]
    assert "Check the decimal point" in form and "after 2200" in form
    assert (
        "Nothing you typed is lost" in form and 'id="reading-ph-said"><span class="fault"' in form
    )
    assert '<details id="quick-applied">' in shown
    assert kept(Bed, office).get().case_text == CASE


def test_a_quick_add_of_nothing_or_by_no_amount_says_so(
    client: Browser, office: Office, bed: Bed
) -> None:
    empty = client.post(f"/beds/{bed.pk}/tests", {})
    assert empty.status_code == 422 and "Nothing was filled in" in empty.content.decode()
    answer = client.post(
        f"/beds/{bed.pk}/applied",
        {"date": "2026-05-02", "material": "moon dust", "amount": "much"},
    )
    shown = answer.content.decode()
    form = shown[shown.index('<details id="quick-applied" open>') :]
    assert answer.status_code == 422
    assert sent_back(shown, to="#quick-applied")["material"] == "moon dust"
    assert (
        'id="applied-material-said"><span class="fault"' in form
        and 'id="applied-amount-said"><span class="fault"' in form
    )
    assert kept(Bed, office).get().case_text == CASE


def test_a_file_that_is_no_toml_any_more_opens_as_text(
    client: Browser, office: Office, bed: Bed
) -> None:
    Bed.objects.filter(pk=bed.pk).update(own_text="case = [", case_json={})
    page = client.get(f"/beds/{bed.pk}/edit")
    assert page.status_code == 200 and "case = [" in page.content.decode()


def test_every_tree_of_the_form_is_a_case_file() -> None:
    for table in case_questions():
        row = f"{table.name}.0" if table.is_list else table.name
        fields = [
            (f"{row}.{q.key}".lstrip("."), q.example.strip('[]"'))
            for q in table.questions
            if q.is_asked and not q.example.startswith("[{")
        ]
        text = text_of(typed_tree(fields))
        assert tomllib.loads(text)["case"] == 1


def test_a_place_in_the_file_is_called_as_the_form_calls_it() -> None:
    assert path_label("applied[2].rate", Words()) == "Applications 2: Rate"
    assert path_label("soil.ph", Words()) == "Soil: pH"
    assert path_label("name", Words()) == "Name"
    assert path_label("nothing.known", Words()) == "nothing.known"


def test_the_faults_lead_to_their_fields(client: Browser, bed: Bed) -> None:
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    page = client.post(f"/beds/{bed.pk}/edit", fields | {"applied.0.date": "soon"})
    assert '<a href="#f-applied-0-date">Applications 1: Date</a>' in page.content.decode()


WRONG = {
    "soil.ph": ("seven", "70", "7,3,1", "6-7", "~7"),
    "soil.texture": ("custard", "sand loam"),
    "soil.organic_matter_pct": ("<2", "300 %"),
    "soil.sampled": ("20.03.2026", "2999-01-01", "soon"),
    "bed.area": ("20 m3", "-20 m2", "20 furlongs"),
    "aim.plant": ("zzzz",),
    "aim.target_ph": ("17",),
    "water.weekly": ("25 m", "lots"),
    "water.months": ("13",),
    "feed.rate": ("5",),
    "on_hand.0.material": ("qqqq",),
    "claim.0.material": ("moon dust",),
    "applied.0.amount": ("2 m",),
    "bed.growing": ("zzzz; yyyy",),
    "place.air_temp_c": ("1, 2, 3",),
    "place.rain_mm": ("1, 2, 3",),
    "place.longitude": ("20",),
    "on_hand.0.purity_pct": ("300",),
}
NO_FORM = re.compile(
    r"The command|\bloamshift \w|\bkey\b|\w = |\[\w|\b(?:soil|bed|water|aim)\.\w|\w_\w"
)


@pytest.mark.parametrize("path", WRONG)
def test_no_error_of_the_form_speaks_of_commands_or_keys(
    client: Browser, office: Office, path: str
) -> None:
    for value in WRONG[path]:
        page = client.post("/beds/new", {"name": "Hedge", "soil.ph": "6", path: value})
        assert page.status_code == 422, value
        told = re.findall(r'class="fault"[^>]*>(.*?)</', page.content.decode())
        assert any(told) and not [one for one in told if NO_FORM.search(unescape(one))]


names = st.sampled_from(
    [
        "soil.ph", "soil", "soil.ph.0", "0.soil.ph", "applied.0.rate", "applied.rate", "applied",
        "applied.x.rate", "applied.99999.rate", "applied.0.0.rate", "place.soil_temp.0.c", "name",
        "place.soil_temp.c", "aim.plant", "water.months", "turn", "more", "drop", "case_text",
        "version", "garden", "units", "today", "bed.planted", "reading.0.ph.1",
    ]
)  # fmt: skip
values = st.text(max_size=12) | st.sampled_from(
    ["applied.0", "reading", "text", "form", "7", "1e999", "[", "a;b", "-1", "\x00", "2026-02-30"]
)


@pytest.mark.django_db
@tries(40)
@given(st.dictionaries(names, values, max_size=8))
def test_whatever_is_sent_the_form_answers(
    client: Browser, office: Office, fields: dict[str, str]
) -> None:
    answer = client.post("/beds/new", fields)
    assert answer.status_code in (200, 302, 422)


def test_a_broken_file_is_not_overwritten_by_a_quick_test(
    client: Browser, office: Office, bed: Bed
) -> None:
    Bed.objects.filter(pk=bed.pk).update(own_text="case = [", case_json={})
    answer = client.post(f"/beds/{bed.pk}/tests", {"date": "2026-05-02", "ph": "6.2"})
    assert answer.status_code == 422
    assert Bed.objects.get().case_text == "case = ["


def test_remarks_of_somebodys_own_file_survive_the_form_and_come_with_the_file(
    client: Browser, office: Office, bed: Bed
) -> None:
    own = CASE.replace("ph = 6.8", "ph = 6.8  # sheet 12, by post")
    put_case(bed, own, today=TODAY)
    Writer(office, what="Imported").change(bed, seen_version=bed.version)
    fields = sent_back(client.get(f"/beds/{bed.pk}/edit").content.decode())
    client.post(f"/beds/{bed.pk}/edit", fields | {"soil.ph": "6.3"})
    after = kept(Bed, office).get()
    assert after.case_json["soil"]["ph"] == 6.3 and after.ph == 6.3
    sent = {"date": "2026-05-02", "ph": "6.2", "ph_method": "CaCl2", "depth": ""}
    client.post(f"/beds/{bed.pk}/tests", sent)
    client.post(f"/beds/{bed.pk}/keep", {"soil.texture": "clay loam", "version": "4"})
    for address in (f"/beds/{bed.pk}/case.toml", f"/beds/{bed.pk}/letter.toml"):
        text = client.get(address).content.decode()
        assert "ph = 6.3  # sheet 12, by post" in text
        assert tomllib.loads(text) == tomllib.loads(own) | {
            "soil": tomllib.loads(own)["soil"] | {"ph": 6.3, "texture": "clay loam"},
            "reading": [{"date": "2026-05-02", "ph": 6.2, "ph_method": "CaCl2"}],
        }
