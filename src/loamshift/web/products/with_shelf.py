"""The office's shelf and currency for a case that names none of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final, TypeAlias

from loamshift.domain.case import Case
from loamshift.services.shelf import shelf_order
from loamshift.store.models import Office, Product
from loamshift.store.scope import kept
from loamshift.web.cases import Tree, case_of
from loamshift.web.products.entries import entry_of, said_of, usable

Entry: TypeAlias = tuple[tuple[str, str], ...]
MOST: Final = 60
"""Products that one case is given; the case reader and the reader of the letter have limits."""


def in_stock(office: Office) -> list[Product]:
    """What the office has in stock, by name."""
    return list(kept(Product, office).filter(in_stock=True)[:MOST])


def shelf_entries(products: Sequence[Product]) -> tuple[Entry, ...]:
    """Products as entries of a case; one that no case takes is passed over."""
    return tuple(tuple(entry_of(said_of(product)).items()) for product, _ in usable(products))


def with_shelf(tree: Tree, entries: Sequence[Entry]) -> Tree:
    """A tree with the products of the shelf on hand, where it names none of its own."""
    if not entries or tree.get("on_hand"):
        return tree
    return {**tree, "on_hand": [dict(entry) for entry in entries]}


def with_currency(tree: Tree, currency: str) -> Tree:
    """A tree in the currency of the office, where it has prices and names no currency for them."""
    if not currency or tree.get("currency") or not _has_bare_price(tree):
        return tree
    return {**tree, "currency": currency}


def _has_bare_price(tree: Tree) -> bool:
    """Whether a price stands in a tree without a currency of its own."""
    tested, had = tree.get("test_price") or (), tree.get("on_hand") or ()
    pots = tree.get("pot") or {}
    return (
        bool(tested)
        or bool(pots.get("mix_price") or pots.get("price"))
        or any(
            isinstance(one, dict) and one.get("price") and not one.get("currency") for one in had
        )
    )


def case_with_shelf(
    tree: Tree, entries: Sequence[Entry], *, today: date, currency: str = ""
) -> Case:
    """The case of a tree with the products of the shelf, built once.

    What serves the bed best stands first, for the plan is made with the first sulfur or lime on
    hand; products that the case names itself stay as they are.

    Parameters
    ----------
    currency
        That of the office, for prices of the case without one; empty for none.

    Raises
    ------
    CaseError
        With every fault and its path, where the tree cannot be used.
    """
    told = with_currency(tree, currency)
    grown = with_shelf(told, entries)
    case = case_of(grown, today=today)
    if grown is told:
        return case
    order = shelf_order(case)
    if any("on_hand" in str(note) for note in (*case.notes, *case.without_unit)):
        ordered = [grown["on_hand"][place] for place in order]  # what is told names their places
        return case_of({**grown, "on_hand": ordered}, today=today)
    return replace(case, on_hand=tuple(case.on_hand[place] for place in order))
