"""The weather files that a case names, read once."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loamshift.case.collect import Collected
from loamshift.case.mend import Mend
from loamshift.case.schema_bed import PlaceTable
from loamshift.case.weather.read import MonthlyClimate, WeatherFile, read_weather
from loamshift.domain.message import message

DAILY: Final = "place.daily_file"
SOIL: Final = "place.soil_temp_file"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceFiles:
    """What the files of a place gave: its climate, and readings of its soil thermometer.

    ``is_bad`` where one was named and could not be used.
    """

    climate: MonthlyClimate | None = None
    soil_temps: tuple[tuple[datetime.date, float, float], ...] = ()
    is_bad: bool = False


def place_files(
    table: PlaceTable,
    *,
    folder: Path | None,
    today: datetime.date | None,
    collected: Collected,
) -> PlaceFiles:
    """The weather file and the file of the soil thermometer of a case.

    Parameters
    ----------
    folder
        Folder of the case file, from which their paths start; None for text alone.
    today
        Readings after it are left out.
    """
    has_own = table.air_temp_c is not None or table.rain_mm is not None
    daily = None if has_own else _read(DAILY, table.daily_file, folder, collected)
    own = _read(SOIL, table.soil_temp_file, folder, collected)
    if own is not None and not own.soil_temps:
        wrong = message("weather-no-soil")
        collected.fault(SOIL, table.soil_temp_file, wrong, message("weather-name-soil"))
    read = [file for file in (daily, own) if file is not None]
    temps = [one for file in read for one in file.soil_temps]
    return PlaceFiles(
        climate=None if daily is None else daily.climate,
        soil_temps=tuple(one for one in temps if today is None or one[0] <= today),
        is_bad=(table.daily_file is not None and daily is None)
        or (table.soil_temp_file is not None and own is None),
    )


def _read(
    path: str, name: str | None, folder: Path | None, collected: Collected
) -> WeatherFile | None:
    if name is None or collected.is_bad(path):
        return None
    if folder is None:
        wrong = message("case-daily-file-alone")
        collected.fault(path, name, wrong, message("case-own-figures"))
        return None
    try:
        found = read_weather(folder / name)
    except Mend as mend:
        collected.mend(path, name, mend)
        return None
    collected.notes_from(path, (found.read_as, *found.remarks))
    return found
