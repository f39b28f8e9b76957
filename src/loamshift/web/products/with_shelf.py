"""The office's shelf as products on hand of a case that names none of its own."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import Final, TypeAlias

from loamshift.errors import InputError
from loamshift.services.shelf import shelf_order
from loamshift.store.models import Office, Product
from loamshift.store.scope import kept
from loamshift.web.cases import Tree, case_of, text_of, tree_of
from loamshift.web.products.entries import entry_of, said_of, usable

Entry: TypeAlias = tuple[tuple[str, str], ...]
MOST: Final = 60
"""Products that one case is given; the case reader and the reader of the letter have limits."""


def in_stock(office: Office) -> list[Product]:
    """What the office has in stock, by name."""
    return list(kept(Product, office).filter(in_stock=True)[:MOST])


def with_shelf(case_text: str, products: Sequence[Product], *, today: date) -> str:
    """A case file with the products of the shelf as ``[[on_hand]]``.

    A case that names products of its own keeps them alone, and so does one when the shelf is
    empty; a product that the case file would not take is passed over. What serves the bed best
    stands first, for the plan is made with the first sulfur or lime on hand.
    """
    entries = tuple(tuple(entry_of(said_of(product)).items()) for product, _ in usable(products))
    return _grown(case_text, entries, today) if entries else case_text


@lru_cache(maxsize=256)
def _grown(case_text: str, entries: tuple[Entry, ...], today: date) -> str:
    tree = tree_of(case_text)
    if tree.get("on_hand"):
        return case_text
    try:
        case = case_of(_text(tree, entries), today=today)
        entries = tuple(entries[place] for place in shelf_order(case))
    except InputError:
        pass  # what is wrong with the bed is told where the case is answered
    return _text(tree, entries)


def _text(tree: Tree, entries: tuple[Entry, ...]) -> str:
    return text_of({**tree, "on_hand": [dict(entry) for entry in entries]})
