"""Growing in pots beside growing in the ground: what each takes, lasts and promises."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from loamshift.domain.message import Worded
from loamshift.domain.soil import Medium


class PlantingPlace(StrEnum):
    """Where plants could stand, and what waters them."""

    GROUND = "ground"
    POT = "pot"
    """In pots, with the water that the case tells of."""
    POT_WITH_RAINWATER = "pot-with-rainwater"


class NeededItem(StrEnum):
    """What has to be bought for it."""

    MIX = "mix"
    POTS = "pots"
    PRODUCT = "product"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingNeed:
    """One thing to be bought: ``amount`` of mix [L], pots [count] or a product [g].

    ``material`` names a product; ``cost`` None where nobody gave a price [currency].
    """

    item: NeededItem
    material: str | None
    amount: float
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingWay:
    """One way over the years compared.

    ``works`` false where it cannot be done; ``in_range`` share of simulated beds or pots in the
    range at the end of each year, ``share`` their mean over the years [0-1]; ``lasts_years`` until
    half of them have left it without renewal, 0 where it never gets there, None where longer than
    compared. ``cost`` of what has a price, in ``currency``; ``hours`` of work; both None where it
    cannot be done in the ground.
    """

    place: PlantingPlace
    works: bool
    in_range: tuple[float, ...]
    share: float
    lasts_years: float | None
    hours: float | None
    cost: float | None
    currency: str | None
    needs: tuple[PlantingNeed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PotOrGround:
    """Pot and ground side by side.

    ``pots`` of ``volume_l`` each [L] with a ``medium`` taken to begin at ``mix_ph`` [pH in water];
    ``water_known`` false where the alkalinity of the water had to be assumed; ``words`` say which
    is better.
    """

    years: int
    pots: int
    volume_l: float
    medium: Medium
    mix_ph: float
    water_known: bool
    ways: tuple[PlantingWay, ...]
    words: Worded

    def way(self, place: PlantingPlace) -> PlantingWay | None:
        """The way of one place, None where it is not compared."""
        return next((one for one in self.ways if one.place is place), None)
