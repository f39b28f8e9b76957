"""A bed's reading and range, as messages about a verdict name them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from loamshift.domain.answer import PlanRule
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.message import Listed, Measure, Message, Prose, message, ph, plants
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.reading_words import taken_as_told
from loamshift.services.context.readings import current_season
from loamshift.services.verdict.judgement import Judgement

Planned: TypeAlias = PlanRule | None
"""The plan beside a verdict, or none."""
Told: TypeAlias = tuple[Prose, Message]
"""Why, and what would change it."""
Teller: TypeAlias = Callable[[BedContext, Judgement, Planned], Told]
"""Makes them of a bed, its judgement and its plan."""


def range_of(target: Target) -> Measure:
    """The range wanted in figures.

    Returns
    -------
    Measure
        Its two ends [pH in water].
    """
    return ph(target.ph_low, high=target.ph_high)


def wanted(target: Target) -> Message:
    """The range with what it is for."""
    names: Listed | None = plants(target.names) if target.names else None
    return message("verdict-range", plants=names, range=range_of(target))


def target_of_bed(context: BedContext) -> Target:
    """The range of a bed that is known to have one."""
    assert context.target is not None
    return context.target


def reading(context: BedContext) -> Message:
    """The pH as it was read, and as it is taken in water where that is another figure."""
    read, season = require_soil(context).ph, current_season(context.case)
    return taken_as_told(
        read.ph_water, method=read.method, readings=() if season is None else season.readings
    )
