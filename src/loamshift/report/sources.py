"""The list of sources at the end of what is printed."""

from __future__ import annotations

from collections.abc import Iterable

from loamshift.domain.letter import Items, Matter, Section
from loamshift.errors import TableError
from loamshift.tables.references import load_references


def sources_section(keys: Iterable[str], *, heading: str = "Sources") -> Section:
    """Citations of these keys [text], each once, numbered, in their order, under a heading [text].

    Raises
    ------
    TableError
        Where a key is in no list of sources.
    """
    references = load_references()
    lines = []
    for key in dict.fromkeys(keys):
        reference = references.get(key)
        if reference is None:
            raise TableError(f"source key {key} is not in references.toml")
        lines.append(f"{reference.citation}{'' if not reference.url else ' ' + reference.url}")
    return Section(heading, (Items(tuple(lines), numbered=True),), Matter.SOURCES)


def source_numbers(keys: Iterable[str]) -> dict[str, str]:
    """The number that each key [text] has in :func:`sources_section` of the same keys [text]."""
    return {key: str(number) for number, key in enumerate(dict.fromkeys(keys), start=1)}
