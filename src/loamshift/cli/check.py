"""``loamshift check``: read case files without answering them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, TodayOption, WordsOption, path_given
from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import given

if TYPE_CHECKING:
    from datetime import date

    from loamshift.domain.case import Case
    from loamshift.errors import CaseError
    from loamshift.report.words import Words

TO_MEND = 1
"""The exit code where a file cannot be used."""


def command(
    files: Annotated[
        list[Path],
        typer.Argument(parser=path_given, metavar="CASE.toml", help=told("cli-help-check-files")),
    ],
    as_json: JsonOption = False,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Read the files, say what cannot be used in each, and end with 1 where anything cannot.

    \b
    Examples:
      loamshift check bed.toml
      loamshift check beds/*.toml --json
    """
    from loamshift.cli.show import clock_today, read_date, words_for
    from loamshift.errors import CaseError

    day = clock_today() if today is None else read_date(today, option="--today")
    reader = words_for(None, words)
    rows = []
    for file in files:
        try:
            found: Case | CaseError = _read(file, day)
        except CaseError as error:
            found = error
        rows.append(_row(file, found, reader))
        if not as_json:
            _tell(file, found, reader)
    if as_json:
        from loamshift.cli.result_json import print_json

        print_json({"files": rows}, reader)
    if any(row["faults"] for row in rows):
        raise typer.Exit(TO_MEND)


def _read(file: Path, day: date) -> Case:
    from loamshift.case.read import read_case

    return read_case(file, today=day)


def _row(file: Path, found: Case | CaseError, words: Words) -> dict[str, Any]:
    """A file for a program: what the reader noticed, or what cannot be used."""
    from loamshift.cli.error_json import error_plain

    if not isinstance(found, Exception):
        return {"file": str(file), "name": found.name, "noticed": found.notes, "faults": []}
    plain = error_plain(found, words, kind="input", code=TO_MEND)
    return {"file": str(file), "name": None, "noticed": [], "faults": plain["faults"]}


def _tell(file: Path, found: Case | CaseError, words: Words) -> None:
    from loamshift.cli.show import say, worded
    from loamshift.report.messages.refusal import refusal

    if isinstance(found, Exception):
        say(refusal(found, words))
        if not (file.suffix or file.exists()):
            say(f"  {worded(_meant_a_claim(file), words)}")
        return
    say(worded(message("cli-check-good", file=given(file), name=given(found.name)), words))
    for note in found.notes:
        say(f"  {worded(note, words)}")


def _meant_a_claim(file: Path) -> Message:
    """Where to go with the name of a material, which was no file."""
    return message("cli-check-no-claim", material=given(file))
