"""Trials in the workbench: designed, tried, saved with a forecast, read, shown, handed on."""

from __future__ import annotations

import json
import re
from datetime import date
from typing import Any
from uuid import UUID

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser

from loamshift.case.trial_sheets import record_csv
from loamshift.domain.trial_result import PotReading
from loamshift.store.changes import Writer, take_back
from loamshift.store.models import Bed, Change, Client, JarSeries, Office, Trial
from loamshift.web.trials.opened import opened

pytestmark = pytest.mark.django_db

CASE = """case = 1
name = "North border"
[soil]
ph = 7.8
ph_method = "water 1:2.5"
sampled = 2026-03-01
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 5
[place]
name = "Minneapolis"
[[reading]]
date = 2026-04-10
ph = 7.7
ph_method = "water 1:2.5"
"""
TYPED = {
    "name": "Peat", "question": "Does peat last?", "design": "randomised", "kind": "container",
    "replicates": "4", "area": "0.03 m2", "depth": "15 cm", "start": "2026-04-20",
    "days": "0, 1, 9", "ph_method": "water 1:2.5", "by_lot": "on", "seed": "7", "soil": "bed",
    "rows": "3", "treatment-0-name": "nothing", "treatment-1-name": "peat",
    "treatment-1-material": "peat", "treatment-1-rate": "10 kg/m2",
}  # fmt: skip


@pytest.fixture
def office() -> Office:
    return Office.objects.create(pk=UUID(int=1), name="Ours", toured=True)


@pytest.fixture
def bed(office: Office) -> Bed:
    made = Bed(name="North border", case_text=CASE)
    Writer(office, what="Added it").add(made)
    return made


@pytest.fixture
def trial(bed: Bed, monkeypatch: pytest.MonkeyPatch) -> Trial:
    """One that is saved, its forecast made by few beds."""
    quick(monkeypatch)
    sent = send(bed)
    assert sent.status_code == 302, sent.content.decode()
    return Trial.objects.get()


def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    from loamshift.services.trial import expect
    from loamshift.web.trials import opened as opening

    monkeypatch.setattr(
        opening, "predict", lambda *a, **k: expect.predict(*a, **{**k, "members": 12})
    )


def send(bed: Bed, do: str = "save", **more: str) -> Any:
    return Browser().post("/trials/new", {**TYPED, "belongs": f"bed:{bed.pk}", "do": do, **more})


def page(address: str) -> str:
    got = Browser().get(address)
    assert got.status_code == 200, got
    return got.content.decode()


def day(trial: Trial, number: int, **more: str) -> Any:
    there = opened(trial)
    typed = {
        f"ph-{place.label}": f"{7.7 - 0.6 * (place.treatment == 1 and number == 1) + 0.01 * n:.2f}"
        for n, place in enumerate(there.plan.places)
    }
    sent = {"day": str(number), "version": str(trial.version), "method": "water 1:2.5", **typed}
    done = Browser().post(f"/trials/{trial.pk}/readings", sent | more)
    trial.refresh_from_db()
    return done


def test_it_can_be_tried_before_it_is_saved(bed: Bed) -> None:
    tried = send(bed, "try").content.decode()
    assert "likely to show a difference" in tried and "peat, 300\u00a0g" in tried
    assert "<svg" in tried and not Trial.objects.exists()
    one = send(bed, "try", replicates="1").content.decode()
    assert "demonstration" in one


def test_it_keeps_the_soil_as_last_read_and_its_forecast(trial: Trial, bed: Bed) -> None:
    assert trial.trial_json["soil"]["ph"] == 7.7 and trial.trial_json["of_bed"] is True
    kept = json.loads(trial.forecast_text)
    assert kept["made_on"] == date.today().isoformat() and len(kept["rows"]) == 6  # noqa: DTZ011
    assert opened(trial).trial.treatments[1].adds[0].material.key
    shown = page(f"/trials/{trial.pk}")
    assert "North border" in shown and "The forecast was made on" in shown
    assert "Peat" in page("/trials/") and "Peat" in page(f"/beds/{bed.pk}/history")


def test_what_is_wrong_is_told_beside_its_field_and_nothing_typed_is_lost(bed: Bed) -> None:
    wrong = send(
        bed, replicates="many", days="0, x", **{"treatment-1-material": "moon dust", "rows": "4"}
    )
    text = wrong.content.decode()
    assert wrong.status_code == 422 and not Trial.objects.exists()
    for typed in ("many", "0, x", "moon dust", "10 kg/m2", "Does peat last?"):
        assert typed in text
    assert text.count('class="fault"') >= 3
    assert "[[" not in text and "loamshift trial" not in text
    more = send(bed, "row").content.decode()
    assert 'name="treatment-4-name"' in more and "10 kg/m2" in more


