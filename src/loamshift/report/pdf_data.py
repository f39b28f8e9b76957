"""A letter as plain data for the print template, and its pictures as files."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from loamshift.domain.letter import (
    Align,
    Block,
    Figure,
    Items,
    Letter,
    Matter,
    Note,
    Paragraph,
    Section,
    Table,
)
from loamshift.report.inline import bare, figures, pieces, without_citation, without_link

MARGIN_MM: Final = 50.0
"""Width of the margin beside the column."""
SOURCE_COLUMNS: Final = 3
_BESIDE: Final = (Matter.CARE, Matter.ASIDE)
_SHORT: Final = 17
"""A table column no longer than this is as wide as its words; longer ones share the rest."""


def letter_data(letter: Letter) -> dict[str, Any]:
    """What the template sets, without size and paper.

    Parameters
    ----------
    letter
        What to print [object].

    Returns
    -------
    dict
        Texts as runs of words and boldness, sections by where they stand [object].
    """
    sources = next((s for s in letter.sections if s.matter is Matter.SOURCES), None)
    colophon = [b for s in letter.sections if s.matter is Matter.COLOPHON for b in s.blocks]
    names = iter(range(1, len(figures(letter)) + 1))
    column, beside = [], []
    for section in letter.sections:
        if section.matter in (Matter.SOURCES, Matter.COLOPHON):
            continue
        if section.matter in _BESIDE:
            beside.append(_section(section, section.blocks, names))
            continue
        blocks = section.blocks
        if section.matter is Matter.OPENING:
            notes = tuple(block for block in blocks if isinstance(block, Note))
            blocks = tuple(block for block in blocks if not isinstance(block, Note))
            if notes:
                beside.insert(0, _section(Section(None, notes), notes, names))
        column.append(_section(section, blocks, names))
    day = letter.day
    return {
        "title": bare(letter.title),
        "subtitle": _runs(letter.subtitle),
        "day": None if day is None else {"year": day.year, "month": day.month, "day": day.day},
        "of": "of",
        "margin": MARGIN_MM,
        "column": column,
        "beside": beside,
        "sources": None if sources is None else _sources(sources),
        "source_columns": SOURCE_COLUMNS,
        "colophon": [run for b in colophon if isinstance(b, Paragraph) for run in _runs(b.text)]
        or None,
    }


def pictures(letter: Letter) -> dict[str, bytes]:
    """The drawings of a letter [object] by the name the template asks for [bytes]."""
    return {}


def _section(section: Section, blocks: tuple[Block, ...], names: Iterator[int]) -> dict[str, Any]:
    return {
        "heading": None if section.heading is None else bare(section.heading),
        "matter": section.matter.value,
        "blocks": [made for block in blocks for made in _block(block, names)],
    }


def _block(block: Block, names: Iterator[int]) -> list[dict[str, Any]]:
    match block:
        case Paragraph(text):
            return [{"kind": "paragraph", **_said(text)}]
        case Items(items, numbered):
            return [{"kind": "items", "numbered": numbered, "items": [_said(i) for i in items]}]
        case Note(text, label):
            return [{"kind": "note", "label": label, **_said(text)}]
        case Table():
            return [_table(block)]
        case Figure():
            next(names)
            return [{"kind": "paragraph", **_said(block.sentence)}, _table(block.table)]


def _table(table: Table) -> dict[str, Any]:
    widest = [
        max((len(bare(row[i])) for row in table.rows), default=0) for i in range(len(table.columns))
    ]
    shares = [0.0 if width <= _SHORT else width**0.6 for width in widest]
    if not any(shares):
        shares[0] = 1.0
    return {
        "kind": "table",
        "columns": [
            {"title": _runs(column.title), "right": column.align is Align.RIGHT, "share": share}
            for column, share in zip(table.columns, shares, strict=True)
        ],
        "rows": [[_runs(cell) for cell in row] for row in table.rows],
        "caption": _runs(table.caption) if table.caption else None,
    }


def _sources(section: Section) -> dict[str, Any]:
    items = [item for block in section.blocks if isinstance(block, Items) for item in block.items]
    lines = []
    for item in items:
        said, url = without_link(item)
        shown = None if url is None else _breakable(url.split("://", 1)[1].rstrip("/"))
        lines.append({"runs": _runs(said), "url": url, "shown": shown})
    return {"heading": section.heading or "", "items": lines}


def _breakable(url: str) -> str:
    """An address that may be broken after each stroke."""
    return url.replace("/", "/\u200b").replace("_", "_\u200b")


def _said(text: str) -> dict[str, Any]:
    said, number = without_citation(text)
    return {"runs": _runs(said), "cite": None if number is None else str(number)}


def _runs(text: str) -> list[tuple[str, bool]]:
    return [(piece.text, piece.bold) for piece in pieces(text)]
