"""What stands on a shelf, and what it would do for one bed."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.answer import Answer, Option
from loamshift.domain.case import OnHand


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfPrice:
    """What a product brings and what that costs, whatever the bed.

    ``acid_molc_kg`` of product as sold, negative for what limes [molc/kg]; one of the two costs
    is None, both where no price or pack is known.
    """

    product: OnHand
    acid_molc_kg: float
    cost_per_mol_acid: float | None
    cost_per_kg_caco3_eq: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfWay:
    """One way to bring what a bed needs.

    ``place`` of the product among those asked about, None for a usual material that is not on
    the shelf [index]; ``packs`` to buy for the whole bed, None where pack or area is unknown
    [count].
    """

    place: int | None
    option: Option
    packs: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfForBed:
    """The shelf for the bed in hand: the answer, the ways in order, and what does nothing here.

    ``useless`` holds places among the products asked about [index].
    """

    answer: Answer
    ways: tuple[ShelfWay, ...]
    useless: tuple[int, ...]
