"""The form that asks everything a case file holds: its groups, its lines, and what was typed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any, Final

from loamshift.case.questions import (
    Question,
    QuestionTable,
    case_questions,
    questions_by_path,
)
from loamshift.case.reads import Holds
from loamshift.domain.message import Given, choice, message
from loamshift.errors import Fault
from loamshift.report.letter_fields import field_called
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.web.cases import Tree, with_fields

_NUMBER: Final = re.compile(r"-?\d{1,15}(\.\d{1,12})?")
_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d")
_INDEX: Final = re.compile(r"\[(\d+)\]")
_FIGURES: Final = (Holds.NUMBER, Holds.WHOLE, Holds.QUANTITY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One key as it is asked: what was typed, what it takes, and what is wrong with it."""

    path: str
    label: str
    value: str
    choices: tuple[str, ...]
    hint: str
    example: str
    suggests: str
    is_day: bool
    is_numeric: bool
    is_long: bool
    is_required: bool
    faults: tuple[Fault, ...]

    @property
    def name(self) -> str:
        """An id that may stand in HTML."""
        return "f-" + self.path.replace(".", "-")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One entry of a list; the last of each list is empty."""

    path: str
    number: int
    lines: tuple[Line, ...]
    is_new: bool
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """One table: its usual lines, the others, or the rows of a list; ``lists`` lie inside it."""

    name: str
    label: str
    meaning: str
    usual: tuple[Line, ...]
    others: tuple[Line, ...]
    rows: tuple[Row, ...]
    lists: tuple[Group, ...]
    faults: tuple[Fault, ...]
    is_list: bool

    @property
    def id(self) -> str:
        """An id that may stand in HTML."""
        return "g-" + (self.name or "top").replace(".", "-")

    @property
    def key(self) -> str:
        """Its name as a message chooses by it; ``top`` for the keys above all tables."""
        return self.name or "top"

    @property
    def more_is_open(self) -> bool:
        """True where something stands among the others, or is wrong there."""
        return any(line.value or line.faults for line in self.others)

    @property
    def is_open(self) -> bool:
        """True where something stands in the rows or the lines, or is wrong there."""
        rows = any(not row.is_new or row.faults for row in self.rows)
        lines = any(line.value or line.faults for line in (*self.usual, *self.others))
        return rows or lines or bool(self.faults) or any(inner.is_open for inner in self.lists)

    def every_line(self) -> Iterator[tuple[Group, int, Line]]:
        """Its lines and those of the lists inside it, with their group and their row, from 1."""
        for group in (self, *self.lists):
            yield from ((group, 0, line) for line in (*group.usual, *group.others))
            yield from ((group, row.number, line) for row in group.rows for line in row.lines)

    @property
    def count(self) -> int:
        """Entries of a list that hold something [count]."""
        return sum(not row.is_new for row in self.rows)


def case_form(
    tree: Mapping[str, Any],
    *,
    faults: Sequence[Fault] = (),
    words: Words | None = None,
    empty_rows: Mapping[str, int] | None = None,
) -> tuple[Group, ...]:
    """Everything a case file holds as groups of lines.

    Parameters
    ----------
    empty_rows
        How many empty rows a list shows, by its name; one where nothing is said [count].

    Returns
    -------
    tuple of Group
        In the order of the file; lists within a table stand in its group.
    """
    told: dict[str, list[Fault]] = {}
    for fault in faults:
        told.setdefault(asked_path(fault.path), []).append(fault)
    build = _Builder(tree, told, words or Words(), dict(empty_rows or {}))
    groups = []
    for table in case_questions():
        if "." not in table.name:
            inner = tuple(
                build.group(other)
                for other in case_questions()
                if table.name and other.name.startswith(f"{table.name}.")
            )
            groups.append(build.group(table, lists=inner))
    return tuple(groups)


def untold(groups: Iterable[Group], faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """Faults that stand beside no line, row or group of a form."""
    beside: set[Fault] = set()
    for group in groups:
        for one in (group, *group.lists):
            beside.update(one.faults, *(row.faults for row in one.rows))
        beside.update(*(line.faults for _, _, line in group.every_line()))
    return tuple(fault for fault in faults if fault not in beside)


def faulty_lines(groups: Iterable[Group], words: Words) -> list[tuple[str, str]]:
    """Ids of the lines with faults and what they are called, for links to them."""
    return [
        (line.name, _in_group(one.label if one.name else "", number, line.label, words))
        for group in groups
        for one, number, line in group.every_line()
        if line.faults
    ]


def _in_group(group: str, number: int, field: str, words: Words) -> str:
    """A field with the table it belongs to, and its row in a list."""
    if not group:
        return field
    where, what = Given(group), Given(field)
    if number:
        return say(message("form-field-in-row", group=where, n=number, field=what), words)
    return say(message("form-field-in", group=where, field=what), words)


def path_label(path: str, words: Words) -> str:
    """A place in a case file as the form calls it: ``soil.ph`` is ``Soil: pH``."""
    question = _asked().get(_without_numbers(_INDEX.sub("", path)))
    name, _, _key = _INDEX.sub("", path).rpartition(".")
    number = _INDEX.search(path)
    table = next((table for table in case_questions() if table.name == name), None)
    if question is None or table is None:
        return _table_at(path, number[1] if number else "", words)
    return _in_group(
        _table_label(table, words) if table.name else "",
        int(number[1]) if number else 0,
        asked_as(question.path, words),
        words,
    )


def _table_at(path: str, number: str, words: Words) -> str:
    """A whole table, or one entry of a list, as the form calls it; else the path itself."""
    name = _INDEX.sub("", path)
    table = next((table for table in case_questions() if table.name == name != ""), None)
    return path if table is None else f"{_table_label(table, words)} {number}".strip()


def typed_tree(fields: Iterable[tuple[str, str]]) -> Tree:
    """The case file that was typed into the form: known paths only, numbers and days as such.

    Returns
    -------
    dict
        The case file as tables; what was left empty is not in it.
    """
    asked = _asked()
    split: list[tuple[str, str]] = []
    for path, value in fields:
        question = asked.get(_without_numbers(path))
        if question is None or not _stands_where_it_should(path):
            continue
        parts = _parts(question, value)
        split += [(path, part) for part in parts] or [(path, "")]
    tree: Tree = _tidied(with_fields({}, split), "")
    return tree


def asked_path(path: str) -> str:
    """The path of a fault as a form has it: ``applied[2].amount`` is ``applied.1.amount``."""
    dotted = _INDEX.sub(lambda found: f".{int(found[1]) - 1}", path)
    if _without_numbers(dotted) in _asked():
        return re.sub(r"\.\d+$", "", dotted)
    return dotted


def value_text(node: Any) -> str:
    """A value of a case file as somebody would type it."""
    if isinstance(node, bool):
        return "true" if node else "false"
    if isinstance(node, list):
        texts = [value_text(item) for item in node]
        return (", " if all(_NUMBER.fullmatch(text) for text in texts) else "; ").join(texts)
    if isinstance(node, Mapping):
        return ""
    return str(node)


@dataclass(frozen=True, slots=True)
class _Builder:
    tree: Mapping[str, Any]
    told: Mapping[str, list[Fault]]
    words: Words
    empty_rows: Mapping[str, int]

    def group(self, table: QuestionTable, lists: tuple[Group, ...] = ()) -> Group:
        asked = [q for q in table.questions if q.is_asked]
        first = [q for q in asked if q.is_usual] or asked
        rows = self._rows(table, asked) if table.is_list else ()
        return Group(
            name=table.name,
            label=_table_label(table, self.words),
            meaning=say(message("form-group-hint", table=_table_key(table)), self.words),
            usual=() if table.is_list else tuple(self._line(table, q, table.name) for q in first),
            others=()
            if table.is_list
            else tuple(self._line(table, q, table.name) for q in asked if q not in first),
            rows=rows,
            lists=lists,
            faults=tuple(self.told.get(table.name, ())) if table.name else (),
            is_list=table.is_list,
        )

    def _rows(self, table: QuestionTable, asked: Sequence[Question]) -> tuple[Row, ...]:
        entries = _at(self.tree, table.name)
        held = len(entries) if isinstance(entries, list) else 0
        rows = []
        for number in range(held + max(1, self.empty_rows.get(table.name, 1))):
            path = f"{table.name}.{number}"
            rows.append(
                Row(
                    path=path,
                    number=number + 1,
                    lines=tuple(self._line(table, q, path) for q in asked),
                    is_new=number >= held,
                    faults=tuple(self.told.get(path, ())),
                )
            )
        return tuple(rows)

    def _line(self, table: QuestionTable, question: Question, at: str) -> Line:
        path = f"{at}.{question.key}" if at else question.key
        held = _at(self.tree, path)
        value = "" if held is None else value_text(held)
        own = (value,) if value and value not in question.choices else ()
        return Line(
            path=path,
            label=asked_as(question.path, self.words),
            value=value,
            choices=(*question.choices, *own) if question.choices else (),
            hint=_hint(question, self.words),
            example=example_typed(question, self.words.units),
            suggests=question.row.suggests,
            is_day=question.reads.holds is Holds.DATE,
            is_numeric=question.is_figure,
            is_long=question.reads.is_list or question.reads.holds is Holds.TEXT,
            is_required=question.is_required,
            faults=tuple(self.told.get(path, ())),
        )


def _table_key(table: QuestionTable) -> str:
    """A table as a message chooses by it; ``top`` for the keys above all tables."""
    return table.name.replace(".", "-").replace("_", "-") or "top"


def _table_label(table: QuestionTable, words: Words) -> str:
    return say(message("form-group", table=_table_key(table)), words)


def asked_as(key: str, words: Words) -> str:
    """A key of the case file as the form asks it.

    Returns
    -------
    str
        Its label, the unit last; a key that the form has no words for goes by its name in a
        letter.
    """
    asked = f"ask-{choice(key)}"
    if asked in words.book:
        return say(message(asked), words)
    label, question = field_called(key, words), questions_by_path().get(key)
    if question is None or not question.is_figure or question.reads.unit in ("", "pH"):
        return label
    unit = Given(question.reads.unit)
    return say(message("form-label-unit", label=Given(label), unit=unit), words)


def _hint(question: Question, words: Words) -> str:
    hint = f"hint-{choice(question.path)}"
    said = message(hint) if hint in words.book else question.meaning
    texts = [say(said, words).replace("`", "")]
    reads = question.reads
    if reads.bare is not None:
        texts.append(say(message("form-hint-bare", unit=reads.bare), words))
    if reads.is_list and reads.holds is Holds.NAME:
        texts.append(say(message("form-hint-several"), words))
    return " ".join(texts)


def example_typed(question: Question, units: str) -> str:
    """A value of a key as it is typed into a form, in the units that the reader uses."""
    if units == "us" and question.reads.example_us:
        return question.reads.example_us
    return re.sub(r"[\[\]\"]", "", question.example)


@cache
def _asked() -> dict[str, Question]:
    return {path: question for path, question in questions_by_path().items() if question.is_asked}


def _without_numbers(path: str) -> str:
    return ".".join(part for part in path.split(".") if not part.isdecimal())


def _stands_where_it_should(path: str) -> bool:
    """True for ``soil.ph`` and ``applied.0.rate``, false for ``0.soil.ph`` or ``applied.rate``."""
    *above, key = path.split(".")
    if key.isdecimal():
        return False
    lists = {table.name for table in case_questions() if table.is_list}
    name = _without_numbers(".".join(above))
    if name not in lists:
        return not any(part.isdecimal() for part in above)
    return above[:-1] == name.split(".") and above[-1].isdecimal()


def _parts(question: Question, value: str) -> list[str]:
    """The values in one field: of a list, what stands between its signs."""
    if not question.reads.is_list:
        return [value]
    value = value.strip().strip("[]").replace('"', "")
    signs = r"[;\n]" if question.reads.holds is Holds.NAME else r"[;,\s]+"
    return [part.strip() for part in re.split(signs, value) if part.strip()]


def _tidied(node: Any, path: str) -> Any:
    if isinstance(node, dict):
        return {k: _tidied(v, f"{path}.{k}" if path else k) for k, v in node.items()}
    question = _asked().get(path)
    if isinstance(node, list):
        return [_tidied(item, path) for item in node]
    return _as_meant(node, question) if question is not None else node


def _as_meant(text: str, question: Question) -> object:
    """A text as number, day or truth where the file would hold one and nothing is lost."""
    holds = question.reads.holds
    if holds is Holds.DATE and _DAY.fullmatch(text):
        try:
            return date.fromisoformat(text)
        except ValueError:
            return text
    if holds is Holds.FLAG and text in ("true", "false"):
        return text == "true"
    if holds not in _FIGURES or not _NUMBER.fullmatch(text):
        return text
    number: int | float = float(text) if "." in text else int(text)
    return number if str(number) == text else text


def _at(tree: Mapping[str, Any], path: str) -> Any:
    node: Any = tree
    for key in path.split("."):
        if isinstance(node, Mapping):
            node = node.get(key)
        elif isinstance(node, list) and key.isdecimal() and int(key) < len(node):
            node = node[int(key)]
        else:
            return None
    return node
