"""The place, the bed, and what is wished for it, as the case file has them."""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Annotated

from pydantic import Field

from loamshift.case.case_key import Group, Key
from loamshift.case.mend import Mend
from loamshift.case.quantities import (
    Measure,
    read_area_m2,
    read_depth_cm,
    read_diameter_cm,
    read_temperature_c,
)
from loamshift.case.reads import DATE, FLAG, Reads, choice, list_of, number, ph_number, text, whole
from loamshift.case.schema_base import PH_METHOD, PLANTS, Table, quantity
from loamshift.domain.case import BedKind, Before, Drainage, Sign, Site, Surrounding
from loamshift.domain.message import message
from loamshift.domain.ph import PhMethod
from loamshift.domain.plant import Plant

_TEMPERATURE = quantity(read_temperature_c, "temperature", "°C")
_DEPTH = quantity(read_depth_cm, "depth", "cm")
_DEGREES_NORTH = message("takes-unit", unit="degrees-north")
_DEGREES_EAST = message("takes-unit", unit="degrees-east")
_YEARS = message("takes-unit", unit="years")


_SURROUNDINGS = list_of(
    choice(
        Surrounding,
        what="surrounding",
        aliases={
            "gravel": "limestone-gravel",
            "limestone": "limestone-gravel",
            "limestone chippings": "limestone-gravel",
            "cement": "concrete",
            "fresh concrete": "concrete",
            "rubble": "mortar",
            "plaster": "mortar",
            "trench": "lined-trench",
            "chalk": "over-chalk",
            "pocket over chalk": "over-chalk",
        },
    ),
    longest=len(Surrounding),
)
_SIGNS = list_of(
    choice(
        Sign,
        what="sign",
        aliases={
            "yellow leaves": "yellow-young-leaves",
            "chlorosis": "yellow-young-leaves",
            "yellow young": "yellow-young-leaves",
            "yellow old": "yellow-old-leaves",
            "scorched leaves": "scorched-edges",
            "brown edges": "scorched-edges",
            "too deep": "planted-too-deep",
            "standing water": "wet-feet",
        },
    ),
    longest=len(Sign),
)


def _twelve(item: Reads) -> Reads:
    many = list_of(item, longest=12, single=False)

    def parse(value: object) -> object:
        figures = many.parse(value)
        if isinstance(figures, tuple) and len(figures) != 12:
            raise Mend(message("case-twelve-figures", count=len(figures)))
        return figures

    return replace(many, parse=parse, takes=message("takes-twelve", item=item.takes))


class SoilTempEntry(Table):
    """One reading of your own soil thermometer."""

    date: Annotated[datetime.date | None, Key(DATE, example="2026-04-01")]
    c: Annotated[float | None, Key(_TEMPERATURE, example="8.5")]
    depth: Annotated[Measure | None, Key(_DEPTH, example='"10 cm"')] = None


class PlaceTable(Table):
    """Where the bed lies: by name, by position, or by twelve figures of your own."""

    name: Annotated[
        str | None, Key(text(), example='"Minneapolis"', group=Group.USUAL, suggests="places")
    ] = None
    latitude: Annotated[
        float | None,
        Key(number(low=-90, high=90, said=_DEGREES_NORTH), example="44.98", also=("lat",)),
    ] = None
    longitude: Annotated[
        float | None,
        Key(
            number(low=-180, high=180, said=_DEGREES_EAST),
            example="-93.27",
            also=("lon", "long"),
        ),
    ] = None
    air_temp_c: Annotated[
        tuple[float, ...] | None,
        Key(_twelve(_TEMPERATURE), example="[-9, -6, 0, 8, 15, 20, 23, 22, 17, 10, 1, -7]"),
    ] = None
    rain_mm: Annotated[
        tuple[float, ...] | None,
        Key(
            _twelve(number(low=0, high=3000, unit="mm")),
            example="[23, 20, 48, 59, 82, 108, 103, 109, 78, 62, 45, 29]",
        ),
    ] = None
    daily_file: Annotated[
        str | None, Key(text(longest=1000), example='"station.csv"', group=Group.NEVER)
    ] = None
    soil_temp_file: Annotated[
        str | None, Key(text(longest=1000), example='"logger.csv"', group=Group.NEVER)
    ] = None
    soil_temp: list[SoilTempEntry] = Field(default_factory=list)


