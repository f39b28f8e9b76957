"""The condition under which a part goes on, in words."""

from __future__ import annotations

from datetime import date

from loamshift.core.plan_rule import RuleLine
from loamshift.domain.case import Units
from loamshift.services.format import format_date


def condition(line: RuleLine | None, *, test: date, units: Units) -> str:
    """Under which reading a later part goes on.

    Parameters
    ----------
    line
        The readings that call for it; None where a test has to ask for it at all [object].
    test
        Day of the test [calendar].
    units
        Units of the letter, for the date [enumeration].

    Returns
    -------
    str
        A condition [text].
    """
    on = format_date(test, units)
    if line is None or (line.low_ph is None and line.high_ph is None):
        return f"only if a test on {on} still asks for it"
    if line.low_ph is None:
        reads = f"pH {line.high_ph:.1f} or less"
    elif line.high_ph is None:
        reads = f"pH {line.low_ph:.1f} or more"
    else:
        reads = f"pH {line.low_ph:.1f} to {line.high_ph:.1f}"
    return f"only if a test on {on} reads {reads}"
