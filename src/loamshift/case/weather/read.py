"""A file of a weather station or a soil thermometer as the climate and readings of a case."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Final

import numpy as np

from loamshift.case.intake.sheets import read_sheets
from loamshift.case.mend import Mend, Refused, shown
from loamshift.case.weather.checks import check_daily, check_raw
from loamshift.case.weather.daily import Daily, FloatArray, Raw, daily_of, raw_of, to_own_units
from loamshift.case.weather.headings import Column, Unit
from loamshift.case.weather.table import WeatherTable, weather_table
from loamshift.case.weather.unit_choice import chosen_units
from loamshift.domain.message import Given, Listed, Message, depth, message

USUAL_DEPTH_CM: Final = 10.0
"""Where nobody said how deep a thermometer sat [cm]."""
MOST_READINGS: Final = 400
"""So many readings of soil temperature a case carries: the latest."""
_LEAST_DAYS: Final = 20
DAYS_OF_MONTH: Final = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthlyClimate:
    """Monthly means of temperature [degC] and totals of rain [mm] or None, and the days used."""

    air_temp_c: tuple[float, ...]
    rain_mm: tuple[float, ...] | None
    days: int = 0
    first: date | None = None
    last: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherFile:
    """What a file gave: climate and soil temperatures (day, [degC], depth [cm]), and remarks.

    ``read_as`` says what each column was taken for; ``remarks`` what looked wrong. ``climate`` is
    None where the file has no air temperature.
    """

    climate: MonthlyClimate | None
    soil_temps: tuple[tuple[date, float, float], ...]
    read_as: Message
    remarks: tuple[Message, ...]


def read_weather(path: Path) -> WeatherFile:
    """The climate and soil temperatures in a file.

    Raises
    ------
    Mend
        Where it cannot be read, its columns or units are not known, or a month of the air
        temperature has too few days.
    """
    try:
        table = weather_table(read_sheets(path))
    except Refused as refused:
        assert isinstance(refused.said, Message)
        raise Mend(refused.said) from None
    return weather_of(table)


def weather_of(table: WeatherTable, *, soil_alone: bool = False) -> WeatherFile:
    """The climate and soil temperatures in a table whose columns are known.

    Parameters
    ----------
    soil_alone
        True where soil temperatures will do, and air temperatures that are too few are left out.

    Raises
    ------
    Mend
        As ``read_weather`` does.
    """
    raw = raw_of(table)
    if not raw.days.size:
        raise Mend(message("weather-no-days"), message("case-daily-needs"))
    units = chosen_units(raw)
    to_own_units(raw, units)
    daily = daily_of(raw)
    is_daily = raw.days.size < 1.5 * np.unique(raw.days).size
    soil = tuple(_soil_readings(daily))
    remarks = [*raw.notes, *check_raw(raw, is_daily=is_daily), *check_daily(daily)]
    if None in daily.soil_c:
        remarks.append(message("weather-depth-supposed", depth=depth(USUAL_DEPTH_CM)))
    if len(soil) > MOST_READINGS:
        remarks.append(message("weather-readings-cut", most=MOST_READINGS))
    try:
        climate = None if daily.mean_c is None else _monthly(daily)
    except Mend as mend:
        if not (soil_alone and soil):
            raise
        climate = None
        remarks.append(mend.wrong)
    return WeatherFile(
        climate=climate,
        soil_temps=tuple(sorted(soil)[-MOST_READINGS:]),
        read_as=_read_as(raw, units),
        remarks=tuple(remarks),
    )


def _read_as(raw: Raw, units: dict[Column, Unit]) -> Message:
    columns = [
        message(
            "weather-column",
            heading=Given(shown(column.heading)),
            meaning=column.meaning.value,
            unit=units[column].value,
            depth=None if column.depth_cm is None else depth(column.depth_cm),
        )
        for column in raw.figures
    ]
    return message(
        "weather-read-as",
        columns=Listed(tuple(columns)),
        first=date.fromordinal(int(raw.days.min())),
        last=date.fromordinal(int(raw.days.max())),
    )


def _monthly(daily: Daily) -> MonthlyClimate:
    """Means of the twelve months over all years of the file."""
    assert daily.mean_c is not None
    dates = [date.fromordinal(int(day)) for day in daily.days]
    months = np.array([day.month for day in dates])
    temps = _by_month(daily.mean_c, months, "temperature")
    rain = None
    if daily.rain_mm is not None:
        means = _by_month(daily.rain_mm, months, "rain")
        rain = tuple(mean * days for mean, days in zip(means, DAYS_OF_MONTH, strict=True))
    known = np.flatnonzero(~np.isnan(daily.mean_c))
    return MonthlyClimate(
        air_temp_c=temps,
        rain_mm=rain,
        days=int(known.size),
        first=dates[int(known[0])],
        last=dates[int(known[-1])],
    )


def _by_month(values: FloatArray, months: FloatArray, what: str) -> tuple[float, ...]:
    found, few = [], []
    for month in range(1, 13):
        of_month = values[(months == month) & ~np.isnan(values)]
        if of_month.size < _LEAST_DAYS:
            few.append(Given(str(month)))
        else:
            found.append(float(of_month.mean()))
    if few:
        raise Mend(
            message("case-daily-few-days", least=_LEAST_DAYS, what=what, months=Listed(tuple(few))),
            message("case-daily-whole-year"),
        )
    return tuple(found)


def _soil_readings(daily: Daily) -> Iterator[tuple[date, float, float]]:
    """Means of a third of a month, on its middle day: enough for a yearly wave, and few."""
    dates = [date.fromordinal(int(day)) for day in daily.days]
    for deep, values in daily.soil_c.items():
        thirds: dict[tuple[int, int, int], list[int]] = {}
        for index in np.flatnonzero(~np.isnan(values)).tolist():
            day = dates[index]
            thirds.setdefault((day.year, day.month, min((day.day - 1) // 10, 2)), []).append(index)
        for indices in thirds.values():
            middle = dates[indices[0]] + timedelta(
                days=(dates[indices[-1]] - dates[indices[0]]).days // 2
            )
            yield middle, float(values[indices].mean()), USUAL_DEPTH_CM if deep is None else deep
