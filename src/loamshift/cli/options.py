"""Options that several commands share."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated, TypeAlias

import typer

from loamshift.cli.help_text import told
from loamshift.domain.message import message


class UnitsChoice(StrEnum):
    """Units of what is printed."""

    METRIC = "metric"
    US = "us"


class WordsChoice(StrEnum):
    """Spelling of what is printed."""

    UK = "uk"
    US = "us"


class Shape(StrEnum):
    """Shapes of a picture for a talk."""

    SLIDE = "slide"
    SQUARE = "square"


ShapeOption: TypeAlias = Annotated[
    Shape, typer.Option("--shape", help=told("cli-help-claim-shape"))
]
UnitsOption: TypeAlias = Annotated[
    UnitsChoice | None,
    typer.Option(
        "--units",
        help=told("cli-help-options-units"),
        show_default=False,
    ),
]
WordsOption: TypeAlias = Annotated[
    WordsChoice | None,
    typer.Option(
        "--words",
        help=told("cli-help-options-words"),
        show_default=False,
    ),
]
TodayOption: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--today",
        metavar="DATE",
        help=told("cli-help-options-today"),
        show_default=False,
    ),
]
ShortOption: TypeAlias = Annotated[
    bool, typer.Option("--short", help=told("cli-help-options-short"))
]
JsonOption: TypeAlias = Annotated[bool, typer.Option("--json", help=told("cli-help-options-json"))]


def path_given(text: str) -> Path:
    """A file or folder as typed; an empty word would be the current folder, which nobody meant."""
    if not text.strip():
        from loamshift.cli.show import worded

        raise typer.BadParameter(worded(message("cli-no-name-given")))
    return Path(text)
