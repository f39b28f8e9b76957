"""The answer as JSON: written with every key, read back for a later reprint."""

from __future__ import annotations

import json
import math
import types
import typing
from dataclasses import MISSING, fields, is_dataclass
from datetime import date
from enum import StrEnum
from functools import cache
from typing import Any

from loamshift.case.mend import shown
from loamshift.domain.answer import Answer, Ledger
from loamshift.errors import CaseError, Fault, LoamshiftError

ANSWER_VERSION = 1
SIGNIFICANT_DIGITS = 6
_FIRST_KEY = {Answer: "answer", Ledger: "unit"}
_LARGEST_CHARS = 20_000_000


def answer_keys(kind: type) -> tuple[str, ...]:
    """The keys of one part of the answer, in the order of the file.

    Parameters
    ----------
    kind
        A dataclass of ``loamshift.domain.answer`` [class].

    Returns
    -------
    tuple of str
        Its keys [text].
    """
    names = [part.name for part in fields(kind)]
    first = _FIRST_KEY.get(kind)
    if first is not None:
        names.remove(first)
        names.insert(0, first)
    return tuple(names)


def answer_to_dict(answer: Answer) -> dict[str, Any]:
    """The answer as plain lists, texts and numbers; every key present, in a fixed order.

    Parameters
    ----------
    answer
        The answer.

    Returns
    -------
    dict
        Its keys; dates as ISO texts, numbers to six significant digits.

    Raises
    ------
    LoamshiftError
        Where a number is not finite, which is our fault, never the user's.
    """
    plain = _plain(answer, "answer")
    assert isinstance(plain, dict)
    return plain


def _plain(value: object, path: str) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        return {
            key: _plain(getattr(value, key), f"{path}.{key}") for key in answer_keys(type(value))
        }
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, float):
        return _rounded(value, path)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, (tuple, list)):
        return [_plain(part, f"{path}[{place}]") for place, part in enumerate(value)]
    if value is None or isinstance(value, (bool, int, str)):
        return value
    raise LoamshiftError(f"{path} of the answer holds {type(value).__name__}, which has no JSON")


def _rounded(value: float, path: str) -> float:
    if not math.isfinite(value):
        raise LoamshiftError(f"{path} of the answer is {value}, not a number")
    return float(f"{value:.{SIGNIFICANT_DIGITS}g}") + 0.0


def answer_to_json(answer: Answer, *, indent: int | None = 2) -> str:
    """The answer as JSON text.

    Parameters
    ----------
    answer
        The answer.
    indent
        Spaces per level, or None for one line [count].

    Returns
    -------
    str
        JSON, without NaN or infinity [text].

    Raises
    ------
    LoamshiftError
        Where a number is not finite.
    """
    return json.dumps(answer_to_dict(answer), indent=indent, ensure_ascii=False, allow_nan=False)


def answer_from_json(text: str, *, source: str = "answer") -> Answer:
    """An answer written earlier, for a reprint that says the same.

    Parameters
    ----------
    text
        JSON as ``answer_to_json`` wrote it [text].
    source
        Name of the file for messages [text].

    Returns
    -------
    Answer
        The answer.

    Raises
    ------
    CaseError
        Where it is no answer of this version; it carries every fault found.
    """
    if len(text) > _LARGEST_CHARS:
        raise CaseError(
            [Fault("file", "", "it is far too large for an answer", "Name the JSON of one case.")],
            source=source,
        )
    try:
        tree = json.loads(text, parse_constant=_no_constant)
    except (ValueError, RecursionError) as error:
        reason = "nested far too deeply" if isinstance(error, RecursionError) else str(error)
        fault = Fault("file", "", f"not JSON: {shown(reason)}", "Name a file that --json wrote.")
        raise CaseError([fault], source=source) from None
    version = tree.get("answer") if isinstance(tree, dict) else None
    if version != ANSWER_VERSION or isinstance(version, bool):
        fault = Fault(
            "answer", shown(version), "not an answer of version 1", "Name a file that --json wrote."
        )
        raise CaseError([fault], source=source)
    faults: list[Fault] = []
    answer = _decode(tree, Answer, "", faults)
    if faults:
        raise CaseError(faults[:100], source=source)
    assert isinstance(answer, Answer)
    return answer


