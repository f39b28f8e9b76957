"""A column with its meaning and its figures, as far as both are known."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.case.intake.columns import Read, Values
from loamshift.case.intake.proposal import ColumnMeaning, Finding
from loamshift.case.intake.table import Column
from loamshift.tables.report_quantities import ReportQuantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """A column with its meaning and its figures.

    ``scaled`` are the figures in the unit of the case file, not a number where the unit is open.
    """

    meaning: ColumnMeaning
    column: Column
    read: Read
    quantity: ReportQuantity | None = None
    scaled: Values | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def key(self) -> str:
        """What the column is, by its key in the table of header words."""
        return self.meaning.meaning
