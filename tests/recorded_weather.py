"""Replies of the weather archive, written by hand after its documented format."""

from __future__ import annotations

import json
import math
import urllib.parse
from datetime import date, timedelta
from typing import Any


def reply(address: str, **changed: Any) -> bytes:
    """A reply in the documented format: one year of made-up days, one of them null."""
    asked = dict(urllib.parse.parse_qsl(urllib.parse.urlsplit(address).query))
    first, last = date.fromisoformat(asked["start_date"]), date.fromisoformat(asked["end_date"])
    days = [first + timedelta(n) for n in range((last - first).days + 1)]
    temps: list[float | None] = [
        round(8.0 - 14.0 * math.cos(2.0 * math.pi * (n - 20) / 365.0), 1) for n in range(len(days))
    ]
    temps[3] = None
    whole: dict[str, Any] = {
        "latitude": 44.94727,
        "longitude": -93.27869,
        "generationtime_ms": 0.21,
        "utc_offset_seconds": -18000,
        "timezone": "America/Chicago",
        "timezone_abbreviation": "GMT-5",
        "elevation": 254.0,
        "daily_units": {
            "time": "iso8601",
            "temperature_2m_mean": "°C",
            "precipitation_sum": "mm",
        },
        "daily": {
            "time": [day.isoformat() for day in days],
            "temperature_2m_mean": temps,
            "precipitation_sum": [2.0 if day.day % 2 else 0.0 for day in days],
        },
    }
    return json.dumps({**whole, **changed}).encode()
