"""When pots are compared with the ground, and why not where they are not."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from loamshift.domain.answer import Decision, Reason
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind
from loamshift.domain.plant import Plant
from loamshift.tables.parameters import parameter_values

OPEN_GROUND: Final = (BedKind.GROUND, BedKind.RAISED)
OUTGROWS: Final = ("tree", "field crop", "lawn grass", "group")
"""Groups of plants that no pot holds for five years."""
LIVES: Final = ("ornamental shrub", "perennial", "herb", "vegetable")
"""Groups that do; of fruit those that hate lime, which are low bushes."""
FIRST: Final = (Reason.NO_COMMON_RANGE, Reason.AT_WORK)
"""What has to be settled before pots are compared, whatever the decision."""
TREATED_FIRST: Final = (Reason.WATER, Reason.FEED)
"""The same of a bed that is worth an effort: its water or its fertiliser comes first."""
COMPARED: Final = (Decision.GO, Decision.EFFORT, Decision.LEAVE, Decision.ELSEWHERE)


class NotCompared(StrEnum):
    """Why pots are not compared with the ground."""

    NOT_ASKED = "not-asked"
    NO_FORECAST = "no-forecast"
    IS_POT = "is-pot"
    OUTGROWN = "outgrown"
    OTHER_FIRST = "other-first"


def not_compared(
    context: BedContext, *, decision: Decision, reason: Reason | None, forecast: bool
) -> NotCompared | None:
    """Why pots are not compared with the ground, None where they are.

    Parameters
    ----------
    reason
        Of the decision.
    forecast
        Whether there is a forecast.

    Notes
    -----
    They are compared where somebody asks, and unasked where the ground cannot be brought into the
    range and the plants are such as live in pots, few enough for that.

    References
    ----------
    own-judgement
    """
    kind, pots = context.case.bed.kind, context.case.pot
    if kind is BedKind.CONTAINER:
        return NotCompared.IS_POT
    if pots.compare is False:
        return NotCompared.NOT_ASKED
    if kind not in OPEN_GROUND or any(map(_outgrows, context.case.aim.plants)):
        return NotCompared.OUTGROWN
    if not forecast or context.soil is None or context.target is None:
        return NotCompared.NO_FORECAST
    treated_first = decision is Decision.EFFORT and reason in TREATED_FIRST
    if decision not in COMPARED or reason in FIRST or treated_first:
        return NotCompared.OTHER_FIRST
    return None if pots.is_asked or _comes_up(context, decision) else NotCompared.NOT_ASKED


def pots_needed(context: BedContext) -> int:
    """How many pots the plants of a bed take, one each.

    Returns
    -------
    int
        The plants as told, else one for each usual share of the area, 1 or more [count].
    """
    bed = context.case.bed
    if bed.plants is not None:
        return bed.plants * bed.count
    area = context.total_area_m2
    each = parameter_values("pot")["plant_area_m2"]
    return 1 if area is None else max(1, round(area / each))


def _comes_up(context: BedContext, decision: Decision) -> bool:
    plants = context.case.aim.plants
    few = pots_needed(context) <= parameter_values("pot")["most_unasked"]
    return decision is Decision.ELSEWHERE and few and bool(plants) and all(map(_lives, plants))


def _outgrows(plant: Plant) -> bool:
    return plant.group in OUTGROWS or plant.is_group


def _lives(plant: Plant) -> bool:
    return plant.group in LIVES or (plant.group == "fruit" and plant.calcifuge)
