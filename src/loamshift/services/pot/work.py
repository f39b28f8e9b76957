"""What pots and ground take over the years: things to buy, and hours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.domain.pot import NeededItem, PlantingNeed
from loamshift.services.pot.asked import pots_needed
from loamshift.services.pot.potted import volume_of, weeks_watered
from loamshift.services.products.prices import price_per_g
from loamshift.tables.parameters import parameter_values

MINUTES_PER_HOUR: Final = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Renewals:
    """How often the mix of a pot is renewed within the years: all of it, and a part of it."""

    whole: int
    part: int


def renewals(*, every: int, years: int) -> Renewals:
    """How often a mix is renewed whole for its pH, and in part for its structure.

    Parameters
    ----------
    every
        Years until the whole of it is renewed; as many as are compared, or more, for never [years].
    years
        Years compared [years].

    References
    ----------
    rhs-containers
    """
    whole = {year for year in range(1, years) if year % every == 0}
    often = round(parameter_values("pot")["repot_years"])
    part = {year for year in range(1, years) if year % often == 0} - whole
    return Renewals(whole=len(whole), part=len(part))


def pots_and_mix(context: BedContext, renewed: Renewals) -> tuple[PlantingNeed, ...]:
    """Pots and mix to be bought."""
    case, values = context.case, parameter_values("pot")
    pots = pots_needed(context)
    litres = pots * volume_of(case) * (1.0 + renewed.whole + values["repot_share"] * renewed.part)
    each, per_l = case.pot.price, case.pot.mix_price_per_l
    return (
        PlantingNeed(
            item=NeededItem.POTS,
            material=None,
            amount=float(pots),
            cost=None if each is None else pots * each,
        ),
        PlantingNeed(
            item=NeededItem.MIX,
            material=None,
            amount=litres,
            cost=None if per_l is None else litres * per_l,
        ),
    )


def products(context: BedContext, applications: Sequence[Application]) -> tuple[PlantingNeed, ...]:
    """Products to be bought for the ground."""
    area = ground_area_m2(context)
    amounts: dict[str, float] = {}
    for one in applications:
        amounts[one.material] = amounts.get(one.material, 0.0) + one.rate_g_m2 * area
    return tuple(
        PlantingNeed(
            item=NeededItem.PRODUCT,
            material=material,
            amount=amount,
            cost=_cost(context.case, material, amount),
        )
        for material, amount in amounts.items()
    )


def hours_of_pots(context: BedContext, renewed: Renewals, *, years: int) -> float:
    """Work on pots over the years [h].

    References
    ----------
    common-practice
    """
    values = parameter_values("pot")
    waterings = values["waterings_week"] * weeks_watered(context.case)
    yearly = waterings * values["watering_min"] + values["feedings_year"] * values["feeding_min"]
    repotted = (renewed.whole + renewed.part) * values["repotting_min"]
    each = values["potting_min"] + repotted + years * yearly
    return pots_needed(context) * each / MINUTES_PER_HOUR


def hours_of_ground(
    context: BedContext, applications: Sequence[Application], *, years: int
) -> float:
    """Work on the ground over the years, without planting [h].

    References
    ----------
    common-practice
    """
    values, area = parameter_values("pot"), ground_area_m2(context)
    minutes = 0.0
    for one in applications:
        dug = one.incorporate_cm > 0.0
        minutes += values["visit_min"]
        minutes += area * values["digging_min_m2" if dug else "spreading_min_m2"]
    fed = values["ground_feedings_year"] * (values["visit_min"] + area * values["spreading_min_m2"])
    watered = 0.0
    if context.irrigation_mm_year > 0.0:
        watered = weeks_watered(context.case) * area * values["ground_watering_min_m2"]
    return (minutes + years * (fed + watered)) / MINUTES_PER_HOUR


def ground_area_m2(context: BedContext) -> float:
    """Ground that the plants take, as told or the usual share for each [m2]."""
    area = context.total_area_m2
    return pots_needed(context) * parameter_values("pot")["plant_area_m2"] if area is None else area


def _cost(case: Case, material: str, amount_g: float) -> float | None:
    """Price of so much of a product on hand, None where nobody gave one [currency]."""
    for item in case.on_hand:
        price = price_per_g(item)
        if item.material.key == material and price is not None:
            return amount_g * price
    return None
