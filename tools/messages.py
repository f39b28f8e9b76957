#!/usr/bin/env python3
"""Look through the message files: nothing broken, nothing missing, nothing left over.

    tools/messages.py              every fault, a line each
    tools/messages.py stub xx      begin a translation: every message of English, to be put into xx

Found here, so that nobody ever reads it: a file that does not parse, a key that stands twice, a
message that code asks for and no file has, a value that a message needs and code does not give
(or gives and no language says), a message that nothing asks for, a key of the case file or of the
answer without its words (and words of a key that is none), an American message that has no British
one, and in a translation a plural without one of its language's forms.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from babel import Locale
from fluent.syntax import FluentParser
from fluent.syntax import ast as ftl
from fluent.syntax.visitor import Visitor

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src" / "loamshift"
HOME = SOURCE / "report" / "messages"
ENGLISH, AMERICAN = "en", "en-US"
GIVEN_ALWAYS = frozenset({"units", "ground"})
"""What every message may ask for: the reader's units, and the ground a rate is for."""
MADE_OF_PARTS = ("number-", "plant-")
"""Beginnings of keys that code puts together from a number or a name."""
OF_KEYS = (
    *("field-", "means-", "ask-", "hint-", "facts-"),
    *("answer-means-", "label-means-", "label-on-bags-"),
)
"""Beginnings of the messages that belong to a key."""
FIELDS = frozenset(
    (
        *("field-entry", "field-entry-alone", "field-other", "field-ph-by", "field-proposed"),
        *("facts-bed", "facts-soil", "facts-water", "facts-hint"),
    )
)
"""Messages about keys that are no key's own."""
CARRIED = {"refit-expected": frozenset(("answered",))}
"""Values that a message carries for what makes another one of it."""
_SAY = re.compile(r"{%\s*(say(?:_[a-z]+)?|sentence)\s+([\"'])([a-z0-9-]+)\2(.*?)%}", re.DOTALL)
_GIVEN = re.compile(r"(\w+)=")
_GAP = re.compile(r"{%\s*gap\s+(\w+)\s*%}")
_END = "{% endsentence %}"


@dataclass
class Entry:
    """One message: where it stands, and the values it asks for."""

    where: str
    values: set[str] = field(default_factory=set)
    plurals: dict[str, set[str]] = field(default_factory=dict)
    uses: set[str] = field(default_factory=set)


class _Reader(Visitor):
    """Gathers what a message asks for."""

    def __init__(self, entry: Entry) -> None:
        self.entry = entry

    def visit_VariableReference(self, node: ftl.VariableReference) -> None:
        self.entry.values.add(node.id.name)

    def visit_MessageReference(self, node: ftl.MessageReference) -> None:
        self.entry.uses.add(node.id.name)

    def visit_TermReference(self, node: ftl.TermReference) -> None:
        self.entry.uses.add(f"-{node.id.name}")

    def visit_SelectExpression(self, node: ftl.SelectExpression) -> None:
        names = {v.key.name for v in node.variants if isinstance(v.key, ftl.Identifier)}
        if isinstance(node.selector, ftl.VariableReference) and "other" in names:
            self.entry.plurals.setdefault(node.selector.id.name, set()).update(names)
        self.generic_visit(node)


def main(words: list[str]) -> int:
    """Print every fault; 0 where there is none."""
    if words[:1] == ["stub"] and len(words) == 2:
        return stub(words[1])
    if words:
        print(__doc__)
        return 2
    faults = list(all_faults())
    for fault in faults:
        print(fault)
    return 1 if faults else 0


def all_faults() -> Iterator[str]:
    """Every fault of files and code, as a line."""
    folders = sorted(path.name for path in HOME.iterdir() if any(path.glob("*.ftl")))
    read: dict[str, dict[str, Entry]] = {}
    for name in folders:
        read[name] = {}
        yield from _read(name, read[name])
    english = read[ENGLISH]
    for name, entries in read.items():
        if name != ENGLISH:
            yield from _beside(name, entries, english)
    yield from _asked_for(english, read.get(AMERICAN, {}))
    yield from _of_keys(english)


def _read(name: str, entries: dict[str, Entry]) -> Iterator[str]:
    for path in sorted((HOME / name).glob("*.ftl")):
        where = f"{name}/{path.name}"
        for key, entry in _entries(where, path.read_text(encoding="utf-8")):
            if entry is None:
                yield f"{where}: not a message: {key[:80]}"
                continue
            if key in entries:
                yield f"{where}: {key} stands also in {entries[key].where}"
            entries[key] = entry


