"""Monthly means from the daily figures of somebody's own weather station."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path

from loamshift.case.mend import Mend, quoted, shown
from loamshift.case.numbers import number_from
from loamshift.domain.message import Given, Listed, message

LARGEST_DAILY_BYTES = 20_000_000
_LEAST_DAYS = 20
_DAYS = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_COLUMNS = {
    "date": ("date", "day", "datum", "time", "timestamp"),
    "mean": ("temp_c", "tmean_c", "tmean", "tavg", "temp", "temperature", "temperature_c",
             "air_temp_c", "mean_temp", "mean_temp_c"),
    "low": ("tmin_c", "tmin", "min_temp", "temp_min", "min_temp_c", "temp_min_c"),
    "high": ("tmax_c", "tmax", "max_temp", "temp_max", "max_temp_c", "temp_max_c"),
    "rain": ("rain_mm", "rain", "precip_mm", "precip", "precipitation", "precipitation_mm",
             "prcp", "rainfall_mm", "rainfall"),
}  # fmt: skip
_FAHRENHEIT = ("temp_f", "tmin_f", "tmax_f", "tmean_f", "air_temp_f")


@dataclass
class MonthlySums:
    """Sums and counts of days for the twelve months."""

    temp_c: list[float] = field(default_factory=lambda: [0.0] * 12)
    temp_days: list[int] = field(default_factory=lambda: [0] * 12)
    rain_mm: list[float] = field(default_factory=lambda: [0.0] * 12)
    rain_days: list[int] = field(default_factory=lambda: [0] * 12)


@dataclass(frozen=True, slots=True)
class MonthlyClimate:
    """Monthly means of temperature [degC] and totals of rain [mm] or None, and the days used."""

    air_temp_c: tuple[float, ...]
    rain_mm: tuple[float, ...] | None
    days: int


def read_daily_file(path: Path) -> MonthlyClimate:
    """Mean temperature and rain of each month from a file of daily figures.

    Returns
    -------
    MonthlyClimate
        Twelve means [degC] and, where there is a rain column, twelve totals [mm].

    Raises
    ------
    Mend
        Where it cannot be read, lacks a column, or some month has too few days.
    """
    try:
        with path.open("rb") as handle:
            data = handle.read(LARGEST_DAILY_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise Mend(
            message("case-daily-unreadable", why=Given(reason)), message("case-daily-path")
        ) from None
    if len(data) > LARGEST_DAILY_BYTES:
        raise Mend(message("case-daily-too-large"), message("case-daily-only-daily"))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Mend(message("case-daily-not-text"), message("case-daily-save-csv")) from None
    if "\x00" in text:
        raise Mend(message("case-daily-not-text"), message("case-daily-save-csv"))
    return monthly_from_daily(text)


def monthly_from_daily(text: str) -> MonthlyClimate:
    """Mean temperature and rain of each month from the text of a daily file.

    Returns
    -------
    MonthlyClimate
        Twelve means [degC] and totals [mm] or None.

    Raises
    ------
    Mend
        Where a column is missing, a line is no day, or a month has too few days.
    """
    first = text.splitlines()[0] if text.strip() else ""
    delimiter = max(",;\t", key=first.count)
    rows = csv.reader(text.splitlines(), delimiter=delimiter)
    try:
        columns = _columns(next(rows, []))
        sums = MonthlySums()
        for number, cells in enumerate(rows, start=2):
            if any(cell.strip() for cell in cells):
                _add_day(sums, columns, cells, number)
    except csv.Error as error:
        raise Mend(
            message("case-daily-not-csv", why=quoted(error)), message("case-daily-save-csv")
        ) from None
    return _monthly(sums, has_rain="rain" in columns)


def _columns(header: list[str]) -> Mapping[str, int]:
    plain = [re.sub(r"[^a-z_]+", "_", name.strip().casefold()).strip("_") for name in header]
    if any(name in _FAHRENHEIT for name in plain):
        raise Mend(message("case-daily-fahrenheit"), message("case-daily-celsius"))
    found = {
        meaning: plain.index(name)
        for meaning, names in _COLUMNS.items()
        for name in reversed(names)
        if name in plain
    }
    if "date" not in found or not ("mean" in found or {"low", "high"} <= found.keys()):
        raise Mend(
            message(
                "case-daily-columns", columns=Given(shown(", ".join(header))) if header else None
            ),
            message("case-daily-needs"),
        )
    return found


def _add_day(sums: MonthlySums, columns: Mapping[str, int], cells: list[str], number: int) -> None:
    month = _day(_cell(cells, columns["date"]), number).month - 1
    temps = list(_figures(cells, columns, ("mean",), number))
    if not temps and {"low", "high"} <= columns.keys():
        both = list(_figures(cells, columns, ("low", "high"), number))
        temps = [sum(both) / 2.0] if len(both) == 2 else []
    for temp in temps:
        if not -70.0 <= temp <= 60.0:
            raise Mend(
                message("case-daily-temperature", line=number, given=Given(f"{temp:g}")),
                message("case-daily-empty-cell"),
            )
        sums.temp_c[month] += temp
        sums.temp_days[month] += 1
    for rain in _figures(cells, columns, ("rain",), number):
        if not 0.0 <= rain <= 2000.0:
            raise Mend(
                message("case-daily-rain", line=number, given=Given(f"{rain:g}")),
                message("case-daily-empty-cell"),
            )
        sums.rain_mm[month] += rain
        sums.rain_days[month] += 1


def _cell(cells: list[str], index: int) -> str:
    return cells[index].strip() if index < len(cells) else ""


def _figures(
    cells: list[str], columns: Mapping[str, int], names: tuple[str, ...], number: int
) -> Iterator[float]:
    for name in names:
        cell = _cell(cells, columns[name]) if name in columns else ""
        if cell.casefold() in ("", "na", "nan", "n/a", "-", "null", "none", "m"):
            continue
        try:
            yield number_from(cell)
        except Mend:
            raise Mend(
                message("case-daily-no-figure", line=number, given=quoted(cell)),
                message("case-daily-empty-cell"),
            ) from None


def _day(cell: str, number: int) -> date:
    try:
        return datetime.fromisoformat(cell).date()
    except ValueError:
        raise Mend(
            message("case-daily-no-date", line=number, given=quoted(cell)),
            message("case-daily-day"),
        ) from None


def _monthly(sums: MonthlySums, *, has_rain: bool) -> MonthlyClimate:
    _enough(sums.temp_days, "temperature")
    temps = tuple(t / n for t, n in zip(sums.temp_c, sums.temp_days, strict=True))
    rain: tuple[float, ...] | None = None
    if has_rain:
        _enough(sums.rain_days, "rain")
        rain = tuple(
            r / n * days for r, n, days in zip(sums.rain_mm, sums.rain_days, _DAYS, strict=True)
        )
    return MonthlyClimate(temps, rain, sum(sums.temp_days))


def _enough(days: list[int], what: str) -> None:
    few = [month for month, count in enumerate(days, start=1) if count < _LEAST_DAYS]
    if few:
        raise Mend(
            message(
                "case-daily-few-days",
                least=_LEAST_DAYS,
                what=what,
                months=Listed(tuple(Given(str(month)) for month in few)),
            ),
            message("case-daily-whole-year"),
        )
