"""Weather of the online archive for the answers of an office that wishes it; off by default.

What was fetched is kept in the folder of the data and asked for once. Where the archive cannot be
read the answer uses the climate of the place, says so as always, and tries again later.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from functools import partial
from time import monotonic
from typing import Final

from django.conf import settings

from loamshift.case.mend import Refused
from loamshift.case.online_weather import fetched, with_online_weather
from loamshift.domain.case import Case
from loamshift.domain.message import Worded

PATIENCE_S: Final = 5.0
"""So long a page waits for the archive [s]."""
AGAIN_AFTER_S: Final = 600.0
"""So long after a failure the archive is not asked for a place again [s]."""
OFF: Final = ""


class _Failures:
    """When places could not be fetched, and how often that has changed."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._until: dict[tuple[float, float], float] = {}
        self._why: dict[tuple[float, float], Worded] = {}
        self._changes = 0

    def waits(self, position: tuple[float, float]) -> Worded | None:
        """Why a place is not asked for now; None where it may be."""
        with self._lock:
            until = self._until.get(position, 0.0)
            return self._why.get(position) if monotonic() < until else None

    def failed(self, position: tuple[float, float], why: Worded) -> None:
        with self._lock:
            self._until[position] = monotonic() + AGAIN_AFTER_S
            self._why[position] = why
            self._changes += 1

    def worked(self, position: tuple[float, float]) -> None:
        with self._lock:
            if self._until.pop(position, None) is not None:
                self._why.pop(position, None)
                self._changes += 1

    def state(self) -> str:
        """A text that changes when an answer may come out otherwise."""
        with self._lock:
            bucket = int(monotonic() / AGAIN_AFTER_S) if self._until else 0
            return f"{self._changes} {bucket}"

    def clear(self) -> None:
        with self._lock:
            self._until.clear()
            self._why.clear()
            self._changes += 1


FAILURES: Final = _Failures()
asked: Callable[[str], bytes] = partial(fetched, timeout_s=PATIENCE_S)
"""What asks the archive."""


def weather_key(*, wanted: bool) -> str:
    """What answers share that rest on the same weather, besides their case."""
    return f"online {FAILURES.state()}" if wanted else OFF


def case_with_weather(case: Case, *, wanted: bool) -> Case:
    """A case with the weather of the archive, where an office wishes it and it can be had."""
    return with_weather_or_why(case)[0] if wanted else case


def with_weather_or_why(case: Case) -> tuple[Case, Worded | None]:
    """A case with the weather of the archive; as it was, and why, where there is none."""
    place = case.place
    if place is None or place.longitude is None or place.source_key == "case-file":
        return case, None
    position = (round(place.latitude, 2), round(place.longitude, 2))
    waits = FAILURES.waits(position)
    if waits is not None:
        return case, waits
    try:
        found = with_online_weather(case, cache=settings.DATA_FOLDER / "weather", fetch=asked)
    except Refused as refused:
        FAILURES.failed(position, refused.said)
        return case, refused.said
    FAILURES.worked(position)
    return found, None
