"""What stands on the shelf: its price by what it brings, and its order for one bed."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import date

from loamshift.core.acidity import CACO3_BASE_MOLC_KG
from loamshift.domain.answer import Answer, Direction, Option
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case, OnHand
from loamshift.domain.shelf import BagsCompared, ShelfForBed, ShelfPrice, ShelfWay
from loamshift.services.advise import advise
from loamshift.services.claim.settle import acid_needed_mmolc_m2
from loamshift.services.context.build_context import build_context
from loamshift.services.context.warmth import start_date
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.plan.plan import first_season_mmolc_m2
from loamshift.services.products.options import options, useless_on_hand
from loamshift.services.products.prices import as_sold, price_per_g

_SAME = 0.005
"""Prices or strengths this near to each other are the same [0-1]."""


def shelf_prices(products: Iterable[OnHand]) -> tuple[ShelfPrice, ...]:
    """What each product brings in open ground, and what a mole of acid or a kilogram of lime costs.

    Answers which pack is the cheaper before any bed is chosen; speed and losses are left out.

    Raises
    ------
    InputError
        Where a purity is no percentage.

    References
    ----------
    own-arithmetic
    """
    return tuple(_price(product) for product in products)


def compare_bags(first: OnHand, second: OnHand) -> BagsCompared:
    """Which of two products is the cheaper by what it brings, and which the stronger.

    Answers whether a weak bag at a low price is a bargain; speed and losses are left out.

    Raises
    ------
    InputError
        Where a purity is no percentage.

    References
    ----------
    own-arithmetic
    """
    one, other = shelf_prices((first, second))
    alike = one.acid_molc_kg * other.acid_molc_kg > 0.0
    stronger = strength = cheaper = ratio = None
    if alike:
        share = abs(one.acid_molc_kg / other.acid_molc_kg)
        if not math.isclose(share, 1.0, rel_tol=_SAME):
            stronger, strength = (0, share) if share > 1.0 else (1, 1.0 / share)
    if alike and one.cost and other.cost and first.currency == second.currency:
        share = other.cost / one.cost
        if not math.isclose(share, 1.0, rel_tol=_SAME):
            cheaper, ratio = (0, share) if share > 1.0 else (1, 1.0 / share)
    return BagsCompared(
        bags=(one, other),
        alike=alike,
        stronger=stronger,
        strength_ratio=strength,
        cheaper=cheaper,
        price_ratio=ratio,
    )


def shelf_for_bed(case: Case, answer: Answer | None = None) -> ShelfForBed:
    """The products of a case in the order in which they serve its bed.

    Parameters
    ----------
    answer
        The answer to the case where it is known, so that amounts are those of its letter; None
        for one from the curve alone.

    Returns
    -------
    ShelfForBed
        The answer, the ways in its order, and the products that bring
        nothing in the wanted direction; no way where the bed is not to be moved.

    Raises
    ------
    InputError
        Where an amount on hand cannot be used as told.

    References
    ----------
    own-arithmetic
    """
    answer = answer or advise(case)
    direction = answer.dose.direction
    useless = () if direction is Direction.NONE else _useless(case, direction)
    if not answer.options or answer.plan is None:
        return ShelfForBed(answer=answer, ways=(), useless=useless)
    context = build_context(case)
    acid = first_season_mmolc_m2(
        context, rule=answer.plan, applications=answer.applications, direction=direction
    )
    owners = _owners(context, answer.options, acid, direction)
    ways = []
    for option in answer.options:
        places = owners.get(option, [])
        place = places.pop(0) if places else None
        product = None if place is None else context.case.on_hand[place]
        ways.append(ShelfWay(place=place, option=option, packs=_packs(option, product)))
    return ShelfForBed(answer=answer, ways=tuple(ways), useless=useless)


def shelf_order(case: Case) -> tuple[int, ...]:
    """The products of a case, those first that serve its bed best.

    A plan is made with the first sulfur or lime on hand, so this order decides which.

    Returns
    -------
    tuple of int
        Every place among the products once; as they stand where the bed is not to be moved
        [index].

    References
    ----------
    own-arithmetic
    """
    every = tuple(range(len(case.on_hand)))
    context = build_context(case)
    if context.soil is None or context.target is None:
        return every
    acid = acid_needed_mmolc_m2(context)
    if acid == 0.0:
        return every
    direction = Direction.ACIDIFY if acid > 0.0 else Direction.LIME
    found = options(
        context,
        acid_mmolc_m2=abs(acid),
        direction=direction,
        on_hand=context.case.on_hand,
        start=_start(context, direction),
    )
    owners = _owners(context, found, abs(acid), direction)
    first = [place for option in found for place in owners.pop(option, [])]
    return (*first, *(place for place in every if place not in first))


def _useless(case: Case, direction: Direction) -> tuple[int, ...]:
    return tuple(
        place
        for place, product in enumerate(case.on_hand)
        if useless_on_hand((product,), direction=direction)
    )


def _owners(
    context: BedContext, found: Sequence[Option], acid_mmolc_m2: float, direction: Direction
) -> dict[Option, list[int]]:
    """The places of the products that each option stands for.

    Products of one material are compared alone to tell them apart.
    """
    by_material: dict[str, list[int]] = {}
    for place, product in enumerate(context.case.on_hand):
        by_material.setdefault(product.material.key, []).append(place)
    owners: dict[Option, list[int]] = {}
    for key, places in by_material.items():
        same = [option for option in found if option.material == key]
        if len(places) == 1 and len(same) == 1:
            owners[same[0]] = places
            continue
        for place in places:
            alone = options(
                context,
                acid_mmolc_m2=acid_mmolc_m2,
                direction=direction,
                on_hand=(context.case.on_hand[place],),
                start=_start(context, direction),
            )
            own = next((option for option in alone if option.material == key), None)
            if own is not None:
                owners.setdefault(own, []).append(place)
    return owners


def _start(context: BedContext, direction: Direction) -> date:
    return start_date(
        context, acidify=direction is Direction.ACIDIFY, not_before=context.case.today
    )


def _packs(option: Option, product: OnHand | None) -> int | None:
    if product is None or option.amount_g is None or not product.pack_g:
        return None
    return max(1, math.ceil(round(option.amount_g / product.pack_g, 6)))


def _price(product: OnHand) -> ShelfPrice:
    material = as_sold(product.material, purity_pct=product.purity_pct)
    acid_molc_kg = acid_brought_mmolc_m2(material, rate_g_m2=1.0, in_pot=False)
    price = price_per_g(product)
    per_mol = None if price is None or acid_molc_kg == 0.0 else 1000.0 * price / abs(acid_molc_kg)
    acid = acid_molc_kg > 0.0
    return ShelfPrice(
        product=product,
        acid_molc_kg=acid_molc_kg,
        cost_per_mol_acid=per_mol if acid else None,
        cost_per_kg_caco3_eq=None if acid or per_mol is None else per_mol * CACO3_BASE_MOLC_KG,
    )
