"""Gathering faults and notes while a case is put together, so that all are told at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from loamshift.case.mend import Mend, shown
from loamshift.domain.material import Material
from loamshift.errors import Fault


@dataclass
class Collected:
    """Faults and notes found so far; ``bad`` holds paths that were already reported."""

    bad: frozenset[str] = frozenset()
    faults: list[Fault] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    products: dict[str, Material] = field(default_factory=dict)
    """Products of the case known by their label, by key."""

    def fault(self, path: str, given: object, problem: str, mend: str) -> None:
        """Add one fault, unless its path [text] was reported before."""
        if not self.is_bad(path):
            text = "" if given is None else shown(given)
            self.faults.append(Fault(path, text, problem, mend))

    def mend(self, path: str, given: object, mend: Mend) -> None:
        """Add what a parser said about the value at a path [text]."""
        self.fault(path, given, mend.problem, mend.mend)

    def note(self, text: str) -> None:
        """Add one note [text], once."""
        if text not in self.notes:
            self.notes.append(text)

    def notes_from(self, texts: Iterable[str]) -> None:
        """Add several notes [text]."""
        for text in texts:
            self.note(text)

    def is_bad(self, *paths: str) -> bool:
        """True where one of these paths [text], or a table they are in, was reported before."""
        return any(
            path == bad or path.startswith((f"{bad}.", f"{bad}["))
            for path in paths
            for bad in self.bad
        )
