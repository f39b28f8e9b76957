"""Reading a case file: a ``Case``, or every fault at once."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from loamshift.case.build import build_case
from loamshift.case.collect import Collected
from loamshift.case.faults import (
    MOST_FAULTS,
    faults_from,
    first_faults,
    longer_lists,
    path_text,
    without_faulty,
)
from loamshift.case.lines import with_lines
from loamshift.case.mend import Mend
from loamshift.case.questions import questions_by_path
from loamshift.case.schema import CaseFile
from loamshift.case.toml_text import parse_toml, read_text
from loamshift.domain.case import Case
from loamshift.errors import CaseError

_MOST_PASSES = 4
"""Tables that are none go in the first pass, their missing keys in the next."""


def read_case(path: Path, *, today: datetime.date | None = None) -> Case:
    """The case in a file.

    Parameters
    ----------
    today
        The date to use where the file names none; None makes that a fault.

    Raises
    ------
    CaseError
        Where the file cannot be used; it carries every fault found.
    """
    text = read_text(path)
    try:
        return parse_case(text, source=str(path), today=today, folder=path.parent)
    except CaseError as error:
        faults = with_lines(error.faults, text)
        raise CaseError(faults, source=str(path), units=error.units) from None


def parse_case(
    text: str,
    *,
    source: str = "case file",
    today: datetime.date | None = None,
    folder: Path | None = None,
) -> Case:
    """The case in a text.

    >>> case = parse_case('case = 1\\ntoday = 2026-04-12\\n[soil]\\nph = 7.2')
    >>> case.soil.ph.ph, str(case.soil.ph.method)
    (7.2, 'unknown')

    Parameters
    ----------
    today
        The date to use where the text names none; None makes that a fault.
    folder
        Folder that a daily file is looked for in; without one a daily file is a fault.

    Raises
    ------
    CaseError
        Where the text cannot be used; it carries every fault found.
    """
    tree = parse_toml(text, source=source)
    return case_from_tree(tree, source=source, today=today, folder=folder)


def case_from_tree(
    tree: Mapping[str, Any],
    *,
    source: str,
    today: datetime.date | None = None,
    folder: Path | None = None,
) -> Case:
    """The case in the keys of a case file, already taken out of its text.

    Parameters
    ----------
    tree
        Values by key, nested as in the file.
    today
        The date to use where the keys name none; None makes that a fault.
    folder
        Folder that a daily file is looked for in; without one a daily file is a fault.

    Raises
    ------
    CaseError
        Where the keys cannot be used; it carries every fault found.
    """
    from pydantic import ValidationError

    units = _units_asked(tree)
    bad: list[str] = []
    faults, current = longer_lists(tree)
    untold = 0
    file: CaseFile | None = None
    for _ in range(_MOST_PASSES):
        try:
            file = CaseFile.model_validate(current)
            break
        except ValidationError as error:
            errors = error.errors(include_url=False)
            faults += faults_from(errors[:MOST_FAULTS])
            untold += max(len(errors) - MOST_FAULTS, 0)
            locs = [details["loc"] for details in errors]
            bad += [path_text(loc) for loc in locs]
            current = without_faulty(current, locs)
    if file is None:
        raise CaseError(first_faults(faults, untold=untold), source=source, units=units)
    collected = Collected(bad=frozenset(bad))
    case = build_case(file, today=today, folder=folder, collected=collected)
    faults += collected.faults
    if case is None or faults:
        raise CaseError(first_faults(faults, untold=untold), source=source, units=units)
    return case


def _units_asked(tree: Mapping[str, Any]) -> str:
    """The units of the letter that a file asks for, whatever else is wrong with it."""
    reads = questions_by_path()["units"].reads
    try:
        return str(reads.parse(tree["units"]))
    except (KeyError, Mend):
        return ""
