"""The unit of figures that stand without one, as far as their size and their companions tell."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from loamshift.case.intake.understood import Understood
from loamshift.domain.message import Given, Message, message, number
from loamshift.tables.report_quantities import ReportQuantity

_PARTS: Final = ("sand", "silt", "clay")
_MANY: Final = 10
"""Where none of so many samples has more than 100 of sand, silt or clay, it is a percentage."""


def units_that_fit(
    one: Understood, quantity: ReportQuantity, columns: Sequence[Understood]
) -> tuple[str, bool, Message]:
    """The likeliest unit, whether it is sure, and why.

    It is sure only where the usual unit gives figures of a usual size and no other unit does, or
    where companions add up to a whole.
    """
    figures = one.read.figures
    figures = figures[figures != 0]
    if not len(figures):
        return quantity.usual_unit, True, message("intake-why-no-figures")
    middle = float(np.median(figures))
    if len(quantity.units) == 1 and quantity.low <= middle <= quantity.high:
        only = Given(quantity.usual_unit)
        return quantity.usual_unit, True, message("intake-why-only-unit", unit=only)
    if one.key in _PARTS and (whole := _whole(columns)):
        unit = "%" if whole == 100 else "g/kg"
        return unit, True, message("intake-why-sum", whole=whole, unit=Given(unit))
    if one.key in _PARTS and len(figures) >= _MANY and float(np.max(figures)) <= 100.0:
        return "%", True, message("intake-why-below-100", count=len(figures))
    fitting = [
        unit
        for unit, factor in quantity.units.items()
        if quantity.typical_low <= middle * factor <= quantity.typical_high
        and float(np.max(figures)) * factor <= quantity.high
    ]
    unit = fitting[0] if len({quantity.units[one] for one in fitting}) == 1 else ""
    reason = message(
        "intake-why-size",
        middle=number(middle),
        unit=Given(unit) if unit else None,
        fits="one" if unit else "several" if fitting else "none",
    )
    known = unit == quantity.usual_unit and quantity.told_by_size
    sure = known and not _others_differ(one, columns)
    return unit, sure, reason


def _whole(columns: Sequence[Understood]) -> int:
    """What sand, silt and clay add up to: 100, 1000, or 0 where they do not."""
    parts = {c.key: c.read.values for c in columns if c.key in _PARTS}
    if len(parts) < 3:
        return 0
    total = sum(parts.values(), start=np.zeros(len(parts["clay"])))
    total = total[np.isfinite(total)]
    if not len(total):
        return 0
    middle = float(np.median(total))
    return next((whole for whole in (100, 1000) if abs(middle - whole) <= 0.05 * whole), 0)


def _others_differ(one: Understood, columns: Sequence[Understood]) -> bool:
    """Whether a companion with the same units clearly is in another one."""
    if one.key not in ("om", "oc", *_PARTS):
        return False
    for other in columns:
        if other is one or other.key not in ("om", "oc", *_PARTS) or other.column.heading.unit:
            continue
        figures = other.read.figures
        if len(figures) and float(np.max(figures)) > 100.0:
            return True
    return False
