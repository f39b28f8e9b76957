"""Places and one-degree points: monthly air temperature, rain and wet days, 1961-1990.

Both tables can be replaced by another climatology of the same columns; a user's own twelve
numbers always come first.
"""

from __future__ import annotations

from common import source_rows, write_table

Row = dict[str, str]

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
MONTH_COLUMNS = (
    *(f"air_temp_c_{month}" for month in MONTHS),
    *(f"rain_mm_{month}" for month in MONTHS),
    *(f"wet_days_{month}" for month in MONTHS),
)
PLACE_COLUMNS = (
    "key",
    "country",
    "synonyms",
    "with_region",
    "latitude_deg",
    "longitude_deg",
    "elevation_m",
    *MONTH_COLUMNS,
    "flag",
    "source_key",
    "where",
    "evidence",
    "note",
)
POINT_COLUMNS = ("latitude_deg", "longitude_deg", "elevation_m", *MONTH_COLUMNS)
LICENCE = "replaceable; New et al. 2002, licence of the grid not confirmed"
SHORT_COUNTRIES = {"United Kingdom": ("UK", "GB"), "United States": ("USA", "US")}


def build() -> None:
    """Write ``places.csv`` and ``climate_points.csv``."""
    write_table(
        "places",
        PLACE_COLUMNS,
        place_rows(),
        about={
            "title": "Monthly air temperature, rain and wet days of 150 named places, 1961-1990",
            "script": "tools/tables/build_places.py",
            "licence": LICENCE,
            "note": (
                "Gridded estimates at a weather-station point, not the national services' own "
                "normals. 1961-1990 is cooler than today, over land by about 1 C (recalled, no "
                "source opened). Rain beside mountains can be wrong by tens of percent; flag "
                "marks rows where a second gridded source differs by more than 1 C or 15 % rain. "
                "Wet days have more than 0.1 mm of rain, rounded to whole days."
            ),
        },
    )
    write_table(
        "climate_points",
        POINT_COLUMNS,
        point_rows(),
        about={
            "title": "Monthly air temperature, rain and wet days, a point per degree cell of land",
            "script": "tools/tables/build_places.py",
            "licence": LICENCE,
            "source_key": "new-2002",
            "evidence": "seen",
            "note": (
                "Means of 1961-1990 of the grid at one weather-station point per cell. Wet days "
                "have more than 0.1 mm of rain, rounded to whole days."
            ),
        },
    )


def place_rows() -> list[dict[str, object]]:
    """One row per named place."""
    hand = {row["place"]: row for row in source_rows("place_synonyms")}
    _refuse_unknown(hand)
    return [
        {
            "key": row["place"],
            "country": row["country"],
            "synonyms": hand.get(row["place"], {}).get("other_names", ""),
            "with_region": "|".join(with_region(row, hand.get(row["place"]))),
            **_position(row),
            **_months(row),
            "flag": row["flag"],
            "source_key": "new-2002",
            "where": f"grid at station {row['station_name']} ({row['station_id']})",
            "evidence": row["seen"].replace("yes", "seen"),
            "note": f"{row['period']}, {row['kind']}",
        }
        for row in source_rows("climate_normals")
    ]


def point_rows() -> list[dict[str, object]]:
    """One row per one-degree cell that holds a station, from south to north."""
    return [{**_position(row), **_months(row)} for row in source_rows("climate_points_1deg")]


def with_region(row: Row, hand: Row | None) -> list[str]:
    """The place's names followed by its country or region, as people write them."""
    towns = [row["place"], *(hand["other_names"].split("|") if hand else [])]
    wider = [row["country"], *SHORT_COUNTRIES.get(row["country"], ())]
    if hand:
        wider += [name for name in (hand["region"], hand["region_code"]) if name]
    names = [
        f"{town}{joint}"
        for town in towns
        if town
        for name in wider
        for joint in (f", {name}", f" ({name})", f" {name}")
    ]
    return list(dict.fromkeys(names))


def _refuse_unknown(hand: dict[str, Row]) -> None:
    unknown = set(hand) - {row["place"] for row in source_rows("climate_normals")}
    if unknown:
        raise SystemExit(f"place_synonyms: no place {', '.join(sorted(unknown))}")


def _position(row: Row) -> dict[str, object]:
    return {
        "latitude_deg": float(row["lat"]),
        "longitude_deg": float(row["lon"]),
        "elevation_m": float(row["elev_m"]) if row["elev_m"] else None,
    }


def _months(row: Row) -> dict[str, object]:
    temps = {f"air_temp_c_{month}": float(row[f"t{month}"]) for month in MONTHS}
    rains = {f"rain_mm_{month}": float(row[f"p{month}"]) for month in MONTHS}
    wet_days = {f"wet_days_{month}": float(row[f"w{month}"]) for month in MONTHS}
    return {**temps, **rains, **wet_days}


if __name__ == "__main__":
    build()
