"""The office's shelf as products on hand of a case that names none of its own."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from loamshift.store.models import Office, Product
from loamshift.store.scope import kept
from loamshift.web.cases import text_of, tree_of
from loamshift.web.products import entry_of, said_of, usable

MOST: Final = 60
"""Products that one case is given; the case reader and the reader of the letter have limits."""


def in_stock(office: Office) -> list[Product]:
    """What the office has in stock, by name."""
    return list(kept(Product, office).filter(in_stock=True)[:MOST])


def with_shelf(case_text: str, products: Sequence[Product]) -> str:
    """A case file with the products of the shelf as ``[[on_hand]]``.

    A case that names products of its own keeps them alone, and so does one when the shelf is
    empty; a product that the case file would not take is passed over.

    Parameters
    ----------
    case_text
        The case file of a bed [TOML].
    products
        Products in stock, from ``in_stock`` [objects].

    Returns
    -------
    str
        The case file that the letter is made from [TOML].
    """
    entries = tuple(tuple(entry_of(said_of(product)).items()) for product, _ in usable(products))
    return _grown(case_text, entries) if entries else case_text


@lru_cache(maxsize=256)
def _grown(case_text: str, entries: tuple[tuple[tuple[str, str], ...], ...]) -> str:
    tree = tree_of(case_text)
    if tree.get("on_hand"):
        return case_text
    return text_of({**tree, "on_hand": [dict(entry) for entry in entries]})
