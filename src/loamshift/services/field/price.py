"""What a weight of the product costs, by the price that the person gave."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from loamshift.domain.case import Case
from loamshift.domain.field import WayOfDosing

Priced = Callable[[WayOfDosing], WayOfDosing]


def price_of(base: Case, material: str | None) -> tuple[Priced, str | None]:
    """What adds the cost to a way of dosing, and its currency.

    Parameters
    ----------
    material
        The product that goes on, by its key; None for nothing.

    Returns
    -------
    tuple
        A function that leaves the cost empty where nobody gave a price of the product.
    """
    for item in base.on_hand:
        named = material is None or item.material.key == material
        if named and item.price is not None and item.pack_g:
            each = item.price / item.pack_g

            def with_cost(way: WayOfDosing, each: float = each) -> WayOfDosing:
                return replace(way, cost_now=each * way.now_g, cost_in_all=each * way.in_all_g)

            return with_cost, item.currency
    return (lambda way: way), None
