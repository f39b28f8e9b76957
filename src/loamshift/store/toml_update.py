"""Other values in a TOML text of a person's own: the remarks, the order and the layout stay."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from difflib import SequenceMatcher
from typing import Any, Final

from loamshift.store.toml_out import as_json, inline_value, is_tables, key_text, toml_text

Place = tuple[str | int, ...]
_MOST_LINES: Final = 400
"""So many lines may one value take [count]."""
_ABSENT: Final = object()


def with_values(text: str, tree: Mapping[str, Any]) -> str:
    """A text that reads as a tree, with what stands in it otherwise left as it is written.

    A remark goes only with the line, or the entry of a list, that it stands on or above. Where
    a text is laid out in a way that cannot be followed, its remarks stand above a new one.

    >>> print(with_values("ph = 6.8  # by the lab", {"ph": 7.0, "name": "A"}))
    ph = 7.0  # by the lab
    name = "A"
    <BLANKLINE>

    Parameters
    ----------
    tree
        Tables as JSON holds them, days as texts.
    """
    try:
        old = tomllib.loads(text)
        if as_json(old) == tree:
            return text
        made = _Update(text, old, tree).text()
        if as_json(tomllib.loads(made)) == tree:
            return made
    except (ValueError, LookupError, TypeError, RecursionError):
        pass
    remarks = [remark for line in text.splitlines() if (remark := _remark(line))]
    return "\n".join([*remarks, toml_text(tree)])


@dataclass(frozen=True, slots=True)
class _Line:
    """A key with its value, over as many lines as it takes; or lines that hold none."""

    raw: str
    keys: tuple[str, ...] = ()
    value: Any = None


@dataclass(slots=True)
class _Section:
    """A header with what stands above and below it; the first has no header."""

    lead: str
    header: str
    place: Place
    lines: list[_Line] = field(default_factory=list)


class _Update:
    """One text being given other values."""

    def __init__(self, text: str, old: Mapping[str, Any], tree: Mapping[str, Any]) -> None:
        self.old, self.tree = old, tree
        self.moved: dict[Place, dict[int, int]] = {}
        self.sections = list(_sections(text))
        self.end = "\r\n" if "\r\n" in text else "\n"
        self.written: set[Place] = {(), *(_tables_in(old))}

    def text(self) -> str:
        parts: list[str] = []
        for section in self.sections:
            place = self._now(section.place)
            if place is None or not isinstance(_at(self.tree, place), Mapping):
                continue
            if place and isinstance(place[-1], int):
                parts += self._entries_before(place)
            self.written.add(place)
            parts.append(section.lead + section.header + self._body(section, place))
            if place and isinstance(place[-1], int):
                parts += self._entries_after(place)
        parts += self._new_tables(self.tree, ())
        return "".join(part for part in parts if part)

    def _now(self, place: Place) -> Place | None:
        """Where an old table stands now; None where it is gone."""
        there: Place = ()
        for step, key in enumerate(place):
            if isinstance(key, int):
                key = self._matched(place[:step], there).get(key, -1)
                if key < 0:
                    return None
            there = (*there, key)
        return there

    def _matched(self, before: Place, now: Place) -> dict[int, int]:
        """Entries of an old list by their places, with their places in the new one."""
        if before not in self.moved:
            left, right = _entries(_at(self.old, before)), _entries(_at(self.tree, now))
            found: dict[int, int] = {}
            for kind, a, end_a, b, end_b in SequenceMatcher(a=left, b=right).get_opcodes():
                pairs = zip(range(a, end_a), range(b, end_b), strict=False)
                if kind in ("equal", "replace"):
                    found.update((i, j) for i, j in pairs if left[i] & right[j])
            self.moved[before] = found
        return self.moved[before]

    def _entries_before(self, place: Place) -> Iterator[str]:
        """New entries of a list that come before all that stood in it."""
        first = min(self._kept_entries(place), default=0)
        if place[-1] == first:
            yield from (self._entry((*place[:-1], number)) for number in range(first))

    def _entries_after(self, place: Place) -> Iterator[str]:
        """New entries that come before the next one that stood in the list."""
        *_, number = place
        assert isinstance(number, int)
        count = len(_at(self.tree, place[:-1]))
        later = [one for one in self._kept_entries(place) if one > number]
        for new in range(number + 1, min(later, default=count)):
            yield self._entry((*place[:-1], new))

    def _kept_entries(self, place: Place) -> list[int]:
        before = next(one for one in self.moved if self._now(one) == place[:-1])
        return list(self.moved[before].values())

    def _entry(self, place: Place) -> str:
        self.written.add(place)
        return self._table(_at(self.tree, place), place, "[[{}]]")

    def _body(self, section: _Section, place: Place) -> str:
        table = _at(self.tree, place)
        before = _at(self.old, section.place)
        parts = [self._line(line, table) for line in section.lines]
        new = [
            f"{key_text(key)} = {inline_value(value)}{self.end}"
            for key, value in table.items()
            if key not in before and not isinstance(value, Mapping) and not is_tables(value)
        ]
        if new:
            last = max((n for n, line in enumerate(section.lines, 1) if line.keys), default=0)
            parts = [self._ended("".join(parts[:last])), *new, *parts[last:]]
        return self._ended("".join(parts))

    def _ended(self, text: str) -> str:
        return text if not text or text.endswith("\n") else text + self.end

    def _line(self, line: _Line, table: Mapping[str, Any]) -> str:
        if not line.keys:
            return line.raw
        value = _at(table, line.keys)
        if value is _ABSENT:
            return ""
        if _same(as_json(line.value), value):
            return line.raw
        key, _, rest = line.raw.partition("=")
        said = inline_value(value)
        if isinstance(line.value, date) and isinstance(value, str) and _is_day(value):
            said = value
        lines = rest.splitlines()
        remark = _remark(lines[-1]) if lines else ""
        inner = [f"{one}{self.end}" for part in lines[:-1] if (one := _remark(part))]
        return "".join([*inner, f"{key}= {said}", f"  {remark}" if remark else "", self.end])

    def _new_tables(self, node: Mapping[str, Any], place: Place) -> Iterator[str]:
        """Tables and lists of tables that the text did not have."""
        for key, value in node.items():
            there = (*place, key)
            if isinstance(value, Mapping):
                if there not in self.written and _at(self.old, there) is _ABSENT:
                    self.written.add(there)
                    yield self._table(value, there, "[{}]")
                yield from self._new_tables(value, there)
            elif is_tables(value) and not is_tables(_at(self.old, there)):
                yield from (self._entry((*there, number)) for number in range(len(value)))

    def _table(self, table: Mapping[str, Any], place: Place, header: str) -> str:
        name = ".".join(key_text(key) for key in place if isinstance(key, str))
        lines = [
            f"{key_text(key)} = {inline_value(value)}{self.end}"
            for key, value in table.items()
            if not isinstance(value, Mapping) and not is_tables(value)
        ]
        return "".join([self.end, header.format(name), self.end, *lines])


def _sections(text: str) -> Iterator[_Section]:
    """A text parted at its headers; remarks right above a header belong to it."""
    section = _Section("", "", ())
    counts: dict[Place, int] = {}
    for line in _lines(text):
        if not line.raw.lstrip().startswith("["):
            section.lines.append(line)
            continue
        start = len(section.lines)
        for begins in ("#", ""):  # remarks right above, and the blank lines before them
            while start and section.lines[start - 1].raw.strip()[:1] == begins:
                start -= 1
        lead = "".join(one.raw for one in section.lines[start:])
        del section.lines[start:]
        yield section
        section = _Section(lead, line.raw, _place(line.raw, counts))
    yield section


def _lines(text: str) -> Iterator[_Line]:
    """Headers, blank lines and remarks one by one, keys with the whole of their values."""
    left = text.splitlines(keepends=True)
    while left:
        first = left[0].strip()
        if not first or first.startswith(("#", "[")):
            yield _Line(left.pop(0))
            continue
        for count in range(1, min(len(left), _MOST_LINES) + 1):
            raw = "".join(left[:count])
            try:
                node: Any = tomllib.loads(raw)
            except tomllib.TOMLDecodeError:
                continue
            keys = _keys(raw)
            for key in keys:
                node = node[key]
            yield _Line(raw, keys, node)
            del left[:count]
            break
        else:
            raise ValueError(first)


def _keys(raw: str) -> tuple[str, ...]:
    """The keys before the equals sign; a key with a sign of its own is not followed."""
    node: Any = tomllib.loads(raw.partition("=")[0] + "= 0")
    keys = []
    while isinstance(node, dict):
        ((key, node),) = node.items()
        keys.append(key)
    return tuple(keys)


def _place(header: str, counts: dict[Place, int]) -> Place:
    """Where a header opens its table; an entry of a list is counted."""
    node: Any = tomllib.loads(header)
    place: Place = ()
    while node:
        ((key, node),) = node.items()
        place = (*place, key)
        if isinstance(node, list):
            counts[place] = counts.get(place, -1) + 1
            return (*place, counts[place])
        if node and place in counts:
            place = (*place, counts[place])
    return place


def _at(tree: Any, place: Sequence[str | int]) -> Any:
    for key in place:
        if isinstance(key, int):
            tree = tree[key] if isinstance(tree, list) and key < len(tree) else _ABSENT
        else:
            tree = tree.get(key, _ABSENT) if isinstance(tree, Mapping) else _ABSENT
    return tree


def _entries(value: Any) -> list[frozenset[tuple[str, str]]]:
    """Entries of a list by what stands in them; two that share something are taken for one."""
    entries = value if isinstance(value, list) else []
    return [
        frozenset((key, json.dumps(as_json(one), sort_keys=True)) for key, one in entry.items())
        for entry in entries
        if isinstance(entry, Mapping)
    ]


def _tables_in(tree: Mapping[str, Any], place: Place = ()) -> Iterator[Place]:
    for key, value in tree.items():
        if isinstance(value, Mapping):
            yield (*place, key)
            yield from _tables_in(value, (*place, key))


def _same(left: Any, right: Any) -> bool:
    return bool(left == right) and isinstance(left, bool) == isinstance(right, bool)


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _remark(line: str) -> str:
    """The remark at the end of a line, or of a line that holds nothing else."""
    for found in re.finditer("#", line):
        before = line[: found.start()]
        if before.count('"') % 2 == 0 and before.count("'") % 2 == 0:
            return line[found.start() :].rstrip()
    return ""
