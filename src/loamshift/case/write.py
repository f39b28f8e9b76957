"""Writing a case file that a person can read and go on with."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from datetime import date
from enum import StrEnum
from typing import Any

from loamshift.case.case_key import Group, Key
from loamshift.case.faults import Loc, path_text, unknown_key_fault
from loamshift.case.fill import table_rows
from loamshift.case.mend import fault_of, quoted
from loamshift.case.reads import Holds
from loamshift.case.schema import CASE_VERSION, CaseFile, item_table
from loamshift.case.schema_base import Table
from loamshift.case.toml_string import toml_string
from loamshift.domain.field_name import meaning_of
from loamshift.domain.message import Message, message
from loamshift.errors import CaseError
from loamshift.report.messages import say
from loamshift.report.words import Words

_WIDTH = 100


def case_toml(
    answers: Mapping[str, object], *, examples: bool = True, words: Words | None = None
) -> str:
    """A commented case file from answers.

    Parameters
    ----------
    answers
        Keys of the case file with their values, nested as in the file (``{"soil": {"ph": 7.2}}``)
        or dotted (``{"soil.ph": 7.2}``); ``case = 1`` is put in where it is missing.
    examples
        Whether unanswered keys that most beds need stand there as comments.
    words
        Language and spelling of the comments; British where nobody says.

    Returns
    -------
    str
        TOML that ``parse_case`` reads, provided the values are right.

    Raises
    ------
    CaseError
        Where a key is unknown or a value has no place in a case file.
    """
    tree = _nested(answers)
    tree.setdefault("case", CASE_VERSION)
    _check_keys(tree)
    reader = words or Words()
    lines = [f"# {say(message(key), reader)}" for key in ("write-head", "write-leave-out")] + [""]
    lines += _key_lines(CaseFile, tree, "", examples=False, words=reader)
    for key, field in CaseFile.model_fields.items():
        table, many = item_table(field.annotation)
        if table is None:
            continue
        if many:
            for entry in _entries(tree, key):
                lines += [
                    "",
                    f"[[{key}]]",
                    *_key_lines(table, entry, key, examples=False, words=reader),
                ]
        else:
            lines += _table_lines(table, tree.get(key) or {}, key, examples=examples, words=reader)
    return "\n".join(lines) + "\n"


def _nested(answers: Mapping[str, object]) -> dict[str, Any]:
    """Answers with dotted keys put into their tables, and None left out."""
    tree: dict[str, Any] = {}
    for key, value in answers.items():
        node = tree
        *parents, last = str(key).split(".")
        for parent in parents:
            node = node.setdefault(parent, {})
            if not isinstance(node, dict):
                raise _no_value(str(key), message("case-key-below-value"))
        if isinstance(value, Mapping):
            held = node.get(last, {})
            value = {**(held if isinstance(held, dict) else {}), **_nested(value)}
        elif isinstance(value, (list, tuple)):
            value = [_nested(v) if isinstance(v, Mapping) else v for v in value]
        if value is not None:
            node[last] = value
    return tree


def _check_keys(tree: Mapping[str, Any]) -> None:
    faults = [unknown_key_fault(loc, None) for loc in _unknown(CaseFile, tree, ())]
    if faults:
        raise CaseError(faults, source="answers")


def _unknown(table: type[Table], tree: object, at: Loc) -> list[Loc]:
    """Places of keys that no table has."""
    if not isinstance(tree, Mapping):
        raise _no_value(path_text(at), message("answer-kind-needed", kind="table"))
    found: list[Loc] = []
    for key, value in tree.items():
        field = table.model_fields.get(key)
        if field is None:
            found.append((*at, str(key)))
            continue
        nested, many = item_table(field.annotation)
        if nested is None:
            continue
        if many and isinstance(value, list):
            for place, entry in enumerate(value):
                found += _unknown(nested, entry, (*at, str(key), place))
        else:
            found += _unknown(nested, value, (*at, str(key)))
    return found


def _entries(tree: Mapping[str, Any], key: str) -> list[Mapping[str, Any]]:
    value = tree.get(key) or []
    return list(value) if isinstance(value, list) else [value]


def _table_lines(
    table: type[Table], answers: Mapping[str, Any], name: str, *, examples: bool, words: Words
) -> list[str]:
    lines = _key_lines(table, answers, name, examples=examples, words=words)
    nested: list[str] = []
    for key, field in table.model_fields.items():
        item, many = item_table(field.annotation)
        if item is not None and many:
            for entry in _entries(answers, key):
                nested += ["", f"[[{name}.{key}]]"]
                nested += _key_lines(item, entry, f"{name}.{key}", examples=False, words=words)
    if not lines and not nested:
        return []
    return ["", f"# {say(meaning_of(name), words)}", f"[{name}]", *lines, *nested]


def _key_lines(
    table: type[Table], answers: Mapping[str, Any], name: str, *, examples: bool, words: Words
) -> list[str]:
    lines: list[str] = []
    for key, row in table_rows(table).items():
        path = f"{name}.{key}" if name else key
        if key in answers:
            line = f"{key} = {toml_value(_as_day(answers[key], row), path)}"
        elif examples and row.group is Group.USUAL and table.model_fields[key].default is None:
            line = f"# {key} = {row.example}"
        else:
            continue
        lines += _commented(line, f"# {say(meaning_of(path), words)}")
    return lines


def _as_day(value: object, row: Key) -> object:
    """A day that stands in a text, as JSON has it, as a day."""
    if row.reads.holds is not Holds.DATE or not isinstance(value, str):
        return value
    try:
        return date.fromisoformat(value)
    except ValueError:
        return value


def _commented(line: str, comment: str) -> list[str]:
    start = f"{line:<34}  "
    if len(start) + len(comment) <= _WIDTH:
        return [f"{start}{comment}"]
    return [comment, line]


def toml_value(value: object, path: str) -> str:
    """A value as TOML.

    Parameters
    ----------
    value
        Text, number, truth, date or a list of them.
    path
        Its key, for messages.

    Returns
    -------
    str
        TOML.

    Raises
    ------
    CaseError
        Where the value has no place in a case file.
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float) and math.isfinite(value):
        return repr(value)
    if isinstance(value, (str, StrEnum)):
        return toml_string(str(value))
    if isinstance(value, date):
        return value.isoformat()[:10]
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(toml_value(part, path) for part in value) + "]"
    if isinstance(value, Mapping) and path.endswith(".label") and all(map(_is_bare, value)):
        return "{ " + ", ".join(f"{k} = {toml_value(v, path)}" for k, v in value.items()) + " }"
    raise _no_value(path, message("case-no-value", given=quoted(value)))


def _is_bare(key: object) -> bool:
    return isinstance(key, str) and re.fullmatch(r"[A-Za-z0-9_-]+", key) is not None


def _no_value(path: str, wrong: Message) -> CaseError:
    return CaseError(
        [fault_of(path, None, wrong, message("case-kinds-of-value"))], source="answers"
    )
