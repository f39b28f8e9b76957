"""A card as plain data for its print template, and its pictures as files."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Final

from loamshift.domain.card import (
    Blanks,
    Card,
    CardBlock,
    Choices,
    Chores,
    Log,
    Part,
    WalkPlan,
)
from loamshift.domain.letter import Align, Figure, FigureKind, Items, Note, Paragraph, Table
from loamshift.report.card.shorter import stacked
from loamshift.report.card.walk import walk_svg
from loamshift.report.drawn import drawn
from loamshift.report.inline import bare, pieces
from loamshift.report.typeface import runs_from_the_right, settable

WHOLE_PX: Final = 560
"""Width a picture across the sheet is drawn for."""
HALF_PX: Final = 300
BARS_PX: Final = 480
"""The bars of a claim are read across a room: drawn for less width, they come out larger."""
MANY_BARS_PX: Final = 680
"""Many bars on one sheet leave room for their table: type of 9.5 points on A4."""
_FEW_BARS: Final = 5
_LONG_WORD: Final = re.compile(r"\S{22,}")
_SHORT: Final = 18
"""A column no longer than this is as wide as its words; longer ones share the rest."""


def card_data(card: Card) -> dict[str, Any]:
    """What the template sets, without size and paper."""
    names = iter(range(1, 1000))
    day = card.day
    return {
        "kind": card.kind.value,
        "title": "".join(words for words, _ in _runs(bare(card.title))),
        "rtl": runs_from_the_right(bare(card.title)),
        "subtitle": _runs(card.subtitle),
        "lead": _runs(bare(card.lead)),
        "rows": [
            [[_part(part, names) for part in column] for column in row] for row in stacked(card)
        ],
        "closing": _runs(card.closing),
        "day": None if day is None else {"year": day.year, "month": day.month, "day": day.day},
    }


def card_pictures(card: Card) -> dict[str, bytes]:
    """The drawings of a card by the name the template asks for."""
    made: dict[str, bytes] = {}
    for row in stacked(card):
        for block in (block for column in row for part in column for block in part.blocks):
            if isinstance(block, WalkPlan):
                svg = walk_svg(block)
            elif isinstance(block, Figure):
                from loamshift.report.chart_tones import Tone

                width = WHOLE_PX if len(row) == 1 else HALF_PX
                if block.kind is FigureKind.CLAIMS:
                    few = len(block.data[0].rows) <= _FEW_BARS
                    width = min(width, BARS_PX) if few else MANY_BARS_PX
                svg = drawn(block, tone=Tone.PRINT, width_px=width)
            else:
                continue
            made[_picture(len(made) + 1)] = settable(svg, pictures=False).encode("utf-8")
    return made


def _picture(number: int) -> str:
    return f"picture-{number}.svg"


def _part(part: Part, names: Iterator[int]) -> dict[str, Any]:
    return {
        "heading": None if part.heading is None else settable(bare(part.heading)),
        "care": part.care,
        "blocks": [_block(block, names) for block in part.blocks],
    }


def _block(block: CardBlock, names: Iterator[int]) -> dict[str, Any]:
    match block:
        case Paragraph(text):
            return {"kind": "paragraph", "runs": _runs(text)}
        case Items(items, numbered):
            return {"kind": "items", "numbered": numbered, "items": [_runs(i) for i in items]}
        case Note(text, label):
            return {"kind": "note", "label": settable(label), "runs": _runs(text)}
        case Table():
            return _table(block, tick=False)
        case Chores(table):
            return _table(table, tick=True)
        case Choices(texts):
            return {"kind": "choices", "items": [_runs(text) for text in texts]}
        case Blanks(lines):
            return {"kind": "blanks", "lines": [(settable(a), _runs(b)) for a, b in lines]}
        case Log(columns, fewest, most):
            titles = [settable(title) for title in columns]
            return {"kind": "log", "columns": titles, "fewest": fewest, "most": most}
        case Figure(title=title, sentence=sentence):
            shown = {"title": settable(bare(title)), "alt": settable(bare(sentence))}
            return {"kind": "picture", "picture": _picture(next(names)), "width": None, **shown}
        case WalkPlan(sentence=sentence):
            shown = {"title": "", "alt": settable(bare(sentence))}
            return {"kind": "picture", "picture": _picture(next(names)), "width": None, **shown}


def _table(table: Table, *, tick: bool) -> dict[str, Any]:
    widest = [
        max((len(bare(row[i])) for row in table.rows), default=0) for i in range(len(table.columns))
    ]
    shares = [0.0 if width <= _SHORT else width**0.6 for width in widest]
    if not any(shares):
        shares[0] = 1.0
    return {
        "kind": "table",
        "tick": tick,
        "columns": [
            {"title": _runs(column.title), "right": column.align is Align.RIGHT, "share": share}
            for column, share in zip(table.columns, shares, strict=True)
        ],
        "titled": any(column.title for column in table.columns),
        "rows": [[_runs(cell) for cell in row] for row in table.rows],
    }


def _runs(text: str) -> list[tuple[str, bool]]:
    return [(_breakable(piece.text), piece.bold) for piece in pieces(settable(text))]


def _breakable(text: str) -> str:
    """A text in which words longer than any column may be broken."""
    return _LONG_WORD.sub(lambda found: "\u200b".join(re.findall(r".{1,11}", found[0])), text)
