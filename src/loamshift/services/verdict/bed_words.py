"""A bed's reading and range, as messages about a verdict name them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from loamshift.domain.answer import PlanRule
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.message import Listed, Measure, Message, Prose, message, ph, plants
from loamshift.services.context.build_context import require_soil
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
    """The pH as it was read."""
    read = require_soil(context).ph
    return message(
        "verdict-reading", ph=ph(read.ph_water), salt="yes" if read.method.is_salt else "no"
    )
