"""The units of a weather file: as its headings say, held against the figures."""

from __future__ import annotations

from datetime import date
from typing import Final

import numpy as np

from loamshift.case.mend import Mend, shown
from loamshift.case.weather.daily import FloatArray, Raw
from loamshift.case.weather.headings import TEMPERATURES, Column, Meaning, Unit
from loamshift.domain.message import Given, Listed, Message, message

_HOTTEST_MONTH_C: Final = 42.0
"""No inhabited place has a warmer month than about this [degC]."""
_HOTTEST_MONTH_F: Final = 108.0
_COLDEST_SUMMER_F: Final = 42.0
"""Where the warmest month stays below this nothing is gardened [degF]."""
_HALF_YEAR_MONTHS: Final = 6
_WETTEST_YEAR_INCH: Final = 150.0
"""Beside °F, a year with less than this is in inches: in millimetres it would be a desert."""
_DAYS_IN_YEAR: Final = 365.25


def chosen_units(raw: Raw) -> dict[Column, Unit]:
    """The unit of every column, noted where no heading says it.

    Raises
    ------
    Mend
        Where heading and figures contradict each other, or nothing decides.
    """
    units: dict[Column, Unit] = {}
    supposed: dict[Unit, list[tuple[float, int, Column]]] = {}
    temps = [column for column in raw.figures if column.meaning in TEMPERATURES]
    told = {column.unit for column in temps if column.unit is not None}
    for column in temps:
        month, mean, months = _warmest(raw, column)
        unit = column.unit or (next(iter(told)) if len(told) == 1 else None)
        if unit is None:
            unit = _temperature_unit(column, mean, months)
            supposed.setdefault(unit, []).append((mean, month, column))
        elif column.unit is not None:
            _held_against(column, unit, month, mean)
        units[column] = unit
    raw.notes += [_supposed(unit, of_unit) for unit, of_unit in supposed.items()]
    for column in raw.figures:
        if column.meaning is Meaning.RAIN:
            units[column] = column.unit or _rain_unit(raw, column, set(units.values()))
    return units


def _warmest(raw: Raw, column: Column) -> tuple[int, float, int]:
    """The warmest calendar month, its mean as it stands, and how many months there are."""
    values = raw.figures[column]
    known = ~np.isnan(values)
    months = np.array([date.fromordinal(int(day)).month for day in raw.days])[known]
    if not known.any():
        return 7, 20.0, 0
    means = {int(m): float(values[known][months == m].mean()) for m in np.unique(months)}
    warmest = max(means, key=means.__getitem__)
    return warmest, means[warmest], len(means)


def _temperature_unit(column: Column, mean: float, months: int) -> Unit:
    if mean > _HOTTEST_MONTH_F:
        return Unit.TENTH_CELSIUS
    if mean > _HOTTEST_MONTH_C:
        return Unit.FAHRENHEIT
    if mean > 30.0 and months < _HALF_YEAR_MONTHS:
        raise Mend(
            message("weather-unit-open", column=_name(column), mean=_figure(mean)),
            message("weather-name-unit"),
        )
    return Unit.CELSIUS


def _held_against(column: Column, unit: Unit, month: int, mean: float) -> None:
    """Refuse °C that only °F can be, and the other way round."""
    seems = None
    if unit is Unit.CELSIUS and mean > _HOTTEST_MONTH_C:
        seems = Unit.FAHRENHEIT if mean <= _HOTTEST_MONTH_F else Unit.TENTH_CELSIUS
    if unit is Unit.FAHRENHEIT and mean < _COLDEST_SUMMER_F and month in (1, 7):
        seems = Unit.CELSIUS
    if seems is not None:
        raise Mend(
            message(
                "weather-unit-slip",
                column=_name(column),
                said=unit.value,
                seems=seems.value,
                month=month,
                mean=_figure(mean),
            ),
            message("weather-name-unit"),
        )


def _rain_unit(raw: Raw, column: Column, temps: set[Unit]) -> Unit:
    values = raw.figures[column]
    year = _yearly(raw, values)
    if Unit.TENTH_CELSIUS in temps:
        unit = Unit.TENTH_MM
    elif year < (_WETTEST_YEAR_INCH if Unit.FAHRENHEIT in temps else 60.0 if not temps else 0.0):
        unit = Unit.INCH
    else:
        unit = Unit.MM
    raw.notes.append(
        message(
            "weather-rain-unit",
            column=_name(column),
            unit=unit.value,
            year=_figure(year),
        )
    )
    return unit


def _yearly(raw: Raw, values: FloatArray) -> float:
    """What falls in a year at this rate, in the figures as they stand [as given]."""
    days = np.unique(raw.days[~np.isnan(values)]).size
    return float(np.nansum(values)) / days * _DAYS_IN_YEAR if days else 0.0


def _supposed(unit: Unit, of_unit: list[tuple[float, int, Column]]) -> Message:
    warmest = max(of_unit, key=lambda one: one[0])
    return message(
        "weather-unit-supposed",
        columns=Listed(tuple(_name(column) for _, _, column in of_unit)),
        column=_name(warmest[2]),
        unit=unit.value,
        mean=_figure(warmest[0]),
    )


def _name(column: Column) -> Given:
    return Given(shown(column.heading))


def _figure(value: float) -> Given:
    return Given(f"{value:.0f}" if abs(value) >= 10.0 else f"{value:.1f}")
