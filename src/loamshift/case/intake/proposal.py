"""What was understood of a file: its columns with their reasons, its rows, and what is asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from loamshift.domain.decision import Severity
from loamshift.domain.message import Message, Prose

if TYPE_CHECKING:
    from loamshift.case.intake.table import Table


class Aspect(StrEnum):
    """What of a column can be asked and answered."""

    MEANING = "meaning"
    UNIT = "unit"
    METHOD = "method"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in the file: row from 1 or 0 for a whole column, column letters or empty."""

    sheet: str
    row: int = 0
    column: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnMeaning:
    """One column as understood.

    ``meaning`` is its key in the table of header words, empty where nothing was recognised;
    ``path`` the key of the case file it enters, empty where a case has none. ``unit`` is the unit
    its figures are in, and ``method`` how they were measured, as far as known. What is not
    ``sure`` enters no case before it is confirmed.
    """

    place: Place
    heading: str
    meaning: str
    path: str
    unit: str
    method: str
    reason: Prose
    sure: bool
    remembered: bool = False
    values: tuple[str, ...] = ()
    """The first few cells, as they stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something noticed, with a plain question where one is to be answered.

    ``key`` is what an answer names, such as ``pH: method``; ``choices`` are the answers that are
    understood, empty where any value of the key may be given. ``count`` says how many rows it is
    about; ``places`` names the first of them.
    """

    code: str
    severity: Severity
    said: Message
    question: Message | None = None
    key: str = ""
    choices: tuple[str, ...] = ()
    places: tuple[Place, ...] = ()
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleRow:
    """One sample: the keys of the case file that it fills, as a person would type them.

    ``limits`` holds what the laboratory gave as below or above a limit, which is no figure, and
    ``doubted`` what is held back until its question is answered.
    """

    place: Place
    sample: str
    values: Mapping[str, object]
    limits: Mapping[str, str] = field(default_factory=dict)
    doubted: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A file as understood; nothing of it has entered anything."""

    mapping: tuple[ColumnMeaning, ...]
    rows: tuple[SampleRow, ...]
    findings: tuple[Finding, ...]
    tables: tuple[Table, ...]
    answers: Mapping[str, str]

    @property
    def questions(self) -> tuple[Finding, ...]:
        """What is still to be answered."""
        return tuple(one for one in self.findings if one.question is not None)
