"""What has moved a bed lately: the figure is not that of its test any more, or the way is wrong."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.decision import Decision, Direction
from loamshift.domain.message import Listed, Message, message
from loamshift.services.context.amount_words import products
from loamshift.services.context.applied_words import applied_told
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import current_reading
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import capacity_mmolc_m2
from loamshift.tables.parameters import parameter_values

_WEIGHS: Final = 0.5
"""Materials that make less than this share of a move together are not called its cause [0-1]."""
_NAMED: Final = 0.2
"""One that makes less than this share of what they make together is not named [0-1]."""


def way_since(context: BedContext, ph_now: float) -> str:
    """Which way a bed has gone since its test: ``rise`` or ``fall``.

    Parameters
    ----------
    ph_now
        Where it is believed to be today [pH in water].
    """
    return "rise" if ph_now > require_soil(context).ph.ph_water else "fall"


def moved_since(context: BedContext, ph_now: float) -> Listed | None:
    """The applications that have moved a bed since its test.

    Parameters
    ----------
    ph_now
        Where it is believed to be today [pH in water].

    Returns
    -------
    Listed or None
        Those put on since the test that act that way, with their days; None where they do not
        account for half of the move. What was put on before the test had moved it already.

    References
    ----------
    own-judgement
    """
    read, test = require_soil(context).ph.ph_water, current_reading(context.case)
    tested = None if test is None else test.taken
    sign = -1.0 if ph_now > read else 1.0
    acting = [
        (sign * pending.acid_mmolc_m2, applied)
        for pending, applied in zip(context.pending, context.case.applied, strict=True)
        if sign * pending.acid_mmolc_m2 > 0.0
        and applied.on <= context.case.today
        and (tested is None or applied.on >= tested)
    ]
    together = sum(acid for acid, _ in acting)
    if not acting or together < _WEIGHS * abs(ph_now - read) * capacity_mmolc_m2(context, read):
        return None
    return applied_told(applied for acid, applied in acting if acid >= _NAMED * together)


def no_more(context: BedContext, judged: Judgement) -> Message | None:
    """That no more goes on of what was applied lately and acts against the plan.

    Returns
    -------
    Message or None
        None where the bed is left or stopped, and where all of it is less than a yearly test
        would show.

    References
    ----------
    own-judgement
    """
    if judged.decision in (Decision.LEAVE, Decision.STOP) or context.soil is None:
        return None
    sign = {Direction.ACIDIFY: -1.0, Direction.LIME: 1.0}.get(judged.direction, 0.0)
    days = parameter_values("plan")["under_way_days"]
    against = [
        (sign * pending.total_mmolc_m2, applied)
        for pending, applied in zip(context.pending, context.case.applied, strict=True)
        if 0 <= (context.case.today - applied.on).days <= days
        and sign * pending.total_mmolc_m2 > 0.0
    ]
    shown = parameter_values("advice")["ignored_drift_ph_year"]
    together = sum(acid for acid, _ in against)
    if together < shown * capacity_mmolc_m2(context, context.soil.ph.ph_water) or not against:
        return None
    names = (applied.material.key for acid, applied in against if acid >= _NAMED * together)
    return message(
        "verdict-no-more",
        products=products(names),
        direction=judged.direction.value,
        further="yes" if judged.decision is Decision.ELSEWHERE else "no",
    )
