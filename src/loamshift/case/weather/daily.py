"""From the rows of a weather file to one value a day, in our own units."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.case.mend import Mend, quoted, shown
from loamshift.case.weather.figures import (
    MISSING_FIGURES,
    TRACES,
    built_day,
    day_first,
    day_of,
    figure_of,
    is_missing,
)
from loamshift.case.weather.headings import FIGURES, Column, Meaning, Unit
from loamshift.case.weather.table import WeatherTable
from loamshift.domain.message import Given, Message, message

FloatArray = NDArray[np.float64]

_TO_OWN: Final[dict[Unit, Callable[[FloatArray], FloatArray]]] = {
    Unit.CELSIUS: lambda value: value,
    Unit.FAHRENHEIT: lambda value: (value - 32.0) / 1.8,
    Unit.TENTH_CELSIUS: lambda value: value / 10.0,
    Unit.MM: lambda value: value,
    Unit.INCH: lambda value: value * 25.4,
    Unit.TENTH_MM: lambda value: value / 10.0,
    Unit.CM: lambda value: value * 10.0,
}
_LEFT_OUT_MOST: Final = 0.02
"""Share of a column's cells that may be no figure or impossible before the file is refused."""
_LEFT_OUT_FEW: Final = 3
_WHOLE_DAY: Final = 0.75
"""Share of a day's usual rows from which its mean counts."""


@dataclass
class Raw:
    """The rows of a file: day of each, and each column's figures as they stand, nan for none."""

    days: NDArray[np.int64]
    figures: dict[Column, FloatArray]
    lines: NDArray[np.int64]
    notes: list[Message] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Daily:
    """One value a day, every day from the first to the last; nan where there is none.

    ``days`` are ordinals of dates; ``mean_c`` [degC] and ``rain_mm`` [mm] of each, None without
    such columns; ``soil_c`` by the depth of the thermometer [cm].
    """

    days: NDArray[np.int64]
    mean_c: FloatArray | None
    rain_mm: FloatArray | None
    soil_c: dict[float | None, FloatArray]


def raw_of(table: WeatherTable) -> Raw:
    """Days and figures of the rows, marks for missing taken out.

    Raises
    ------
    Mend
        Where a row names no day, the order of the dates is open, or a column is no figures.
    """
    days, kept = _days(table)
    raw = Raw(
        days=np.array(days, dtype=np.int64),
        figures={},
        lines=np.array([table.first_row + row for row in kept], dtype=np.int64),
    )
    for column in _used(table):
        cells = list(table.cells(column))
        raw.figures[column] = _figures(column, [cells[row] for row in kept], raw)
    return raw


def _used(table: WeatherTable) -> Iterator[Column]:
    """The first column of each meaning, and a soil thermometer for each depth."""
    seen: set[tuple[Meaning, float | None]] = set()
    for column in table.of(*FIGURES):
        if (column.meaning, column.depth_cm) not in seen:
            seen.add((column.meaning, column.depth_cm))
            yield column


def _days(table: WeatherTable) -> tuple[list[int], list[int]]:
    """The day of every row that is not empty, and its place in the table."""
    parts = [table.of(meaning) for meaning in (Meaning.YEAR, Meaning.MONTH, Meaning.DAY)]
    dated = table.of(Meaning.DATE)
    if not dated and not all(parts):
        dated = table.of(Meaning.TIME, Meaning.DAY)
    if dated:
        cells = list(table.cells(dated[0]))
        order = day_first(cells) if table.days_first is None else table.days_first
        if order is None:
            example = next(cell for cell in cells if cell)
            raise Mend(message("weather-date-order", given=quoted(example)), _DAY)
        found = [day_of(cell, days_first=order) if cell else None for cell in cells]
    else:
        cells = [" ".join(row) for row in zip(*(table.cells(c[0]) for c in parts), strict=True)]
        found = [_by_parts(cell.split()) for cell in cells]
    days, kept = [], []
    for number, (one, cell) in enumerate(zip(found, cells, strict=True)):
        row = table.rows[number]
        if one is not None:
            days.append(one[0].toordinal())
            kept.append(number)
        elif _has_figure(table, row):
            line = table.first_row + number
            raise Mend(message("case-daily-no-date", line=line, given=quoted(cell)), _DAY)
    return days, kept


_DAY: Final = message("case-daily-day")


def _by_parts(parts: Sequence[str]) -> tuple[date, str] | None:
    figures = [figure_of(part) for part in parts]
    if len(figures) != 3 or any(one is None for one in figures):
        return None
    year, month, day = (int(one or 0.0) for one in figures)
    return built_day(year, month, day)


def _has_figure(table: WeatherTable, row: Sequence[str]) -> bool:
    """Whether a row without a day has data: a total or a note below the table has not."""
    if not row or any(cell.strip().casefold() in _TOTALS for cell in row):
        return False
    columns = table.of(*FIGURES)
    return any(c.index < len(row) and figure_of(row[c.index]) is not None for c in columns)


_TOTALS: Final = frozenset(
    {
        "mean",
        "average",
        "avg",
        "total",
        "sum",
        "min",
        "max",
        "minimum",
        "maximum",
        "mittel",
        "summe",
    }
)