def test_a_series_of_doses_is_worked_out(bed: Bed, monkeypatch: pytest.MonkeyPatch) -> None:
    quick(monkeypatch)
    half = send(bed, dose_material="elemental sulfur, powder").content.decode()
    assert "needs the product, how many, and the pH" in half
    series = {"dose_material": "elemental sulfur, powder", "dose_count": "4"}
    limy = send(bed, **series, dose_to_ph="6.5").content.decode()
    assert "more than anybody spreads" in limy
    soil = {"soil": "own", "ph": "6.5", "texture": "loam", "om": "3"}
    made = send(bed, **series, **soil, dose_to_ph="5.5")
    assert made.status_code == 302, made.content.decode()
    rates = [one.rate_g_m2 for one in opened(Trial.objects.get()).trial.treatments]
    assert rates[0] == 0.0 and rates == sorted(rates) and len(rates) == 4


def test_a_day_is_typed_shown_again_and_undone(trial: Trial) -> None:
    assert day(trial, 0).status_code == 302
    again = page(f"/trials/{trial.pk}/readings?day=0")
    assert 'value="7.71"' in again
    bad = day(trial, 1, **{"ph-2": "seven", "note-3": "dry"})
    text = bad.content.decode()
    assert bad.status_code == 422 and "“seven” cannot be read" in text and "dry" in text
    assert day(trial, 1, **{"ph-2": "7.0; 7.2"}).status_code == 302
    assert len([row for row in opened(trial).rows if row.pot == "2" and row.day == 1]) == 2
    assert len(opened(trial).rows) == 17
    act = Change.objects.order_by("-id")[0].act
    take_back(trial.office, act)
    trial.refresh_from_db()
    assert {row.day for row in opened(trial).rows} == {0}


def test_somebody_else_read_meanwhile_and_both_readings_stay(trial: Trial) -> None:
    day(trial, 0)
    late = day(trial, 1, version="1")
    text = late.content.decode()
    assert late.status_code == 422 and text.count('value="7.') == 8
    assert text.count('name="version" value="2"') == 2
    assert day(trial, 1).status_code == 302
    assert {row.day for row in opened(trial).rows} == {0, 1}


def test_a_sheet_comes_back_and_what_it_lacks_is_named(trial: Trial) -> None:
    there = opened(trial)
    read = [
        PotReading(pot=p.label, day=0, on=there.trial.start, ph=7.7, method=there.trial.ph_method)
        for p in there.plan.places
    ]
    sheet = record_csv(there.plan, read).replace("\n3,", "\n33,", 1)
    data = {"sheet": SimpleUploadedFile("back.csv", sheet.encode()), "version": "1", "day": "0"}
    sent = Browser().post(f"/trials/{trial.pk}/upload", data)
    assert sent.status_code == 200 and "no pot “33”" in sent.content.decode()
    trial.refresh_from_db()
    assert len(opened(trial).rows) == 7
    other = {"sheet": SimpleUploadedFile("x.csv", b"a,b\n1,2\n"), "version": str(trial.version)}
    refused = Browser().post(f"/trials/{trial.pk}/upload", other)
    assert refused.status_code == 422 and "is no record sheet" in refused.content.decode()


def test_the_result_is_shown_and_shared(trial: Trial) -> None:
    for number in (0, 1, 9):
        day(trial, number)
    shown = page(f"/trials/{trial.pk}")
    assert "Day by day" in shown and "A check without formulas" in shown
    assert "gone again by the last reading" in shown
    for file, begins in {
        "protocol.pdf": b"%PDF", "labels.pdf": b"%PDF", "record.pdf": b"%PDF", "record.xlsx": b"PK",
        "record.csv": b"pot,", "trial.toml": b"", "forecast.json": b"{", "data.csv": b"pot,",
        "script.py": b'"""', "page.html": b"<!doctype", "picture.svg": b"<svg",
    }.items():  # fmt: skip
        got = Browser().get(f"/trials/{trial.pk}/files/{file}")
        assert got.status_code == 200 and got.content.startswith(begins), file
        assert "attachment" in got["Content-Disposition"]
    text = Browser().get(f"/trials/{trial.pk}/files/protocol.html").content.decode()
    assert "loamshift trial" not in text and "Enter the readings on the trial" in text


