"""The description of the API: the case by its questions, the answer by its own schema."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from loamshift.case.answer_schema import answer_schema
from loamshift.case.questions import Question, case_questions


@cache
def case_schema() -> dict[str, Any]:
    """The case as JSON Schema: every key of the case file with its meaning.

    Names and quantities are texts or numbers as the case file takes them; which ones can be read
    is said by the faults of an answer.
    """
    tables: dict[str, dict[str, Any]] = {}
    for table in case_questions():
        tables[table.name] = {
            "type": "object",
            "description": table.meaning,
            "properties": {question.key: _key(question) for question in table.questions},
            "required": [q.key for q in table.questions if q.is_required and table.name],
            "additionalProperties": False,
        }
    lists = {table.name for table in case_questions() if table.is_list}
    for name in sorted(tables, key=lambda name: -name.count(".")):
        if not name:
            continue
        parent, _, key = name.rpartition(".")
        one = tables[name]
        tables[parent]["properties"][key] = (
            {"type": "array", "items": one, "description": one["description"]}
            if name in lists
            else one
        )
    return tables[""]


def _key(question: Question) -> dict[str, Any]:
    said = f"{question.meaning} Takes: {question.takes}."
    if question.takes.startswith("list") or "list of them" in question.takes:
        kinds: list[str] = ["array", "string", "number"]
    elif question.takes == "true or false":
        kinds = ["boolean"]
    elif question.takes.startswith("date"):
        return {"type": "string", "format": "date", "description": said}
    elif question.takes == "the number 1":
        return {"const": 1, "description": said}
    else:
        kinds = ["string", "number"]
    schema: dict[str, Any] = {"type": kinds if len(kinds) > 1 else kinds[0], "description": said}
    if question.choices and kinds[0] == "string":
        schema = {"type": "string", "enum": list(question.choices), "description": said}
    if question.example:
        schema["examples"] = [question.example]
    return schema


@cache
def _answer_parts() -> tuple[dict[str, Any], dict[str, Any]]:
    text = json.dumps(answer_schema()).replace("#/$defs/", "#/components/schemas/Answer_")
    whole: dict[str, Any] = json.loads(text)
    parts = {f"Answer_{name}": part for name, part in whole.pop("$defs").items()}
    whole.pop("$schema")
    return whole, parts


def complete(schema: dict[str, Any]) -> None:
    """Put the case and the answer into a description that only names them."""
    whole, parts = _answer_parts()
    components = schema["components"]["schemas"]
    components["AnswerOut"] = whole
    components |= parts
    components["CaseFile"] = case_schema()
