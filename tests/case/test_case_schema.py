"""The JSON Schema of the case file takes what the reader takes, and knows every key."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest

from loamshift.case.case_schema import case_schema
from loamshift.case.questions import case_questions, questions_by_path

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
SCHEMA = jsonschema_rs.validator_for(case_schema())


def _plain(text: str) -> Any:
    """A case file as JSON has it: days are texts."""
    return json.loads(json.dumps(tomllib.loads(text), default=str))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_conforms(path: Path) -> None:
    case = _plain(path.read_text(encoding="utf-8"))
    assert [str(error) for error in SCHEMA.iter_errors(case)] == []


@pytest.mark.parametrize("path", sorted(questions_by_path()))
def test_the_example_of_every_key_conforms(path: str) -> None:
    """In its table, with the keys that the table needs."""
    *above, key = path.split(".")
    table = next(one for one in case_questions() if one.name == ".".join(above))
    asked = [q for q in table.questions if q.is_required or q.key == key]
    entry = _plain("\n".join(f"{q.key} = {q.row.example}" for q in asked))
    case: dict[str, Any] = {"case": 1}
    if not above:
        case |= entry
    elif len(above) == 2:
        case[above[0]] = {above[1]: [entry]}
    else:
        case[above[0]] = [entry] if table.is_list else entry
    assert [str(error) for error in SCHEMA.iter_errors(case)] == []


@pytest.mark.parametrize(
    "text",
    [
        "case = 1\n[soil]\nhumus = 3",
        "[soil]\nph = 7",
        "case = 2",
        "case = 1\n[[applied]]\nmaterial = 'elemental sulfur'",
        "case = 1\n[bed]\nplanted = 'perhaps'",
        "case = 1\n[soil.other_ph]\nph = 7",
    ],
)
def test_what_no_case_file_may_hold_does_not_conform(text: str) -> None:
    assert not SCHEMA.is_valid(_plain(text))
