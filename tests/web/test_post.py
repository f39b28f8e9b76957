from __future__ import annotations

import json
import re
import tomllib
from datetime import date, timedelta
from uuid import UUID

import pytest
from django.contrib.messages import get_messages
from django.test import Client as Browser
from pypdfium2 import PdfDocument

from loamshift.case.answer_file import answer_file_from_json
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office, SentLetter
from loamshift.store.scope import kept
from loamshift.web.beds.samples import SAMPLES
from loamshift.web.letters.sending import letter_to_send, today_differs
from loamshift.web.letters.views.letters import beds_waiting

pytestmark = pytest.mark.django_db

TODAY = date(2026, 4, 12)


def paper_in(data: bytes) -> str:
    """The paper that a PDF is for."""
    width_mm = PdfDocument(data)[0].get_width() / 72.0 * 25.4
    return "a4" if width_mm == pytest.approx(210.0, abs=0.5) else "letter"


@pytest.fixture
def office() -> Office:
    return Office.objects.create(pk=UUID(int=1), name="Ours")


@pytest.fixture
def bed(office: Office) -> Bed:
    writer = Writer(office, what="Added it")
    owner = Client(name="Höfer")
    writer.add(owner)
    garden = Garden(client=owner, name="Home")
    writer.add(garden)
    made = Bed(garden=garden, name="Berry border", case_text=SAMPLES[0].case_text)
    writer.add(made)
    return made


@pytest.fixture
def sent(office: Office, bed: Bed) -> SentLetter:
    letter = letter_to_send(bed, office=office, today=TODAY)
    Writer(office, what="Sent it").add(letter)
    return letter


def page(browser: Browser, address: str) -> str:
    return browser.get(address).content.decode()


def test_the_empty_post_says_what_it_is_for(client: Browser, office: Office) -> None:
    assert "Every bed has an up-to-date letter" in page(client, "/post/")
    assert "No letters sent yet" in page(client, "/post/?show=sent")


def test_a_bed_waits_until_it_has_a_letter_and_again_once_it_is_changed(
    client: Browser, office: Office, bed: Bed
) -> None:
    assert list(beds_waiting(office)) == [bed]
    assert "no letter yet" in page(client, "/post/")
    answer = client.post(f"/beds/{bed.pk}/send", {"version": bed.version})
    letter = kept(SentLetter, office).get()
    assert answer.headers["Location"] == f"/post/{letter.pk}"
    assert list(beds_waiting(office)) == []
    bed.plants = "other"
    Writer(office, what="Changed it").change(bed, seen_version=bed.version)
    assert list(beds_waiting(office)) == [bed]
    assert "after its letter" in page(client, "/post/")


@pytest.mark.drawn
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_letter_is_printed_on_the_paper_of_the_office(
    client: Browser, office: Office, sent: SentLetter, paper: str
) -> None:
    Office.objects.update(paper=paper)
    answer = client.get(f"/post/{sent.pk}/letter.pdf")
    assert answer.status_code == 200
    assert paper_in(answer.content) == paper


def test_a_letter_that_was_put_away_leaves_its_bed_waiting(
    client: Browser, office: Office, bed: Bed, sent: SentLetter
) -> None:
    assert list(beds_waiting(office)) == []
    answer = client.post(f"/post/{sent.pk}/put-away")
    assert list(beds_waiting(office)) == [bed]
    assert client.get(f"/post/{sent.pk}").status_code == 404
    act = [m.extra_tags for m in get_messages(answer.wsgi_request)][-1]
    client.post(f"/changes/{act}/take-back")
    assert client.get(f"/post/{sent.pk}").status_code == 200


def test_a_letter_opens_as_it_was_whatever_bed_office_and_shelf_became(
    client: Browser, office: Office, bed: Bed, sent: SentLetter
) -> None:
    before = page(client, f"/post/{sent.pk}").split("<article")[1].split("</article>")[0]
    assert "How much" in before and "g/m²" in before
    office.units, office.words = "us", "us"
    office.save()
    bed.case_text = bed.case_text.replace("ph = 6.8", "ph = 5.1")
    Writer(office, what="Changed it").change(bed, seen_version=bed.version)
    after = page(client, f"/post/{sent.pk}").split("<article")[1].split("</article>")[0]
    assert after == before


