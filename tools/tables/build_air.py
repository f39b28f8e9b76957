"""Acid from the air: what falls by region and year, and where the regions lie."""

from __future__ import annotations

from common import source_rows, write_table

SOURCED = ("source_key", "where", "evidence", "note")
DEPOSITION = ("region", "year", "sulfur_kg_ha", "nitrogen_kg_ha", "base_mmolc_m2", "spread")
BOX = ("latitude_low_deg", "latitude_high_deg", "longitude_low_deg", "longitude_high_deg")


def build_air() -> None:
    """Write the table of deposition and that of its regions."""
    write_table(
        "air_deposition",
        (*DEPOSITION, *SOURCED),
        source_rows("air_deposition"),
        about={
            "title": "Sulfur, nitrogen and base from the air, by region and year",
            "script": "tools/tables/build_air.py",
            "licence": "facts with their sources; our selection Apache-2.0",
            "note": "open or farmed land of a region as a whole, wet and dry, sea salt left out, "
            "straight between the years and level beyond them; a town, a wood or a hill gets "
            "more. base is calcium, magnesium and potassium that neutralise. 95 in 100 sites lie "
            "between the acid divided and multiplied by spread",
        },
    )
    write_table(
        "air_regions",
        ("region", *BOX, *SOURCED),
        source_rows("air_regions"),
        about={
            "title": "Regions of the table of acid from the air",
            "script": "tools/tables/build_air.py",
            "licence": "our selection Apache-2.0",
            "note": "the first row whose box holds a place counts",
        },
    )


if __name__ == "__main__":
    build_air()
