"""What a page asks of a file: its columns with what each may be, and its questions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from django.http import QueryDict

from loamshift.case.intake.answers import plain_key
from loamshift.case.intake.asked import IGNORE, answer_key, name_of, quantity_of
from loamshift.case.intake.proposal import Aspect, ColumnMeaning, Finding, Proposal
from loamshift.case.questions import questions_by_path
from loamshift.domain.message import Message, Prose, message
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.header_words import load_header_words
from loamshift.tables.laboratory import load_buffer_ph_methods

FIELD: Final = "answer:"
"""How the fields of a form begin that answer something; the key of the question follows."""
_SHOWN: Final = 4


@dataclass(frozen=True, slots=True)
class Select:
    """A field with its choices: value and label, and which is chosen."""

    name: str
    label: Message
    chosen: str
    choices: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class AskedColumn:
    """One column of the file beside what it was understood as."""

    heading: str
    letters: str
    cells: tuple[str, ...]
    reason: Prose
    sure: bool
    selects: tuple[Select, ...]


@dataclass(frozen=True, slots=True)
class Question:
    """A question with its choices; none where the answer is typed."""

    name: str
    said: Message
    asked: Message
    choices: tuple[tuple[str, str], ...]
    example: str


def asked_columns(proposal: Proposal, words: Words) -> Iterator[AskedColumn]:
    """Every column, with a select for each thing of it that may be wrong."""
    for column in proposal.mapping:
        yield AskedColumn(
            heading=column.heading,
            letters=column.place.column,
            cells=column.values[:_SHOWN],
            reason=column.reason,
            sure=column.sure,
            selects=tuple(_selects(column, words)),
        )


def _selects(column: ColumnMeaning, words: Words) -> Iterator[Select]:
    meanings = _meanings(words.spelling)
    known = column.meaning if any(key == column.meaning for key, _ in meanings) else ""
    yield _select(column, Aspect.MEANING, known, meanings)
    quantity = quantity_of(column.meaning) if column.meaning else None
    units = tuple(quantity.units) if quantity is not None else ()
    if column.unit or len(units) > 1:
        yield _select(column, Aspect.UNIT, column.unit, _same((*units, column.unit)))
    methods = _methods(column.meaning)
    if methods:
        yield _select(column, Aspect.METHOD, column.method, _same((*methods, column.method)))


def _select(
    column: ColumnMeaning, aspect: Aspect, chosen: str, choices: tuple[tuple[str, str], ...]
) -> Select:
    return Select(
        name=f"{FIELD}{answer_key(column.heading, aspect)}",
        label=message("intake-page-aspect", aspect=aspect.value),
        chosen=chosen,
        choices=choices,
    )


def _same(values: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    return (("", "—"), *((one, one) for one in dict.fromkeys(values) if one))


@cache
def _meanings(spelling: str) -> tuple[tuple[str, str], ...]:
    words = Words(spelling=spelling)
    keys = {word.key for many in load_header_words().values() for word in many}
    named = sorted((say(name_of(key), words), key) for key in keys)
    ignore = (IGNORE, say(message("intake-page-ignore"), words))
    return (("", "—"), ignore, *((key, label) for label, key in named))


def _methods(meaning: str) -> tuple[str, ...]:
    if meaning == "ph":
        return tuple(questions_by_path()["soil.ph_method"].choices)
    if meaning == "buffer_ph":
        return tuple(load_buffer_ph_methods())
    return ("paste", "1:1", "1:2", "1:5") if meaning == "ec" else ()


def questions(proposal: Proposal, words: Words) -> Iterator[Question]:
    """What is to be answered before all of the file can be entered."""
    for one in proposal.questions:
        if one.question is None or not one.key:
            continue
        yield Question(
            name=f"{FIELD}{one.key}",
            said=one.said,
            asked=one.question,
            choices=tuple((value, _label(one, value, words)) for value in one.choices),
            example=one.choices[0] if one.choices else "",
        )


def _label(finding: Finding, value: str, words: Words) -> str:
    """A choice in words: what a column is has a name, what is done a sentence."""
    if finding.key.endswith(f": {Aspect.MEANING.value}") and value != IGNORE:
        return say(name_of(value), words)
    known = value.replace(" ", "-")
    return say(message("intake-page-choice", choice=known), words) if known in _CHOICES else value


_CHOICES: Final = frozenset(
    {"ignore", "keep", "leave-out", "convert", "first", "last", "both", "none", "decimal",
     "thousands"}
)  # fmt: skip


def new_answers(post: QueryDict, proposal: Proposal) -> dict[str, str]:
    """What a form says that the proposal does not already have: blanks say nothing.

    A question and the column it is about ask for the same thing: the one that was used counts.
    """
    as_it_is = {plain_key(key): value for key, value in _standing(proposal)}
    found = {}
    for field, values in post.lists():
        key = field.removeprefix(FIELD)
        standing = ("", as_it_is.get(plain_key(key)))
        told = [value.strip() for value in map(str, values) if value.strip() not in standing]
        if field != key and told:
            found[key] = told[0]
    return found


def _standing(proposal: Proposal) -> Iterator[tuple[str, str]]:
    for column in proposal.mapping:
        yield answer_key(column.heading, Aspect.MEANING), column.meaning
        yield answer_key(column.heading, Aspect.UNIT), column.unit
        yield answer_key(column.heading, Aspect.METHOD), column.method


def of_the_laboratory(answers: Mapping[str, str]) -> dict[str, str]:
    """Those answers that hold for the next file of the laboratory: about columns and numbers."""
    lasting = {aspect.value for aspect in Aspect} | {"comma", "order"}
    return {k: v for k, v in answers.items() if k.rpartition(":")[2].strip() in lasting}
