"""The one tree of exceptions and warnings.

A finding is never an exception: it is a row of the answer. An exception means that no
answer can be given until somebody mends something.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field


class LoamshiftError(Exception):
    """Root of every error this package raises on purpose."""


class InputError(LoamshiftError):
    """Something the user gave cannot be used; the message says what to do next."""


class OutOfRangeError(InputError):
    """A value lies outside what is physically possible or what the model covers."""


class TableError(LoamshiftError):
    """A shipped table is broken: our fault, never the user's."""


class FitError(LoamshiftError):
    """Parameters could not be fitted to the readings given."""


class DeviceError(LoamshiftError):
    """A graphics card was asked for and cannot do the work; the message says what to do next."""


@dataclass(frozen=True)
class Fault:
    """One thing wrong with an input, with its place and its mend.

    Attributes
    ----------
    line
        Line of the file, where it is known [count].
    """

    path: str
    given: str
    problem: str
    mend: str
    line: int | None = field(default=None, kw_only=True)

    @property
    def names_a_line(self) -> bool:
        """Whether it is about a line as a whole, whose number is its path."""
        return self.path.startswith("line ")

    def __str__(self) -> str:
        """One line: place, what is wrong, what is right; what stood there is named once."""
        place = self.path if self.line is None else f"line {self.line}, {self.path}"
        said = f"{self.problem} {self.mend}".strip()
        told = self.given in ("", self.path) or "“" in self.problem or self.names_a_line
        return f"{place}: {said}" if told else f"{place}, “{self.given}”: {said}"


class CaseError(InputError):
    """A case file cannot be used; carries every fault found, not just the first.

    Doors word the faults for their reader; ``str()`` has the same in British English. ``units``
    are those that the file itself asks for, empty where it asks for none.
    """

    def __init__(
        self, faults: Sequence[Fault], *, source: str = "case file", units: str = ""
    ) -> None:
        self.faults = tuple(faults)
        self.source = source
        self.units = units
        count = len(self.faults)
        problems = "1 problem" if count == 1 else f"{count} problems"
        head = f"{problems} in {source}. Nothing has been calculated."
        super().__init__("\n".join([head, *(f"  {fault}" for fault in self.faults)]))


class LoamshiftWarning(UserWarning):
    """Root of every warning this package issues."""


class ExtrapolationWarning(LoamshiftWarning):
    """A relation is used outside the range it was measured in."""
