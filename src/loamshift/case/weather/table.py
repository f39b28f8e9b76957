"""Finding the table in a weather file: header, row of units, legend, station lines, rows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from loamshift.case.intake.sheet import Cells, Sheet
from loamshift.case.mend import Mend, shown
from loamshift.case.weather.answers import NO_ANSWERS, ORDER, days_first_of, with_answers
from loamshift.case.weather.figures import figure_of, is_missing
from loamshift.case.weather.headings import FIGURES, Column, Meaning, column_of
from loamshift.domain.message import Given, message

_LOOKED_AT: Final = 120
"""Rows in which a header is looked for: some archives write a page before it."""
_UNIT: Final = re.compile(
    r"[\W\d_]*(deg|degrees?|celsius|fahrenheit|mm|inch(es)?|in|c|f|cm|utc|local|hh:?mm|date|time"
    r"|yyyy.*|%|smp|avg|tot|min|max|ts|rn|m/s|mph|km/h|hpa|mbar|w/m.?)?[\W\d_]*[cf]?\W*",
    re.IGNORECASE,
)
_LEGEND: Final = re.compile(r"[#\s>*-]*([\w.]{1,24})\s*[=:]\s*(.+)")
_STATIONS_SHOWN: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherTable:
    """The columns that count and the rows below them; ``first_row`` is the row number in the file
    of ``rows[0]``, counted from 1. ``headings`` are those of all columns; ``days_first`` what was
    said of dates such as 3/4/2026, None where nobody was asked."""

    columns: tuple[Column, ...]
    rows: tuple[Cells, ...]
    first_row: int
    headings: Cells = ()
    days_first: bool | None = None

    def of(self, *meanings: Meaning) -> tuple[Column, ...]:
        """Columns of these meanings, in the order of the file."""
        return tuple(column for column in self.columns if column.meaning in meanings)

    def cells(self, column: Column) -> Iterator[str]:
        """The cells of a column, empty where a row is short."""
        for row in self.rows:
            yield row[column.index].strip() if column.index < len(row) else ""


def weather_table(
    sheets: Sequence[Sheet], answers: Mapping[str, str] = NO_ANSWERS, *, asks: bool = False
) -> WeatherTable:
    """The table of the first sheet that has one.

    Parameters
    ----------
    answers
        What was said of its columns, by the keys of ``answers``.
    asks
        True where somebody can still be asked what the columns are: a table is then found by its
        rows of figures alone.

    Raises
    ------
    Mend
        Where no row names a day and a temperature, rain or soil temperature, or several stations
        share the file.
    """
    header: Cells = ()
    for sheet in sheets:
        found, header = _table_in(sheet, asks=asks)
        if found is not None:
            found = replace(
                found,
                columns=with_answers(found.columns, found.headings, answers),
                days_first=days_first_of(answers.get(ORDER, "")),
            )
            if not asks and not _is_enough(found.columns):
                break
            _refuse_several(found)
            return found
    columns = Given(shown(", ".join(cell for cell in header if cell))) if any(header) else None
    raise Mend(message("case-daily-columns", columns=columns), message("case-daily-needs"))


def _table_in(sheet: Sheet, *, asks: bool) -> tuple[WeatherTable | None, Cells]:
    best: tuple[int, int, tuple[Column, ...]] | None = None
    widest: Cells = ()
    for number, row in enumerate(sheet.rows[:_LOOKED_AT]):
        if sum(bool(cell.strip()) for cell in row) < 2 or _is_data(row):
            continue
        widest = widest or row
        legend = _legend(sheet.rows[:number])
        columns = _columns(row, sheet.rows[number + 1] if _is_units(sheet, number) else (), legend)
        if (_is_enough(columns) or (asks and _is_headed(sheet, number))) and (
            best is None or len(columns) > best[0]
        ):
            best = (len(columns), number, columns)
    if best is None:
        return None, widest
    start = best[1] + 1
    while start < len(sheet.rows) and (_is_units(sheet, start - 1) or not any(sheet.rows[start])):
        start += 1
    table = WeatherTable(
        columns=best[2],
        rows=sheet.rows[start:],
        first_row=start + 1,
        headings=tuple(" ".join(cell.split()) for cell in sheet.rows[best[1]]),
    )
    return table, widest


def _columns(row: Cells, units: Cells, legend: dict[str, str]) -> tuple[Column, ...]:
    found = []
    for index, heading in enumerate(row):
        name = heading.strip().lstrip("#").strip()
        more = f"{units[index] if index < len(units) else ''} {legend.get(name.casefold(), '')}"
        column = column_of(index, name, more) if name else None
        if column is not None:
            found.append(column)
    return tuple(found)


def _is_enough(columns: Sequence[Column]) -> bool:
    has = {column.meaning for column in columns}
    dated = Meaning.DATE in has or {Meaning.YEAR, Meaning.MONTH, Meaning.DAY} <= has
    return (dated or bool({Meaning.TIME, Meaning.DAY} & has)) and bool(has & set(FIGURES))


def _is_headed(sheet: Sheet, number: int) -> bool:
    """Whether rows of figures follow a row."""
    below = sheet.rows[number + 1 : number + 4]
    return len(below) > 1 and any(_is_data(row) for row in below)


def _is_data(row: Cells) -> bool:
    """Whether most cells of a row are figures, so that it heads nothing."""
    filled = [cell for cell in row if cell.strip()]
    return 2 * sum(figure_of(cell) is not None for cell in filled) > len(filled)


def _is_units(sheet: Sheet, header: int) -> bool:
    """Whether the row below a header names units, or what a logger did with the figures."""
    if header + 1 >= len(sheet.rows):
        return False
    cells = [cell for cell in sheet.rows[header + 1] if cell.strip()]
    return bool(cells) and all(
        _UNIT.fullmatch(cell.strip()) and figure_of(cell) is None and not is_missing(cell)
        for cell in cells
    )


def _legend(rows: Sequence[Cells]) -> dict[str, str]:
    """What lines above the header say of the columns they name: ``TG : mean in 0.1 degrees``."""
    found = {}
    for row in rows:
        if line := _LEGEND.fullmatch(" ".join(cell for cell in row if cell).strip()):
            found[line[1].casefold()] = line[2]
    return found


def _refuse_several(table: WeatherTable) -> None:
    for column in table.of(Meaning.STATION):
        names = sorted({cell for cell in table.cells(column) if cell})
        if len(names) > 1:
            listed = [*names[:_STATIONS_SHOWN], *(["…"] if len(names) > _STATIONS_SHOWN else [])]
            raise Mend(
                message(
                    "weather-several-stations",
                    column=Given(shown(column.heading)),
                    count=len(names),
                    names=Given(shown(", ".join(listed))),
                ),
                message("weather-one-station"),
            )
