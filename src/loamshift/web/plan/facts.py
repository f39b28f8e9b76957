"""What is known of a bed, as sentences with fields in them: the part of the letter one edits."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Final

from loamshift.case.questions import Question, questions_by_path
from loamshift.domain.message import Given, Message, Value, choice, message
from loamshift.domain.ph import PhMethod
from loamshift.errors import Fault
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.web.beds.case_form import asked_as, example_typed

_HOLE: Final = re.compile("\ue000([a-z_.]+)\ue001")
_CLOSING: Final = re.compile(r"[.,;:%]+")
_SEPARATOR: Final = "; "


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field as it stands on the page: value, what to say where it is empty, its fault."""

    path: str
    label: str
    value: str
    empty: str
    example: str
    choices: tuple[tuple[str, str], ...]
    suggests: str
    numeric: bool
    fault: Fault | None
    hint: str
    kept: str = ""
    note: str = ""
    """What was noticed about the value, which is used or passed over all the same."""
    offers: tuple[tuple[str, str], ...] = ()
    """Names that could be meant, each with what the address says once it is chosen."""
    closing: str = ""
    """The comma or stop that belongs behind it, and never begins a line."""

    @property
    def name(self) -> str:
        """An id that may stand in HTML."""
        return "f-" + self.path.replace(".", "-")

    @property
    def size(self) -> int:
        """Characters that show [count]."""
        return min(max(len(self.value or self.empty), 2), 34)


@dataclass(frozen=True, slots=True)
class Said:
    """Words between fields."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands under a field besides a fault: what was noticed, and names to choose from."""

    note: str = ""
    offers: tuple[tuple[str, str], ...] = ()


Piece = Said | Field

SENTENCES: Final = ("facts-bed", "facts-soil", "facts-water")
"""Messages in whose gaps the fields stand; a gap is named by its key: ``soil_texture``."""
BLANK: Final = "blank"
"""What stands for no choice in the message of a key's choices."""


@cache
def asked_in_sentences() -> frozenset[str]:
    """Keys that the sentences ask for; every other has its place on the page that edits the bed."""
    book = Words().book
    return frozenset(_path(gap) for key in SENTENCES for gap in book.values_of(key))


def _path(gap: str) -> str:
    """The key that a gap asks for: its table ends at the first underscore."""
    return gap.replace("_", ".", 1)


def facts(
    tree: Mapping[str, Any],
    *,
    words: Words,
    faults: Sequence[Fault] = (),
    kept: Mapping[str, Any] | None = None,
    beside: Mapping[str, Beside] | None = None,
) -> tuple[tuple[Piece, ...], ...]:
    """The sentences about a bed with their fields filled in.

    Parameters
    ----------
    words
        The reader; the units are those of examples where a field is empty.
    kept
        The case file as it is kept, where it is; a field that says the same is no change.
    beside
        What stands under a field besides a fault, by its path.
    """
    wrong = {fault.path: fault for fault in faults}
    return tuple(
        tuple(
            piece if isinstance(piece, Said) else _with_beside(piece, beside or {})
            for piece in _pieces(key, tree, words, wrong, kept or {})
        )
        for key in SENTENCES
    )


def _with_beside(field: Field, beside: Mapping[str, Beside]) -> Field:
    found = beside.get(field.path)
    return field if found is None else replace(field, note=found.note, offers=found.offers)


def faults_elsewhere(faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """Faults of keys that no sentence asks for, to be told above the letter."""
    return tuple(fault for fault in faults if fault.path not in asked_in_sentences())


def value_at(tree: Mapping[str, Any], path: str) -> str:
    """The value of a key as a text; empty where nothing stands there."""
    node: Any = tree
    for key in path.split("."):
        if not isinstance(node, Mapping) or key not in node:
            return ""
        node = node[key]
    if isinstance(node, bool):
        return "true" if node else "false"
    if isinstance(node, list):
        return _SEPARATOR.join(str(item) for item in node)
    return str(node)


def _pieces(
    key: str,
    tree: Mapping[str, Any],
    words: Words,
    wrong: Mapping[str, Fault],
    kept: Mapping[str, Any],
) -> Iterator[Piece]:
    """A sentence parted at its fields, in the order that its language wants."""
    gaps = words.book.values_of(key)
    holes: dict[str, Value] = {gap: Given(f"\ue000{_path(gap)}\ue001") for gap in gaps}
    sentence = say(Message(key, holes), words)
    end = 0
    for hole in _HOLE.finditer(sentence):
        if hole.start() > end:
            yield Said(sentence[end : hole.start()])
        found = field_of(hole.group(1), tree, words=words, wrong=wrong, kept=kept)
        end = hole.end()
        closing = _CLOSING.match(sentence, end)
        if closing is not None:
            found, end = replace(found, closing=closing[0]), closing.end()
        yield found
    if end < len(sentence):
        yield Said(sentence[end:])


def field_of(
    path: str,
    tree: Mapping[str, Any],
    *,
    words: Words,
    wrong: Mapping[str, Fault] | None = None,
    kept: Mapping[str, Any] | None = None,
) -> Field:
    """One field that stands in a sentence, as it is now."""
    question = questions_by_path()[path]
    value = value_at(tree, path)
    example = example_typed(question, words.units)
    choices = tuple(_choices(question, words))
    if choices and value not in (known for known, _text in choices):
        choices = (*choices, (value, value))
    label = _said(f"facts-{choice(path)}", words) or asked_as(path, words)
    hint = message("facts-hint", label=Given(label), example=Given(example))
    empty = choices[0][1] if choices else _said(f"facts-{choice(path)}-empty", words)
    return Field(
        path=path,
        label=label,
        value=value,
        empty=empty,
        example=example,
        choices=choices,
        suggests=question.row.suggests,
        numeric=question.is_figure,
        fault=(wrong or {}).get(path),
        hint=label if choices else say(hint, words),
        kept=value_at(kept or {}, path),
    )


def _choices(question: Question, words: Words) -> Iterator[tuple[str, str]]:
    """The words a key may be, as they stand in the sentence; the first is for none of them."""
    if not question.choices:
        return
    key = f"facts-{choice(question.path)}-choice"
    yield "", say(message(key, choice=BLANK, word=Given("")), words)
    for word in question.choices:
        if word != PhMethod.UNKNOWN:
            yield word, say(message(key, choice=choice(word), word=Given(word)), words)


def _said(key: str, words: Words) -> str:
    """A message; empty where there is none."""
    return say(message(key), words) if key in words.book else ""