class BedTable(Table):
    """The bed, lawn, field or pot that is treated."""

    kind: Annotated[
        BedKind | None,
        Key(
            choice(
                BedKind,
                what="kind of bed",
                aliases={
                    "pot": "container",
                    "border": "ground",
                    "bed": "ground",
                    "raised bed": "raised",
                    "turf": "lawn",
                    "tub": "container",
                },
            ),
            example='"ground"',
            group=Group.USUAL,
        ),
    ] = BedKind.GROUND
    area: Annotated[
        Measure | None,
        Key(
            quantity(read_area_m2, "area", "m2"),
            example='"20 m2"',
            group=Group.USUAL,
            fills="area_m2",
            also=("size",),
        ),
    ] = None
    depth: Annotated[
        Measure | None, Key(_DEPTH, example='"15 cm"', group=Group.USUAL, fills="depth_cm")
    ] = None
    count: Annotated[int | None, Key(whole(low=1, high=1_000_000), example="1")] = 1
    plants: Annotated[int | None, Key(whole(low=1, high=10_000_000), example="6")] = None
    treated_diameter: Annotated[
        Measure | None,
        Key(
            quantity(read_diameter_cm, "length", "cm"),
            example='"90 cm"',
            fills="treated_diameter_cm",
        ),
    ] = None
    planted: Annotated[bool | None, Key(FLAG, example="false", group=Group.USUAL)] = None
    growing: Annotated[
        tuple[Plant, ...] | None, Key(PLANTS, example='["rhododendron"]', suggests="plants")
    ] = None
    drainage: Annotated[
        Drainage | None,
        Key(
            choice(
                Drainage,
                what="drainage",
                aliases={
                    "good": "free",
                    "well drained": "free",
                    "poor": "slow",
                    "wet": "waterlogged",
                },
            ),
            example='"free"',
            group=Group.USUAL,
        ),
    ] = None
    site: Annotated[Site | None, Key(choice(Site, what="site"), example='"ordinary"')] = None
    surroundings: Annotated[
        tuple[Surrounding, ...] | None,
        Key(_SURROUNDINGS, example='["concrete"]'),
    ] = None
    signs: Annotated[
        tuple[Sign, ...] | None,
        Key(_SIGNS, example='["yellow-young-leaves"]', also=("symptoms",)),
    ] = None
    before: Annotated[
        Before | None,
        Key(
            choice(
                Before,
                what="ground",
                aliases={
                    "grass": "turf",
                    "lawn": "turf",
                    "pasture": "turf",
                    "meadow": "turf",
                    "dunged": "manured",
                    "field": "arable",
                    "crops": "arable",
                    "vegetable garden": "garden",
                    "allotment": "garden",
                },
            ),
            example='"turf"',
        ),
    ] = None
    before_years: Annotated[
        float | None, Key(number(low=0, high=200, said=_YEARS), example="2")
    ] = None


class AimTable(Table):
    """What is wished: plants, or a pH, and by when."""

    plant: Annotated[
        tuple[Plant, ...] | None,
        Key(
            PLANTS,
            example='"highbush blueberry"',
            group=Group.USUAL,
            fills="plants",
            suggests="plants",
            also=("crop",),
        ),
    ] = None
    target_ph: Annotated[
        float | None,
        Key(ph_number(low=3.0, high=9.5), example="6.5", group=Group.USUAL, also=("target",)),
    ] = None
    target_method: Annotated[PhMethod | None, Key(PH_METHOD, example='"water 1:1"')] = None
    by: Annotated[datetime.date | None, Key(DATE, example="2027-05-01", group=Group.USUAL)] = None
