"""The readings of a trial beside it: every row of every sheet as it was read."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from typing import Final

from loamshift.domain.spreadsheet_text import spreadsheet_text
from loamshift.domain.trial import TrialPlan
from loamshift.domain.trial_result import RowRead

COLUMNS: Final = ("pot", "day", "date", "ph", "method", "note")


def rows_csv(rows: Sequence[RowRead]) -> str:
    """Rows as CSV, to be read back by ``read_record``."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for row in rows:
        writer.writerow(
            (
                spreadsheet_text(row.pot),
                "" if row.day is None else row.day,
                "" if row.on is None else row.on.isoformat(),
                row.ph,
                "" if row.method is None else row.method.value,
                spreadsheet_text(row.note),
            )
        )
    return out.getvalue()


def of_trial(plan: TrialPlan, rows: Sequence[RowRead]) -> tuple[RowRead, ...]:
    """Rows that belong to a place and a day; the others wait in their sheet to be corrected."""
    labels = {place.label.casefold() for place in plan.places}
    return tuple(
        row
        for row in rows
        if row.pot.casefold() in labels and (row.day is not None or row.on is not None)
    )


def merged(kept: Sequence[RowRead], new: Sequence[RowRead]) -> tuple[RowRead, ...]:
    """Rows kept and new ones; a pot that a new sheet reads on a day replaces what was kept of it.

    >>> merged((), ())
    ()
    """
    again = {(row.pot, row.day, row.on if row.day is None else None) for row in new}
    rest = [
        row for row in kept if (row.pot, row.day, row.on if row.day is None else None) not in again
    ]
    return (*rest, *new)
