"""Where figures are kept between the command that works them out and the page that prints them."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Final

RESULTS: Final = Path(__file__).resolve().parent / "results"


def write_rows(name: str, rows: Sequence[Mapping[str, object]]) -> None:
    """Keep rows of one kind as a table."""
    RESULTS.mkdir(exist_ok=True)
    with (RESULTS / f"{name}.csv").open("w", encoding="utf-8", newline="") as handle:
        writer = csv.DictWriter(handle, fieldnames=list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def read_rows(name: str) -> list[dict[str, str]]:
    """The rows as they were kept, every value as text."""
    with (RESULTS / f"{name}.csv").open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))
