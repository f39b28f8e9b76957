"""The form of the answer as JSON Schema, with the meaning of every key."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterator
from dataclasses import is_dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from loamshift.case.answer import ANSWER_VERSION, answer_keys, type_hints
from loamshift.case.answer_keys import KEPT_KEYS, LATER_KEYS, AnswerKey, answer_key, kept_meaning
from loamshift.case.codec import TAG
from loamshift.case.frozen import BLOCKS, LEFT_OUT, READER
from loamshift.domain.answer import Answer
from loamshift.domain.letter import Letter
from loamshift.domain.message import message
from loamshift.report.messages import say
from loamshift.report.words import Words

_SCALARS: dict[Any, dict[str, str]] = {
    float: {"type": "number"},
    int: {"type": "integer"},
    bool: {"type": "boolean"},
    str: {"type": "string"},
    date: {"type": "string", "format": "date"},
    type(None): {"type": "null"},
}


def answer_parts() -> tuple[type, ...]:
    """Every dataclass of the answer, outermost first, in the order of first use."""
    return _parts_of(Answer)


def letter_parts() -> tuple[type, ...]:
    """Every dataclass of the kept letter, outermost first, in the order of first use."""
    return _parts_of(Letter)


def _parts_of(outermost: type) -> tuple[type, ...]:
    found: dict[type, None] = {}

    def visit(kind: type) -> None:
        if kind in found:
            return
        found[kind] = None
        for key in answer_keys(kind):
            for part in _dataclasses_in(type_hints(kind)[key]):
                visit(part)

    visit(outermost)
    return tuple(found)


def _dataclasses_in(hint: Any) -> Iterator[type]:
    if isinstance(hint, type) and is_dataclass(hint):
        yield hint
    for part in typing.get_args(hint):
        yield from _dataclasses_in(part)


def key_of(kind: type, key: str) -> AnswerKey:
    """The unit and meaning of one key.

    Parameters
    ----------
    kind
        Part of the answer.
    key
        One of its keys.

    Returns
    -------
    AnswerKey
        Unit and meaning.
    """
    return answer_key(kind.__name__, key)


def answer_schema(words: Words | None = None) -> dict[str, Any]:
    """The JSON Schema (2020-12) of the answer, version 1.

    Parameters
    ----------
    words
        Language and spelling of the descriptions; British where nobody says.

    Returns
    -------
    dict
        The schema; every key is required but those that answers of older versions lack
        (``case``, ``letter`` and what ``LATER_KEYS`` lists) and the letterhead of a letter that
        has none; no other is allowed.
    """
    reader = words or Words()
    parts = {kind.__name__: _part(kind, reader) for kind in answer_parts()}
    top = parts.pop("Answer")
    kept = {
        "said": {"type": "object"},
        "case": {"type": "object"},
        "letter": {"$ref": "#/$defs/Letter"},
    }
    assert set(kept) == set(KEPT_KEYS)
    for key, schema in kept.items():
        top["properties"][key] = {
            "anyOf": [schema, {"type": "null"}],
            "description": say(kept_meaning(key), reader),
        }
    parts |= {kind.__name__: _letter_part(kind) for kind in letter_parts()}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": say(message("schema-answer-title", version=ANSWER_VERSION), reader),
        **top,
        "$defs": parts,
    }


def _part(kind: type, words: Words) -> dict[str, Any]:
    keys, later = answer_keys(kind), LATER_KEYS.get(kind.__name__, ())
    properties = {}
    for key in keys:
        row = key_of(kind, key)
        unit = f" [{say(row.unit, words)}]" if row.unit else ""
        told = {"description": say(row.meaning, words) + unit}
        properties[key] = {**_schema(type_hints(kind)[key]), **told}
    if kind is Answer:
        properties["answer"]["const"] = ANSWER_VERSION
    return {
        "type": "object",
        "properties": properties,
        "required": [key for key in keys if key not in later],
        "additionalProperties": False,
    }


def _letter_part(kind: type) -> dict[str, Any]:
    properties: dict[str, Any] = {}
    if kind is Letter:
        properties |= {key: {"type": "string", "enum": list(READER[key])} for key in READER}
    tag = next((name for name, block in BLOCKS.items() if block is kind), None)
    if tag is not None:
        properties[TAG] = {"const": tag, "type": "string"}
    properties |= {key: _schema(type_hints(kind)[key]) for key in answer_keys(kind)}
    may_lack = LEFT_OUT if kind is Letter else ()
    return {
        "type": "object",
        "description": (kind.__doc__ or "").splitlines()[0],
        "properties": properties,
        "required": [key for key in properties if key not in may_lack],
        "additionalProperties": False,
    }


def _schema(hint: Any) -> dict[str, Any]:
    if hint in _SCALARS:
        return dict(_SCALARS[hint])
    origin = typing.get_origin(hint)
    if origin in (types.UnionType, typing.Union):
        return {"anyOf": [_schema(part) for part in typing.get_args(hint)]}
    if origin is tuple:
        return {"type": "array", "items": _schema(typing.get_args(hint)[0])}
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return {"type": "string", "enum": [kind.value for kind in hint]}
    return {"$ref": f"#/$defs/{hint.__name__}"}
