"""The place, the bed, and what is wished for it, as the case file has them."""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import Field

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
from loamshift.domain.case import BedKind, Before, Drainage, Site
from loamshift.domain.message import message
from loamshift.domain.ph import PhMethod
from loamshift.domain.plant import Plant

_TEMPERATURE = quantity(read_temperature_c, "temperature", "°C")
_DEPTH = quantity(read_depth_cm, "depth", "cm")


def _twelve(item: Reads, what: str) -> Reads:
    many = list_of(item, what=what, longest=12, single=False)

    def parse(value: object) -> object:
        figures = many.parse(value)
        if isinstance(figures, tuple) and len(figures) != 12:
            raise Mend(message("case-twelve-figures", count=len(figures)))
        return figures

    return Reads(parse, f"list of twelve, January first: {item.kind}")


class SoilTempEntry(Table):
    """One reading of your own soil thermometer."""

    date: Annotated[datetime.date | None, DATE] = Field(
        description="Day of the reading.", examples=["2026-04-01"]
    )
    c: Annotated[float | None, _TEMPERATURE] = Field(
        description="Soil temperature read.", examples=["8.5"]
    )
    depth: Annotated[Measure | None, _DEPTH] = Field(
        default=None,
        description="How deep the thermometer sat; 10 cm where not said.",
        examples=['"10 cm"'],
    )


class PlaceTable(Table):
    """Where the bed lies: by name, by position, or by twelve figures of your own."""

    name: Annotated[str | None, text()] = Field(
        default=None,
        description="A shipped place (`loamshift places`); a label beside figures of your own.",
        examples=['"Minneapolis"'],
    )
    latitude: Annotated[float | None, number(low=-90, high=90, unit="degrees north")] = Field(
        default=None,
        description="With longitude: the nearest point of the one-degree grid. "
        "Also needed with figures of your own.",
        examples=["44.98"],
    )
    longitude: Annotated[float | None, number(low=-180, high=180, unit="degrees east")] = Field(
        default=None, description="West of Greenwich is negative.", examples=["-93.27"]
    )
    air_temp_c: Annotated[
        tuple[float, ...] | None, _twelve(_TEMPERATURE, "monthly air temperatures")
    ] = Field(
        default=None,
        description="Your own mean air temperature of each month.",
        examples=["[-9, -6, 0, 8, 15, 20, 23, 22, 17, 10, 1, -7]"],
    )
    rain_mm: Annotated[
        tuple[float, ...] | None,
        _twelve(number(low=0, high=3000, unit="mm"), "monthly rain totals in mm"),
    ] = Field(
        default=None,
        description="Your own rain and melted snow of each month.",
        examples=["[23, 20, 48, 59, 82, 108, 103, 109, 78, 62, 45, 29]"],
    )
    daily_file: Annotated[str | None, text(longest=1000)] = Field(
        default=None,
        description="A CSV file of your own station with columns `date`, `temp_c` (or `tmin_c` and "
        "`tmax_c`) and, if you have it, `rain_mm`; its path starts from the case file.",
        examples=['"station.csv"'],
    )
    soil_temp: list[SoilTempEntry] = Field(
        default_factory=list,
        description="Readings of your own soil thermometer.",
        examples=['[{ date = 2026-04-01, c = 8.5, depth = "10 cm" }]'],
    )


class BedTable(Table):
    """The bed, lawn, field or pot that is treated."""

    kind: Annotated[
        BedKind | None,
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
    ] = Field(
        default=BedKind.GROUND,
        description="What kind of planting place it is.",
        examples=['"ground"'],
    )
    area: Annotated[Measure | None, quantity(read_area_m2, "area", "m2")] = Field(
        default=None,
        description="Area of one bed or pot; “5 x 4 m” and “40 cm diameter” are read too.",
        examples=['"20 m2"'],
    )
    depth: Annotated[Measure | None, _DEPTH] = Field(
        default=None, description="Depth of soil to be changed.", examples=['"15 cm"']
    )
    count: Annotated[int | None, whole(low=1, high=1_000_000, what="alike beds or pots")] = Field(
        default=1, description="How many alike beds or pots.", examples=["1"]
    )
    plants: Annotated[int | None, whole(low=1, high=10_000_000, what="plants")] = Field(
        default=None, description="Plants in one bed, for amounts per plant.", examples=["6"]
    )
    treated_diameter: Annotated[Measure | None, quantity(read_diameter_cm, "length", "cm")] = Field(
        default=None,
        description="Diameter of the ring treated round each plant.",
        examples=['"90 cm"'],
    )
    planted: Annotated[bool | None, FLAG] = Field(
        default=None, description="Whether plants stand in it already.", examples=["false"]
    )
    growing: Annotated[tuple[Plant, ...] | None, PLANTS] = Field(
        default=None, description="Plants already there.", examples=['["rhododendron"]']
    )
    drainage: Annotated[
        Drainage | None,
        choice(
            Drainage,
            what="drainage",
            aliases={"good": "free", "well drained": "free", "poor": "slow", "wet": "waterlogged"},
        ),
    ] = Field(default=None, description="How water leaves the bed.", examples=['"free"'])
    site: Annotated[Site | None, choice(Site, what="site")] = Field(
        default=None,
        description="What the ground was used for before; old urban and orchard "
        "soil may hold lead or arsenic.",
        examples=['"ordinary"'],
    )
    before: Annotated[
        Before | None,
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
    ] = Field(
        default=None,
        description="What the ground was before it was dug: old turf and ground that was manured "
        "for years go on rotting and make acid.",
        examples=['"turf"'],
    )
    before_years: Annotated[float | None, number(low=0, high=200, unit="years")] = Field(
        default=None,
        description="Years since it was dug in, or since the manuring ended.",
        examples=["2"],
    )


class AimTable(Table):
    """What is wished: plants, or a pH, and by when."""

    plant: Annotated[tuple[Plant, ...] | None, PLANTS] = Field(
        default=None,
        description="The plant, or a list of plants, that shall grow there (`loamshift plants`).",
        examples=['"highbush blueberry"'],
    )
    target_ph: Annotated[float | None, ph_number(low=3.0, high=9.5)] = Field(
        default=None, description="The pH wished, where no plant sets it.", examples=["6.5"]
    )
    target_method: Annotated[PhMethod | None, PH_METHOD] = Field(
        default=None,
        description="The method the target pH speaks of; water where not said.",
        examples=['"water 1:1"'],
    )
    by: Annotated[datetime.date | None, DATE] = Field(
        default=None,
        description="The day by which the pH shall be there.",
        examples=["2027-05-01"],
    )
