"""A case object back to a case file, in our own units."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from loamshift.case.amounts import read_amount, read_rate, spread_amount
from loamshift.case.build_place import OWN_SOURCE_KEY
from loamshift.case.fill import typed_from, with_unit
from loamshift.case.label import label_table
from loamshift.case.mend import Mend, fault_of, for_example, in_english
from loamshift.case.schema import CaseFile
from loamshift.case.schema_bed import AimTable, BedTable
from loamshift.case.schema_care import (
    FeedTable,
    OnHandEntry,
    ReadingEntry,
    TestPriceEntry,
    TitrationEntry,
    WaterTable,
)
from loamshift.case.schema_pot import PotTable
from loamshift.case.schema_soil import SoilLayer, SoilTable
from loamshift.case.write import case_toml
from loamshift.domain.case import Applied, Bed, Case, ClaimEntry, SoilEntry
from loamshift.domain.material import Material
from loamshift.domain.message import message
from loamshift.domain.names import NameFault
from loamshift.domain.ph import PhReading
from loamshift.domain.place import Place
from loamshift.errors import CaseError, InputError


def case_to_toml(case: Case) -> str:
    """A case file that reads back as this case.

    Amounts keep the text they were given in where it still means the same rate on this bed. What
    cannot be written is the name of a daily file (its monthly figures stand there instead) and
    the reader's notes, which follow from the text and are put in as comments.

    Raises
    ------
    CaseError
        Where the case holds what no file can, such as a reading without its date.
    """
    notes = "".join(f"# noticed: {in_english(note)}\n" for note in case.notes)
    return case_toml(case_answers(case), examples=False) + ("\n" + notes if notes else "")


def case_answers(case: Case) -> dict[str, Any]:
    """The keys of a case file that reads back as this case, in our own units.

    Returns
    -------
    dict
        Values by key, nested as in the file; None where the case says nothing.

    Raises
    ------
    CaseError
        Where the case holds what no file can, such as a reading without its date.
    """
    return {
        **typed_from(case, CaseFile),
        "place": _place(case),
        "bed": typed_from(case.bed, BedTable),
        "soil": _soil(case.soil),
        "aim": typed_from(case.aim, AimTable),
        "water": {
            **typed_from(case.water, WaterTable),
            "alkalinity": _water(case, "alkalinity", case.water.alkalinity_mg_l_as_caco3),
            "weekly": with_unit(case.water.weekly_mm, "mm"),
            "hardness": _water(case, "hardness", case.water.hardness_mg_l_as_caco3),
        },
        "feed": _feed(case),
        "pot": typed_from(case.pot, PotTable),
        "on_hand": [
            {**typed_from(product, OnHandEntry), **_product(product.material)}
            for product in case.on_hand
        ],
        "test_price": [typed_from(one, TestPriceEntry) for one in case.test_prices],
        "applied": [
            {
                "date": entry.on,
                **_how_much(entry, case.bed),
                "incorporated": with_unit(entry.incorporated_cm, "cm"),
            }
            for entry in case.applied
        ],
        "reading": [_reading(reading, number) for number, reading in enumerate(case.readings, 1)],
        "titration": [typed_from(point, TitrationEntry) for point in case.titration],
        "claim": [_how_much(entry, case.bed) for entry in case.claims],
    }


def _water(case: Case, key: str, value: float | None) -> str | float | None:
    """A figure of the water, bare where it was given bare: the unit is then asked about again."""
    return value if f"water.{key}" in case.without_unit else with_unit(value, "mg/L CaCO3")


def _place(case: Case) -> dict[str, Any]:
    table: dict[str, Any] = {}
    if case.soil_temps:
        table["soil_temp"] = [
            {"date": day, "c": temp_c, "depth": with_unit(depth_cm, "cm")}
            for day, temp_c, depth_cm in case.soil_temps
        ]
    place = case.place
    if place is None:
        return table
    if place.source_key != OWN_SOURCE_KEY:
        if _found(place.name) == place:
            return {**table, "name": place.name}
        if place.longitude is not None and _is_nearest(place):
            return {
                **table,
                "name": place.name,
                "latitude": place.latitude,
                "longitude": place.longitude,
            }
    table |= {
        "name": place.name,
        "latitude": place.latitude,
        "longitude": place.longitude,
        "air_temp_c": list(place.air_temp_c),
        "rain_mm": list(place.rain_mm),
    }
    return table


def _found(name: str) -> Place | None:
    from loamshift.tables.places import find_place

    try:
        return find_place(name)
    except NameFault:
        return None


def _is_nearest(place: Place) -> bool:
    from loamshift.tables.places import nearest_place

    if place.longitude is None:
        return False
    try:
        found = nearest_place(latitude=place.latitude, longitude=place.longitude)
    except InputError:
        return False
    return replace(found, name=place.name) == place


def _soil(soil: SoilEntry) -> dict[str, Any]:
    table = typed_from(replace(soil, ph=None), SoilTable)
    if soil.ph is not None:
        table |= {"ph": soil.ph.ph, "ph_method": soil.ph.method}
    table["layer"] = [typed_from(layer, SoilLayer) for layer in soil.layers]
    table["other_ph"] = [{"ph": r.ph, "ph_method": r.method} for r in soil.other_ph]
    return table


def _feed(case: Case) -> dict[str, Any] | None:
    feed = case.feed
    if feed is None:
        return None
    return {
        **typed_from(feed, FeedTable),
        "n_g_m2_year": feed.n_g_m2_year,
        **({} if feed.material is None else _product(feed.material)),
        "rate": with_unit(feed.rate_g_m2, "g/m2"),
    }


def _product(material: Material) -> dict[str, Any]:
    """A product by its shipped name, or by its own name and label."""
    if material.label is None:
        return {"material": material.key}
    return {"material": material.written, "label": label_table(material.label)}


def _how_much(entry: Applied | ClaimEntry, bed: Bed) -> dict[str, Any]:
    """Material with the amount or rate as given, where it still makes the same rate."""
    material: dict[str, Any] = _product(entry.material)
    for key, read in (("rate", read_rate), ("amount", read_amount)):
        try:
            amount = read(entry.as_given)
            spread = spread_amount(amount, material=entry.material, bed=bed)
        except Mend:
            continue
        if spread.rate_g_m2 == entry.rate_g_m2:
            return {**material, key: entry.as_given}
    return {**material, "rate": with_unit(entry.rate_g_m2, "g/m2")}


def _reading(reading: PhReading, number: int) -> dict[str, Any]:
    if reading.taken is None:
        missing = message("case-missing")
        fault = fault_of(f"reading[{number}].date", None, missing, for_example("2026-04-12"))
        raise CaseError([fault], source="case")
    return typed_from(reading, ReadingEntry)
