"""``loamshift intake``: a laboratory's file understood, asked about, and made into cases."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loamshift.cli.help_text import told
from loamshift.cli.options import JsonOption, TodayOption, WordsOption
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from loamshift.case.intake.proposal import Proposal


class As(StrEnum):
    """What the rows become."""

    CASES = "cases"
    CSV = "csv"


def command(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=told("cli-help-intake-file"))],
    map_file: Annotated[
        Path | None,
        typer.Option("--map", metavar="MAP", help=told("cli-help-intake-map"), show_default=False),
    ] = None,
    answers: Annotated[
        list[str] | None,
        typer.Option(
            "--answer",
            metavar="QUESTION=ANSWER",
            help=told("cli-help-intake-answer"),
            show_default=False,
        ),
    ] = None,
    become: Annotated[
        As | None, typer.Option("--as", help=told("cli-help-intake-as"), show_default=False)
    ] = None,
    to: Annotated[
        Path | None,
        typer.Option("--to", metavar="PATH", help=told("cli-help-intake-to"), show_default=False),
    ] = None,
    beds: Annotated[
        list[Path] | None,
        typer.Option(
            "--beds", metavar="CASE.toml", help=told("cli-help-intake-beds"), show_default=False
        ),
    ] = None,
    as_json: JsonOption = False,
    words: WordsOption = None,
    today: TodayOption = None,
) -> None:
    """Read a laboratory's file, say what it means and what must be asked, and make cases of it.

    \b
    Examples:
      loamshift intake report.xlsx
      loamshift intake report.pdf --map riverside.toml
      loamshift intake report.csv --answer "pH: method=CaCl2" --as cases --to beds
      loamshift intake notes.csv --beds beds
    """  # fmt: skip
    from loamshift.case.intake.answers import checked_answers, read_map, typed_answers
    from loamshift.case.intake.propose import propose
    from loamshift.case.intake.sheets import read_sheets
    from loamshift.cli.intake_text import finding_lines, proposal_lines
    from loamshift.cli.show import clock_today, read_date, say, words_for

    day = clock_today() if today is None else read_date(today, option="--today")
    reader = words_for(None, words)
    typed = typed_answers(answers or ())
    remembered = read_map(map_file) if map_file is not None else {}
    known = {**remembered, **checked_answers(typed, source="--answer")}
    sheets = read_sheets(file)
    if beds:
        from loamshift.cli.intake_notes import notes

        notes(file, sheets, beds, known, day=day, to=to, as_json=as_json, words=reader)
        return
    proposal = propose(sheets, known, today=day)
    if map_file is not None:
        _remember(map_file, proposal, typed)
    if become is not None:
        _make(become, proposal, file=file, to=to, day=day)
    if as_json:
        from loamshift.cli.result_json import print_long_json

        print_long_json(
            {
                "mapping": proposal.mapping,
                "rows": proposal.rows,
                "findings": proposal.findings,
            },
            reader,
        )
    elif become is None:
        for line in proposal_lines(file.name, proposal, reader):
            say(line)
    elif become is As.CASES:
        for line in finding_lines(proposal.findings, reader):
            say(line)


def _remember(map_file: Path, proposal: Proposal, typed: dict[str, str]) -> None:
    """Write new answers and open questions into the mapping file, whole or not at all."""
    from loamshift.case.intake.answers import map_text
    from loamshift.cli.files import write_whole
    from loamshift.cli.show import tell

    before = map_file.read_text(encoding="utf-8-sig") if map_file.exists() else ""
    after = map_text(before, proposal, typed)
    if after != before:
        write_whole(map_file, after, replace=True)
        tell(message("intake-map-written", file=given(map_file)))


def _make(become: As, proposal: Proposal, *, file: Path, to: Path | None, day: date) -> None:
    from loamshift.case.intake.entered import case_files, table_text
    from loamshift.case.intake.propose import confirmed
    from loamshift.cli.files import write_whole
    from loamshift.cli.show import tell

    rows = confirmed(proposal)
    if not rows:
        raise WordedError(message("intake-nothing-to-enter", file=given(file)))
    if become is As.CSV:
        text = table_text(rows)
        if to is None:
            import sys

            sys.stdout.write(text)
        else:
            write_whole(to, text, replace=False)
            tell(message("intake-table-written", file=given(to), count=len(rows)))
        return
    folder = to if to is not None else Path(f"{file.stem}-cases")
    write_folder(folder, list(case_files(rows, today=day)))
    tell(message("intake-cases-written", folder=given(folder), count=len(rows)))


def write_folder(folder: Path, files: Sequence[tuple[str, str]]) -> None:
    """Write a new folder of files, all of them or none; one that holds anything is refused.

    Raises
    ------
    WordedError
        Where the folder holds files already, or cannot be written.
    """
    import shutil
    import tempfile

    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WordedError(message("intake-folder-taken", folder=given(folder)))
    parent = folder.absolute().parent
    if not parent.is_dir():
        raise WordedError(message("cli-no-folder", path=given(parent)))
    try:
        made = Path(tempfile.mkdtemp(dir=parent, prefix=f".{folder.name[:40]}."))
    except OSError as error:
        raise WordedError(
            message("cli-cannot-write-into", path=given(parent), why=given(error.strerror or error))
        ) from error
    try:
        for name, text in files:
            (made / name).write_text(text, encoding="utf-8")
        made.chmod(0o755)
        if folder.is_dir():
            folder.rmdir()
        made.rename(folder)
    except OSError as error:
        raise WordedError(
            message("cli-cannot-write", path=given(folder), why=given(error.strerror or error))
        ) from error
    finally:
        shutil.rmtree(made, ignore_errors=True)
