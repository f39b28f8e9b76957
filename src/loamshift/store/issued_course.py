"""A forecast that was issued, as the store and the zips hold it: in plain values, and back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import date
from typing import Any, Final

from loamshift.domain.answer import ForecastPh
from loamshift.domain.score import BedFacts, IssuedAs, IssuedForecast, PlannedPart

_DIGITS: Final = 4


def course_of(issued: IssuedForecast) -> dict[str, Any]:
    """A forecast in plain values."""
    facts = {name: value for name, value in asdict(issued.facts).items() if value is not None}
    return {
        "on": issued.on.isoformat(),
        "dates": [day.isoformat() for day in issued.dates],
        "ph": {name: _short(values) for name, values in asdict(issued.ph).items()},
        "measured_ph": issued.measured_ph,
        "measured_sd": issued.measured_sd,
        "parts": [[part.on.isoformat(), part.rate_g_m2] for part in issued.parts],
        "known_g_m2": issued.known_g_m2,
        "facts": facts,
    }


def issued_of(course: Mapping[str, Any], *, key: str, issued_as: IssuedAs) -> IssuedForecast:
    """A forecast from its plain values.

    Raises
    ------
    ValueError, TypeError, KeyError, AttributeError
        Where they are not such values.
    """
    ph = {name: tuple(values) for name, values in course["ph"].items()}
    return IssuedForecast(
        key=key,
        title="",
        issued_as=issued_as,
        on=date.fromisoformat(course["on"]),
        dates=tuple(date.fromisoformat(day) for day in course["dates"]),
        ph=ForecastPh(**ph),
        measured_ph=course["measured_ph"],
        measured_sd=course["measured_sd"],
        parts=tuple(
            PlannedPart(on=date.fromisoformat(day), rate_g_m2=rate) for day, rate in course["parts"]
        ),
        known_g_m2=course["known_g_m2"],
        facts=BedFacts(**course["facts"]),
    )


def _short(values: Sequence[float]) -> list[float]:
    return [round(value, _DIGITS) for value in values]
