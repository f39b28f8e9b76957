"""What several beds need together, product by product, in whole packs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from loamshift.domain.review import Bag, BedYear, ToBuy

_SPARE: Final = 0.02
"""So much of a pack may be lacking before another is bought: nobody spreads more exactly [1]."""


def to_buy(beds: Sequence[BedYear], bags: Sequence[Bag]) -> tuple[ToBuy, ...]:
    """The shopping list over all beds, what most beds need first.

    Parameters
    ----------
    bags
        Products on the shelf; of several of one material the cheapest for the amount is taken.
    """
    needs: dict[str, list[tuple[int, float | None]]] = {}
    for number, bed in enumerate(beds):
        for part in bed.parts:
            needs.setdefault(part.material, []).append((number, part.amount_g))
    lines = [_line(material, rows, bags) for material, rows in needs.items()]
    return tuple(sorted(lines, key=lambda line: (-line.beds, -line.amount_g, line.material)))


def _line(material: str, rows: Sequence[tuple[int, float | None]], bags: Sequence[Bag]) -> ToBuy:
    amount_g = math.fsum(amount for _, amount in rows if amount is not None)
    unmeasured = {number for number, amount in rows if amount is None}
    known = [bag for bag in bags if bag.material == material]
    bag = min(known, key=lambda one: _cost_or_more(one, amount_g), default=None)
    packs = None if bag is None or not amount_g else packs_for(amount_g, bag)
    price = None if bag is None else bag.price
    return ToBuy(
        material=material,
        amount_g=amount_g,
        beds=len({number for number, _ in rows}),
        unmeasured=len(unmeasured),
        bag=bag,
        packs=packs,
        cost=None if packs is None or price is None else packs * price,
    )


def packs_for(amount_g: float, bag: Bag) -> int | None:
    """Whole packs for an amount; None where nobody said what a pack holds.

    Parameters
    ----------
    amount_g
        What is needed [g].
    """
    if bag.pack_g is None or bag.pack_g <= 0.0:
        return None
    return max(1, math.ceil(amount_g / bag.pack_g - _SPARE))


def _cost_or_more(bag: Bag, amount_g: float) -> tuple[bool, float]:
    """What an amount costs in whole packs, for comparing; bags without a price come last."""
    packs = packs_for(amount_g, bag)
    if packs is None or bag.price is None:
        return True, 0.0 if packs is not None else 1.0
    return False, packs * bag.price