def test_its_forecasts_are_scored_with_those_of_the_bed(trial: Trial, bed: Bed) -> None:
    kept = json.loads(trial.forecast_text)
    trial.forecast_text = json.dumps({**kept, "made_on": "2026-04-19"})
    Writer(trial.office, what="Kept early").change(trial, seen_version=1)
    day(trial, 1)
    shown = page(f"/beds/{bed.pk}/scores")
    assert "Peat: peat" in shown and "trial, 19\u00a0April" in shown


def test_once_read_its_layout_stays_and_its_name_does_not(trial: Trial, bed: Bed) -> None:
    day(trial, 0)
    address, forecast = f"/trials/{trial.pk}/edit", trial.forecast_text
    typed = {**TYPED, "belongs": f"bed:{bed.pk}", "do": "save", "version": str(trial.version)}
    refused = Browser().post(address, {**typed, "replicates": "5"})
    assert refused.status_code == 422 and "There are readings already" in refused.content.decode()
    renamed = Browser().post(address, {**typed, "name": "Moss peat"})
    assert renamed.status_code == 302, re.findall(r'class="fault">[^<]*', renamed.content.decode())
    trial.refresh_from_db()
    assert trial.name == "Moss peat" and trial.forecast_text == forecast


def test_untreated_readings_go_to_the_bed_once(trial: Trial, bed: Bed) -> None:
    day(trial, 0)
    day(trial, 9)
    shown = page(f"/trials/{trial.pk}")
    assert "Add these readings to the bed" in shown and "Soil in pots is the bed" in shown
    for _ in range(2):
        Browser().post(f"/trials/{trial.pk}/to-bed")
    bed.refresh_from_db()
    assert [one["date"] for one in bed.case_json["reading"]] == ["2026-04-10", "2026-04-20"]
    assert bed.case_json["reading"][1]["ph"] == pytest.approx(7.73, abs=0.02)
    assert "The bed has these readings" in page(f"/trials/{trial.pk}")


def test_a_trial_of_a_client_has_its_own_soil(office: Office, monkeypatch: Any) -> None:
    quick(monkeypatch)
    client = Client(name="Höfer")
    Writer(office, what="Added it").add(client)
    typed = {**TYPED, "belongs": f"client:{client.pk}", "do": "save"}
    lacking = Browser().post("/trials/new", typed)
    assert lacking.status_code == 422 and "needs the pH of its soil" in lacking.content.decode()
    made = Browser().post("/trials/new", {**typed, "ph": "7,8", "texture": "loam", "om": "3"})
    assert made.status_code == 302, made.content.decode()
    trial = Trial.objects.get()
    assert trial.client == client and not opened(trial).trial.of_bed
    assert "Peat" in page(f"/clients/{client.pk}")


def test_jars_are_set_up_read_and_put_into_the_bed(bed: Bed) -> None:
    address = f"/beds/{bed.pk}/jars"
    wrong = Browser().post(address, {"to_ph": "seven", "count": "2"})
    assert wrong.status_code == 422 and wrong.content.decode().count('class="fault"') >= 2
    made = Browser().post(address, {"to_ph": "6.5", "count": "5", "soil_g": "50"})
    assert made.status_code == 302, made.content.decode()
    series = JarSeries.objects.get()
    there = f"/jars/{series.pk}"
    assert "Acid goes into water" in page(there) and "--read" not in page(there)
    typed = {f"ph-{n}": ph for n, ph in enumerate(("7.7", "7.4", "7.0", "x"))}
    bad = Browser().post(there, {**typed, "version": "1"})
    assert bad.status_code == 422 and 'value="7.4"' in bad.content.decode()
    read = Browser().post(there, {**typed, "ph-3": "6.6", "ph-4": "6.1", "version": "1"})
    assert read.status_code == 302
    assert "With the jars" in page(there)
    put = Browser().post(f"{there}/to-bed")
    assert put.status_code == 302 and put["Location"] == f"/beds/{bed.pk}"
    bed.refresh_from_db()
    assert [one["ph"] for one in bed.case_json["titration"]] == [7.7, 7.4, 7.0, 6.6, 6.1]
    assert "The bed has this titration" in page(there)
    sheet = Browser().get(f"{there}/sheet.csv")
    assert sheet.content.startswith(b"jar,") and b"6.6" in sheet.content
    assert Browser().get(f"{there}/sheet.pdf").content.startswith(b"%PDF")
