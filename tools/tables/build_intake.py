"""How laboratories head their columns, by language, and the units their figures come in.

No source lists the words, so none is named. The typical figures tell units apart; they are our own
judgement and refuse nothing.
"""

from __future__ import annotations

from common import source_rows, write_table

WORD_COLUMNS = ("key", "words", "language", "region", "method")
QUANTITY_COLUMNS = (
    *("key", "path", "method_path", "units", "written", "by_size"),
    *("low", "high", "typical_low", "typical_high"),
)
SOURCED = ("source_key", "evidence", "note")


def build() -> None:
    """Write ``header_words.csv`` and ``report_quantities.csv``."""
    write_table(
        "header_words",
        (*WORD_COLUMNS, *SOURCED),
        (
            {**row, "source_key": "common-practice", "evidence": "common practice"}
            for row in source_rows("header_words")
        ),
        about={
            "title": "Words that head the columns of laboratory reports",
            "script": "tools/tables/build_intake.py",
            "licence": "common words; our selection Apache-2.0",
            "note": "key is what the column is; words are without accents, signs and case. method "
            "is what the words themselves say of how it was measured; water says no ratio. A row "
            "without a language holds signs of the elements, which are the same everywhere.",
        },
    )
    write_table(
        "report_quantities",
        (*QUANTITY_COLUMNS, *SOURCED),
        source_rows("report_quantities"),
        about={
            "title": "Figures of laboratory reports that enter a case file, and their units",
            "script": "tools/tables/build_intake.py",
            "licence": "our selection Apache-2.0",
            "note": "units has each unit with its factor into that of the path, the usual one "
            "first; written is the unit that a case file has beside the figure, if it has one; "
            "by_size says whether the size of figures can tell their unit; low and high are what "
            "can be true, typical_low and typical_high what the middle of many samples is.",
        },
    )


if __name__ == "__main__":
    build()
