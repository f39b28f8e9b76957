"""Figures of laboratory reports that enter a case file, and the units they come in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from loamshift.tables.rows import number, read_rows, truth, words


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportQuantity:
    """One figure: its key in the case file, its units with their factors, and what it can be.

    ``method_path`` is the key that says how it was measured, and ``written`` the unit that stands
    beside it in a case file, both empty where there is none. ``told_by_size`` says whether the size
    of figures can tell their unit.

    ``low`` to ``high`` can be true at all; the middle of many samples lies between
    ``typical_low`` and ``typical_high`` [unit of the path].
    """

    key: str
    path: str
    method_path: str
    units: Mapping[str, float]
    written: str
    told_by_size: bool
    low: float
    high: float
    typical_low: float
    typical_high: float

    @property
    def usual_unit(self) -> str:
        """The unit that most laboratories print."""
        return next(iter(self.units))


@cache
def load_report_quantities() -> Mapping[str, ReportQuantity]:
    """Each figure by its key in the table of header words.

    Examples
    --------
    >>> load_report_quantities()["cec"].units
    {'cmolc/kg': 1.0, 'mmolc/kg': 0.1}
    """
    return {
        row["key"]: ReportQuantity(
            key=row["key"],
            path=row["path"],
            method_path=row["method_path"],
            written=row["written"],
            told_by_size=truth(row, "by_size"),
            units=dict(_unit(one) for one in words(row, "units")),
            low=number(row, "low"),
            high=number(row, "high"),
            typical_low=number(row, "typical_low"),
            typical_high=number(row, "typical_high"),
        )
        for row in read_rows("report_quantities")
    }


def _unit(text: str) -> tuple[str, float]:
    unit, _, factor = text.rpartition("=")
    return unit, float(factor)
