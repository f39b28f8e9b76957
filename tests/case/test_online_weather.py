"""Online weather by recorded replies: written by hand after the archive's documented format."""

from __future__ import annotations

import io
import urllib.error
import urllib.parse
from collections.abc import Callable
from datetime import date
from email.message import Message as Headers
from pathlib import Path

import pytest

from loamshift.case.frozen_case import case_from_plain, case_to_plain
from loamshift.case.mend import Refused
from loamshift.case.online_weather import LARGEST_BYTES, fetched, with_online_weather
from loamshift.case.read import parse_case
from loamshift.domain.case import Case
from recorded_weather import reply
from wording import read

TODAY = date(2026, 4, 12)


def bed(place: str = 'name = "Minneapolis"') -> Case:
    return parse_case(f"case = 1\n[place]\n{place}\n[soil]\nph = 6.5", today=TODAY)


def test_five_whole_years_become_the_climate_of_the_place(tmp_path: Path) -> None:
    asked: list[str] = []

    def fetch(address: str) -> bytes:
        asked.append(address)
        return reply(address)

    case = with_online_weather(bed(), cache=tmp_path, fetch=fetch)
    assert case.place is not None
    assert [a.partition("start_date=")[2][:4] for a in asked] == [str(y) for y in range(2021, 2026)]
    assert all(a.startswith("https://archive-api.open-meteo.com/v1/archive?") for a in asked)
    assert case.place.air_temp_c[6] == pytest.approx(22.0, abs=0.3)
    assert case.place.rain_mm[3] == pytest.approx(30.0)
    assert case.place.source_key == "open-meteo"
    assert "2021 to 2025" in read(case.place.basis)


def test_what_is_on_disk_is_not_asked_for_again(tmp_path: Path) -> None:
    first = with_online_weather(bed(), cache=tmp_path, fetch=reply)

    def offline(address: str) -> bytes:
        raise urllib.error.URLError("no network")

    assert with_online_weather(bed(), cache=tmp_path, fetch=offline) == first
    for spoilt in tmp_path.iterdir():
        spoilt.write_bytes(b"{")
    with pytest.raises(Refused, match="no network"):
        with_online_weather(bed(), cache=tmp_path, fetch=offline)


def test_a_kept_answer_says_which_weather_it_used(tmp_path: Path) -> None:
    case = with_online_weather(bed(), cache=tmp_path, fetch=reply)
    again = case_from_plain(case_to_plain(case), source="x")
    assert again.place is not None and case.place is not None
    assert again.place.air_temp_c == case.place.air_temp_c
    assert "Open-Meteo" in read(again.place.basis)


def http_error(address: str) -> bytes:
    body = io.BytesIO(b'{"error":true,"reason":"Parameter latitude is out of range."}')
    raise urllib.error.HTTPError(address, 400, "Bad Request", Headers(), body)


def timeout(address: str) -> bytes:
    raise TimeoutError("timed out")


@pytest.mark.parametrize(
    ("fetch", "says"),
    [
        (http_error, "Parameter latitude is out of range"),
        (timeout, "timed out"),
        (lambda address: b"<html>", "not what the archive documents"),
        (lambda address: b"[]", "not what the archive documents"),
        (lambda address: b'{"error":true,"reason":"Daily limit exceeded"}', "Daily limit exceeded"),
        (lambda address: b" " * (LARGEST_BYTES + 1), "too large"),
        (lambda address: reply(address, daily_units={"temperature_2m_mean": "°F",
                                                      "precipitation_sum": "mm"}), "documents"),
        (lambda address: reply(address.replace("-12-31", "-11-30")), "no whole year 2021"),
        (lambda address: reply(address).replace(b'sum": [2.0', b'sum": ["2"'), "documents"),
        (lambda address: reply(address).replace(b'sum": [2.0', b'sum": [-2.0'), "rain that no"),
    ],
)  # fmt: skip
def test_what_goes_wrong_is_one_plain_line(
    fetch: Callable[[str], bytes], says: str, tmp_path: Path
) -> None:
    with pytest.raises(Refused, match=says) as caught:
        with_online_weather(bed(), cache=tmp_path, fetch=fetch)
    assert "\n" not in str(caught.value)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("place", "says"),
    [
        ("", "no place with a position"),
        ('name = "Nowhere in any list"', "no place with a position"),
        (f"latitude = 50\nlongitude = 8\nair_temp_c = {[10] * 12}\nrain_mm = {[50] * 12}", "own"),
    ],
)
def test_nothing_is_asked_where_it_cannot_help(place: str, says: str, tmp_path: Path) -> None:
    def never(address: str) -> bytes:
        raise AssertionError(address)

    with pytest.raises(Refused, match=says):
        with_online_weather(bed(place), cache=tmp_path, fetch=never)


def test_only_https_is_asked() -> None:
    with pytest.raises(ValueError, match="/etc/passwd"):
        fetched("file:///etc/passwd")
