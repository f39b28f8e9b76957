"""What stands on a shelf, and what it would do for one bed."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.core.acidity import SULFUR_ACID_MOLC_KG
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

    @property
    def sulfur_worth_frac(self) -> float:
        """Pure sulfur that brings the same acid, below 0 for what limes [kg S/kg product]."""
        return self.acid_molc_kg / SULFUR_ACID_MOLC_KG

    @property
    def cost_per_kg_s_worth(self) -> float | None:
        """Price of the acid that a kilogram of pure sulfur makes [currency/kg S]."""
        per_mol = self.cost_per_mol_acid
        return None if per_mol is None else per_mol * SULFUR_ACID_MOLC_KG

    @property
    def cost(self) -> float | None:
        """Price of a kilogram of sulfur's worth, or of lime [currency/kg]."""
        acid = self.cost_per_kg_s_worth
        return self.cost_per_kg_caco3_eq if acid is None else acid


@dataclass(frozen=True, slots=True, kw_only=True)
class BagsCompared:
    """Two products side by side, by what they bring in open ground.

    ``alike`` where both acidify or both lime; ``cheaper`` is the place of the cheaper one (0 or 1),
    None where prices are equal, missing or in two currencies, or the two are not alike;
    ``price_ratio`` is the dearer price over the cheaper, ``stronger`` the place of the one that
    brings more per kilogram and ``strength_ratio`` how many times as much [1].
    """

    bags: tuple[ShelfPrice, ShelfPrice]
    alike: bool
    stronger: int | None
    strength_ratio: float | None
    cheaper: int | None
    price_ratio: float | None


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
