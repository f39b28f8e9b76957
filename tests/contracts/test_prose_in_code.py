"""What a terminal prints stands in message files: no prose in the command line and the reader."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

SOURCE = Path(__file__).parents[2] / "src" / "loamshift"
FILES = sorted([*(SOURCE / "cli").glob("*.py"), *(SOURCE / "case").glob("*.py")])
ALLOWED = {
    ("amounts", None): "examples of amounts, and spellings of units",
    ("commands", None): "command lines to be typed",
    ("build", "Unnamed bed"): "the name of a bed that has none, kept as data",
    ("build", "sq ft"): "a unit to be typed",
    ("build_care", '"ammonium nitrate"'): "an example to be typed",
    ("build_care", '"sulphate of ammonia"'): "an example to be typed",
    ("build_label", "the label"): "the name of what was typed, in place of a file",
    ("build_place", "own figures"): "the name of a place that has none, kept as data",
    ("case_options", "what you gave"): "the name of what was typed, in place of a file",
    ("codec", None): "kinds of value in the reference, and errors for programmers",
    ("label", None): "names of figures in the name of a product, kept as data",
    ("letter_forms", " is not made from the letter alone"): "an error for programmers",
    ("question_text", None): "patterns that are sought in what people wrote",
    ("page", None): "how to call the module, the head of a page, and choices of a message",
    ("answer_keys", "as its key"): "a choice of a message",
    ("answer_page", None): "how to call the module",
    ("schema", None): "an example to be typed, a default kept as data, and spellings of words",
    ("schema_base", None): "spellings of words, examples to be typed, and choices of messages",
    ("schema_bed", None): "spellings of words, examples to be typed, and choices of messages",
    ("schema_care", None): "spellings of words, examples to be typed, and choices of messages",
    ("schema_pot", None): "an example to be typed, and a choice of messages",
    ("schema_soil", None): "spellings of words, examples to be typed, and choices of messages",
    ("plain", None): "what the reader of JSON says, quoted within a message",
    ("batch_letters", "no room"): "a value of an enumeration",
    ("quantities", None): "examples to be typed, and names of scales",
    ("read", "case file"): "the name of what was read, in place of a file",
    ("registry", None): "definitions of units",
    ("spellings", None): "spellings of units",
    ("trial_read", None): "an example to be typed, and the name of what was read",
    ("trial_schema", None): "spellings of words, and examples to be typed",
    ("trial_sheets", None): "what people call a column",
    ("toml_line", None): "what the reader of TOML says, to be recognised",
    ("toml_text", None): "where the reader of TOML says it is, to be recognised",
    ("water_quantities", None): "spellings of units",
}
"""Texts that may stay, and why; None for a whole module."""
_TWO_WORDS = re.compile(r"[A-Za-z]{2,}[,;:]? [a-z]{2,}")


def _texts(tree: ast.Module) -> Iterator[tuple[int, str]]:
    quiet: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)):
            quiet |= {id(part.value) for part in node.body if isinstance(part, ast.Expr)}
        if isinstance(node, ast.Call) and _name(node.func) in ("compile", "LoamshiftError", "exit"):
            quiet |= {id(part) for part in ast.walk(node)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in quiet:
            yield node.lineno, node.value


def _name(node: ast.expr) -> str:
    return node.attr if isinstance(node, ast.Attribute) else getattr(node, "id", "")


def _docstrings_aside(path: Path) -> list[tuple[int, str]]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [(line, text) for line, text in _texts(tree) if _TWO_WORDS.search(text)]


def test_no_prose_stands_in_the_command_line_or_the_reader_of_case_files() -> None:
    left = [
        f"{path.parent.name}/{path.name}:{line}: {text!r}"
        for path in FILES
        for line, text in _docstrings_aside(path)
        if (path.stem, text) not in ALLOWED and (path.stem, None) not in ALLOWED
    ]
    assert left == []


def test_every_exception_is_still_needed() -> None:
    found: dict[str, set[str]] = {path.stem: set() for path in FILES}
    for path in FILES:
        found[path.stem] |= {text for _, text in _docstrings_aside(path)}
    for stem, text in ALLOWED:
        assert stem in found, stem
        assert found[stem] if text is None else text in found[stem], (stem, text)
