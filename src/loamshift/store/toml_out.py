"""Plain values as TOML that a person can read, and TOML as JSON holds it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date, time
from typing import Any, Final

_BARE: Final = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPED: Final = {
    '"': '\\"',
    "\\": "\\\\",
    "\n": "\\n",
    "\r": "\\r",
    "\t": "\\t",
    "\x7f": "\\u007f",
    **{chr(n): f"\\u{n:04x}" for n in range(32) if chr(n) not in "\n\r\t"},
}

Place = tuple[str | int, ...]


def toml_text(tree: Mapping[str, Any]) -> str:
    """A tree of tables as TOML; it may hold no null, for TOML has none.

    >>> print(toml_text({"a": 1.0, "b": {"c": [{"d": "x"}]}}), end="")
    a = 1.0
    <BLANKLINE>
    [b]
    <BLANKLINE>
    [[b.c]]
    d = "x"
    """
    return "\n".join(_table(tree, "")).lstrip("\n") + "\n"


def as_json(value: Any) -> Any:
    """What TOML holds as a database can as JSON: days and times as texts, and no NUL in a text."""
    if isinstance(value, Mapping):
        return {key: as_json(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [as_json(one) for one in value]
    if isinstance(value, str):
        return value.replace("\x00", " ")
    return value.isoformat() if isinstance(value, (date, time)) else value


def without_nulls(value: Any, at: Place = ()) -> tuple[Any, list[Place]]:
    """A value with its nulls taken out and its keys in order, and the places of the nulls.

    In a list an empty text keeps the place of a null.
    """
    places: list[Place] = []
    if isinstance(value, Mapping):
        table = {}
        for key, one in sorted(value.items()):
            if one is None:
                places.append((*at, key))
                continue
            table[key], found = without_nulls(one, (*at, key))
            places += found
        return table, places
    if isinstance(value, (list, tuple)):
        items = []
        for index, one in enumerate(value):
            item, found = ("", [(*at, index)]) if one is None else without_nulls(one, (*at, index))
            items.append(item)
            places += found
        return items, places
    return value, places


def with_nulls(value: Any, places: Sequence[Sequence[str | int]]) -> Any:
    """Nulls put back where they stood.

    Raises
    ------
    LookupError, TypeError
        Where a place is not there.
    """
    for *lead, last in places:
        node = value
        for key in lead:
            node = node[key]
        if isinstance(node, list) and not isinstance(last, int):
            raise LookupError(last)
        node[last] = None
    return value


def _table(tree: Mapping[str, Any], path: str) -> list[str]:
    lines: list[str] = []
    for key, value in tree.items():
        if not isinstance(value, Mapping) and not is_tables(value):
            lines.append(f"{_key_text(key)} = {inline_value(value)}")
    for key, value in tree.items():
        name = f"{path}.{_key_text(key)}" if path else _key_text(key)
        if isinstance(value, Mapping):
            lines += ["", f"[{name}]", *_table(value, name)]
        elif is_tables(value):
            for one in value:
                lines += ["", f"[[{name}]]", *_table(one, name)]
    return lines


def is_tables(value: Any) -> bool:
    """True for a list of tables, which has headers of its own."""
    return (
        isinstance(value, (list, tuple))
        and bool(value)
        and all(isinstance(one, Mapping) for one in value)
    )


def _key_text(key: str) -> str:
    """A key as TOML has it."""
    return key if _BARE.fullmatch(key) else _quoted(key)


def _quoted(text: str) -> str:
    return '"' + "".join(_ESCAPED.get(sign, sign) for sign in text) + '"'


def inline_value(value: Any) -> str:
    """A value as it stands behind an equals sign."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, int):
        return str(value)
    if isinstance(value, (date, time)):
        return value.isoformat()
    if isinstance(value, str):
        return _quoted(value)
    if isinstance(value, Mapping):
        inner = ", ".join(f"{_key_text(key)} = {inline_value(one)}" for key, one in value.items())
        return "{ " + inner + " }" if inner else "{}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(inline_value(one) for one in value) + "]"
    raise TypeError(f"{type(value).__name__} has no place in TOML")
