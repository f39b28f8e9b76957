"""How the parts of a card stand, and ways to take less room; what is left out is always said."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from loamshift.domain.card import Blanks, Card, CardBlock, Chores, Log, Part
from loamshift.domain.letter import Items, Table

_MOST_SPARE = 4
_TITLE = 80
"""A name longer than this ends in dots where nothing else helps [characters]."""
_COUNTS = (8, 6, 5, 4, 3, 2, 1)


def shorter(card: Card) -> Iterator[Card]:
    """A card whole, and then ever shorter.

    First the brief form of cautions, then of all that has one, then the spare parts one after
    another, and at last the ends of long lists.

    Yields
    ------
    Card
        Cards, each with a line that says where the rest stands where something is missing.
    """
    yield card
    briefly = card
    for change in (_brief_care, _brief):
        before, briefly = briefly, _each(briefly, change)
        if briefly != before:
            yield _told(briefly, card)
    for spare in range(1, _MOST_SPARE + 1):
        if any(part.spare == spare for row in briefly.rows for part in row):
            briefly = _without(briefly, spare)
            yield _told(briefly, card)
    if len(card.title) > _TITLE:
        briefly = _each(replace(briefly, title=_ending(card.title)), _short_blanks)
        yield _told(briefly, card)
    for count in _COUNTS:
        cut = _each(briefly, partial(_cut, count=count))
        if cut != briefly:
            yield _told(cut, card)


def stacked(card: Card) -> tuple[tuple[tuple[Part, ...], ...], ...]:
    """Rows of columns of parts: rows of two that follow one another share two columns."""
    made: list[list[list[Part]]] = []
    for row in card.rows:
        if len(row) == 2 and made and len(made[-1]) == 2:
            for column, part in zip(made[-1], row, strict=True):
                column.append(part)
        else:
            made.append([[part] for part in row])
    return tuple(tuple(tuple(column) for column in row) for row in made)


def _each(card: Card, change: Callable[[Part], Part]) -> Card:
    return replace(card, rows=tuple(tuple(change(part) for part in row) for row in card.rows))


def _brief_care(part: Part) -> Part:
    return _brief(part) if part.care else part


def _brief(part: Part) -> Part:
    return replace(part, blocks=part.brief, brief=()) if part.brief else part


def _without(card: Card, spare: int) -> Card:
    rows = (tuple(part for part in row if part.spare != spare) for row in card.rows)
    return replace(card, rows=tuple(row for row in rows if row))


def _ending(text: str) -> str:
    return text if len(text) <= _TITLE else f"{text[:_TITLE].rstrip()}…"


def _short_blanks(part: Part) -> Part:
    blocks = (
        Blanks(tuple((label, _ending(said)) for label, said in block.lines))
        if isinstance(block, Blanks)
        else block
        for block in part.blocks
    )
    return replace(part, blocks=tuple(blocks))


def _cut(part: Part, *, count: int) -> Part:
    return replace(part, blocks=tuple(_first(block, count) for block in part.blocks))


def _first(block: CardBlock, count: int) -> CardBlock:
    match block:
        case Items(items, numbered) if len(items) > count:
            return Items((*items[:count], f"and {len(items) - count} more"), numbered)
        case Chores(table) if len(table.rows) > count:
            return Chores(_top(table, count))
        case Table() if len(block.rows) > count:
            return _top(block, count)
        case Log(columns, fewest):
            return Log(columns, min(fewest, count), fewest)
    return block


def _top(table: Table, count: int) -> Table:
    left = len(table.rows) - count
    rest = (f"and {left} more", *("" for _ in table.columns[1:]))
    return replace(table, rows=(*table.rows[:count], rest))


def _told(card: Card, whole: Card) -> Card:
    said = f"This sheet holds the short of it: it continues in {whole.elsewhere}."
    return replace(card, closing=f"**{said}** {whole.closing}")
