"""Every key of the case file with its row, for what asks or describes all of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from loamshift.case.case_key import Group, Key, row_of
from loamshift.case.reads import Holds, Reads
from loamshift.case.schema import item_table, tables
from loamshift.case.schema_base import Table
from loamshift.domain.field_name import meaning_of
from loamshift.domain.message import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One key: its path without numbers of entries, its row, and what stands where it is left out.

    ``default`` is None where nothing does.
    """

    path: str
    row: Key
    is_required: bool
    default: object

    @property
    def key(self) -> str:
        """Its name in its table."""
        return self.path.rpartition(".")[2]

    @property
    def reads(self) -> Reads:
        """How its value is read."""
        return self.row.reads

    @property
    def choices(self) -> tuple[str, ...]:
        """The words it may be; empty where any value of its kind may stand."""
        return self.row.reads.choices

    @property
    def example(self) -> str:
        """A value as it is typed into a form: without the quotes of a text."""
        return self.row.example.strip('"')

    @property
    def is_figure(self) -> bool:
        """Whether it is a number that stands without a unit."""
        return self.row.reads.holds in (Holds.NUMBER, Holds.WHOLE) and not self.row.reads.is_list

    @property
    def meaning(self) -> Message:
        """What it means."""
        return meaning_of(self.path)

    @property
    def is_asked(self) -> bool:
        """Whether a form asks for it."""
        return self.row.group is not Group.NEVER

    @property
    def is_usual(self) -> bool:
        """Whether most beds need it."""
        return self.row.group is Group.USUAL


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionTable:
    """One table of the case file; ``is_list`` where any number of entries may stand."""

    name: str
    is_list: bool
    questions: tuple[Question, ...]

    @property
    def meaning(self) -> Message:
        """What it holds."""
        return meaning_of(self.name)


@cache
def case_questions() -> tuple[QuestionTable, ...]:
    """All tables of the case file with their keys, in the order of the file."""
    lists = _list_names()
    return tuple(
        QuestionTable(name=name, is_list=name in lists, questions=tuple(_questions(name, table)))
        for name, table in tables().items()
    )


@cache
def questions_by_path() -> dict[str, Question]:
    """Every key of the case file by its path without numbers, ``applied.rate``."""
    return {q.path: q for table in case_questions() for q in table.questions}


def _list_names() -> frozenset[str]:
    found = []
    for name, table in tables().items():
        prefix = f"{name}." if name else ""
        for key, field in table.model_fields.items():
            nested, is_list = item_table(field.annotation)
            if nested is not None and is_list:
                found.append(f"{prefix}{key}")
    return frozenset(found)


def _questions(name: str, table: type[Table]) -> Iterator[Question]:
    for key, field in table.model_fields.items():
        row = row_of(field)
        if row is not None:
            yield Question(
                path=f"{name}.{key}" if name else key,
                row=row,
                is_required=field.is_required(),
                default=None if field.is_required() else field.default,
            )