@cache
def _entries(where: str, text: str) -> tuple[tuple[str, Entry | None], ...]:
    """The messages of a file by their keys; what is none, by its first line without an entry."""
    found: list[tuple[str, Entry | None]] = []
    for part in FluentParser(with_spans=False).parse(text).body:
        if isinstance(part, ftl.Junk):
            found.append(((part.content or "").strip().splitlines()[0], None))
        elif isinstance(part, (ftl.Message, ftl.Term)):
            entry = Entry(where)
            _Reader(entry).visit(part)
            found.append((f"{'-' if isinstance(part, ftl.Term) else ''}{part.id.name}", entry))
    return tuple(found)


def _beside(name: str, entries: Mapping[str, Entry], english: Mapping[str, Entry]) -> Iterator[str]:
    forms = set(Locale.parse(name, sep="-").plural_form.rules) | {"other"}
    for key, entry in entries.items():
        if key not in english:
            yield f"{entry.where}: {key} has no English message"
            continue
        for value in sorted(entry.values - english[key].values - GIVEN_ALWAYS):
            yield f"{entry.where}: {key} asks for ${value}, which the English message does not"
        for value, found in entry.plurals.items():
            plural = english[key].plurals.get(value, set())
            if plural & {"one", "two", "few", "many", "zero"}:
                for form in sorted(forms - found - ({"many"} if name == AMERICAN else set())):
                    yield f"{entry.where}: {key} has no form “{form}” of ${value}"
        for value in sorted(set(english[key].plurals) - set(entry.plurals)):
            if english[key].plurals[value] & {"one", "two", "few", "many"}:
                yield f"{entry.where}: {key} has no plural of ${value}"


@cache
def _strings(text: str) -> tuple[frozenset[str], frozenset[str], tuple[ast.Call, ...]]:
    """Of a source its texts, how the keys begin that it puts together, and its calls."""
    constants: set[str] = set()
    beginnings: set[str] = set()
    calls: list[ast.Call] = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            constants.add(node.value)
        elif isinstance(node, ast.JoinedStr) and node.values:
            first = node.values[0]
            if isinstance(first, ast.Constant) and str(first.value).endswith("-"):
                beginnings.add(str(first.value))
        elif isinstance(node, ast.Call):
            calls.append(node)
    return frozenset(constants), frozenset(beginnings), tuple(calls)


def _asked_for(english: Mapping[str, Entry], american: Mapping[str, Entry]) -> Iterator[str]:
    used: set[str] = set()
    prefixes: set[str] = set(MADE_OF_PARTS)
    for path in sorted(SOURCE.rglob("*.py")):
        where = path.relative_to(ROOT)
        constants, beginnings, calls = _strings(path.read_text(encoding="utf-8"))
        used |= constants
        prefixes |= beginnings
        for node in calls:
            yield from _call(node, f"{where}:{node.lineno}", english, american)
    for path in sorted(SOURCE.rglob("*.html")):
        for key, given in _in_template(path.read_text(encoding="utf-8")):
            used.add(key)
            yield from _says(key, given, str(path.relative_to(ROOT)), english, american)
    for entry in (*english.values(), *american.values()):
        used |= entry.uses
    for key, entry in english.items():
        if key not in used and not key.startswith(tuple(prefixes)):
            yield f"{entry.where}: nothing asks for {key}"


def _of_keys(english: Mapping[str, Entry]) -> Iterator[str]:
    """Words of the keys of the case file, of a label and of the answer: each found by its key."""
    needed, allowed = _key_messages()
    for key in sorted(needed - english.keys()):
        yield f"{where_keys_stand(key)}: no message {key}, which a key needs"
    for key in sorted(english):
        if key.startswith(OF_KEYS) and key not in needed | allowed | FIELDS:
            yield f"{english[key].where}: {key} belongs to no key"


def where_keys_stand(key: str) -> str:
    """The files that words of a key are looked for in."""
    kind = "answer-keys" if key.startswith("answer-") else "label-keys"
    return f"{ENGLISH}/{'keys-*' if key.startswith(('field-', 'means-')) else kind}.ftl"


