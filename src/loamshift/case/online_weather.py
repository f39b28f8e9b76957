"""Weather of past years from a public archive, asked only by who wishes it, and kept on disk.

The archive is Open-Meteo's, by its documented address for past days. Its data are reanalyses of
the place's grid cell under CC BY 4.0; no key and no name is sent, only the position, rounded.
"""

from __future__ import annotations

import json
import math
import ssl
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from http.client import HTTPException
from pathlib import Path
from typing import Any, Final

import numpy as np

from loamshift.case.build_place import ONLINE_SOURCE_KEY
from loamshift.case.mend import Refused, shown
from loamshift.case.weather.read import DAYS_OF_MONTH
from loamshift.domain.case import Case
from loamshift.domain.message import Given, message
from loamshift.domain.place import Place

ADDRESS: Final = "https://archive-api.open-meteo.com/v1/archive"
YEARS: Final = 5
"""Whole calendar years before this one that are asked for."""
TIMEOUT_S: Final = 15.0
LARGEST_BYTES: Final = 1_000_000
_DIGITS: Final = 2
"""Decimals of a degree that are sent: a kilometre, well inside a cell of the archive."""
_DAILY: Final = ("temperature_2m_mean", "precipitation_sum")
_UNITS: Final = {"temperature_2m_mean": "°C", "precipitation_sum": "mm"}
_LEAST_SHARE: Final = 0.9
"""Share of a year's days that must have figures."""

Fetch = Callable[[str], bytes]


def fetched(address: str, *, timeout_s: float = TIMEOUT_S) -> bytes:
    """What an address answers: https only, within a time and a size.

    Parameters
    ----------
    timeout_s
        So long the other side may take [s].

    Raises
    ------
    OSError
        Where there is no network, or the other side refuses or takes too long.
    """
    if not address.startswith("https://"):
        raise ValueError(address)
    request = urllib.request.Request(address, headers={"User-Agent": "loamshift"})
    with urllib.request.urlopen(
        request, timeout=timeout_s, context=ssl.create_default_context()
    ) as reply:
        data: bytes = reply.read(LARGEST_BYTES + 1)
    return data


def with_online_weather(case: Case, *, cache: Path, fetch: Fetch = fetched) -> Case:
    """The case with the weather of the last whole years at its place.

    Parameters
    ----------
    cache
        Folder that keeps what was fetched, by place and year: no year is asked for twice.
    fetch
        What asks an address.

    Raises
    ------
    Refused
        Where the place has no position, has weather of its own, or the archive cannot be read.
    """
    place = case.place
    if place is None or place.longitude is None:
        raise Refused(message("weather-online-no-position"))
    if place.source_key == "case-file":
        raise Refused(message("weather-online-own"))
    years = range(case.today.year - YEARS, case.today.year)
    read = [_year(place, year, cache, fetch) for year in years]
    return replace(case, place=_placed(place, read, first=years[0], last=years[-1]))


def _placed(place: Place, read: list[Mapping[str, Any]], *, first: int, last: int) -> Place:
    days = [date.fromisoformat(day) for year in read for day in year["time"]]
    months = np.array([day.month for day in days])
    temps, rain = (
        np.array([_figure(value) for year in read for value in year[name]]) for name in _DAILY
    )
    return replace(
        place,
        air_temp_c=tuple(float(np.nanmean(temps[months == month])) for month in range(1, 13)),
        rain_mm=tuple(
            float(np.nanmean(rain[months == month]) * DAYS_OF_MONTH[month - 1])
            for month in range(1, 13)
        ),
        wet_days=None,
        source_key=ONLINE_SOURCE_KEY,
        basis=message("place-online", first=Given(str(first)), last=Given(str(last))),
    )


def _year(place: Place, year: int, cache: Path, fetch: Fetch) -> Mapping[str, Any]:
    """One year of a place, from the disk or from the archive."""
    assert place.longitude is not None
    latitude, longitude = round(place.latitude, _DIGITS), round(place.longitude, _DIGITS)
    kept = cache / f"{latitude:g}_{longitude:g}_{year}.json"
    try:
        return _daily(kept.read_bytes(), year)
    except (OSError, Refused):
        pass
    asked = {
        "latitude": f"{latitude:g}",
        "longitude": f"{longitude:g}",
        "start_date": f"{year}-01-01",
        "end_date": f"{year}-12-31",
        "daily": ",".join(_DAILY),
        "timezone": "auto",
    }
    try:
        data = fetch(f"{ADDRESS}?{urllib.parse.urlencode(asked)}")
    except urllib.error.HTTPError as error:
        raise _refused(_reason(error)) from None
    except (OSError, HTTPException) as error:
        cause = getattr(error, "reason", error)
        raise _refused(str(getattr(cause, "strerror", None) or cause)) from None
    daily = _daily(data, year)
    try:
        cache.mkdir(parents=True, exist_ok=True)
        part = kept.with_suffix(".part")
        part.write_bytes(data)
        part.replace(kept)
    except OSError:
        pass  # a disk that keeps nothing only means that it is asked again
    return daily


def _daily(data: bytes, year: int) -> Mapping[str, Any]:
    """The days of a reply, held against what the archive documents.

    Raises
    ------
    Refused
        Where it is an error, too large, in other units, or lacks days.
    """
    if len(data) > LARGEST_BYTES:
        raise _unusable("too-large")
    try:
        reply = json.loads(data)
        if reply.get("error"):
            raise _refused(str(reply.get("reason", "error")))
        daily: Mapping[str, Any] = reply["daily"]
        units = {name: reply["daily_units"][name] for name in _DAILY}
        days = [date.fromisoformat(day) for day in daily["time"]]
        columns = [[_figure(value) for value in daily[name]] for name in _DAILY]
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise _unusable("undocumented") from None
    known = [sum(not math.isnan(value) for value in column) for column in columns]
    whole = {day.month for day in days} == set(range(1, 13))
    if units != _UNITS or any(len(column) != len(days) for column in columns):
        raise _unusable("undocumented")
    if not whole or min(known) < _LEAST_SHARE * 365 or {day.year for day in days} != {year}:
        raise _unusable("not-whole", year)
    if not all(-70.0 <= t <= 60.0 for t in columns[0] if not math.isnan(t)):
        raise _unusable("temperature")
    if not all(0.0 <= r <= 2000.0 for r in columns[1] if not math.isnan(r)):
        raise _unusable("rain")
    return daily


def _figure(value: object) -> float:
    """A figure of the reply; null is a day without one."""
    if value is None:
        return math.nan
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError(value)
    return float(value)


def _reason(error: urllib.error.HTTPError) -> str:
    """Why the archive refused: it says so in its reply."""
    try:
        return str(json.loads(error.read(2000))["reason"])
    except (OSError, ValueError, KeyError, TypeError):
        return f"HTTP {error.code}"


def _refused(why: str) -> Refused:
    return Refused(message("weather-online-failed", why=Given(shown(why))))


def _unusable(wrong: str, year: int = 0) -> Refused:
    """The error for a reply that cannot be used; ``wrong`` chooses the words."""
    return Refused(message("weather-online-unusable", wrong=wrong, year=Given(str(year))))
