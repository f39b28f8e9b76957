"""The description of the API: the case and the answer by their own schemas."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from loamshift.case.answer_schema import answer_schema
from loamshift.case.case_schema import case_schema


@cache
def _answer_parts() -> tuple[dict[str, Any], dict[str, Any]]:
    text = json.dumps(answer_schema()).replace("#/$defs/", "#/components/schemas/Answer_")
    whole: dict[str, Any] = json.loads(text)
    parts = {f"Answer_{name}": part for name, part in whole.pop("$defs").items()}
    whole.pop("$schema")
    return whole, parts


@cache
def _case() -> dict[str, Any]:
    """The case; its version may be left out, for a program always sends what it was written for."""
    whole = dict(case_schema())
    whole.pop("$schema")
    return {**whole, "required": []}


def complete(schema: dict[str, Any]) -> None:
    """Put the case and the answer into a description that only names them."""
    whole, parts = _answer_parts()
    components = schema["components"]["schemas"]
    components["AnswerOut"] = whole
    components |= parts
    components["CaseFile"] = _case()
