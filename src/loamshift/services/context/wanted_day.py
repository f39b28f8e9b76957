"""The day by which a bed is wanted, where it leaves time to act."""

from __future__ import annotations

from datetime import date, timedelta

from loamshift.domain.case import Case
from loamshift.tables.model import verdict_values


def wanted_by(case: Case) -> date | None:
    """The day named in the case, if anything put on now could show by then.

    Returns
    -------
    date or None
        None where no day was named, or it leaves no time to act.

    Notes
    -----
    The time is the wait between two parts: a part that has not had it has hardly acted.

    References
    ----------
    common-practice
    """
    by = case.aim.by
    if by is None:
        return None
    soonest = case.today + timedelta(days=int(verdict_values()["part_wait_days"]))
    return by if by >= soonest else None
