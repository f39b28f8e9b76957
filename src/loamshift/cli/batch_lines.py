"""A case of many for a program: one line of JSON, or one row of a CSV table."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Sequence
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from loamshift.cli.error_json import FAULT_KEYS, one_line
from loamshift.domain.spreadsheet_text import spreadsheet_text

if TYPE_CHECKING:
    from loamshift.cli.answering import Answered
    from loamshift.domain.answer import Answer


class Listing(Enum):
    """What is printed of many cases."""

    TABLE = "table"
    JSON = "json"
    CSV = "csv"


ANSWER_COLUMNS: Final = (
    *("name", "today", "decision", "reason", "direction", "parts"),
    *("first_date", "first_material", "first_rate_g_m2", "first_amount_g", "retest"),
)
COLUMNS: Final = ("case", "exit_code", *ANSWER_COLUMNS, "files", "faults", *FAULT_KEYS)
"""Of the faults the first is told in full."""


def heading(listing: Listing) -> str:
    """The line above the first case; empty where there is none."""
    return _row(COLUMNS) if listing is Listing.CSV else ""


def case_line(
    listing: Listing,
    case: Path,
    *,
    code: int,
    done: Answered | None = None,
    error: dict[str, Any] | None = None,
    files: Sequence[Path] = (),
) -> str:
    """The line of one case, without its line end.

    Parameters
    ----------
    code
        The exit code that the case would have alone [code].
    done
        Its answer; None where there is none.
    error
        What went wrong in plain data; None where nothing did.
    """
    if listing is Listing.TABLE:
        return ""
    if listing is Listing.JSON:
        return one_line(
            {
                "case": str(case),
                "exit_code": code,
                "answer": None if done is None else json.loads(done.json()),
                "error": error,
                "files": [str(path) for path in files],
            }
        )
    answered = [""] * len(ANSWER_COLUMNS) if done is None else _answer_cells(done.answer)
    faults = [] if error is None else error["faults"]
    first = [faults[0][key] for key in FAULT_KEYS] if faults else [""] * len(FAULT_KEYS)
    names = " ".join(str(path) for path in files)
    return _row([str(case), code, *answered, names, len(faults), *first])


def _answer_cells(answer: Answer) -> list[object]:
    first = answer.applications[0] if answer.applications else None
    return [
        answer.name,
        answer.today,
        answer.verdict.decision.value,
        answer.verdict.reason,
        answer.dose.direction.value,
        len(answer.applications),
        *(
            [""] * 4
            if first is None
            else [
                first.date,
                first.material,
                _figure(first.rate_g_m2),
                _figure(first.amount_g),
            ]
        ),
        answer.retest[0] if answer.retest else "",
    ]


def _figure(value: float | None) -> str:
    """A figure to six digits, as spreadsheets take it; empty for None."""
    return "" if value is None else f"{value:.6g}"


def _row(cells: Sequence[object]) -> str:
    text = io.StringIO()
    safe = [spreadsheet_text(cell) if isinstance(cell, str) else cell for cell in cells]
    csv.writer(text, lineterminator="").writerow(safe)
    return text.getvalue()
