"""Every key of the case file as a question: for forms that ask all of them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from loamshift.case.reads import Reads
from loamshift.case.schema import item_table, tables
from loamshift.case.schema_base import Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One key: what it takes, what may be chosen, what it means, and an example as typed."""

    key: str
    takes: str
    choices: tuple[str, ...]
    meaning: str
    example: str
    is_required: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionTable:
    """One table of the case file; ``is_list`` where any number of entries may stand."""

    name: str
    meaning: str
    is_list: bool
    questions: tuple[Question, ...]


@cache
def case_questions() -> tuple[QuestionTable, ...]:
    """All tables of the case file with their keys, in the order of the file."""
    lists = _list_names()
    return tuple(
        QuestionTable(
            name=name,
            meaning=(table.__doc__ or "").splitlines()[0],
            is_list=name in lists,
            questions=tuple(_questions(table)),
        )
        for name, table in tables().items()
    )


def _list_names() -> frozenset[str]:
    found = []
    for name, table in tables().items():
        prefix = f"{name}." if name else ""
        for key, field in table.model_fields.items():
            nested, is_list = item_table(field.annotation)
            if nested is not None and is_list:
                found.append(f"{prefix}{key}")
    return frozenset(found)


def _questions(table: type[Table]) -> list[Question]:
    found = []
    for key, field in table.model_fields.items():
        if item_table(field.annotation)[0] is not None:
            continue
        reads = next(part for part in field.metadata if isinstance(part, Reads))
        example = str(field.examples[0]).strip('"') if field.examples else ""
        found.append(
            Question(
                key=key,
                takes=reads.kind,
                choices=reads.choices,
                meaning=field.description or "",
                example=example,
                is_required=field.is_required(),
            )
        )
    return found
