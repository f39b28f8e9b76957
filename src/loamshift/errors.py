"""The one tree of exceptions and warnings.

A finding is never an exception: it is a row of the answer. An exception means that no
answer can be given until somebody mends something.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


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


@dataclass(frozen=True)
class Fault:
    """One thing wrong with an input, with its place and its mend.

    Attributes
    ----------
    path
        Where in the case file, for example ``soil.ph`` or ``applied[2].amount`` [text].
    given
        What stood there, shortened [text].
    problem
        What is wrong, in one clause [text].
    mend
        What is right, or what to do next [text].
    """

    path: str
    given: str
    problem: str
    mend: str

    def __str__(self) -> str:
        """One line: place, what was given, what is wrong, what is right."""
        given = f" (given: {self.given})" if self.given else ""
        return f"{self.path}: {self.problem}{given}. {self.mend}"


class CaseError(InputError):
    """A case file cannot be used; carries every fault found, not just the first."""

    def __init__(self, faults: Sequence[Fault], *, source: str = "case file") -> None:
        self.faults = tuple(faults)
        self.source = source
        count = len(self.faults)
        head = f"{source}: {count} thing{'s' if count != 1 else ''} to mend"
        super().__init__("\n".join([head, *(f"  {fault}" for fault in self.faults)]))


class LoamshiftWarning(UserWarning):
    """Root of every warning this package issues."""


class ExtrapolationWarning(LoamshiftWarning):
    """A relation is used outside the range it was measured in."""


class MethodMismatchWarning(LoamshiftWarning):
    """Values by different methods are being compared after conversion."""


class UncitedValueWarning(LoamshiftWarning):
    """A value without a source carries weight in an answer."""


class OldSampleWarning(LoamshiftWarning):
    """A soil sample is old enough that the soil may have moved since."""
