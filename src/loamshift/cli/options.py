"""Options that several commands share."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, TypeAlias

import typer


class UnitsChoice(StrEnum):
    """Units of what is printed."""

    METRIC = "metric"
    US = "us"


class WordsChoice(StrEnum):
    """Spelling of what is printed."""

    UK = "uk"
    US = "us"


UnitsOption: TypeAlias = Annotated[
    UnitsChoice | None,
    typer.Option(
        "--units",
        help="Units to print: kg and m², or lb and ft². As the case says, else metric.",
        show_default=False,
    ),
]
WordsOption: TypeAlias = Annotated[
    WordsChoice | None,
    typer.Option(
        "--words",
        help="Spelling to print: sulphur and 20 April, or sulfur and April 20. "
        "Follows the units unless given.",
        show_default=False,
    ),
]
TodayOption: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--today",
        metavar="DATE",
        help="The date the answer is for, as 2026-04-12; else the case's own, else today.",
        show_default=False,
    ),
]
JsonOption: TypeAlias = Annotated[
    bool, typer.Option("--json", help="Print the answer as JSON instead of words.")
]
