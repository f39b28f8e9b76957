"""The document of the case file and the answer, written from the schema itself."""

from __future__ import annotations

import sys
import textwrap
import typing
from collections.abc import Iterator
from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import Final

from loamshift.case.answer import ANSWER_VERSION, answer_keys, type_hints
from loamshift.case.answer_keys import KEPT_KEYS, AnswerKey, kept_meaning
from loamshift.case.answer_schema import answer_parts, key_of
from loamshift.case.label import EXAMPLE as LABEL_EXAMPLE
from loamshift.case.label import label_text, read_label
from loamshift.case.label_keys import (
    FINENESS,
    FINENESS_EXAMPLE,
    LABEL_KEYS,
    label_meaning,
    label_on_bags,
)
from loamshift.case.quantities import Measure
from loamshift.case.questions import Question, QuestionTable, case_questions
from loamshift.case.reads import number_taken
from loamshift.case.schema import CASE_VERSION
from loamshift.domain.answer import Answer
from loamshift.domain.message import Given, Message, choice, message
from loamshift.report.messages import say
from loamshift.report.words import Words

_JOINER = "\x1f"
"""Stands for the space inside a name while lines are filled."""
_SCALARS: Final[dict[object, str]] = {
    float: "number",
    int: "whole number",
    bool: "true or false",
    str: "text",
    date: "date",
    type(None): "null",
}
"""Kinds of value by the choices of their message."""


def case_page(words: Words | None = None) -> str:
    """The whole document as Markdown.

    Parameters
    ----------
    words
        Language and spelling; British where nobody says.

    Returns
    -------
    str
        Markdown.
    """
    return _Page(words or Words()).whole()


