"""A file of weather or of a soil thermometer beside what was understood, and into one bed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from django.db.models import QuerySet

from loamshift.case.intake.sheet import Sheet
from loamshift.case.intake.sheets import read_sheets
from loamshift.case.weather.answers import DAYS_FIRST, IGNORE, MONTHS_FIRST, ORDER, answer_key
from loamshift.case.weather.figures import day_first
from loamshift.case.weather.headings import TEMPERATURES, Meaning, Unit
from loamshift.case.weather.read import WeatherFile, weather_of
from loamshift.case.weather.table import WeatherTable, weather_table
from loamshift.domain.message import Given, Message, message
from loamshift.domain.worded_error import WordedError
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.models import Bed, IntakeDraft, User
from loamshift.web.cases import case_of
from loamshift.web.intake.asked import FIELD, Select
from loamshift.web.intake.drafts import LARGEST_BYTES, drafts_of

MOST_READINGS: Final = 36
"""So many readings of soil temperature enter a bed: a year of three a month, the latest."""
_SHOWN: Final = 4
_DAILY: Final = "daily_file"


@dataclass(frozen=True, slots=True)
class AskedColumn:
    """One column of the file, with what it may be."""

    heading: str
    cells: tuple[str, ...]
    selects: tuple[Select, ...]
    depth: Select | None

    @property
    def fields(self) -> tuple[Select, ...]:
        """Everything that can be answered about it."""
        return self.selects if self.depth is None else (*self.selects, self.depth)


def weather_files(bed: Bed) -> QuerySet[IntakeDraft]:
    """Files of weather of one bed, the latest first."""
    return drafts_of(bed.office, bed=bed)


def new_weather_file(bed: Bed, data: bytes, *, name: str, user: User | None) -> IntakeDraft:
    """Keep a file in which there is a table; nothing of it enters the bed.

    Raises
    ------
    InputError
        Where it cannot be read, or is too large for a page.
    Mend
        Where it has no table of days.
    """
    if len(data) > LARGEST_BYTES:
        raise WordedError(
            message("intake-page-too-large", file=Given(name), most=LARGEST_BYTES // 1_000_000)
        )
    weather_table(read_sheets(data, name), asks=True)
    return IntakeDraft.objects.create(
        office=bed.office, bed=bed, user=user, name=name, content=data
    )


def sheets_of(draft: IntakeDraft) -> tuple[Sheet, ...]:
    """The sheets of a file."""
    return read_sheets(bytes(draft.content), draft.name)


def table_of(draft: IntakeDraft, sheets: Sequence[Sheet]) -> WeatherTable:
    """The table of a file with the answers so far.

    Raises
    ------
    Mend
        Where it has none, or a depth cannot be read.
    """
    return weather_table(sheets, draft.answers, asks=True)


def understood(table: WeatherTable) -> WeatherFile:
    """What a table says, as far as its columns are known.

    Raises
    ------
    Mend
        Where something is to be answered or mended first.
    """
    return weather_of(table, soil_alone=True)


def asked_columns(table: WeatherTable, words: Words) -> Iterator[AskedColumn]:
    """Every column with a heading, and what it may be."""
    known = {column.index: column for column in table.columns}
    for index, heading in enumerate(table.headings):
        if not heading:
            continue
        column = known.get(index)
        meaning = "" if column is None else column.meaning.value
        selects = [
            _select(index, "meaning", meaning or IGNORE, _meanings(words)),
        ]
        if column is not None and column.meaning in TEMPERATURES:
            selects.append(_unit(index, column.unit, ("celsius", "fahrenheit", "tenth-celsius")))
        if column is not None and column.meaning is Meaning.RAIN:
            selects.append(_unit(index, column.unit, ("mm", "inch", "tenth-mm", "cm")))
        depth = None
        if column is not None and column.meaning is Meaning.SOIL:
            said = "" if column.depth_cm is None else f"{column.depth_cm:g} cm"
            depth = _select(index, "depth", said, ())
        cells = (row[index].strip() if index < len(row) else "" for row in table.rows[:_SHOWN])
        yield AskedColumn(heading, tuple(cell for cell in cells if cell), tuple(selects), depth)


def order_select(table: WeatherTable, words: Words) -> Select | None:
    """Which of day and month comes first, where the dates of a file leave it open."""
    if not table.of(Meaning.DATE):
        return None
    cells = list(table.cells(table.of(Meaning.DATE)[0]))
    if table.days_first is None and day_first(cells) is not None:
        return None
    chosen = {True: DAYS_FIRST, False: MONTHS_FIRST, None: ""}[table.days_first]
    choices = [("", "—")] + [
        (order, say(message("weather-page-order", order=order), words))
        for order in (DAYS_FIRST, MONTHS_FIRST)
    ]
    return Select(f"{FIELD}{ORDER}", message("weather-page-dates"), chosen, tuple(choices))


def _meanings(words: Words) -> tuple[tuple[str, str], ...]:
    known = [
        (one.value, say(message("weather-page-meaning", meaning=one.value), words))
        for one in Meaning
    ]
    return ((IGNORE, say(message("intake-page-ignore"), words)), *known)


def _unit(index: int, unit: Unit | None, values: Sequence[str]) -> Select:
    names = [(one, message("weather-unit-name", unit=one)) for one in values]
    choices = (("", "—"), *((one, say(said, Words())) for one, said in names))
    return _select(index, "unit", "" if unit is None else unit.value, choices)


def _select(index: int, aspect: str, chosen: str, choices: tuple[tuple[str, str], ...]) -> Select:
    label = message("weather-page-aspect", aspect=aspect)
    return Select(f"{FIELD}{answer_key(index, aspect)}", label, chosen, choices)


def with_weather(tree: Mapping[str, Any], found: WeatherFile, *, today: date) -> dict[str, Any]:
    """The case of a bed with the climate and soil temperatures of a file.

    Rain that the file lacks is that of the place as it was. Earlier readings of the thermometer
    stay where the file has none of their day.

    Raises
    ------
    CaseError
        Where the bed's case cannot be used as it is.
    WordedError
        Where the file has no rain and the bed no place to take it from.
    """
    grown = deepcopy(dict(tree))
    place = dict(grown.get("place") or {})
    if found.climate is not None:
        rain = found.climate.rain_mm
        if rain is None:
            before = case_of(tree, today=today).place
            if before is None:
                raise WordedError(message("weather-page-no-rain"))
            rain = before.rain_mm
        place["air_temp_c"] = [round(value, 1) for value in found.climate.air_temp_c]
        place["rain_mm"] = [round(value) for value in rain]
        place.pop(_DAILY, None)
    readings = used_readings(found, today=today)
    if readings:
        days = {str(day) for day, _, _ in readings}
        earlier = [one for one in place.get("soil_temp") or () if str(one.get("date")) not in days]
        new = [
            {"date": str(day), "c": round(temp, 1), "depth": f"{deep:g} cm"}
            for day, temp, deep in readings
        ]
        both = sorted([*earlier, *new], key=lambda one: str(one["date"]))
        place["soil_temp"] = both[-MOST_READINGS:]
    return {**grown, "place": place}


def months_of(found: WeatherFile, words: Words) -> list[tuple[str, str, str]]:
    """The climate of a file: month, mean temperature and rain as they are read; none without."""
    if found.climate is None:
        return []
    rain = found.climate.rain_mm or (None,) * 12
    return [
        (
            words.month(number),
            words.temperature(temp),
            "" if mm is None else words.water_depth(mm),
        )
        for number, (temp, mm) in enumerate(
            zip(found.climate.air_temp_c, rain, strict=True), start=1
        )
    ]


def used_readings(found: WeatherFile, *, today: date) -> tuple[tuple[date, float, float], ...]:
    """The readings of the thermometer that enter a bed: none of the future, and the latest."""
    return tuple(one for one in found.soil_temps if one[0] <= today)[-MOST_READINGS:]


def remarks_of(found: WeatherFile, *, today: date) -> list[Message]:
    """What was noticed in a file, and what of it is left out."""
    several = len(found.soil_temps) > MOST_READINGS
    cut = [message("weather-page-readings-cut", most=MOST_READINGS)] if several else []
    own = {"weather-readings-cut"}
    return [*(one for one in found.remarks if one.key not in own), *cut]
