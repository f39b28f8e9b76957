"""A card as a letter, for a terminal and for Markdown: boxes and lines become marks to fill in."""

from __future__ import annotations

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
from loamshift.domain.letter import (
    Block,
    Column,
    Items,
    Letter,
    Matter,
    Paragraph,
    Section,
    Table,
)

_LINE = "______________"
_BOX = "☐"


def card_letter(card: Card) -> Letter:
    """A card as a letter with the same words."""
    sections = [Section(None, (Paragraph(f"**{card.lead}**"),), Matter.OPENING)]
    sections += [_section(part) for row in card.rows for part in row]
    sections.append(Section(None, (Paragraph(card.closing),), Matter.COLOPHON))
    return Letter(card.title, card.subtitle, tuple(sections), card.day)


def _section(part: Part) -> Section:
    blocks = tuple(block for one in part.blocks for block in _block(one))
    return Section(part.heading, blocks, Matter.CARE if part.care else Matter.BODY)


def _block(block: CardBlock) -> tuple[Block, ...]:
    match block:
        case Chores(table):
            columns = (Column(""), *table.columns)
            rows = tuple((_BOX, *row) for row in table.rows)
            return (Table(columns, rows, table.caption),)
        case Choices(texts):
            return (Items(tuple(f"{_BOX} {text}" for text in texts)),)
        case Blanks(lines):
            return (Items(tuple(f"{label}: {said or _LINE}" for label, said in lines)),)
        case Log(columns, fewest):
            cells = tuple("_" * max(len(title), 8) for title in columns)
            return (Table(tuple(Column(title) for title in columns), (cells,) * fewest),)
        case WalkPlan(sentence=sentence):
            return (Paragraph(sentence),)
    return (block,)
