"""The form of the case file as JSON Schema, with the meaning of every key, for editors."""

from __future__ import annotations

import tomllib
from typing import Any, Final

from loamshift.case.label_keys import FINENESS, LABEL_KEYS, label_meaning
from loamshift.case.questions import Question, case_questions
from loamshift.case.reads import Holds
from loamshift.case.schema import CASE_VERSION
from loamshift.domain.message import Message, message
from loamshift.report.messages import say
from loamshift.report.words import Words

_KINDS: Final[dict[Holds, dict[str, Any]]] = {
    Holds.TEXT: {"type": "string"},
    Holds.NAME: {"type": "string"},
    Holds.CODE: {"type": "string"},
    Holds.DATE: {"type": "string", "format": "date"},
    Holds.FLAG: {"type": "boolean"},
    Holds.NUMBER: {"type": ["number", "string"]},
    Holds.WHOLE: {"type": ["integer", "string"]},
    Holds.QUANTITY: {"type": ["string", "number"]},
}
"""What a value of each kind is in JSON; a figure may be a text, for its unit stands with it."""


def case_schema(words: Words | None = None) -> dict[str, Any]:
    """The JSON Schema (2020-12) of the case file, version 1.

    Names, quantities and words are found by many spellings, more than a schema can list: what it
    lists completes a file, and the reader says what cannot be read.

    Parameters
    ----------
    words
        Language and spelling of the descriptions; British where nobody says.

    Returns
    -------
    dict
        The schema; no key is allowed but those it lists.
    """
    reader = words or Words()
    tables: dict[str, dict[str, Any]] = {}
    for table in case_questions():
        tables[table.name] = {
            "type": "object",
            "description": say(table.meaning, reader),
            "properties": {q.key: _key(q, reader) for q in table.questions},
            "required": [q.key for q in table.questions if q.is_required],
            "additionalProperties": False,
        }
    lists = {table.name for table in case_questions() if table.is_list}
    for name in sorted(filter(None, tables), key=lambda name: -name.count(".")):
        parent, _, key = name.rpartition(".")
        one = tables[name]
        many = {"type": "array", "items": one, "description": one["description"]}
        tables[parent]["properties"][key] = many if name in lists else one
    title = message("schema-case-title", version=CASE_VERSION)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": say(title, reader),
        **tables[""],
    }


def _key(question: Question, words: Words) -> dict[str, Any]:
    reads = question.reads
    said = message("schema-takes", meaning=question.meaning, takes=reads.takes)
    told = {"description": say(said, words), "examples": [_plain(question.row.example)]}
    if reads.is_list:
        one = _kind(question)
        single = [one] if reads.is_alone else []
        return {"anyOf": [{"type": "array", "items": one}, *single], **told}
    if reads.holds is Holds.TABLE:
        return {"anyOf": [_label(words), {"type": "string"}], **told}
    if question.key == "case":
        return {"const": CASE_VERSION, **told}
    return {**_kind(question), **told}


def _kind(question: Question) -> dict[str, Any]:
    if question.reads.holds is Holds.WORD:
        return {"anyOf": [{"enum": list(question.choices)}, {"type": "string"}]}
    return dict(_KINDS[question.reads.holds])


def _label(words: Words) -> dict[str, Any]:
    def told(key: str, meaning: Message, kind: dict[str, Any]) -> dict[str, Any]:
        return {key: {**kind, "description": say(meaning, words)}}

    keys: dict[str, Any] = {}
    for row in LABEL_KEYS:
        bounds = {"type": ["number", "string"], "minimum": 0, "maximum": row.most_pct}
        keys |= told(row.key, row.meaning, bounds)
    keys |= told(FINENESS, label_meaning(FINENESS), {"type": "string"})
    return {"type": "object", "properties": keys}


def _plain(example: str) -> Any:
    """An example as JSON has it: a date is a text there."""
    value = tomllib.loads(f"a = {example}")["a"]
    return value if isinstance(value, (str, int, float, bool, list, dict)) else str(value)
