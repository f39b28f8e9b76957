"""Readings noted in the field: matched to the beds of case files, and written into copies."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from loamshift.cli.intake_text import finding_lines
from loamshift.cli.show import say, tell, worded
from loamshift.domain.message import Given, message
from loamshift.domain.message import ph as ph_of
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from datetime import date

    from loamshift.case.intake.field_notes import FieldNotes
    from loamshift.case.intake.sheet import Sheet
    from loamshift.report.words import Words


def notes(
    file: Path,
    sheets: Sequence[Sheet],
    beds: Sequence[Path],
    known: Mapping[str, str],
    *,
    day: date,
    to: Path | None,
    as_json: bool,
    words: Words,
) -> None:
    """Match the readings of a file to beds, print them, and write copies of the cases with them."""
    from loamshift.case.intake.field_notes import read_field_notes
    from loamshift.case.read import read_case

    cases = {path: read_case(path, today=day) for path in _case_files(beds)}
    found = read_field_notes(sheets, [c.name for c in cases.values()], known, today=day)
    names = {path: case.name for path, case in cases.items()}
    if as_json:
        from loamshift.cli.result_json import print_json

        if to is not None:
            _write(to, names, found, file=file, day=day)

        plain = {
            "mapping": found.proposal.mapping,
            "readings": found.readings,
            "findings": found.findings,
        }
        print_json(plain, words)
        return
    say(
        worded(
            message(
                "intake-notes-head",
                file=Given(file.name),
                count=len(found.readings),
                beds=len({one.bed for one in found.readings}),
            ),
            words,
        )
    )
    for one in found.readings:
        reading = message(
            "intake-notes-line",
            bed=Given(one.bed),
            ph=ph_of(float(str(one.values["ph"]))),
            method=Given(str(one.values.get("ph_method", "unknown"))),
            on=_day(one.values["date"]),
        )
        say(f"  {worded(reading, words)}")
    for line in finding_lines(found.findings, words):
        say(line)
    if to is not None:
        _write(to, names, found, file=file, day=day)


def _day(value: object) -> date:
    from datetime import date

    assert isinstance(value, date)
    return value


def _case_files(beds: Sequence[Path]) -> list[Path]:
    """The case files named, and all of a folder that is named."""
    files: list[Path] = []
    for path in beds:
        files += sorted(path.glob("*.toml")) if path.is_dir() else [path]
    if not files:
        raise WordedError(message("intake-no-beds", path=given(beds[0])))
    return files


def _write(
    to: Path, names: Mapping[Path, str], found: FieldNotes, *, file: Path, day: date
) -> None:
    """Copies of the cases that got readings, with the readings behind what stands there."""
    from loamshift.case.intake.entered import with_readings
    from loamshift.cli.intake import write_folder

    files = []
    for path, name in names.items():
        readings = [one.values for one in found.readings if one.bed == name]
        if readings:
            text = path.read_text(encoding="utf-8-sig")
            files.append((path.name, with_readings(text, readings, today=day)))
    if not files:
        raise WordedError(message("intake-no-reading-to-enter", file=given(file)))
    write_folder(to, files)
    tell(message("intake-cases-written", folder=given(to), count=len(files)))
