"""Sulfur that was put on lately and that no test has judged yet."""

from __future__ import annotations

from datetime import date, timedelta

from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.context.readings import dated_readings
from loamshift.services.materials.caps import product_cap
from loamshift.tables.parameters import parameter_values


def unjudged_since(context: BedContext) -> date | None:
    """The last day on which sulfur went on that is still to be tested.

    Returns
    -------
    date or None
        None where nothing did, or a test was taken once the wait before the next dose was over.

    References
    ----------
    tennessee-blueberries, state-garden-article-2007
    """
    today, within_days = context.case.today, parameter_values("plan")["under_way_days"]
    waits = {
        one.on: _wait_days(context, one.material)
        for one in context.case.applied
        if one.material.group is MaterialGroup.SULFUR and 0 <= (today - one.on).days < within_days
    }
    if not waits:
        return None
    last = max(waits)
    tested = [one.taken for one in dated_readings(context.case) if one.taken is not None]
    judged = last + timedelta(days=waits[last])
    return None if any(day >= judged for day in tested) else last


def _wait_days(context: BedContext, material: Material) -> float:
    """The wait that is printed with the limit of a dose, or else ours [d]."""
    cap = product_cap(material, cap_situation=context.cap_situation)
    printed = 0.0 if cap is None else cap.wait_days
    return printed or parameter_values("plan")["judged_after_days"]