class _Page:
    """The parts of the document in one language."""

    def __init__(self, words: Words) -> None:
        self.words = words

    def whole(self) -> str:
        parts = [
            self.told("reference-case-head"),
            *(self.table(table) for table in case_questions()),
            self.label(),
            self.names(),
            self.told("reference-answer-head"),
            *(self.part(kind) for kind in answer_parts()),
            self.told("reference-rules"),
        ]
        return "\n\n".join(part.strip("\n") for part in parts) + "\n"

    def told(self, key: str) -> str:
        versions = {
            "case-version": Given(str(CASE_VERSION)),
            "answer-version": Given(str(ANSWER_VERSION)),
        }
        return self.say(Message(key, versions))

    def say(self, what: Message | None) -> str:
        return "" if what is None else say(what, self.words)

    # -- the case file -------------------------------------------------------------------------

    def table(self, table: QuestionTable) -> str:
        title = f"`[[{table.name}]]`" if table.is_list else f"`[{table.name}]`"
        meaning = table.meaning
        if table.is_list:
            meaning = message("reference-many", meaning=meaning)
        head = self.say(message("reference-columns"))
        lines = [f"### {title if table.name else self.say(message('reference-top'))}", ""]
        lines += [self.say(meaning), "", head, _rule(head)]
        return "\n".join([*lines, *(self.key(question) for question in table.questions)])

    def key(self, question: Question) -> str:
        takes = ", ".join(f"`{word}`" for word in question.choices)
        return _row(
            f"`{question.key}`",
            takes or self.say(question.reads.takes),
            self.default(question),
            f"`{question.row.example}`",
            self.say(question.meaning),
        )

    def default(self, question: Question) -> str:
        if question.is_required:
            return self.say(message("reference-required"))
        if question.default is None:
            return self.say(message("reference-not-given"))
        if isinstance(question.default, StrEnum):
            return f"`{question.default.value}`"
        if isinstance(question.default, Measure):
            return f"`{question.default.as_given}`"
        return f"`{question.default}`"

    def label(self) -> str:
        """The figures of a bag's label, which four tables take."""
        as_text = f'"{label_text(read_label(_label_example()))}"'.replace("_pct", "")
        head = message("reference-label-head", table=Given(LABEL_EXAMPLE), text=Given(as_text))
        columns = self.say(message("reference-label-columns"))
        rows = [
            _row(
                f"`{row.key}`",
                self.say(number_taken(0.0, row.most_pct)),
                self.say(row.on_bags),
                self.say(row.meaning),
            )
            for row in LABEL_KEYS
        ]
        passes = message("reference-label-text", example=Given(FINENESS_EXAMPLE))
        fineness = (passes, label_on_bags(FINENESS), label_meaning(FINENESS))
        rows.append(_row(f"`{FINENESS}`", *map(self.say, fineness)))
        return "\n".join([self.say(head), "", columns, _rule(columns), *rows])

    def names(self) -> str:
        """The names that come from shipped tables and are short enough to list."""
        from loamshift.case.kitchen import kitchen_words
        from loamshift.tables.laboratory import load_buffer_ph_methods
        from loamshift.tables.rules import load_cautions
        from loamshift.tables.soils import load_textures

        lists = {
            "textures": load_textures(),
            "buffers": load_buffer_ph_methods(),
            "kitchen": kitchen_words(),
            "cautions": load_cautions(),
        }
        lines = [self.say(message("reference-names-head")), ""]
        for kind, names in lists.items():
            whole = ", ".join(f"`{name.replace(' ', _JOINER)}`" for name in names)
            listed = textwrap.fill(whole, 98, break_on_hyphens=False, break_long_words=False)
            title = message("reference-names-of", list=message("reference-names", list=kind))
            lines += [self.say(title), listed.replace(_JOINER, " ") + ".", ""]
        return "\n".join(lines)

    # -- the answer ----------------------------------------------------------------------------

    def part(self, kind: type) -> str:
        is_top = kind is Answer
        lines = [
            f"### {self.say(message('reference-answer-top')) if is_top else f'`{kind.__name__}`'}",
            "",
        ]
        if not is_top:
            places = Given(", ".join(self.used_in(kind)))
            lines += [self.say(message("reference-used-in", places=places)), ""]
        head = self.say(message("reference-answer-columns"))
        lines += [head, _rule(head)]
        for key in answer_keys(kind):
            lines.append(self.answer_key(key, self.kind(type_hints(kind)[key]), key_of(kind, key)))
        if is_top:
            table = self.say(message("reference-table-or-null"))
            lines += [
                self.answer_key(key, table, AnswerKey(None, kept_meaning(key))) for key in KEPT_KEYS
            ]
        return "\n".join(lines)

    def answer_key(self, key: str, kind: str, row: AnswerKey) -> str:
        return _row(f"`{key}`", kind, self.say(row.unit), self.say(row.meaning))

    def used_in(self, kind: type) -> Iterator[str]:
        for other in answer_parts():
            for key in answer_keys(other):
                if f"`{kind.__name__}`" in self.kind(type_hints(other)[key]):
                    owner = "" if other is Answer else f"{other.__name__}."
                    yield f"`{owner}{key}`"

    def kind(self, hint: object) -> str:
        arguments = typing.get_args(hint)
        if typing.get_origin(hint) is tuple:
            of = Given(self.kind(arguments[0]))
            return self.say(message("reference-list-of", kind=of))
        if arguments:
            whole = self.kind(arguments[0])
            for part in arguments[1:]:
                both = {"first": Given(whole), "other": Given(self.kind(part))}
                whole = self.say(message("reference-one-or-other", **both))
            return whole
        if isinstance(hint, type) and issubclass(hint, StrEnum):
            return ", ".join(f"`{kind.value}`" for kind in hint)
        if hint in answer_parts():
            return f"`{getattr(hint, '__name__', '')}`"
        return self.say(message("reference-kind", kind=choice(_SCALARS[hint])))


def _label_example() -> dict[str, object]:
    import tomllib

    return dict(tomllib.loads(f"label = {LABEL_EXAMPLE}")["label"])


def _row(*cells: str) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _rule(head: str) -> str:
    """The line below the head of a table."""
    return "|" + "---|" * (head.count("|") - 1)


def main(arguments: list[str]) -> int:
    """Write the document to the path given; 0 when done, 2 for wrong usage."""
    if len(arguments) != 1:
        sys.stderr.write("usage: python -m loamshift.case.page docs/case.md\n")
        return 2
    Path(arguments[0]).write_text(case_page(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
