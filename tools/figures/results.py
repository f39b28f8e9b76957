"""Where figures are kept between the command that works them out and the page that prints them."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import Final

RESULTS: Final = Path(__file__).resolve().parent / "results"
KEY: Final = "bed"
"""Column that names what a row is of; beds that are done are known by it."""

Row = Mapping[str, object]


def gather(
    name: str, beds: Iterable[str], work: Callable[[str], Sequence[Row]], *, resume: bool
) -> None:
    """Work out the rows of each bed and keep them at once, so that a run can be taken up again."""
    rows: list[Row] = list(read_rows(name)) if resume and _path(name).exists() else []
    done = {str(row[KEY]) for row in rows}
    for bed in beds:
        if bed in done:
            continue
        found = [{KEY: bed, **row} for row in work(bed)]
        rows += found
        write_rows(name, rows)
        print(f"{name}: {bed}, {len(found)} rows", flush=True)


def write_rows(name: str, rows: Sequence[Row]) -> None:
    """Keep rows of one kind as a table."""
    if not rows:
        return
    RESULTS.mkdir(exist_ok=True)
    with _path(name).open("w", encoding="utf-8", newline="") as handle:
        writer = csv.DictWriter(handle, fieldnames=list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def read_rows(name: str) -> list[dict[str, str]]:
    """The rows as they were kept, every value as text."""
    with _path(name).open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


def _path(name: str) -> Path:
    return RESULTS / f"{name}.csv"
