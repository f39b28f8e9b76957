"""The words of the help texts, read from their one message file without anything heavy."""

from __future__ import annotations

import os
import re
from collections.abc import Sequence
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from loamshift.report.words import Words

FILE: Final = "cli-help.ftl"
WORDS_SWITCH: Final = "LOAMSHIFT_WORDS"
"""Where a person says once which language or spelling to use."""
_ENTRY: Final = re.compile(
    r"^(cli-[a-z0-9-]+) =(.*(?:\n(?:[ \t]+.*|[ \t]*(?=\n[ \t])))*)", re.MULTILINE
)
_EXAMPLES: Final = "\b"
"""What stands above lines that are not to be wrapped."""


@cache
def _texts() -> dict[str, str]:
    file = resources.files("loamshift").joinpath("report", "messages", "en", FILE)
    found = _ENTRY.findall(file.read_text(encoding="utf-8"))
    return {
        key: "\n".join(line.strip() for line in text.strip().split("\n")) for key, text in found
    }


def told(key: str) -> str:
    """A help text by its key.

    Returns
    -------
    str
        British English; paragraphs have an empty line between them.
    """
    return _texts()[key]


def told_with_examples(key: str, docstring: str | None) -> str:
    """The help of a command: its text, and the command lines at the end of its docstring."""
    _, _, block = (docstring or "").partition(_EXAMPLES)
    lines = [line.strip("\n") for line in block.split("\n") if line.strip()][1:]
    if not lines:
        return told(key)
    least = min(len(line) - len(line.lstrip()) for line in lines)
    shown = [f"  {line[least:]}" for line in lines]
    many = sum(line.lstrip().startswith("loamshift ") for line in lines) > 1
    head = told("cli-help-heading-examples" if many else "cli-help-heading-example")
    return "\n".join([told(key), "", _EXAMPLES, head, *shown])


def help_spelling(arguments: Sequence[str]) -> str:
    """The spelling a reader chose: on the command line, else for good, else by the units."""
    said = " ".join(arguments).replace("=", " ").split()
    options = {word: after for word, after in pairwise(said) if word in ("--words", "--units")}
    chosen = options.get("--words") or os.environ.get(WORDS_SWITCH, "")
    return chosen or ("us" if options.get("--units") == "us" else "uk")


def say_help_in(command: Any, words: Words) -> None:
    """Put the help of a command, and of all below it, into the words of a reader."""
    for name in ("help", "short_help"):
        if getattr(command, name, None):
            setattr(command, name, _in_words(getattr(command, name), words))
    for param in command.params:
        if getattr(param, "help", None):
            param.help = _in_words(param.help, words)
    for below in getattr(command, "commands", {}).values():
        say_help_in(below, words)


def _in_words(text: str, words: Words) -> str:
    """A help text in other words; command lines among it stay as they are typed."""
    keys = _keys()
    if text in keys:
        return words.message(keys[text], {})
    for known in sorted(keys, key=len, reverse=True):
        if known in text:
            before, after = text.split(known, 1)
            both = (_in_words(part, words) if part.strip() else part for part in (before, after))
            return words.message(keys[known], {}).join(both)
    return text


@cache
def _keys() -> dict[str, str]:
    """The key of each text."""
    return {text: key for key, text in _texts().items()}
