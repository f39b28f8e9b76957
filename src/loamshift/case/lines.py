"""The line of a case file that a key stands on, for messages."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from loamshift.errors import Fault

_HEADER: Final = re.compile(r"\s*(\[\[|\[)\s*([^\[\]]+?)\s*\]{1,2}\s*(?:#.*)?")
_KEY: Final = re.compile(
    r"\s*((?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')(?:\s*\.\s*[A-Za-z0-9_-]+)*)\s*=(.*)"
)
_LONG: Final = ('"""', "'''")
_ENTRY: Final = re.compile(r"\[\d+\]")


def with_lines(faults: Sequence[Fault], text: str) -> list[Fault]:
    """Faults with the line of the text that each is about, where that can be told.

    Returns
    -------
    list of Fault
        The same in the order of the file; a key that is missing has the line of its table.
    """
    found = dict(reversed(list(_lines(text))))
    placed = [replace(fault, line=_line(fault.path, found)) for fault in faults]
    return sorted(placed, key=lambda fault: math.inf if fault.line is None else fault.line)


def _line(path: str, found: dict[str, int]) -> int | None:
    """The line of a path, or of the table or list it is in."""
    while path:
        if path in found:
            return found[path]
        if _ENTRY.search(path[path.rfind("[") :]) and path.endswith("]"):
            path = path[: path.rfind("[")]
        else:
            path = path.rpartition(".")[0]
    return None


def _lines(text: str) -> Iterator[tuple[str, int]]:
    """Each table and key with its path and its line, in the order of the file."""
    table, closes, depth = "", "", 0
    counted: dict[str, int] = {}
    for number, line in enumerate(text.splitlines(), start=1):
        if closes:
            closes = "" if closes in line else closes
            continue
        if depth > 0:
            depth += _depth(line)
            continue
        if header := _HEADER.fullmatch(line):
            name = _plain(header[2])
            if header[1] == "[[":
                counted[name] = counted.get(name, 0) + 1
                table = f"{_inside(name, counted)}[{counted[name]}]"
                yield _inside(name, counted), number
            else:
                table = _inside(name, counted)
            yield table, number
        elif pair := _KEY.match(line):
            key = _plain(pair[1])
            yield (f"{table}.{key}" if table else key), number
            closes = next((mark for mark in _LONG if pair[2].count(mark) == 1), "")
            depth = 0 if closes else _depth(pair[2])


def _inside(name: str, counted: dict[str, int]) -> str:
    """A table by its path: one below a list of entries is in the last of them."""
    above, dot, last = name.rpartition(".")
    if not dot:
        return last
    entry = f"[{counted[above]}]" if above in counted else ""
    return f"{_inside(above, counted)}{entry}.{last}"


def _plain(name: str) -> str:
    return re.sub(r"\s*\.\s*", ".", name.replace('"', "").replace("'", ""))


def _depth(text: str) -> int:
    """By how many brackets a line opens more than it closes, texts and comments left out."""
    bare = re.sub(r'"[^"]*"|\'[^\']*\'|#.*', "", text)
    return sum(bare.count(c) for c in "[{") - sum(bare.count(c) for c in "]}")