def _key_messages() -> tuple[set[str], set[str]]:
    """Messages that the keys must have, and those that they may have."""
    from loamshift.case.answer import answer_keys
    from loamshift.case.answer_keys import KEPT_KEYS, kept_meaning
    from loamshift.case.answer_schema import answer_parts, key_of
    from loamshift.case.label_keys import FINENESS, LABEL_KEYS, label_meaning, label_on_bags
    from loamshift.case.questions import case_questions
    from loamshift.domain.field_name import field_in_text, field_key, meaning_of

    needed: set[str] = set()
    allowed: set[str] = set()
    for table in case_questions():
        needed.add(meaning_of(table.name).key)
        if table.name:
            allowed |= {field_key(table.name), field_in_text(table.name).key}
        for asked in table.questions:
            label = field_key(asked.path)
            needed |= {label, field_in_text(asked.path).key, meaning_of(asked.path).key}
            ending = label.removeprefix("field-")
            allowed |= {f"ask-{ending}", f"hint-{ending}"} if asked.is_asked else set()
            allowed |= {f"facts-{ending}{part}" for part in ("", "-empty", "-choice")}
    for name in (*(row.key for row in LABEL_KEYS), FINENESS):
        needed |= {label_meaning(name).key, label_on_bags(name).key}
    for kind in answer_parts():
        needed |= {key_of(kind, key).meaning.key for key in answer_keys(kind)}
    return needed | {kept_meaning(key).key for key in KEPT_KEYS}, allowed


def _in_template(text: str) -> Iterator[tuple[str, set[str]]]:
    """Keys that a template asks for, with the values and gaps it gives."""
    for tag in _SAY.finditer(text):
        given = set(_GIVEN.findall(tag[4]))
        if tag[1] == "sentence":
            given |= set(_GAP.findall(text[tag.end() : text.index(_END, tag.end())]))
        yield tag[3], given


def _says(
    key: str,
    given: set[str],
    where: str,
    english: Mapping[str, Entry],
    american: Mapping[str, Entry],
) -> Iterator[str]:
    if key not in english:
        yield f"{where}: no message {key}"
        return
    asked = _all_values(key, english)
    counts = {f"{one}-count" for one in given}
    for value in sorted(asked - given - counts - GIVEN_ALWAYS):
        yield f"{where}: {key} needs ${value}"
    said = asked | (american[key].values if key in american else set())
    said |= {one.removesuffix("-count") for one in said}
    for value in sorted(given - said):
        yield f"{where}: {key} never says ${value}"


def _call(
    node: ast.Call, where: str, english: Mapping[str, Entry], american: Mapping[str, Entry]
) -> Iterator[str]:
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if name != "message" or not node.args:
        return
    given: set[str] | None
    if len(node.args) == 2 and isinstance(node.args[1], ast.Dict):
        names = [key.value for key in node.args[1].keys if isinstance(key, ast.Constant)]
        given = {str(one) for one in names} if len(names) == len(node.args[1].keys) else None
    elif all(keyword.arg for keyword in node.keywords) and len(node.args) == 1:
        given = {str(keyword.arg) for keyword in node.keywords}
    else:
        given = None
    for key in _keys(node.args[0]):
        if key not in english:
            yield f"{where}: no message {key}"
            continue
        if given is None:
            continue
        asked = _all_values(key, english)
        counts = {f"{one}-count" for one in given}
        for value in sorted(asked - given - counts - GIVEN_ALWAYS):
            yield f"{where}: {key} needs ${value}"
        said = asked | (american[key].values if key in american else set())
        said |= {one.removesuffix("-count") for one in said}
        for value in sorted(given - said - CARRIED.get(key, frozenset())):
            if isinstance(node.args[0], ast.Constant):
                yield f"{where}: {key} never says ${value}"


def _all_values(key: str, english: Mapping[str, Entry]) -> set[str]:
    entry = english[key]
    return entry.values.union(
        *(_all_values(used, english) for used in entry.uses if used in english and used != key)
    )


def _keys(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _keys(node.body)
        yield from _keys(node.orelse)


def stub(language: str) -> int:
    """Begin a translation: the English files under the language's name, to be put into it."""
    folder = HOME / language
    if folder.exists():
        print(f"{folder.relative_to(ROOT)} is there already")
        return 1
    folder.mkdir()
    for path in sorted((HOME / ENGLISH).glob("*.ftl")):
        (folder / path.name).write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
    print(f"{folder.relative_to(ROOT)}: put the texts behind the equals signs into {language}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
