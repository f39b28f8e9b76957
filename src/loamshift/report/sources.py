"""The list of sources at the end of what is printed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from loamshift.domain.letter import Items, Matter, Section
from loamshift.errors import TableError
from loamshift.tables.references import load_references


def sources_section(keys: Iterable[str], *, heading: str) -> Section:
    """Citations of these keys, each once, numbered, in their order, under a heading.

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
    """The number that each key has in :func:`sources_section` of the same keys."""
    return {key: str(number) for number, key in enumerate(dict.fromkeys(keys), start=1)}


class Cited(Mapping[str, str]):
    """Numbers for the sources of a letter, each given when a text first asks for it.

    So the list at the end holds only what some text points to, in the order of reading. A key
     that the answer does not name has no number.
    """

    def __init__(self, keys: Iterable[str]) -> None:
        """Begin with the keys that may be cited, none of them cited yet."""
        self._keys = frozenset(keys)
        self._numbers: dict[str, str] = {}

    def __getitem__(self, key: str) -> str:
        """The number of a source, the next one where it is new."""
        if key not in self._keys:
            raise KeyError(key)
        return self._numbers.setdefault(key, str(len(self._numbers) + 1))

    def __contains__(self, key: object) -> bool:
        """True where a source may be cited; asking alone gives it no number."""
        return key in self._keys

    def __iter__(self) -> Iterator[str]:
        """The keys of what was cited so far, in the order of their numbers."""
        return iter(tuple(self._numbers))

    def __len__(self) -> int:
        """How many were cited so far [count]."""
        return len(self._numbers)


def cited(key: str | None, numbers: Mapping[str, str]) -> str:
    """`` [4]`` after a text: where its source stands in the list."""
    if key is None or key not in numbers:
        return ""
    return f" [{numbers[key]}]"
