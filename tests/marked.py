"""A third language whose every text stands in brackets: what has none did not come from one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest
from fluent.syntax import FluentParser, FluentSerializer, ast
from fluent.syntax.visitor import Visitor

from loamshift.domain.case import Case
from loamshift.report import words as words_module
from loamshift.report.messages.book import Book, folder_texts
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials
from loamshift.tables.places import load_places
from loamshift.tables.plants import load_plants
from loamshift.tables.rows import tables_fingerprint

ALLOWED = frozenset(
    {"CaCO", "mmolc", "USD", "EUR", "GBP", "und", "oder", "belief", "column", "ppm"}
)
"""Words that no message has to say: units, currencies, the language's own joints, keys."""


class _Marked(Visitor):
    """Puts every word of a message between brackets."""

    def visit_TextElement(self, node: ast.TextElement) -> None:
        node.value = re.sub(r"\S(?:.*\S)?", lambda found: f"⟦{found[0]}⟧", node.value)


def _marked(text: str) -> str:
    resource = FluentParser(with_spans=False).parse(text)
    _Marked().visit(resource)
    return FluentSerializer().serialize(resource)


@cache
def _marked_book() -> Book:
    return Book("de", {name: _marked(text) for name, text in folder_texts("en").items()})


def marked_reader(monkeypatch: pytest.MonkeyPatch) -> Words:
    """A reader of that language; German by its figures, dates and joints."""
    monkeypatch.setattr(words_module, "languages", lambda: ("en", "de"))
    monkeypatch.setattr(words_module, "book_of", lambda language: _marked_book())
    return Words("de", "metric")


def words_left(text: str, case: Case) -> set[str]:
    """The words of a text that came from no message, no table and not from the case."""
    text = re.sub(r"⟦[^⟦⟧]*⟧", " ", text)
    for name in _names(case):
        text = text.replace(name, " ")
    found = {word for word in re.findall(r"[^\W\d_]{3,}", text) if word not in ALLOWED}
    return {word for word in found if len(set(word)) > 1}  # a course in characters is no word


def _names(case: Case) -> Iterator[str]:
    """What is taken from tables and from the case: names, places, months and the mark of the
    tables, whose digits can look like words; the longest first."""
    own = {case.name or "", case.place.name if case.place else ""}
    own |= {plant.name for plant in case.aim.plants}
    names = _names_of_tables() | own | {name[:1].upper() + name[1:] for name in own}
    yield from sorted((name for name in names if len(name) > 2), key=len, reverse=True)


@cache
def _names_of_tables() -> frozenset[str]:
    german = Words("de", "metric")
    names = {tables_fingerprint()}
    names |= {german.plant(plant.name) for plant in load_plants().values()}
    for key, material in load_materials().items():
        names |= {german.product(key), german.material_name(material), key}
    names |= {name[:1].upper() + name[1:] for name in names}
    names |= {place.name for place in load_places().values()}
    names |= {german.month(n) for n in range(1, 13)} | {
        german.month(n, short=True) for n in range(1, 13)
    }
    return frozenset(names)
