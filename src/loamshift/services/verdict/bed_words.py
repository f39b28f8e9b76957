"""A bed's reading and range, as sentences about a verdict name them."""

from __future__ import annotations

from typing import TypeAlias

from loamshift.domain.answer import PlanRule
from loamshift.domain.bed_context import BedContext, Target
from loamshift.services.context.build_context import require_soil

Planned: TypeAlias = PlanRule | None
"""The plan beside a verdict, or none."""


def range_words(target: Target) -> str:
    """The range in figures.

    Parameters
    ----------
    target
        The range wanted [object].

    Returns
    -------
    str
        Words [text].
    """
    return f"{target.ph_low:.1f} to {target.ph_high:.1f}"


def wanted_words(target: Target) -> str:
    """The range with what it is for.

    Parameters
    ----------
    target
        The range wanted [object].

    Returns
    -------
    str
        Words [text].
    """
    if not target.names:
        return f"the range wanted, {range_words(target)}"
    return f"the range for {' and '.join(target.names)}, {range_words(target)}"


def target_of_bed(context: BedContext) -> Target:
    """The range of a bed that is known to have one.

    Parameters
    ----------
    context
        A bed with an aim [object].

    Returns
    -------
    Target
        The range [object].
    """
    assert context.target is not None
    return context.target


def reads_words(context: BedContext) -> str:
    """The pH as it was read.

    Parameters
    ----------
    context
        A bed with a soil [object].

    Returns
    -------
    str
        Words [text].
    """
    ph = require_soil(context).ph
    in_water = " in water" if ph.method.is_salt else ""
    return f"pH {ph.ph_water:.1f}{in_water}"
