from __future__ import annotations

import csv
import io
import json
from datetime import date, timedelta

import pytest
from django.test import Client as Browser

from loamshift.case.answer import answer_to_json
from loamshift.case.read import parse_case
from loamshift.services.advise import LookAhead, advise
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, ForecastIssued, Garden, Office, SentLetter
from loamshift.web.beds.keeping import put_case

TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
THEN = TODAY - timedelta(days=300)
SECRET = "Wisteria"
BED = f"""case = 1
name = "{SECRET}"
[place]
name = "Minneapolis"
[bed]
depth = "15 cm"
planted = false
[soil]
ph = 5.0
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"
[aim]
plant = "highbush blueberry"
"""


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours")


def a_bed(office: Office, text: str) -> Bed:
    bed = Bed()
    put_case(bed, text, today=TODAY)
    Writer(office, what="Added").add(bed)
    return bed


def with_letter(office: Office) -> Bed:
    """A bed with a letter of that day; acid enough that nothing is planned on it."""
    bed = a_bed(office, BED)
    case = parse_case(BED, today=THEN)
    answer = advise(case, look_ahead=LookAhead(members=40, seed=1, years=2))
    letter = SentLetter(
        bed=bed,
        title=f"Letter for {SECRET}",
        sent_on=THEN,
        decision=str(answer.verdict.decision),
        answer_text=answer_to_json(answer, case=case),
    )
    Writer(office, what="Sent").add(letter)
    return bed


def read(bed: Bed, office: Office, ph: float) -> None:
    day = TODAY - timedelta(days=20)
    text = f'{bed.case_text}\n[[reading]]\ndate = {day}\nph = {ph}\nph_method = "water 1:1"\n'
    put_case(bed, text, today=TODAY)
    Writer(office, what="Read").change(bed, seen_version=bed.version)


def test_without_a_pair_the_page_says_so(client: Browser, office: Office) -> None:
    page = client.get("/scores/").content.decode()
    assert "No forecast has met a later test yet" in page


def test_a_letter_is_scored_when_a_reading_comes(client: Browser, office: Office) -> None:
    bed = with_letter(office)
    assert "No forecast has met" in client.get(f"/beds/{bed.pk}/scores").content.decode()
    read(bed, office, 5.1)
    page = client.get(f"/beds/{bed.pk}/scores").content.decode()
    assert "one test proves nothing" in page
    assert "stays as measured" in page
    assert "<table" in page
    assert ForecastIssued.objects.count() == 1


def test_a_deleted_letter_no_longer_counts(client: Browser, office: Office) -> None:
    bed = with_letter(office)
    read(bed, office, 5.1)
    assert "one test proves nothing" in client.get("/scores/").content.decode()
    Writer(office, what="Deleted").put_away(SentLetter.objects.get())
    assert "No forecast has met" in client.get("/scores/").content.decode()


def test_a_saved_plan_keeps_its_forecast_once_a_day(client: Browser, office: Office) -> None:
    bed = a_bed(office, BED)
    for ph in ("6.9", "7.0"):
        bed.refresh_from_db()
        client.post(f"/beds/{bed.pk}/keep", {"soil.ph": ph, "version": bed.version})
    (kept,) = ForecastIssued.objects.all()
    assert kept.letter is None
    assert kept.issued_on in (TODAY, TODAY + timedelta(days=1)), "midnight may pass in the run"
    assert kept.course is not None and kept.course["measured_ph"] == pytest.approx(7.0)


def test_a_client_page_holds_the_beds_of_that_client_only(
    client: Browser,
    office: Office,
) -> None:
    bed = with_letter(office)
    read(bed, office, 5.1)
    writer = Writer(office, what="Added")
    one = Client(name="Ann")
    writer.add(one)
    garden = Garden(client=one, name="Home")
    writer.add(garden)
    assert "No forecast has met" in client.get(f"/clients/{one.pk}/scores").content.decode()
    bed.garden = garden
    writer.change(bed, seen_version=bed.version)
    assert "one test proves nothing" in client.get(f"/clients/{one.pk}/scores").content.decode()


def test_pairs_go_out_without_names_or_days(client: Browser, office: Office) -> None:
    bed = with_letter(office)
    read(bed, office, 5.1)
    text = client.get("/scores/pairs.csv").content.decode()
    (row,) = csv.DictReader(io.StringIO(text))
    tree = json.loads(client.get("/scores/pairs.json").content)
    assert row["region"] == "United States"
    assert row["issued_month"] == f"{THEN:%Y-%m}"
    assert float(row["read_ph"]) == pytest.approx(5.1)
    assert row["counted"] == "yes"
    assert [str(value if value is not None else "") for value in tree["pairs"][0].values()] == list(
        row.values()
    )
    assert list(tree["columns"]) == list(row)
    for told in (SECRET, "Minneapolis", str(THEN), str(bed.pk)):
        assert told not in text
        assert told not in json.dumps(tree)


def test_a_bed_that_cannot_be_read_is_left_out_and_told(
    client: Browser,
    office: Office,
) -> None:
    bed = with_letter(office)
    read(bed, office, 5.1)
    client.get("/scores/")
    bed.case_text = bed.case_text.replace("ph = 5.1", "ph = 51")
    bed.save()
    assert "One bed could not be read" in client.get("/scores/").content.decode()
