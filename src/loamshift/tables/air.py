"""What falls from the air, by region and year."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Final

import numpy as np

from loamshift.domain.air import Deposition
from loamshift.errors import TableError
from loamshift.tables.rows import Row, number, read_rows

_AMOUNTS: Final = ("sulfur_kg_ha", "nitrogen_kg_ha", "base_mmolc_m2", "spread")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Box:
    """A region between two latitudes and two longitudes [degrees]."""

    region: str
    south: float
    north: float
    west: float
    east: float

    def holds(self, *, latitude: float, longitude: float) -> bool:
        return self.south <= latitude <= self.north and self.west <= longitude <= self.east


def air_region(*, latitude: float | None, longitude: float | None) -> str:
    """The region of the table that a place lies in.

    Parameters
    ----------
    latitude
        Degrees north; None where it is not known [degrees].
    longitude
        Degrees east; None where it is not known [degrees].

    Returns
    -------
    str
        Key of the region; the last row, everywhere else, where either is not known.

    Examples
    --------
    >>> air_region(latitude=51.8, longitude=-0.4)
    'british-isles'
    """
    boxes = _boxes()
    if latitude is None or longitude is None:
        return boxes[-1].region
    return next(box.region for box in boxes if box.holds(latitude=latitude, longitude=longitude))


@lru_cache(maxsize=1024)
def deposition_in(region: str, year: float) -> Deposition:
    """What falls from the air in a region in a year.

    Parameters
    ----------
    region
        Key of :func:`air_region`.
    year
        Calendar year.

    Returns
    -------
    Deposition
        Straight between the years of the table, level beyond them.

    Examples
    --------
    >>> deposition_in("british-isles", 1975).sulfur_kg_ha
    22.0
    """
    rows = _by_region()[region]
    years = [number(row, "year") for row in rows]
    nearest = int(np.argmin([abs(year - one) for one in years]))
    amounts = {
        name: float(np.interp(year, years, [number(row, name) for row in rows]))
        for name in _AMOUNTS
    }
    return Deposition(region=region, source_key=rows[nearest]["source_key"], **amounts)


@cache
def _boxes() -> tuple[_Box, ...]:
    boxes = tuple(
        _Box(
            region=row["region"],
            south=number(row, "latitude_low_deg"),
            north=number(row, "latitude_high_deg"),
            west=number(row, "longitude_low_deg"),
            east=number(row, "longitude_high_deg"),
        )
        for row in read_rows("air_regions")
    )
    if not boxes[-1].holds(latitude=-90.0, longitude=-180.0) or not boxes[-1].holds(
        latitude=90.0, longitude=180.0
    ):
        raise TableError("the last row of air_regions must hold the whole globe")
    return boxes


@cache
def _by_region() -> Mapping[str, tuple[Row, ...]]:
    found: dict[str, list[Row]] = {box.region: [] for box in _boxes()}
    for row in read_rows("air_deposition"):
        if row["region"] not in found:
            raise TableError(f"air_deposition: region {row['region']} is not in air_regions")
        found[row["region"]].append(row)
    for region, rows in found.items():
        years = [number(row, "year") for row in rows]
        if not years or years != sorted(set(years)):
            raise TableError(f"air_deposition: the years of {region} must be there and must rise")
    return MappingProxyType({region: tuple(rows) for region, rows in found.items()})
