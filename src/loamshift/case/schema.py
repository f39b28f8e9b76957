"""The whole case file: every table and key, version 1."""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import Field

from loamshift.case.case_key import Group, Key
from loamshift.case.mend import Mend, for_example, quoted
from loamshift.case.reads import DATE, Holds, Reads, choice, text
from loamshift.case.schema_base import Table
from loamshift.case.schema_bed import AimTable, BedTable, PlaceTable
from loamshift.case.schema_care import (
    CURRENCY,
    AppliedEntry,
    ClaimEntryTable,
    FeedTable,
    OnHandEntry,
    ReadingEntry,
    TestPriceEntry,
    TitrationEntry,
    WaterTable,
)
from loamshift.case.schema_pot import PotTable
from loamshift.case.schema_soil import SoilTable
from loamshift.domain.case import Units
from loamshift.domain.message import message

CASE_VERSION = 1


def _read_version(value: object) -> int:
    if isinstance(value, bool) or value != CASE_VERSION:
        raise Mend(
            message("case-version-unknown", given=quoted(value)),
            message("case-later-version"),
            for_example(str(CASE_VERSION)),
        )
    return CASE_VERSION


_VERSION = Reads(
    parse=_read_version,
    takes=message("takes-version", version=CASE_VERSION),
    holds=Holds.NUMBER,
)


class CaseFile(Table):
    """The top of the case file."""

    case: Annotated[int | None, Key(_VERSION, example="1", group=Group.NEVER)]
    name: Annotated[str | None, Key(text(), example='"North border"', group=Group.USUAL)] = (
        "Unnamed bed"
    )
    today: Annotated[datetime.date | None, Key(DATE, example="2026-04-12", also=("date",))] = None
    units: Annotated[
        Units | None,
        Key(
            choice(
                Units,
                what="system of units",
                aliases={"imperial": "us", "us customary": "us", "si": "metric"},
            ),
            example='"metric"',
        ),
    ] = Units.METRIC
    currency: Annotated[str | None, Key(CURRENCY, example='"GBP"')] = None
    place: PlaceTable = Field(default_factory=PlaceTable)
    bed: BedTable = Field(default_factory=BedTable)
    soil: SoilTable = Field(default_factory=SoilTable)
    aim: AimTable = Field(default_factory=AimTable)
    water: WaterTable = Field(default_factory=WaterTable)
    feed: FeedTable = Field(default_factory=FeedTable)
    pot: PotTable = Field(default_factory=PotTable)
    on_hand: list[OnHandEntry] = Field(default_factory=list)
    test_price: list[TestPriceEntry] = Field(default_factory=list)
    applied: list[AppliedEntry] = Field(default_factory=list)
    reading: list[ReadingEntry] = Field(default_factory=list)
    titration: list[TitrationEntry] = Field(default_factory=list)
    claim: list[ClaimEntryTable] = Field(default_factory=list)


def tables() -> dict[str, type[Table]]:
    """Every table of the case file by its name; ``""`` is the top, dotted names are nested."""
    found: dict[str, type[Table]] = {"": CaseFile}
    _collect(CaseFile, "", found)
    return found


def item_table(annotation: object) -> tuple[type[Table] | None, bool]:
    """The table behind a field's annotation [type], and whether the field lists such tables."""
    if isinstance(annotation, type) and issubclass(annotation, Table):
        return annotation, False
    for part in getattr(annotation, "__args__", ()):
        if isinstance(part, type) and issubclass(part, Table):
            return part, True
    return None, False


def _collect(table: type[Table], prefix: str, found: dict[str, type[Table]]) -> None:
    for key, field in table.model_fields.items():
        nested, _ = item_table(field.annotation)
        if nested is not None:
            found[f"{prefix}{key}"] = nested
            _collect(nested, f"{prefix}{key}.", found)
