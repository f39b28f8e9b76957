"""The place of a case: by name, by position, by twelve figures or by a daily file."""

from __future__ import annotations

from dataclasses import replace

from loamshift.case.collect import Collected
from loamshift.case.mend import for_example
from loamshift.case.reads import name_mend
from loamshift.case.schema_bed import PlaceTable
from loamshift.case.weather.files import PlaceFiles
from loamshift.case.weather.read import MonthlyClimate
from loamshift.domain.message import Given, Listed, Message, message
from loamshift.domain.names import NameFault
from loamshift.domain.place import Place
from loamshift.errors import InputError

OWN_SOURCE_KEY = "case-file"
ONLINE_SOURCE_KEY = "open-meteo"
_OWN_NAME = "own figures"


def build_place(table: PlaceTable, files: PlaceFiles, collected: Collected) -> Place | None:
    """The place a case names, or None where it names none.

    Figures of one's own go before the daily file, that before a position, that before a name.
    """
    if table.latitude is None and table.longitude is not None:
        collected.fault(
            "place.latitude", None, message("case-longitude-alone"), for_example("45.0")
        )
    has_own = table.air_temp_c is not None or table.rain_mm is not None
    is_bad = collected.is_bad("place.air_temp_c", "place.rain_mm", "place.daily_file")
    if has_own:
        if table.daily_file is not None:
            collected.note("place.daily_file", message("case-note-daily-file-unread"))
        return _own_figures(table, collected)
    if files.climate is not None:
        return _own_place(table, files.climate, collected)
    if is_bad or files.is_bad:
        return None
    if table.latitude is not None and table.longitude is None:
        collected.fault(
            "place.longitude",
            None,
            message("case-latitude-alone"),
            for_example("-93.3"),
        )
        return None
    base = _base_place(table, collected, name_is_label=False)
    if base is not None and table.latitude is not None and table.name is not None:
        return replace(base, name=table.name)
    return base


def _base_place(table: PlaceTable, collected: Collected, *, name_is_label: bool) -> Place | None:
    """The shipped place or grid point behind a name or position."""
    from loamshift.tables.places import find_place, nearest_place

    if table.latitude is not None and table.longitude is not None:
        try:
            return nearest_place(latitude=table.latitude, longitude=table.longitude)
        except InputError:
            collected.fault(
                "place.latitude",
                f"{table.latitude:g}, {table.longitude:g}",
                message(
                    "case-no-place-near", given=Given(f"{table.latitude:g}, {table.longitude:g}")
                ),
                message("case-own-figures"),
            )
            return None
    if table.name is None:
        return None
    try:
        return find_place(table.name)
    except NameFault as fault:
        if name_is_label:
            return None
        if not fault.ambiguous:
            collected.note("place.name", _unknown(fault))
        else:
            mend = name_mend(fault)
            collected.fault(
                "place.name",
                table.name,
                mend.wrong,
                *mend.right,
                message("case-other-ways-to-place"),
            )
    return None


def _unknown(fault: NameFault) -> Message:
    """That a name says nothing of the climate here, and which names would."""
    unknown = Given(fault.text)
    if not fault.candidates:
        return message("case-note-place-unknown", given=unknown)
    names = Listed(
        tuple(message("name-quoted", name=Given(name)) for name in fault.candidates), either=True
    )
    return message("case-note-place-like", given=unknown, names=names)


def _own_figures(table: PlaceTable, collected: Collected) -> Place | None:
    for key, figures in (("air_temp_c", table.air_temp_c), ("rain_mm", table.rain_mm)):
        if figures is None:
            collected.fault(
                f"place.{key}",
                None,
                message("case-climate-together"),
                message("case-add-twelve", key=Given(key)),
            )
    if table.air_temp_c is None or table.rain_mm is None:
        return None
    climate = MonthlyClimate(air_temp_c=table.air_temp_c, rain_mm=table.rain_mm)
    return _own_place(table, climate, collected)


def _own_place(table: PlaceTable, climate: MonthlyClimate, collected: Collected) -> Place | None:
    latitude, longitude, rain_mm = table.latitude, table.longitude, climate.rain_mm
    wet_days = None
    rain_of: Given | None = None
    if latitude is None or rain_mm is None:
        base = _base_place(table, collected, name_is_label=True)
        if base is not None and latitude is None:
            latitude, longitude = base.latitude, base.longitude
        if base is not None and rain_mm is None:
            rain_mm, wet_days = base.rain_mm, base.wet_days
            rain_of = Given(base.name)
    if latitude is None:
        collected.fault(
            "place.latitude",
            None,
            message("case-latitude-needed"),
            for_example("45.0"),
        )
    if rain_mm is None:
        collected.fault(
            "place.daily_file",
            table.daily_file,
            message("case-daily-no-rain"),
            message("case-daily-add-rain"),
        )
    if latitude is None or rain_mm is None:
        return None
    return Place(
        name=table.name or _OWN_NAME,
        country="",
        latitude=latitude,
        longitude=longitude,
        elevation_m=None,
        air_temp_c=climate.air_temp_c,
        rain_mm=rain_mm,
        wet_days=wet_days,
        source_key=OWN_SOURCE_KEY,
        basis=_own_basis(climate, rain_of),
    )


def _own_basis(climate: MonthlyClimate, rain_of: Given | None) -> Message:
    """Where figures of one's own come from, and of which place the rain is that they lack."""
    if climate.days:
        return message(
            "place-own-days",
            days=climate.days,
            name=rain_of,
            first=climate.first,
            last=climate.last,
        )
    return message("place-own-months", name=rain_of)
