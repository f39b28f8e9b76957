"""No prose is left in the workbench and the store: pages ask for messages by key."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

SOURCE: Final = Path(__file__).parents[2] / "src" / "loamshift"
TEMPLATES: Final = sorted((SOURCE / "web").rglob("templates/**/*.html"))
CODE: Final = sorted(
    path
    for folder in ("web", "store")
    for path in (SOURCE / folder).rglob("*.py")
    if path.parent.name != "migrations"  # the history of the database, which nobody reads
)
NAMES: Final = {"loamshift", "KEY", "PDF", "HTML", "Markdown", "JSON", "quot", "amp", "nbsp"}
"""Words of a page that are names, the same in every language."""
READ_OUT: Final = ("alt", "aria-label", "content", "label", "placeholder", "title")
_CODE_TAG: Final = re.compile(r"<(code|script|style|svg)\b.*?</\1>", re.DOTALL)
_TAG: Final = re.compile(r"{%.*?%}|{{.*?}}|{#.*?#}", re.DOTALL)
_ELEMENT: Final = re.compile(r"<[^>]*>")
_ATTRIBUTE: Final = re.compile(rf'\s(?:{"|".join(READ_OUT)}|data-say-[a-z]+)="([^"]*)"')
_META: Final = re.compile(r"<meta\b[^>]*>")
_WORD: Final = re.compile(r"[A-Za-z]{2,}")
_UNIT: Final = re.compile(r"^\d[\d.]* [a-z0-9/ ]+$")
_TWO_WORDS: Final = re.compile(r"[A-Za-z]{2,}[,.;:]? [A-Za-z]{2,}")

FOR_MACHINES: Final = r"([a-z]+/[a-z]+; charset=|private, no-|HX-Request, |attachment; )"
"""Media types and headers."""
EXCEPTIONS: Final[dict[str, dict[str, str]]] = {
    "web/api/*": {
        r".*": "the description of the API for programmers, which is in English throughout",
    },
    "web/beds/samples.py": {r".*": "the example beds are files that somebody could have written"},
    "web/products/views/claims.py": {r"&?[a-z.0-9_]+=": "addresses of examples"},
    "web/surroundings.py": {
        r"(PRAGMA|Application Support)": "settings of the database, and a folder of the system",
    },
    "web/data/backups.py": {r"(PRAGMA|pragma|select) ": "SQL"},
    "web/data/tables.py": {r"(SET TRANSACTION|TRUNCATE|COPY|CREATE|\(SELECT)": "SQL"},
    "store/export.py": {r"SET TRANSACTION": "SQL"},
    "store/erase.py": {r"PRAGMA": "SQL"},
    "web/health.py": {
        r"not (reachable|current)": "read by a proxy or a monitor, not by people",
    },
    "web/middleware.py": {r"(default-src|form-action)": "a header of the content policy"},
    "web/templatetags/say.py": {r"(sentence needs|a sentence holds)": "read by who writes a page"},
    "web/plan/views/why.py": {r"loamshift why": "a command, looked for in texts"},
    "web/limits.py": {r"loamshift sign-in": "goes into a fingerprint"},
    "web/cases.py": {r"this bed$": "the name of a source, which pages never show"},
    "store/cells.py": {r"models\.Field": "a type"},
    "store/models/office.py": {
        r"(My beds|US Letter)": "a default name and a choice of the database; pages word both",
    },
    "store/recorded.py": {
        r"(Took back|Did again): ": "how earlier versions recorded that something was undone",
    },
    "web/clients/garden_drawing.py": {r" ?(sq ft|m2)": "a size as the text of a bed takes it"},
}
"""Texts that may stand in code: by file, a pattern of the text and why."""


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.stem)
def test_a_template_holds_no_prose(path: Path) -> None:
    assert list(prose_in(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize(
    "text",
    [
        "<p>Save this bed</p>",
        '<input placeholder="a bed">',
        '<div data-say-moved="It moved">',
        "<p>{% if a %}yes{% endif %}</p>",
    ],
)
def test_prose_in_a_template_is_found(text: str) -> None:
    assert list(prose_in(text))


@pytest.mark.parametrize("path", CODE, ids=lambda path: str(path.relative_to(SOURCE)))
def test_code_of_pages_and_store_holds_no_prose(path: Path) -> None:
    allowed = _allowed(path.relative_to(SOURCE).as_posix())
    left = [
        text
        for text in texts_in(ast.parse(path.read_text(encoding="utf-8")))
        if _TWO_WORDS.search(_ELEMENT.sub(" ", text))
        and not any(re.match(one, text) for one in allowed)
    ]
    assert not left, "\n".join(left)


@pytest.mark.parametrize("name", [name for name in EXCEPTIONS if "*" not in name])
def test_an_exception_is_still_needed(name: str) -> None:
    texts = list(texts_in(ast.parse((SOURCE / name).read_text(encoding="utf-8"))))
    for pattern in EXCEPTIONS[name]:
        assert any(re.match(pattern, text) for text in texts), pattern


def test_prose_in_code_is_found() -> None:
    tree = ast.parse('"""A docstring with words."""\nx = f"Added {1} to the shelf"\n')
    assert list(texts_in(tree)) == ["Added  to the shelf"]


def test_nothing_of_djangos_translations_is_left() -> None:
    for path in (*CODE, *TEMPLATES):
        text = path.read_text(encoding="utf-8")
        assert "gettext" not in text and "load i18n" not in text, path.name


def prose_in(text: str) -> Iterator[str]:
    """Words that a template has of its own: between elements, and in what is read out."""
    text = _META.sub("", _CODE_TAG.sub("", _TAG.sub("", text)))
    for attribute in _ATTRIBUTE.findall(text):
        if not _UNIT.match(attribute):
            yield from (word for word in _WORD.findall(attribute) if word not in NAMES)
    yield from (word for word in _WORD.findall(_ELEMENT.sub(" ", text)) if word not in NAMES)


def texts_in(tree: ast.Module) -> Iterator[str]:
    """Texts of code that may reach people: neither docstrings nor annotations nor logs."""
    left_out = {
        node
        for outer in ast.walk(tree)
        for node in _silent(outer)
        if isinstance(node, (ast.Constant, ast.JoinedStr))
    }
    inside = {
        part for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values
    }
    for node in ast.walk(tree):
        if node in left_out or node in inside:
            continue
        if isinstance(node, ast.JoinedStr):
            yield "".join(str(part.value) for part in node.values if isinstance(part, ast.Constant))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def _silent(node: ast.AST) -> Iterator[ast.AST]:
    """What of a node is never read by people."""
    if isinstance(node, ast.Expr) and isinstance(node.value, (ast.Constant, ast.JoinedStr)):
        yield node.value
    elif isinstance(node, ast.Assert):
        yield from ast.walk(node)
    elif isinstance(node, ast.Raise):
        call = node.exc
        name = call.func if isinstance(call, ast.Call) else None
        if isinstance(name, ast.Name) and name.id in ("ValueError", "TypeError", "LookupError"):
            yield from ast.walk(node)
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        owner = node.func.value
        if isinstance(owner, ast.Name) and owner.id == "LOG":
            yield from ast.walk(node)


def _allowed(name: str) -> list[str]:
    return [FOR_MACHINES] + [
        pattern
        for key, patterns in EXCEPTIONS.items()
        if key == name or (key.endswith("*") and name.startswith(key[:-1]))
        for pattern in patterns
    ]
