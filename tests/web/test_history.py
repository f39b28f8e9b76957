from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client as Browser

from loamshift.case.answer import answer_to_json
from loamshift.case.read import parse_case
from loamshift.domain.message import message
from loamshift.domain.worth import WorthOnDay
from loamshift.services.advise import LookAhead, advise
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office, SentLetter
from loamshift.web.beds.keeping import put_case
from loamshift.web.beds.samples import SAMPLES, Sample

TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
THEN = TODAY - timedelta(days=300)
BED = """case = 1
name = "Border"
[place]
name = "Minneapolis"
[bed]
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


@pytest.fixture
def office(db: None) -> Office:
    return Office.objects.create(name="Ours")


def a_bed(office: Office, text: str) -> Bed:
    bed = Bed()
    put_case(bed, text, today=TODAY)
    Writer(office, what="Added").add(bed)
    return bed


def test_a_bed_without_dates_is_told_what_will_stand_here(client: Browser, office: Office) -> None:
    bed = a_bed(office, 'case = 1\nname = "New"\n')
    page = client.get(f"/beds/{bed.pk}/history").content.decode()
    assert "No pH test has a date yet" in page and "<svg" not in page


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample.name)
def test_a_sample_bed_has_a_history_from_the_first_day(
    client: Browser, office: Office, sample: Sample
) -> None:
    bed = a_bed(office, sample.as_of(TODAY))
    page = client.get(f"/beds/{bed.pk}/history").content.decode()
    assert "The first of two tests read pH" in page and "stands on no day" not in page
    assert "The grey band" not in page and "A filled ring" not in page


def test_the_life_of_a_bed_on_one_line_with_its_score(client: Browser, office: Office) -> None:
    text = BED + (
        f"[[applied]]\ndate = {THEN + timedelta(days=20)}\n"
        'material = "elemental sulfur, powder"\nrate = "30 g/m2"\n'
        f"[[reading]]\ndate = {TODAY - timedelta(days=10)}\nph = 9.4\n"
        'ph_method = "water 1:1"\n'
    )
    bed = a_bed(office, text)
    case = parse_case(f"today = {THEN}\n{BED}")
    answer = advise(case, look_ahead=LookAhead(members=50, seed=1, years=2))
    letter = SentLetter(
        bed=bed, title="<b>Plan", sent_on=THEN, decision="go", answer_text=answer_to_json(answer)
    )
    Writer(office, what="Sent").add(letter)
    page = client.get(f"/beds/{bed.pk}/history").content.decode()
    assert page.count('<svg class="chart"') == 2
    assert "above its forecast" in page and "above that range" in page
    assert "A filled ring was outside its forecast" in page and "The grey band" in page
    assert "A broken bar" not in page, "no rough method was drawn"
    assert "The one test" not in page, "a letter without its case cannot be scored"
    assert "No forecast has met" in client.get(f"/beds/{bed.pk}/scores").content.decode()
    assert "Sulphur powder" in page and "&lt;b&gt;Plan" in page and "<b>Plan" not in page
    assert "so it cannot be shown on the timeline" in page
    assert f"/beds/{bed.pk}/tests" in page


def test_a_letter_that_cannot_be_read_leaves_the_page_standing(
    client: Browser, office: Office
) -> None:
    bed = a_bed(office, BED)
    letter = SentLetter(bed=bed, title="Plan", sent_on=TODAY, decision="go", answer_text='{"a": 1}')
    Writer(office, what="Sent").add(letter)
    assert client.get(f"/beds/{bed.pk}/history").status_code == 200


def test_a_case_file_with_faults_is_told_with_the_way_to_mend_it(
    client: Browser, office: Office
) -> None:
    bed = a_bed(office, BED)
    Bed.objects.filter(pk=bed.pk).update(case_json={"case": 1, "soil": {"ph": 72}})
    page = client.get(f"/beds/{bed.pk}/history").content.decode()
    assert "<b>Soil: pH</b>" in page and f"/beds/{bed.pk}/edit" in page


def test_what_a_test_on_a_day_would_be_worth_is_told_in_place(
    client: Browser, office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[date] = []

    def told(_case: object, on: date, **_draws: int) -> WorthOnDay:
        asked.append(on)
        return WorthOnDay(on=on, gain=None, words=message("worth-day-late", day=on, planned=None))

    monkeypatch.setattr("loamshift.web.beds.views.history.worth_on_day", told)
    bed = a_bed(office, 'case = 1\nname = "New"\n')
    page = client.get(f"/beds/{bed.pk}/history?test_on=2999-06-01").content.decode()
    assert asked == [date(2999, 6, 1)] and "By 1 June 2999 this plan is carried out" in page
    page = client.get(f"/beds/{bed.pk}/history?test_on=soon").content.decode()
    assert "is not a date" in page and len(asked) == 1
    assert "Would another test pay?" in client.get(f"/beds/{bed.pk}/history").content.decode()
    assert len(asked) == 1, "nothing is worked out before somebody asks"
