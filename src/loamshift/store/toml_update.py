"""Other values in a TOML text of a person's own: the remarks, the order and the layout stay."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from datetime import date
from difflib import SequenceMatcher
from typing import TYPE_CHECKING, Any, Final

from loamshift.store.toml_out import as_json, inline_value, is_tables, toml_text

if TYPE_CHECKING:
    from tomlkit.container import Container
    from tomlkit.items import AoT, Item, Key

    _Body = list[tuple[Key | None, Item]]

_TEXT_OR_REMARK: Final = re.compile(
    r'"""(?s:.*?)"""|"(?:\\.|[^"\\\n])*"|' + r"'''(?s:.*?)'''|'[^'\n]*'|(#.*)"
)


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
    from tomlkit.exceptions import TOMLKitError

    try:
        if as_json(tomllib.loads(text)) == tree:
            return text
        made = _changed(text, tree)
        if as_json(tomllib.loads(made)) == tree:
            return made
    except (ValueError, LookupError, TypeError, RecursionError, TOMLKitError):
        pass
    return "\n".join([*_remarks(text), toml_text(tree)])


def _changed(text: str, tree: Mapping[str, Any]) -> str:
    import tomlkit

    lines = text.replace("\r\n", "\n").removesuffix("\n") + "\n"
    document = tomlkit.parse(lines)
    if document.as_string() != lines:  # parts of one list that stand apart
        raise ValueError(text)
    _give_remarks_to_headers(document, [])
    _change(document, tree)
    made = document.as_string()
    return made.replace("\n", "\r\n") if "\r\n" in text else made


def _give_remarks_to_headers(table: Container, above: list[tuple[_Body, int]]) -> None:
    """Let remarks right above a header, and the blank lines before them, stay or go with it.

    The parser counts them to the table before. ``above`` holds the places of those met last.
    """
    from tomlkit.items import AoT, Comment, Table, Whitespace

    for number, (_, item) in enumerate(table.body):
        if isinstance(item, (Comment, Whitespace)):
            above.append((table.body, number))
            continue
        tables = item.body if isinstance(item, AoT) else [item] if isinstance(item, Table) else []
        if not tables:
            above.clear()
        for one in tables:
            if not one.is_super_table():
                one.trivia.indent = _taken(above) + one.trivia.indent
                above.clear()
            _give_remarks_to_headers(one.value, above)


def _taken(above: list[tuple[_Body, int]]) -> str:
    """The last remarks, with the blank lines before them, taken from where they stand."""
    from tomlkit.items import Comment, Null

    signs = "".join("#" if isinstance(body[at][1], Comment) else " " for body, at in above)
    lead = above[len(signs.rstrip("#").rstrip()) :]
    text = "".join(body[at][1].as_string() for body, at in lead)
    for body, at in lead:
        body[at] = (None, Null())
    return text


def _change(table: Any, tree: Mapping[str, Any]) -> None:
    """Give a table other values."""
    import tomlkit
    from tomlkit.container import OutOfOrderTableProxy
    from tomlkit.items import AoT, Array, Date, Item, Table

    for key in [key for key in table if key not in tree]:
        del table[key]
    for key, value in tree.items():
        old = table.get(key)
        if isinstance(value, Mapping) and isinstance(old, (Table, OutOfOrderTableProxy)):
            _change(old.value if isinstance(old, Table) else old, value)
        elif is_tables(value) and isinstance(old, AoT):
            _change_entries(old, value)
        elif old is None or isinstance(old, (Table, AoT)):
            if old is not None:
                del table[key]
            _add(table, key, value)
        elif not _same(as_json(old), value):
            day = isinstance(old, Date) and isinstance(value, str) and _is_day(value)
            new = tomlkit.value(value if day else inline_value(value))
            if isinstance(old, Array):
                inner = [f"{remark}\n" for remark in _remarks(old.as_string())]
                old.trivia.indent = "".join([*inner, old.trivia.indent])
            if isinstance(old, Item) and old.trivia.comment:
                new.trivia.comment_ws = "  "
            table[key] = new


def _add(table: Any, key: str, value: Any) -> None:
    """Give a table one value more: behind its last one, before the remarks that end it."""
    simple = not isinstance(value, Mapping) and not is_tables(value)
    body = getattr(table, "body", []) if simple else []
    last = max((n for n, (name, _) in enumerate(body, 1) if name is not None), default=len(body))
    remarks = body[last:]
    del body[last:]
    table[key] = _written(key, value)
    body += remarks


def _change_entries(entries: AoT, values: list[Mapping[str, Any]]) -> None:
    """Give a list of tables other entries; one that shares something with an old one is that."""
    old = list(entries)
    left, right = ([_marks(one) for one in many] for many in (old, values))
    kept: dict[int, Any] = {}
    for kind, a, end_a, b, end_b in SequenceMatcher(a=left, b=right).get_opcodes():
        pairs = zip(range(a, end_a), range(b, end_b), strict=False)
        kept.update((j, old[i]) for i, j in pairs if kind == "equal" or left[i] & right[j])
    entries.clear()
    for number, value in enumerate(values):
        if number in kept:
            _change(kept[number].value, value)
        entries.append(kept[number] if number in kept else _written("new", [value])[0])


def _written(key: str, value: Any) -> Any:
    """What the text did not have yet, tables with headers of their own."""
    import tomlkit
    from tomlkit.items import AoT, Table

    new = tomlkit.parse(toml_text({key: value})).item(key)
    if isinstance(new, (AoT, Table)):
        (new[0] if isinstance(new, AoT) else new).trivia.indent = "\n"
        new.invalidate_display_name()  # its place may be in another table
    return new


def _marks(entry: Mapping[str, Any]) -> frozenset[tuple[str, str]]:
    return frozenset((key, json.dumps(as_json(one), sort_keys=True)) for key, one in entry.items())


def _same(left: Any, right: Any) -> bool:
    return bool(left == right) and isinstance(left, bool) == isinstance(right, bool)


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _remarks(text: str) -> list[str]:
    return [remark.rstrip() for remark in _TEXT_OR_REMARK.findall(text) if remark]
