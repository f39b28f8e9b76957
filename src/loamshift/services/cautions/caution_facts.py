"""What the rules of the cautions decide on: fields of the case, the bed and the judgement."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta

from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material
from loamshift.services.context.overdose import Load, recent_loads, substance_direction
from loamshift.services.materials.caps import Substance, limit_passed, product_cap


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionFacts:
    """Everything a rule may look at.

    ``planned`` goes on by the plan, ``compared`` stands beside it, ``proposed`` is claimed,
    ``lying`` was put on within a year or has yet to react, ``overdoses`` the sums of it that are
    one, the gravest first. ``over_limit`` where an amount put on or proposed passes a printed
    limit, ``refused`` where a check blocks one.
    """

    context: BedContext
    decision: Decision
    direction: Direction
    reason: Reason
    parts: int
    planned: tuple[Material, ...]
    compared: tuple[Material, ...]
    proposed: tuple[Material, ...]
    lying: tuple[Material, ...]
    overdoses: tuple[Load, ...]
    over_limit: bool
    refused: bool
    substances_over_limit: frozenset[Substance]

    @property
    def acidify(self) -> bool:
        """True where the advice is to bring the pH down."""
        return self.direction is Direction.ACIDIFY

    @property
    def acts(self) -> bool:
        """True where something goes on by the plan."""
        return self.parts > 0

    @property
    def goes_on(self) -> tuple[Material, ...]:
        """What is planned or proposed."""
        return (*self.planned, *self.proposed)

    @property
    def taken_up(self) -> tuple[Material, ...]:
        """What lies there as an overdose and has to be taken up again."""
        keys = {key for load in self.overdoses for key in load.materials}
        return tuple(item for item in self.lying if item.key in keys)

    @property
    def overdose_is_acid(self) -> bool:
        """True where an overdose is one of acid, by its sum or by what has yet to react."""
        if self.reason is not Reason.OVERDOSE:
            return False
        ways = {load.direction for load in self.overdoses} - {Direction.NONE}
        return Direction.ACIDIFY in ways if ways else self.context.pending_acid_mmolc_m2 > 0.0

    def moves(self, materials: Iterable[Material], direction: Direction) -> bool:
        """True where one of some materials has a limit for moving the pH in a direction."""
        caps = (product_cap(item, cap_situation=self.context.cap_situation) for item in materials)
        return any(
            cap is not None and substance_direction(cap.applies_to) is direction for cap in caps
        )

    def put_on_within(self, days: int) -> tuple[Material, ...]:
        """Materials put on within so many days before today."""
        case = self.context.case
        since = case.today - timedelta(days=days)
        return tuple(applied.material for applied in case.applied if applied.on >= since)


def substances_over_limit(context: BedContext) -> frozenset[Substance]:
    """Limited substances of which more was put on, or is proposed, than a limit allows.

    Returns
    -------
    frozenset of Substance
        Empty where every amount is within its limits.
    """
    found = {
        load.substance
        for load in recent_loads(context)
        if load.substance is not None and max(load.times, load.times_at_once) > 1.0
    }
    for claim in context.case.claims:
        cap = product_cap(claim.material, cap_situation=context.cap_situation)
        if cap is not None and limit_passed(cap, rate_g_m2=claim.rate_g_m2) is not None:
            found.add(cap.applies_to)
    return frozenset(found)
