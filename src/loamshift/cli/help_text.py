"""The words of the help texts, read from their one message file without anything heavy."""

from __future__ import annotations

import re
from functools import cache
from importlib import resources
from typing import Final

FILE: Final = "cli-help.ftl"
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
    head = told("cli-help-examples" if many else "cli-help-example")
    return "\n".join([told(key), "", _EXAMPLES, head, *shown])
