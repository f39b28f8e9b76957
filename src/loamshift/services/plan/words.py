"""The condition under which a part goes on."""

from __future__ import annotations

from datetime import date

from loamshift.core.plan_rule import RuleLine
from loamshift.domain.message import Message, message, ph


def condition(line: RuleLine | None, *, test: date) -> Message:
    """Under which reading a later part goes on.

    Parameters
    ----------
    line
        The readings that call for it; None where a test has to ask for it at all.
    """
    if line is None or (line.low_ph is None and line.high_ph is None):
        return message("plan-if-test-asks", day=test)
    if line.low_ph is None:
        return message("plan-if-at-most", day=test, ph=ph(line.high_ph or 0.0))
    if line.high_ph is None:
        return message("plan-if-at-least", day=test, ph=ph(line.low_ph))
    return message("plan-if-between", day=test, ph=ph(line.low_ph, high=line.high_ph))
