"""Kitchen and garden measures: cups, spoons, handfuls, buckets."""

from __future__ import annotations

from common import source_rows, write_table

COLUMNS = (
    *("name", "synonyms", "volume_l", "mass_g", "low", "high"),
    *("source_key", "where", "evidence", "note"),
)


def build_measures() -> None:
    """Write the table of kitchen measures."""
    write_table(
        "kitchen_measures",
        COLUMNS,
        [{**row, "where": ""} for row in source_rows("kitchen_measures")],
        about={
            "title": "Kitchen and garden measures",
            "script": "tools/tables/build_measures.py",
            "licence": "facts and common practice; our selection Apache-2.0",
            "note": "low and high in litres where volume_l stands, in grams where mass_g stands",
        },
    )


if __name__ == "__main__":
    build_measures()
