"""What figures of a case file usually are, and the unit that was probably meant where they are not.

A figure outside its range is asked about, never refused: the limits of what can be true at all
stand in the parsers.
"""

from __future__ import annotations

from common import source_rows, write_table

RANGE_COLUMNS = (
    *("path", "attribute", "gather", "when", "phrase", "unit", "low", "high", "zero", "hint"),
    *("source_key", "where", "evidence", "note"),
)
SLIP_COLUMNS = (
    *("path", "side", "meant", "factor", "offset"),
    *("source_key", "where", "evidence", "note"),
)
LICENCE = "facts with their sources and our judgement; our selection Apache-2.0"


def build() -> None:
    """Write ``entry_ranges.csv`` and ``entry_slips.csv``."""
    ranges, slips = source_rows("entry_ranges"), source_rows("entry_slips")
    known = {row["path"] for row in ranges}
    stray = sorted({row["path"] for row in slips} - known)
    if stray:
        raise SystemExit(f"entry_slips: no range for {', '.join(stray)}")
    write_table(
        "entry_ranges",
        RANGE_COLUMNS,
        ranges,
        about={
            "title": "What figures of a case file usually are",
            "script": "tools/tables/build_entry.py",
            "licence": LICENCE,
            "note": (
                "attribute is where the reader of the file keeps the figure; [] stands for each "
                "entry of a list. zero = yes where zero is an ordinary figure. phrase and hint are "
                "the ends of the keys of messages, doubt-what-PHRASE and doubt-hint-HINT."
            ),
        },
    )
    write_table(
        "entry_slips",
        SLIP_COLUMNS,
        slips,
        about={
            "title": "Units that figures outside their usual range were probably meant in",
            "script": "tools/tables/build_entry.py",
            "licence": LICENCE,
            "note": (
                "The figure meant is (given - offset) times factor, in the unit of the range. "
                "meant is the choice of a unit in the message doubt-meant."
            ),
        },
    )


if __name__ == "__main__":
    build()
