"""What has moved a bed since it was tested: the figure is not that of the test any more."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Listed, Product, message
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import current_reading
from loamshift.services.verdict.reach import capacity_mmolc_m2

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
    return Listed(
        tuple(
            message("check-applied", product=Product(applied.material.key), day=applied.on)
            for acid, applied in acting
            if acid >= _NAMED * together
        )
    )
