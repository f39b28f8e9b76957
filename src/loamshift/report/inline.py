"""Texts of a letter in pieces, as the page and the print need them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from loamshift.domain.letter import Block, Figure, FigureKind, Items, Letter, Matter, Section, Table
from loamshift.report.layout import TOGETHER
from loamshift.report.messages.book import languages
from loamshift.report.words import Words

_KEPT: Final = "\u00a0"


def months_written() -> set[str]:
    """The months in every language that letters are written in, as dates have them."""
    readers = [Words(language) for language in languages()]
    return {words.month(month) for words in readers for month in range(1, 13)}


_MONTH: Final = "|".join(sorted(map(re.escape, months_written())))
_DAY: Final = re.compile(rf"(?:(?<=\d)|(?<=\d\.)) (?=(?:{_MONTH})\b)|(?<=%) (?=of\b)")
"""Spaces between a day and its month, where a line must not end."""
_CITED: Final = re.compile(r"^(?P<text>.*\S) \[(?P<number>\d{1,3})\]$", re.DOTALL)
_LINK: Final = re.compile(r"^(?P<text>.*?)\s*(?P<url>https?://[^\s<>\"]+)$", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of text, bold or not."""

    text: str
    bold: bool = False


def pieces(text: str) -> tuple[Piece, ...]:
    """A text in runs, ``**`` switching bold on and off; figures keep their units."""
    kept = _DAY.sub(_KEPT, TOGETHER.sub(_KEPT, " ".join(text.split())))
    runs = kept.split("**")
    return tuple(Piece(run, bold=i % 2 == 1) for i, run in enumerate(runs) if run)


def bare(text: str) -> str:
    """A text without its marks of emphasis."""
    return " ".join(text.replace("**", "").split())


def without_citation(text: str) -> tuple[str, int | None]:
    """A text and the number of the source it ends with, if it cites one [text, count]."""
    found = _CITED.match(text)
    return (text, None) if found is None else (found["text"], int(found["number"]))


def without_link(text: str) -> tuple[str, str | None]:
    """A citation and the address it ends with, if there is one [text, text]."""
    found = _LINK.match(text)
    return (text, None) if found is None else (found["text"], found["url"])


def source_count(letter: Letter) -> int:
    """How many numbered sources a letter lists [count]."""
    return sum(
        len(block.items)
        for section in letter.sections
        if section.matter is Matter.SOURCES
        for block in section.blocks
        if isinstance(block, Items)
    )


def without_repeats(section: Section) -> tuple[Block, ...]:
    """The blocks of a section without tables that a figure beside them carries whole."""
    drawn = [block for block in section.blocks if isinstance(block, Figure)]
    return tuple(
        block
        for block in section.blocks
        if not (isinstance(block, Table) and any(_shows(figure, block) for figure in drawn))
    )


def _shows(figure: Figure, table: Table) -> bool:
    """True where a figure says all that a table beside it does, in its own table or its labels."""
    return figure.kind is FigureKind.DECIDES or _carries(figure.table, table)


def _carries(table: Table, other: Table) -> bool:
    """True where a table has the same rows as another, and no fewer columns."""
    if len(other.columns) > len(table.columns):
        return False
    return _first_cells(table) == _first_cells(other)


def _first_cells(table: Table) -> list[str]:
    return sorted(bare(row[0]).casefold() for row in table.rows)


def figures(letter: Letter) -> tuple[Figure, ...]:
    """The figures of a letter in reading order."""
    return tuple(
        block
        for section in letter.sections
        for block in section.blocks
        if isinstance(block, Figure)
    )