def _no_constant(name: str) -> float:
    raise ValueError(f"{name} is not allowed")


@cache
def type_hints(kind: type) -> dict[str, Any]:
    """The types of one part's keys, by key; ``kind`` is a dataclass of the answer [class]."""
    return typing.get_type_hints(kind)


def _decode(value: Any, hint: Any, path: str, faults: list[Fault]) -> Any:
    """The value as the type it had, or None with a fault."""
    origin = typing.get_origin(hint)
    if origin in (types.UnionType, typing.Union):
        return _decode_union(value, typing.get_args(hint), path, faults)
    if origin is tuple:
        if not isinstance(value, list):
            return _wrong(value, "a list", path, faults)
        item = typing.get_args(hint)[0]
        return tuple(
            _decode(part, item, f"{path}[{place}]", faults)
            for place, part in enumerate(value, start=1)
        )
    if is_dataclass(hint) and isinstance(hint, type):
        return _decode_part(value, hint, path, faults)
    return _decode_plain(value, hint, path, faults)


def _decode_union(value: Any, hints: tuple[Any, ...], path: str, faults: list[Fault]) -> Any:
    if value is None and type(None) in hints:
        return None
    wanted = [hint for hint in hints if hint is not type(None)]
    for hint in wanted[:-1]:
        tried: list[Fault] = []
        result = _decode(value, hint, path, tried)
        if not tried:
            return result
    return _decode(value, wanted[-1], path, faults)


def _decode_part(value: Any, kind: type, path: str, faults: list[Fault]) -> Any:
    if not isinstance(value, dict):
        return _wrong(value, "a table", path, faults)
    here = f"{path}." if path else ""
    hints, before = type_hints(kind), len(faults)
    for key in value.keys() - hints.keys():
        faults.append(Fault(f"{here}{shown(key)}", "", "unknown key", "Was it written by hand?"))
    found = {}
    for part in fields(kind):
        if part.name in value:
            where = f"{here}{part.name}"
            found[part.name] = _decode(value[part.name], hints[part.name], where, faults)
        elif part.default is MISSING:
            faults.append(Fault(f"{here}{part.name}", "", "this key is missing", "Keep every key."))
    return kind(**found) if len(faults) == before else None


def _decode_plain(value: Any, hint: Any, path: str, faults: list[Fault]) -> Any:
    if hint is type(None):
        return None if value is None else _wrong(value, "null", path, faults)
    if hint is float and isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value)
    if hint is int and isinstance(value, int) and not isinstance(value, bool):
        return value
    if hint is bool and isinstance(value, bool):
        return value
    if isinstance(value, str):
        if hint is str:
            return value
        try:
            if hint is date:
                return date.fromisoformat(value)
            if isinstance(hint, type) and issubclass(hint, StrEnum):
                return hint(value)
        except ValueError:
            pass
    return _wrong(value, kind_words(hint), path, faults)


def _wrong(value: Any, wanted: str, path: str, faults: list[Fault]) -> None:
    faults.append(Fault(path or "answer", shown(value), f"{wanted} belongs here", "Mend the file."))


def kind_words(hint: Any) -> str:
    """A type of the answer in words.

    Parameters
    ----------
    hint
        The type of a key [class].

    Returns
    -------
    str
        Such as ``a number`` [text].
    """
    words = {
        float: "a number",
        int: "a whole number",
        bool: "true or false",
        str: "a text",
        date: "a date",
        type(None): "null",
    }
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return "one of " + ", ".join(kind.value for kind in hint)
    return words.get(hint, "a table")
