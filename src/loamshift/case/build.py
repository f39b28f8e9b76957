"""From the tables of the file to the case: what must agree between keys, in our own units."""

from __future__ import annotations

import datetime
from dataclasses import fields, replace
from pathlib import Path

from loamshift.case.build_care import (
    build_applied,
    build_claims,
    build_feed,
    build_on_hand,
    build_test_prices,
    build_water,
    not_later,
)
from loamshift.case.build_layers import build_layers
from loamshift.case.build_place import build_place
from loamshift.case.collect import Collected
from loamshift.case.fill import filled
from loamshift.case.mend import for_example, plain_figure, typed
from loamshift.case.quantities import Measure
from loamshift.case.schema import CaseFile
from loamshift.case.schema_bed import AimTable, BedTable
from loamshift.case.schema_care import ReadingEntry, WaterTable
from loamshift.case.schema_soil import SoilTable
from loamshift.case.weather.files import place_files
from loamshift.domain.case import (
    Aim,
    Bed,
    Case,
    PotsWanted,
    SoilEntry,
    TitrationPoint,
    Units,
)
from loamshift.domain.message import Given, choice, message, percent
from loamshift.domain.message import ph as ph_of
from loamshift.domain.message import rate as rate_of
from loamshift.domain.ph import PhMethod, PhReading

_THERMOMETER_DEPTH_CM = 10.0
_LARGEST_LIME_G_M2 = 20_000.0


def build_case(
    file: CaseFile, *, today: datetime.date | None, folder: Path | None, collected: Collected
) -> Case | None:
    """The case a file describes; None where it has faults, which are then collected.

    Parameters
    ----------
    today
        The date to use where the file names none.
    folder
        Folder of the file, from which weather files are read; None for text alone.
    """
    day = None if collected.is_bad("today") else file.today or today
    if day is None:
        collected.fault("today", None, message("case-no-day"), for_example("2026-04-12"))
    files = place_files(file.place, folder=folder, today=day, collected=collected)
    place = build_place(file.place, files, collected)
    soil_temps = list(files.soil_temps)
    for number, entry in enumerate(file.place.soil_temp, start=1):
        not_later(f"place.soil_temp[{number}].date", entry.date, day, collected)
        if entry.date is not None and entry.c is not None:
            depth = entry.depth.value if entry.depth else _THERMOMETER_DEPTH_CM
            soil_temps.append((entry.date, entry.c, depth))
    bed = _bed(file.bed, collected)
    _note_bare_us(file, collected)
    soil = _soil(file.soil, day, collected)
    layers = build_layers(file.soil, sample=soil.ph, bed=bed, collected=collected)
    soil = replace(soil, layers=layers)
    aim = _aim(file.aim, day, collected)
    water = build_water(file.water, bed=bed, place=place, collected=collected)
    feed = build_feed(file.feed, bed=bed, collected=collected)
    on_hand = build_on_hand(file.on_hand, collected)
    applied = build_applied(file.applied, bed=bed, today=day, collected=collected)
    readings = _readings(file.reading, day, collected)
    titration = tuple(
        TitrationPoint(**given)
        for given in (filled(entry, TitrationPoint) for entry in file.titration)
        if len(given) == len(fields(TitrationPoint))
    )
    claims = build_claims(file.claim, bed=bed, collected=collected)
    if collected.faults or collected.bad or day is None:
        return None
    made = Case(
        name=file.name or "Unnamed bed",
        today=day,
        units=file.units or Units.METRIC,
        place=place,
        soil_temps=tuple(soil_temps),
        bed=bed,
        soil=soil,
        aim=aim,
        water=water,
        feed=feed,
        pot=PotsWanted(**filled(file.pot, PotsWanted)),
        on_hand=on_hand,
        test_prices=build_test_prices(file.test_price, collected),
        applied=applied,
        readings=readings,
        titration=titration,
        claims=claims,
        without_unit=_without_unit(file.water),
        notes=tuple(collected.notes),
    )
    return replace(made, **{**filled(file, Case), "name": made.name}).in_own_currency()


def _without_unit(water: WaterTable) -> tuple[str, ...]:
    """Paths of water figures that stood without a unit."""
    measures = {"water.alkalinity": water.alkalinity, "water.hardness": water.hardness}
    return tuple(path for path, measure in measures.items() if measure is not None and measure.bare)


def _value(measure: Measure | None) -> float | None:
    return None if measure is None else measure.value


def _bed(table: BedTable, collected: Collected) -> Bed:
    if table.area is not None:
        collected.notes_from("bed.area", table.area.notes)
    return Bed(**filled(table, Bed))


