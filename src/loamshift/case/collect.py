"""Gathering faults and notes while a case is put together, so that all are told at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from loamshift.case.mend import Mend, fault_of
from loamshift.domain.material import Material
from loamshift.domain.message import Given, Message, message
from loamshift.errors import Fault


@dataclass
class Collected:
    """Faults and notes found so far; ``bad`` holds paths that were already reported."""

    bad: frozenset[str] = frozenset()
    faults: list[Fault] = field(default_factory=list)
    notes: list[Message] = field(default_factory=list)
    products: dict[str, Material] = field(default_factory=dict)
    """Products of the case known by their label, by key."""

    def fault(self, path: str, given: object, wrong: Message, *right: Message) -> None:
        """Add one fault, unless its path was reported before."""
        if not self.is_bad(path):
            self.faults.append(fault_of(path, given, wrong, *right))

    def mend(self, path: str, given: object, mend: Mend) -> None:
        """Add what a parser said about the value at a path."""
        self.fault(path, given, mend.wrong, *mend.right)

    def note(self, path: str, note: Message) -> None:
        """Add one note about the value at a path, once."""
        noted = message("case-note-at", path=Given(path), note=note)
        if noted not in self.notes:
            self.notes.append(noted)

    def notes_from(self, path: str, notes: Iterable[Message]) -> None:
        """Add several notes about the value at a path."""
        for note in notes:
            self.note(path, note)

    def is_bad(self, *paths: str) -> bool:
        """True where one of these paths, or a table they are in, was reported before."""
        return any(
            path == bad or path.startswith((f"{bad}.", f"{bad}["))
            for path in paths
            for bad in self.bad
        )
