"""The range a bed should come to."""

from __future__ import annotations

from loamshift.domain.answer import Wanted
from loamshift.domain.bed_context import BedContext


def wanted(context: BedContext) -> Wanted | None:
    """The range the bed should come to.

    Returns
    -------
    Wanted or None
        Nothing where neither plants nor a target pH are known, or where the plants share no
        range [pH in water].
    """
    target = context.target
    if target is None or not target.is_shared:
        return None
    return Wanted(
        ph_low=target.ph_low, ph_high=target.ph_high, ph_aim=target.ph_aim, names=target.names
    )