@pytest.mark.drawn
@pytest.mark.parametrize(
    ("kind", "starts"), [("pdf", b"%PDF"), ("html", b"<!doctype html>"), ("md", b"# Berry border")]
)
def test_the_letter_as_a_file(client: Browser, sent: SentLetter, kind: str, starts: bytes) -> None:
    answer = client.get(f"/post/{sent.pk}/letter.{kind}")
    assert answer.content.startswith(starts)
    assert f'filename="berry-border-2026-04-12.{kind}"' in answer.headers["Content-Disposition"]


def test_the_whole_answer_as_json_is_what_was_kept(client: Browser, sent: SentLetter) -> None:
    answer = client.get(f"/post/{sent.pk}/letter.json")
    assert answer.content.decode() == sent.answer_text
    assert answer_file_from_json(sent.answer_text).letter is not None
    assert client.get(f"/post/{sent.pk}/letter.exe").status_code == 404


def test_the_same_day_nothing_differs(client: Browser, office: Office, sent: SentLetter) -> None:
    letter = today_differs(sent.answer_text, office=office, today=TODAY)
    assert "Nothing differs" in str(letter)


def test_a_year_later_the_dates_differ_and_the_letter_stays(
    client: Browser, office: Office, sent: SentLetter
) -> None:
    letter = today_differs(sent.answer_text, office=office, today=TODAY + timedelta(days=365))
    told = str(letter)
    assert "Nothing differs" not in told and "Application 1" in told
    assert kept(SentLetter, office).get().answer_text == sent.answer_text
    shown = page(client, f"/post/{sent.pk}/today?now=1")
    assert "The letter itself does not change" in shown and "The advice" in shown


def test_what_was_applied_and_tested_since_is_taken_in(
    client: Browser, office: Office, bed: Bed, sent: SentLetter
) -> None:
    since = TODAY + timedelta(days=30)
    now = (
        f'{bed.own_text}\n[[applied]]\ndate = {since}\nmaterial = "gypsum"\nrate = "30 g/m2"\n'
        f'[[reading]]\ndate = {since}\nph = 6.1\nph_method = "water 1:1"\n'
    )
    day = TODAY + timedelta(days=60)
    tree = tomllib.loads(now)
    told = str(today_differs(sent.answer_text, office=office, today=day, now=tree))
    alone = str(today_differs(sent.answer_text, office=office, today=day))
    for fact in ("gypsum", "6.1"):
        assert fact in told and fact not in alone
    assert "Application 1" in told and "applied[" not in told and "reading[" not in told
    Bed.objects.filter(pk=bed.pk).update(case_json={"case": 1, "soil": {"ph": 72}})
    part = client.get(f"/post/{sent.pk}/today?now=1", headers={"HX-Request": "true"})
    assert "Open the bed and correct" in part.content.decode()


