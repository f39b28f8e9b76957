"""Words that were struck stay out of messages, pages and docs."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from fluent.syntax import FluentParser, ast
from fluent.syntax.visitor import Visitor

from loamshift.report.messages.book import folder_texts

ROOT = Path(__file__).parents[2]
STRUCK = tomllib.loads((Path(__file__).parent / "struck_words.toml").read_text("utf-8"))["struck"]
GENERATED = {
    "case.md",
    "cli.md",
    "answer-keys.md",
    "sources.md",
    "trust.md",
    "plan-figures.md",
    "laws.md",
}
"""Pages of the docs that are written from tables, help texts and checks."""
LONGEST = 30
"""No sentence of a message has more words, its figures counted as one each [count]."""


class _Texts(Visitor):
    """The words of a message, each figure in it as one sign."""

    def __init__(self) -> None:
        self.parts: list[str] = []

    def visit_Pattern(self, node: ast.Pattern) -> None:
        whole = "".join(
            part.value if isinstance(part, ast.TextElement) else "¤" for part in node.elements
        )
        self.parts.append(" ".join(whole.split()))
        self.generic_visit(node)


@cache
def messages_said() -> tuple[tuple[str, str], ...]:
    """Every text of every message, with the file and key it stands under."""
    return tuple(_messages_said())


def _messages_said() -> Iterator[tuple[str, str]]:
    for language in ("en", "en-US"):
        for name, text in folder_texts(language).items():
            for entry in FluentParser(with_spans=False).parse(text).body:
                if isinstance(entry, (ast.Message, ast.Term)):
                    texts = _Texts()
                    texts.visit(entry)
                    for part in texts.parts:
                        yield f"{language}/{name} {entry.id.name}", part


@cache
def pages_said() -> tuple[tuple[str, str], ...]:
    """The lines of docs and README that people read; what is printed by a command is not here."""
    return tuple(_pages_said())


def _pages_said() -> Iterator[tuple[str, str]]:
    docs = ROOT / "docs"
    own = [path for path in docs.glob("*.md") if path.name not in GENERATED]
    pages = [*own, *docs.glob("how-to/*.md"), *docs.glob("why/*.md")]
    for path in [ROOT / "README.md", *sorted(pages)]:
        for number, text in paragraphs(path.read_text("utf-8")):
            yield f"{path.relative_to(ROOT)}:{number}", text


def paragraphs(page: str) -> Iterator[tuple[int, str]]:
    """The paragraphs of a page outside its fenced blocks, each as one line, and where it begins."""
    fenced = False
    begins, said = 1, ""
    for number, line in enumerate([*page.splitlines(), ""], 1):
        is_fence = line.lstrip().startswith("```")
        fenced = fenced != is_fence
        if fenced or is_fence or not line.strip():
            if said:
                yield begins, re.sub(r"`[^`]*`", "", said)
            said = ""
        else:
            begins, said = (begins, f"{said} {line.strip()}") if said else (number, line.strip())


@pytest.mark.parametrize("struck", STRUCK, ids=lambda row: row["say"][:40])
def test_a_struck_word_is_not_said(struck: dict[str, object]) -> None:
    pattern = re.compile(str(struck["words"]), re.IGNORECASE)
    allowed = struck.get("not_in", [])
    found = [
        f"{where}: {found[0]!r}, say {struck['say']}"
        for where, text in (*messages_said(), *pages_said())
        if (found := pattern.search(text)) and where.split()[0] not in allowed  # type: ignore[operator]
    ]
    assert not found, "\n".join(found)


def test_no_sentence_runs_on() -> None:
    long = [
        f"{where} ({count}): {sentence}"
        for where, text in messages_said()
        for sentence in re.split(r"(?<=[.!?:;])\s+", text)
        if (count := len(sentence.split())) > LONGEST
    ]
    assert not long, "\n".join(long)


def test_a_struck_word_would_be_found() -> None:
    patterns = [re.compile(str(row["words"]), re.IGNORECASE) for row in STRUCK]
    for text in ("filled with soft water", "by stab probe", "nine tests in ten", "3 % clay"):
        assert any(pattern.search(text) for pattern in patterns), text


def test_a_struck_word_is_found_over_two_lines_and_not_in_what_is_printed() -> None:
    page = "one\n\nnot a soft\nkind: soft\nwater\n\n```console\nsoft water\n```\nlast `soft water`"
    said = list(paragraphs(page))
    assert said == [(1, "one"), (3, "not a soft kind: soft water"), (10, "last ")]