def _figures(column: Column, cells: Sequence[str], raw: Raw) -> FloatArray:
    values = np.full(len(cells), np.nan)
    odd: list[int] = []
    marks: dict[float, int] = {}
    for number, cell in enumerate(cells):
        if is_missing(cell):
            continue
        value = figure_of(cell)
        if value is None:
            if column.meaning is Meaning.RAIN and cell.strip().casefold() in TRACES:
                values[number] = 0.0
            else:
                odd.append(number)
        elif value in MISSING_FIGURES:
            marks[value] = marks.get(value, 0) + 1
        else:
            values[number] = value
    if odd:
        _leave_out(raw, column, odd, cells, message("case-daily-no-figure", **_at(raw, odd, cells)))
    for mark, count in marks.items():
        raw.notes.append(
            message(
                "weather-missing-mark",
                column=_name(column),
                mark=Given(f"{mark:g}"),
                count=count,
            )
        )
    return values


def _at(raw: Raw, rows: Sequence[int], cells: Sequence[object]) -> dict[str, int | Given]:
    first = rows[0]
    return {"line": int(raw.lines[first]), "given": quoted(cells[first])}


def _leave_out(
    raw: Raw, column: Column, rows: Sequence[int], cells: Sequence[object], wrong: Message
) -> None:
    """Note cells that are left out, or refuse a column that has many such."""
    if len(rows) > max(_LEFT_OUT_MOST * len(cells), min(_LEFT_OUT_FEW, 0.1 * len(cells))):
        raise Mend(wrong, message("case-daily-empty-cell"))
    raw.notes.append(
        message("weather-left-out", column=_name(column), count=len(rows), **_at(raw, rows, cells))
    )


def _name(column: Column) -> Given:
    return Given(shown(column.heading))


def to_own_units(raw: Raw, units: dict[Column, Unit]) -> None:
    """Every figure in °C or mm, and what no place on Earth has left out.

    Raises
    ------
    Mend
        Where much of a column is impossible.
    """
    for column, values in raw.figures.items():
        own = _TO_OWN[units[column]](values)
        if column.meaning is Meaning.RAIN:
            own = np.where((units[column] is Unit.TENTH_MM) & (values == -1.0), 0.0, own)
            bad, key = (own < 0.0) | (own > 2000.0), "case-daily-rain"
        else:
            bad, key = (own < -70.0) | (own > 60.0), "case-daily-temperature"
        rows = np.flatnonzero(bad).tolist()
        if rows:
            figures = [f"{value:g}" for value in values]
            wrong = message(key, **_at(raw, rows, [f"{value:.4g}" for value in own]))
            _leave_out(raw, column, rows, figures, wrong)
        raw.figures[column] = np.where(bad, np.nan, own)


def daily_of(raw: Raw) -> Daily:
    """One value a day: means of temperatures, sums of rain, days with too few rows left out."""
    first, last = int(raw.days.min()), int(raw.days.max())
    size = last - first + 1
    index = raw.days - first
    per_day = np.bincount(index, minlength=size)
    usual = float(np.median(per_day[per_day > 0]))

    def gathered(values: FloatArray) -> tuple[FloatArray, FloatArray]:
        known = ~np.isnan(values)
        count = np.bincount(index[known], minlength=size).astype(np.float64)
        weighed = np.bincount(index[known], weights=values[known], minlength=size)
        total = weighed.astype(np.float64)
        return total, np.where(count >= max(1.0, _WHOLE_DAY * usual), count, np.nan)

    def mean(values: FloatArray) -> FloatArray:
        total, count = gathered(values)
        return total / count

    def rain(column: Column) -> FloatArray:
        values = raw.figures[column]
        if is_counter(raw, values):
            raw.notes.append(message("weather-counter", column=_name(column)))
            return _daily_most(index, values, size)
        total, count = gathered(values)
        return np.where(np.isnan(count), np.nan, total)

    of = {meaning: [c for c in raw.figures if c.meaning is meaning] for meaning in FIGURES}
    temp = mean(raw.figures[of[Meaning.MEAN][0]]) if of[Meaning.MEAN] else None
    if of[Meaning.LOW] and of[Meaning.HIGH]:
        ends = 0.5 * (
            mean(raw.figures[of[Meaning.LOW][0]]) + mean(raw.figures[of[Meaning.HIGH][0]])
        )
        temp = ends if temp is None else np.where(np.isnan(temp), ends, temp)
    soil: dict[float | None, FloatArray] = {}
    for column in of[Meaning.SOIL]:
        soil.setdefault(column.depth_cm, mean(raw.figures[column]))
    return Daily(
        days=np.arange(first, last + 1),
        mean_c=temp,
        rain_mm=rain(of[Meaning.RAIN][0]) if of[Meaning.RAIN] else None,
        soil_c=soil,
    )


def is_counter(raw: Raw, rain_mm: FloatArray) -> bool:
    """Whether rain read several times a day only ever grows within a day, as a counter does."""
    known = ~np.isnan(rain_mm)
    days, values = raw.days[known], rain_mm[known]
    same = days[1:] == days[:-1]
    step = np.diff(values)[same]
    moved = step[step != 0.0]
    if same.sum() < 48 or moved.size < 20:
        return False
    return bool(np.mean(moved > 0.0) > 0.98)


def _daily_most(index: NDArray[np.int64], values: FloatArray, size: int) -> FloatArray:
    most = np.full(size, -np.inf)
    known = ~np.isnan(values)
    np.maximum.at(most, index[known], values[known])
    return np.where(np.isinf(most), np.nan, most)
