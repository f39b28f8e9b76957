"""Forecasts of saved plans leave with an office or a client and come back whole."""

from __future__ import annotations

import io
import json
import zipfile
from datetime import date
from typing import Any

import pytest

from loamshift.report.messages.refusal import refusal
from loamshift.report.words import Words
from loamshift.store.archive import ArchiveFault
from loamshift.store.digests import DIGESTS, digest_of, read_digests
from loamshift.store.export import client_zip, store_zip
from loamshift.store.models import Bed, Client, ForecastIssued, Office
from loamshift.store.put_in import add_missing, replace_all
from loamshift.store.restore import read_zip
from store.stores import NOW, small

pytestmark = pytest.mark.django_db
DAY = date(2026, 4, 10)
COURSE: dict[str, Any] = {
    "on": "2026-04-10",
    "dates": ["2026-04-17", "2026-04-24"],
    "ph": {name: [6.5, 6.4] for name in ("q05", "q25", "q50", "q75", "q95")},
    "measured_ph": 6.8,
    "measured_sd": None,
    "parts": [["2026-04-20", 60.0]],
    "known_g_m2": 0.0,
    "facts": {"region": "England", "depth_cm": 15.0},
}


@pytest.fixture
def office(db: None) -> Office:
    office = Office.objects.create(name="Ours")
    bed = small(office)[2]
    ForecastIssued.objects.create(office=office, bed=bed, issued_on=DAY, course=COURSE)
    return office


def files_of(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def zipped(files: dict[str, bytes]) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return file.getvalue()


def plans() -> list[tuple[str, date, Any]]:
    return [(p.bed.name, p.issued_on, p.course) for p in ForecastIssued.objects.all()]


@pytest.mark.parametrize("scope", ["store", "client"])
def test_saved_plans_come_back_and_the_manifest_knows_them(office: Office, scope: str) -> None:
    client = Client.objects.get()
    data = store_zip(office, now=NOW) if scope == "store" else client_zip(client, now=NOW)
    name = f"forecasts/{Bed.objects.get().pk}.json"
    files = files_of(data)
    assert read_digests(files[DIGESTS])[name] == digest_of(files[name])
    before = plans()
    assert before == [("A bed", DAY, COURSE)]
    archive = read_zip(data)
    if scope == "store":
        replace_all(archive, office)
        assert plans() == before and ForecastIssued.objects.get().office == office
    again = add_missing(archive, office, what="Again")
    assert again.added == 0 and plans() == before, "a bed that is here keeps what it has"
    Client.objects.all().delete()
    Bed.objects.all().delete()
    assert not plans()
    add_missing(archive, office, what="Added")
    assert plans() == before


def test_a_zip_of_an_earlier_version_has_none_and_is_read(office: Office) -> None:
    files = files_of(store_zip(office, now=NOW))
    name = next(one for one in files if one.startswith("forecasts/"))
    del files[name], files[DIGESTS]
    assert read_zip(zipped(files)).forecasts == ()


@pytest.mark.parametrize(
    "wrong",
    [
        {"forecasts": 2},
        {"plans": 3},
        {"plans": [{"issued_on": "2026-04-10", "course": COURSE}] * 2},
        {"course": {"dates": ["2026-04-24", "2026-04-17"]}},
        {"course": {"measured_ph": "7"}},
        {"course": {"known_g_m2": True}},
        {"course": {"parts": [["2026-04-20", "60"]]}},
        {"course": {"facts": {"region": 3}}},
        {"course": {"facts": {"depth_cm": "deep"}}},
        {"course": {"facts": {"name": "Mrs Ashdown"}}},
        {"course": {"ph": {**COURSE["ph"], "q95": [6.5]}}},
        {"course": {"ph": {**COURSE["ph"], "q95": [6.5, float("nan")]}}},
        {"course": {"ph": {**COURSE["ph"], "q95": [6.5, 65.0]}}},
    ],
)
def test_what_is_no_forecast_is_refused_with_its_file(
    office: Office, wrong: dict[str, Any]
) -> None:
    files = files_of(store_zip(office, now=NOW))
    name = next(one for one in files if one.startswith("forecasts/"))
    tree = json.loads(files[name])
    tree["plans"][0]["course"] |= wrong.get("course", {})
    tree |= {key: value for key, value in wrong.items() if key != "course"}
    files[name] = json.dumps(tree).encode()
    del files[DIGESTS]
    with pytest.raises(ArchiveFault) as caught:
        read_zip(zipped(files))
    told = refusal(caught.value, Words())
    assert name in told and "not forecasts of saved plans" in told
    assert plans() == [("A bed", DAY, COURSE)]


def test_forecasts_of_a_bed_that_is_not_in_the_zip_are_refused(office: Office) -> None:
    files = files_of(store_zip(office, now=NOW))
    name = next(one for one in files if one.startswith("forecasts/"))
    files["forecasts/2b1d5a3c-0000-4000-8000-000000000000.json"] = files.pop(name)
    del files[DIGESTS]
    with pytest.raises(ArchiveFault) as caught:
        read_zip(zipped(files))
    assert "The zip contains no bed with this id" in refusal(caught.value, Words())