def _note_bare_us(file: CaseFile, collected: Collected) -> None:
    """Say how bare numbers were read where the letter is in US units."""
    if file.units is not Units.US:
        return
    for key, measure, unit, other in (
        ("bed.area", file.bed.area, "m2", "sq ft"),
        ("bed.depth", file.bed.depth, "cm", "in"),
        ("soil.sample_depth", file.soil.sample_depth, "cm", "in"),
    ):
        if measure is not None and measure.bare:
            given = Given(measure.as_given)
            collected.note(
                key,
                message("case-note-bare-figure", given=given, unit=Given(unit), other=Given(other)),
            )


def _soil(table: SoilTable, today: datetime.date | None, collected: Collected) -> SoilEntry:
    not_later("soil.sampled", table.sampled, today, collected)
    _check_texture_sum(table, collected)
    _note_organic(table, collected)
    if table.ph is None and table.ph_method not in (None, PhMethod.UNKNOWN):
        collected.note("soil.ph_method", message("case-note-method-without-ph"))
    lime = table.lab_lime_requirement
    if lime is not None and lime > _LARGEST_LIME_G_M2:
        collected.fault(
            "soil.lab_lime_requirement",
            plain_figure(lime) + " g/m2",
            message("case-lime-too-much", rate=rate_of(lime)),
            for_example('"2 t/ha"', "200"),
        )
    depth_cm = _value(table.sample_depth)
    ph = _ph_reading(table.ph, table.ph_method, depth_cm, table.sampled)
    others = (
        _ph_reading(entry.ph, entry.ph_method, depth_cm, table.sampled) for entry in table.other_ph
    )
    special = {
        "ph": ph,
        "other_ph": tuple(other for other in others if other is not None),
        "buffer_ph": _buffer_ph(table.buffer_ph, collected),
    }
    return SoilEntry(**{**filled(table, SoilEntry), **special})


def _ph_reading(
    ph: float | None, method: PhMethod | None, depth_cm: float | None, taken: datetime.date | None
) -> PhReading | None:
    if ph is None:
        return None
    return PhReading(ph=ph, method=method or PhMethod.UNKNOWN, depth_cm=depth_cm, taken=taken)


def _buffer_ph(figure: float | None, collected: Collected) -> float | None:
    """The buffer pH; a lime test index is a tenth of what was printed."""
    if figure is None or figure < 48.0:
        return figure
    collected.note(
        "soil.buffer_ph",
        message("case-note-lime-index", given=typed(figure), ph=ph_of(figure / 10.0)),
    )
    return figure / 10.0


def _check_texture_sum(table: SoilTable, collected: Collected) -> None:
    parts = {"sand_pct": table.sand_pct, "silt_pct": table.silt_pct, "clay_pct": table.clay_pct}
    given = {key: share for key, share in parts.items() if share is not None}
    total = sum(given.values())
    three = len(given) == 3
    if not (abs(total - 100.0) > 3.0 if three else len(given) == 2 and total > 103.0):
        return
    listed = ", ".join(f"{key} {plain_figure(share)}" for key, share in given.items())
    as_pct = ", ".join(f"{key} = {plain_figure(100.0 * share)}" for key, share in given.items())
    collected.fault(
        "soil.clay_pct" if "clay_pct" in given else "soil.sand_pct",
        listed,
        message(
            "case-texture-sum",
            parts="sand-silt-clay" if three else choice("-".join(given).replace("_pct", "")),
            sum=percent(total),
        ),
        message("case-fractions", lines=Given(as_pct))
        if three and abs(total - 1.0) <= 0.03
        else message("case-one-hundred"),
    )


def _note_organic(table: SoilTable, collected: Collected) -> None:
    matter, carbon = table.organic_matter_pct, table.organic_carbon_pct
    if matter is None or carbon is None:
        return
    if carbon == 0.0 or not 1.4 <= matter / carbon <= 2.5:
        collected.note(
            "soil.organic_matter_pct",
            message("case-note-organic", matter=percent(matter), carbon=percent(carbon)),
        )


def _aim(table: AimTable, today: datetime.date | None, collected: Collected) -> Aim:
    if table.by is not None and today is not None and table.by < today:
        collected.fault(
            "aim.by",
            table.by,
            message("case-date-in-past", day=table.by, today=today),
            message("case-day-wanted"),
        )
    return Aim(**filled(table, Aim))


def _readings(
    entries: list[ReadingEntry], today: datetime.date | None, collected: Collected
) -> tuple[PhReading, ...]:
    found: list[PhReading] = []
    for number, entry in enumerate(entries, start=1):
        not_later(f"reading[{number}].date", entry.date, today, collected)
        if entry.ph is not None and entry.date is not None:
            found.append(PhReading(**{"method": PhMethod.UNKNOWN, **filled(entry, PhReading)}))
    return tuple(found)
