"""The messages of one language: found by key, read from their files when first needed."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from threading import Lock
from typing import Any, Final

from fluent.runtime import FluentBundle
from fluent.syntax import FluentParser, ast
from fluent.syntax.visitor import Visitor

from loamshift.errors import LoamshiftError
from loamshift.report.spelling import spell

SOURCE: Final = "en"
"""The language that is written first; British English."""
BRITISH: Final = "en-GB"
AMERICAN: Final = "en-US"
ENDING: Final = ".ftl"
_ENTRY: Final = re.compile(r"^(-?[a-zA-Z][\w-]*)[ \t]*=", re.MULTILINE)
_VALUE: Final = re.compile(r"\$([a-z][\w-]*)")
_USED: Final = re.compile(r"\{\s*(-?[a-z][\w-]*)|(?<=[(,:\s])(-?[a-z][\w-]*)(?=\s*[),}])")


class Book:
    """The messages of one language, with those of the languages behind it.

    Parameters
    ----------
    folders
        Where its messages stand, the first that has a key counts; a folder is a mapping of file
        names to texts.
    """

    def __init__(
        self,
        language: str,
        *folders: Mapping[str, str],
        respell: Callable[[str], str] | None = None,
    ) -> None:
        """Index the texts; nothing is parsed yet."""
        self.language = language
        self._entries: dict[str, tuple[str, bool]] = {}
        for place, folder in enumerate(folders):
            last = place == len(folders) - 1
            for text in folder.values():
                for key, entry in entries_of(text):
                    self._entries.setdefault(key, (entry, last))
        self._respell = respell
        functions: dict[str, Any] = {
            "WORD": self._in_letters,
            "CAPITAL": _capital,
            "LOWER": _lower,
        }
        self._bundle = FluentBundle(
            [language],
            use_isolating=False,
            functions=functions,
        )
        self._read: set[str] = set()
        self._lock = Lock()

    def __contains__(self, key: str) -> bool:
        """Whether there is a message of this key."""
        return key in self._entries

    def keys(self) -> Iterator[str]:
        """Every key, terms with their dash."""
        return iter(self._entries)

    def values_of(self, key: str) -> tuple[str, ...]:
        """The names of the values that a message has gaps for, in the order it says them."""
        return tuple(dict.fromkeys(_VALUE.findall(self._entries[key][0])))

    def gaps(self, key: str) -> frozenset[str]:
        """The names of the values that a message and those inside it have gaps for.

        Which of them are needed depends on the choices among them; no more than these are.
        """
        found: set[str] = set()
        seen, waiting = {key}, [key]
        while waiting:
            entry = self._entries[waiting.pop()][0]
            found.update(_VALUE.findall(entry))
            inside = {used[1] or used[2] for used in _USED.finditer(entry)} & set(self._entries)
            waiting += inside - seen
            seen |= inside
        return frozenset(found)

    def word(self, key: str, values: Mapping[str, str | int | float]) -> str:
        """A message with texts and counts in it.

        Parameters
        ----------
        values
            What belongs in it, by name [texts and numbers].

        Raises
        ------
        LoamshiftError
            Where there is no such message, or one of its values is missing: our fault, found by
            ``tools/check`` before anybody reads it.
        """
        with self._lock:
            self._load(key)
        found = self._bundle.get_message(key).value
        if found is None:
            raise LoamshiftError(f"the message {key!r} has no text")
        text, errors = self._bundle.format_pattern(found, dict(values))
        if errors:
            raise LoamshiftError(f"the message {key!r} cannot be worded: {errors[0]}")
        return str(text)

    def _load(self, key: str) -> None:
        if key in self._read:
            return
        if key not in self._entries:
            raise LoamshiftError(f"there is no message {key!r} for {self.language}")
        entry, may_respell = self._entries[key]
        resource = FluentParser(with_spans=False).parse(entry)
        if self._respell is not None and may_respell:
            _Respelt(self._respell).visit(resource)
        self._bundle.add_resource(resource)
        self._read.add(key)
        for found in _USED.finditer(entry):
            used = found[1] or found[2]
            if used in self._entries:
                self._load(used)

    def _in_letters(self, count: Any) -> str:
        """A small whole number in letters, a larger one in digits."""
        key = f"number-{int(count)}"
        return self.word(key, {}) if key in self._entries else str(count)


class _Respelt(Visitor):
    """Changes the spelling of the words of a message; names of values keep theirs."""

    def __init__(self, respell: Callable[[str], str]) -> None:
        self._respell = respell

    def visit_TextElement(self, node: ast.TextElement) -> None:
        node.value = self._respell(node.value)


def _capital(text: Any) -> str:
    """A text with a capital first letter; ``pH`` keeps its own."""
    said = str(text)
    return said if said.startswith("pH") else said[:1].upper() + said[1:]


def _lower(text: Any) -> str:
    """A text with a small first letter, unless it is an abbreviation."""
    said = str(text)
    return said if said[1:2].isupper() else said[:1].lower() + said[1:]


def entries_of(text: str) -> Iterator[tuple[str, str]]:
    """Each message of a file with its key."""
    starts = list(_ENTRY.finditer(text))
    for place, start in enumerate(starts):
        end = starts[place + 1].start() if place + 1 < len(starts) else len(text)
        yield start[1], text[start.start() : end]


@cache
def folder_texts(language: str) -> Mapping[str, str]:
    """The message files of a language by their names; empty where it has none.

    Returns
    -------
    mapping
        File names and texts, in order of the names.
    """
    folder = _home().joinpath(language)
    if not folder.is_dir():
        return {}
    files = sorted((f for f in folder.iterdir() if f.name.endswith(ENDING)), key=lambda f: f.name)
    return {file.name: file.read_text(encoding="utf-8") for file in files}


def languages() -> tuple[str, ...]:
    """The languages that have a folder, ``en`` first."""
    names = sorted(folder.name for folder in _home().iterdir() if folder_texts(folder.name))
    return (SOURCE, *(name for name in names if name != SOURCE))


def _home() -> Traversable:
    return resources.files("loamshift.report.messages")


@cache
def book_of(language: str) -> Book:
    """The messages of a language; what it does not say in its own words is said in English."""
    source = folder_texts(SOURCE)
    if language == AMERICAN:
        return Book(
            language, folder_texts(AMERICAN), source, respell=lambda text: spell(text, "us")
        )
    if language == BRITISH:
        return Book(language, source, respell=lambda text: spell(text, "uk"))
    return Book(language, folder_texts(language), source)