def test_the_page_comes_at_once_and_asks_for_the_differences_itself(
    client: Browser, sent: SentLetter, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patched:
        patched.setattr("loamshift.web.letters.views.letters.today_differs", None)
        shown = page(client, f"/post/{sent.pk}/today")
    assert "Comparing …" in shown and "How much" in shown
    asked = f"/post/{sent.pk}/today?now=1"
    assert f'hx-get="{asked}" hx-trigger="load"' in shown and 'href="?now=1"' in shown
    part = client.get(asked, headers={"HX-Request": "true"}).content.decode()
    assert part.lstrip().startswith("<div") and "The advice" in part and "How much" not in part
    whole = page(client, asked)
    assert part.strip() in whole and "Comparing …" not in whole
    names = re.findall(r' id="([^"]+)"', whole)
    assert len(names) == len(set(names))


def test_other_tables_are_told_apart_from_the_passing_of_time(office: Office, bed: Bed) -> None:
    letter = letter_to_send(bed, office=office, today=TODAY)
    tree = json.loads(letter.answer_text)
    tree["made_by"]["tables"] = "0ld"
    text = json.dumps(tree)
    told = str(today_differs(text, office=office, today=TODAY + timedelta(days=200)))
    assert "0ld" in told and "Same case, now" in told


def test_a_letter_from_elsewhere_that_keeps_no_letter_or_case_is_told(
    client: Browser, office: Office, bed: Bed, sent: SentLetter
) -> None:
    tree = json.loads(sent.answer_text)
    tree["letter"] = tree["case"] = None
    bare = SentLetter(
        bed=bed, title="Bare", sent_on=TODAY, decision="go", answer_text=json.dumps(tree)
    )
    broken = SentLetter(
        bed=bed, title="Broken", sent_on=TODAY, decision="odd", answer_text='{"a": 1}'
    )
    for letter in (bare, broken):
        Writer(office, what="Added it").add(letter)
        assert 'role="alert"' in page(client, f"/post/{letter.pk}")
        asked = f"/post/{letter.pk}/today?now=1"
        part = client.get(asked, headers={"HX-Request": "true"}).content.decode()
        assert part.startswith('<p class="fault">')
        assert client.get(f"/post/{letter.pk}/letter.pdf").status_code == 302
        assert client.get(f"/post/{letter.pk}/letter.json").status_code == 200
    assert "odd" in page(client, "/post/?show=sent")


def test_the_note_is_the_offices_own(client: Browser, office: Office, sent: SentLetter) -> None:
    client.post(f"/post/{sent.pk}/note", {"note": " <i>by hand</i> ", "version": "1"})
    changed = kept(SentLetter, office).get()
    assert (changed.note, changed.answer_text) == ("<i>by hand</i>", sent.answer_text)
    assert "&lt;i&gt;by hand" in page(client, f"/post/{sent.pk}")
    late = client.post(f"/post/{sent.pk}/note", {"note": "mine", "version": "1"})
    assert late.status_code == 409
    assert ">\nmine</textarea>" in late.content.decode()
    assert "Saved value: &lt;i&gt;by hand" in late.content.decode()
    long = client.post(f"/post/{sent.pk}/note", {"note": "x" * 2001, "version": "2"})
    assert long.status_code == 422 and "2,001 characters" in long.content.decode()


def test_letters_and_waiting_beds_are_found_by_client_and_bed(
    client: Browser, office: Office, sent: SentLetter
) -> None:
    assert "Berry border" in page(client, "/post/?show=sent&find=hofer+berry")
    for tab in ("", "show=sent&"):
        assert "No results for “nobody”" in page(client, f"/post/?{tab}find=nobody")


def test_a_long_list_has_pages(client: Browser, office: Office, bed: Bed) -> None:
    for number in range(45):
        Writer(office, what="Added it").add(
            SentLetter(
                bed=bed,
                title=f"Letter {number:02}",
                sent_on=TODAY + timedelta(days=number),
                decision="go",
                answer_text="{}",
            )
        )
    first, second = (page(client, f"/post/?show=sent&page={number}") for number in (1, 2))
    assert "Letter 44<" in first and "Letter 04<" not in first and "Letter 04<" in second


def test_another_offices_letters_are_not_there(client: Browser, office: Office, bed: Bed) -> None:
    other = Office.objects.create(name="Other")
    writer = Writer(other, what="Added it")
    theirs_bed = Bed(name="Theirs", case_text="case = 1\n")
    writer.add(theirs_bed)
    theirs = SentLetter(
        bed=theirs_bed, title="Theirs", sent_on=TODAY, decision="go", answer_text="{}"
    )
    writer.add(theirs)
    assert "Theirs" not in page(client, "/post/")
    for tail in ("", "/today", "/letter.json"):
        assert client.get(f"/post/{theirs.pk}{tail}").status_code == 404
    for tail in ("/note", "/put-away"):
        assert client.post(f"/post/{theirs.pk}{tail}").status_code == 404
