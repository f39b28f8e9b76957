"""Files of weather and of soil thermometers into a bed, and the weather of the archive."""

from __future__ import annotations

import math
import urllib.error
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser

from loamshift.store.changes import Writer
from loamshift.store.models import Bed, IntakeDraft, Office
from loamshift.web import online_weather
from loamshift.web.answers import answered_at_once
from recorded_weather import reply

pytestmark = pytest.mark.django_db
TODAY = date.today()  # noqa: DTZ011 - the pages know only the local day
BED = 'case = 1\nname = "Long border"\n[place]\nname = "Minneapolis"\n[soil]\nph = 6.4\n'


@pytest.fixture
def bed() -> Bed:
    office = Office.objects.create(name="Ours")
    made = Bed(name="Long border", case_text=BED)
    Writer(office, what="Added it").add(made)
    return made


def a_year(*, soil: bool = True, rain: bool = True, heading: str = "Temp (°C)") -> str:
    """A year of days with round means; the soil lags behind the air."""
    first = date(TODAY.year - 1, 1, 1)
    lines = [f"Date,{heading}" + (",Rain (mm)" if rain else "") + (",Probe" if soil else "")]
    for n in range(365):
        day = first + timedelta(n)
        air = 10.0 - 12.0 * math.cos(2.0 * math.pi * (n - 20) / 365.0)
        probe = 11.0 - 9.0 * math.cos(2.0 * math.pi * (n - 40) / 365.0)
        cells = [str(day), f"{air:.1f}", *(["2.0"] if rain else []), *([f"{probe:.1f}"] * soil)]
        lines.append(",".join(cells))
    return "\n".join(lines) + "\n"


def uploaded(bed: Bed, content: str, name: str = "station.csv") -> IntakeDraft:
    given = {"file": SimpleUploadedFile(name, content.encode())}
    assert Browser().post(f"/beds/{bed.pk}/weather", given).status_code == 302
    return IntakeDraft.objects.get(bed=bed)


def of_file(bed: Bed, draft: IntakeDraft, do: str = "", **said: str) -> str:
    at = f"/beds/{bed.pk}/weather/{draft.pk}"
    if do:
        assert Browser().post(at, {**said, "do": do}).status_code == 302
    return Browser().get(at).content.decode()


def test_a_station_and_its_probe_are_confirmed_and_undone(bed: Bed) -> None:
    draft = uploaded(bed, a_year())
    page = of_file(bed, draft)
    assert "Nothing of this file is in use yet" in page
    assert "soil thermometer" not in page, "nobody said what the probe is"
    page = of_file(bed, draft, "save", **{"answer:3: meaning": "soil"})
    page = of_file(bed, draft, "save", **{"answer:3: depth": "4 in"})
    assert "36 means of ten days of the soil thermometer" in page
    of_file(bed, draft, "enter")
    kept = Bed.objects.get(pk=bed.pk)
    place = kept.case_json["place"]
    assert place["rain_mm"][0] == 62, "31 days of 2 mm"
    assert place["air_temp_c"][0] == pytest.approx(-1.7, abs=0.3)
    assert {row["depth"] for row in place["soil_temp"]} == {"10.16 cm"}
    said = Browser().get(f"/beds/{bed.pk}/weather").content.decode()
    assert "Your own monthly figures" in said
    assert "Your soil thermometer" in said
    draft.refresh_from_db()
    Browser().post(f"/changes/{draft.act}/take-back", {"next": "/"})
    assert Bed.objects.get(pk=bed.pk).case_json["place"] == {"name": "Minneapolis"}


def test_a_thermometer_alone_leaves_the_climate_of_the_place(bed: Bed) -> None:
    rows = a_year(soil=False, rain=False, heading="soil temp 10 cm (°C)").splitlines()[:100]
    draft = uploaded(bed, "\n".join(rows))
    of_file(bed, draft, "enter")
    place = Bed.objects.get(pk=bed.pk).case_json["place"]
    assert set(place) == {"name", "soil_temp"}


def test_without_rain_that_of_the_place_stays(bed: Bed) -> None:
    draft = uploaded(bed, a_year(soil=False, rain=False))
    assert "that of the bed’s place stays" in of_file(bed, draft)
    of_file(bed, draft, "enter")
    rain = Bed.objects.get(pk=bed.pk).case_json["place"]["rain_mm"]
    assert len(rain) == 12 and rain[6] > 60


def test_what_is_open_is_asked_and_nothing_enters(bed: Bed) -> None:
    few = "\n".join(a_year(soil=False, heading="air temp").splitlines()[:40])
    draft = uploaded(bed, few)
    page = of_file(bed, draft, "enter")
    assert "days of temperature" in page
    assert Bed.objects.get(pk=bed.pk).case_json["place"] == {"name": "Minneapolis"}
    given = {"file": SimpleUploadedFile("notes.csv", b"just,words\nno,days\n")}
    answer = Browser().post(f"/beds/{bed.pk}/weather", given)
    assert answer.status_code == 422


@pytest.fixture
def archive(settings: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., None]:
    """What the archive answers, and a folder of the test's own."""
    settings.DATA_FOLDER = tmp_path
    online_weather.FAILURES.clear()

    def answers(fetch: Callable[[str], bytes]) -> None:
        monkeypatch.setattr(online_weather, "asked", fetch)

    return answers


def basis(bed: Bed) -> str:
    bed = Bed.objects.get(pk=bed.pk)
    found = answered_at_once(bed.case_json, office=bed.office, today=TODAY)
    return found.case.place.source_key if found.case.place is not None else ""


def test_online_weather_is_off_until_somebody_turns_it_on(
    bed: Bed, archive: Callable[..., None]
) -> None:
    calls: list[str] = []

    def fetch(address: str) -> bytes:
        calls.append(address)
        return reply(address)

    archive(fetch)
    assert basis(bed) != "open-meteo"
    assert not calls
    Browser().post(f"/beds/{bed.pk}/weather/online", {"online": "on"})
    assert basis(bed) == "open-meteo"
    assert "Open-Meteo" in Browser().get(f"/beds/{bed.pk}/weather").content.decode()
    assert len(calls) == 5, "one a year, and kept"
    Browser().post(f"/beds/{bed.pk}/weather/online", {"online": "off"})
    assert basis(bed) != "open-meteo"


def test_without_a_connection_the_answer_is_there_and_the_archive_is_left_alone(
    bed: Bed, archive: Callable[..., None]
) -> None:
    calls: list[str] = []

    def fetch(address: str) -> bytes:
        calls.append(address)
        raise urllib.error.URLError("no route to host")

    archive(fetch)
    Office.objects.update(online_weather=True)
    assert basis(bed) != "open-meteo"
    page = Browser().get(f"/beds/{bed.pk}/weather").content.decode()
    assert "no route to host" in page
    assert "climate of the place" in page
    assert basis(bed) != "open-meteo"
    assert len(calls) == 1
    online_weather.FAILURES.clear()
    archive(reply)
    assert basis(bed) == "open-meteo"
