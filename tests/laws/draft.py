"""A case file before it is written."""

from __future__ import annotations

import copy
import json
from dataclasses import dataclass, field

Literal = str
"""A value as a case file has it."""


@dataclass
class Draft:
    """A case file before it is written: tables by header, in order, and their keys."""

    top: dict[str, Literal] = field(default_factory=dict)
    tables: list[tuple[str, dict[str, Literal]]] = field(default_factory=list)

    def table(self, name: str) -> dict[str, Literal]:
        """The one table of that name, made where it is missing."""
        for header, keys in self.tables:
            if header == f"[{name}]":
                return keys
        self.tables.append((f"[{name}]", {}))
        return self.tables[-1][1]

    def has(self, name: str) -> bool:
        """Whether a table of that name holds anything."""
        return any(header == f"[{name}]" and keys for header, keys in self.tables)

    def add(self, name: str, keys: dict[str, Literal]) -> None:
        """One more entry of a list of tables."""
        self.tables.append((f"[[{name}]]", keys))

    def copy(self) -> Draft:
        """The same draft, to be changed."""
        return copy.deepcopy(self)

    def text(self) -> str:
        """The case file."""
        lines = [f"{key} = {value}" for key, value in self.top.items()]
        for header, keys in self.tables:
            if keys or header.startswith("[["):
                lines += ["", header, *(f"{key} = {value}" for key, value in keys.items())]
        return "\n".join(lines) + "\n"


def quoted(text: str) -> Literal:
    """A text as a case file has it."""
    return json.dumps(text, ensure_ascii=False)


def number(value: float, digits: int = 1) -> Literal:
    """A number as a case file has it."""
    return f"{round(value, digits):.{digits}f}"
