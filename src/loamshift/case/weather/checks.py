"""What looks wrong in a year or more of daily weather, each in a plain sentence."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

import numpy as np

from loamshift.case.mend import Mend
from loamshift.case.weather.daily import Daily, FloatArray, Raw
from loamshift.case.weather.headings import Meaning
from loamshift.domain.message import Given, Message, message, temperature

_JUMP_C: Final = 20.0
"""Daily means that differ by more from one day to the next are named [degC]."""
_JUMP_SOIL_C: Final = 10.0
_STUCK_DAYS: Final = {"air": 10, "soil": 30}
_NEAR_FROST_C: Final = 1.0
"""Soil under snow stays the same for weeks: within this of 0 nothing is stuck [degC]."""
_WET_YEAR_MM: Final = 11_000.0
_DRY_YEAR_MM: Final = 15.0
_DAYS_IN_YEAR: Final = 365.25
_SWAPPED_SHARE: Final = 0.5


def check_raw(raw: Raw, *, is_daily: bool) -> Iterator[Message]:
    """Findings on the rows: lows above highs, and days that are there twice.

    Raises
    ------
    Mend
        Where lows and highs have changed places.
    """
    lows = [values for column, values in raw.figures.items() if column.meaning is Meaning.LOW]
    highs = [values for column, values in raw.figures.items() if column.meaning is Meaning.HIGH]
    if lows and highs:
        above = lows[0] > highs[0] + 0.05
        if above.any() and above.mean() > _SWAPPED_SHARE:
            raise Mend(message("weather-swapped"), message("weather-swap"))
        if above.any():
            line = int(raw.lines[int(np.argmax(above))])
            yield message("weather-low-above-high", count=int(above.sum()), line=line)
    if is_daily:
        days, counts = np.unique(raw.days, return_counts=True)
        twice = days[counts > 1]
        if twice.size:
            day = date.fromordinal(int(twice[0]))
            yield message("weather-twice", count=int(twice.size), day=day)


def check_daily(daily: Daily) -> Iterator[Message]:
    """Findings on the days: gaps, jumps, values that never move, rain no place has."""
    series = [("air", daily.mean_c)] if daily.mean_c is not None else []
    series += [("soil", values) for values in daily.soil_c.values()]
    for kind, values in series:
        yield from _gap(kind, daily, values)
        yield from _jump(kind, daily, values)
        yield from _stuck(kind, daily, values)
    if daily.rain_mm is not None:
        yield from _gap("rain", daily, daily.rain_mm)
        known = ~np.isnan(daily.rain_mm)
        year = float(np.nanmean(daily.rain_mm)) * _DAYS_IN_YEAR if known.any() else 0.0
        if known.sum() > 300 and not _DRY_YEAR_MM <= year <= _WET_YEAR_MM:
            yield message("weather-rain-year", year=Given(f"{year:.0f}"))


def _gap(kind: str, daily: Daily, values: FloatArray) -> Iterator[Message]:
    known = np.flatnonzero(~np.isnan(values))
    if not known.size:
        return
    gaps = np.diff(known) - 1
    missing = int(gaps.sum())
    if not missing:
        return
    at = int(np.argmax(gaps))
    day = date.fromordinal(int(daily.days[known[at]]) + 1)
    yield message("weather-gap", kind=kind, count=missing, longest=int(gaps[at]), day=day)


def _jump(kind: str, daily: Daily, values: FloatArray) -> Iterator[Message]:
    steps = np.abs(np.diff(values))
    large = np.flatnonzero(steps > (_JUMP_SOIL_C if kind == "soil" else _JUMP_C))
    if large.size:
        at = int(large[0])
        yield message(
            "weather-jump",
            kind=kind,
            count=int(large.size),
            day=date.fromordinal(int(daily.days[at + 1])),
            was=temperature(float(values[at])),
            then=temperature(float(values[at + 1])),
        )


def _stuck(kind: str, daily: Daily, values: FloatArray) -> Iterator[Message]:
    same = np.diff(values) == 0.0
    if kind == "soil":
        same &= np.abs(values[1:]) > _NEAR_FROST_C
    edges = np.diff(np.concatenate([[0], same.astype(np.int8), [0]]))
    starts, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    if not starts.size:
        return
    at = int(np.argmax(ends - starts))
    days = int(ends[at] - starts[at]) + 1
    if days >= _STUCK_DAYS[kind]:
        day = date.fromordinal(int(daily.days[starts[at]]))
        value = temperature(float(values[starts[at]]))
        yield message("weather-stuck", kind=kind, days=days, day=day, value=value)
