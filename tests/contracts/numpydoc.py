"""A small reader of numpydoc sections, enough to hold our own docstrings to the law."""

from __future__ import annotations

import inspect
import re
from dataclasses import dataclass

UNIT = re.compile(r"(?<![\w.])\[[^\[\]]+\]")
"""A unit in brackets; ``Sequence[float]`` has its bracket behind a word and is no unit."""
UNDERLINE = re.compile(r"^-{3,}$")


@dataclass(frozen=True)
class Entry:
    """One entry of a Parameters section: the names it describes and all its text."""

    names: tuple[str, ...]
    text: str

    @property
    def has_unit(self) -> bool:
        return bool(UNIT.search(self.text))


def sections(docstring: str) -> dict[str, list[str]]:
    """Lines by section title; what stands before the first title is under ``""``."""
    lines = inspect.cleandoc(docstring).splitlines()
    found: dict[str, list[str]] = {"": []}
    title = ""
    for number, line in enumerate(lines):
        following = lines[number + 1].strip() if number + 1 < len(lines) else ""
        if UNDERLINE.match(following) and line.strip() and not line.startswith(" "):
            title = line.strip()
            found[title] = []
        elif not UNDERLINE.match(line.strip()):
            found[title].append(line)
    return found


def entries(lines: list[str]) -> list[Entry]:
    """The entries of a Parameters section: a line at the margin opens one."""
    found: list[tuple[tuple[str, ...], list[str]]] = []
    for line in lines:
        if not line.strip():
            continue
        if not line.startswith(" "):
            head = line.split(":", 1)[0]
            names = tuple(re.findall(r"\*{0,2}([A-Za-z_]\w*)", UNIT.sub("", head)))
            found.append((names, [line]))
        elif found:
            found[-1][1].append(line)
    return [Entry(names, "\n".join(text)) for names, text in found]


def faults(name: str, docstring: str | None, arguments: list[str], *, returns: bool) -> list[str]:
    """What is missing from the docstring of a function, in words."""
    if not docstring:
        return [f"{name} has no docstring"]
    parts = sections(docstring)
    found = []
    if arguments and "Parameters" not in parts:
        found.append(f"{name}: no Parameters section")
    elif arguments:
        described = {n: e for e in entries(parts["Parameters"]) for n in e.names}
        for argument in arguments:
            if argument not in described:
                found.append(f"{name}: argument {argument} is not described")
            elif not described[argument].has_unit:
                found.append(f"{name}: argument {argument} has no [unit]")
        for stranger in sorted(described.keys() - set(arguments)):
            found.append(f"{name}: describes {stranger}, which is no argument")
    if returns and not any(title in parts for title in ("Returns", "Yields")):
        found.append(f"{name}: no Returns section")
    elif returns:
        text = "\n".join(parts.get("Returns", parts.get("Yields", [])))
        if not UNIT.search(text):
            found.append(f"{name}: Returns has no [unit]")
    return found
