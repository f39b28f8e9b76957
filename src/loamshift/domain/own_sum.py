"""A number of an answer worked out step by step with the figures of its bed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Final

from loamshift.domain.evidence import Evidence
from loamshift.domain.message import Measure, Message, Prose

NOTHING: Final = Prose()
"""Where there is nothing to say."""


class SumUnit(StrEnum):
    """Unit of a figure in a sum; sums are worked in metric units whoever reads them."""

    NONE = "none"
    G_M2 = "g-m2"
    G = "g"
    KG_M2 = "kg-m2"
    G_CM3 = "g-cm3"
    CM = "cm"
    M2 = "m2"
    MM = "mm"
    PH = "ph"
    PERCENT = "percent"
    DEG_C = "deg-c"
    DEG_DAYS = "deg-days"
    DAYS = "days"
    WEEKS = "weeks"
    YEARS = "years"
    BEDS = "beds"
    MMOLC_KG = "mmolc-kg"
    MMOLC_KG_PH = "mmolc-kg-ph"
    MMOLC_M2 = "mmolc-m2"
    MMOLC_M2_PH = "mmolc-m2-ph"
    MMOLC_L = "mmolc-l"
    MMOLC_G = "mmolc-g"
    G_MMOLC = "g-mmolc"
    MG_L_CACO3 = "mg-l-caco3"
    DS_M = "ds-m"
    PRICE = "price"
    PRICE_MOL = "price-mol"
    PRICE_KG = "price-kg"


class Origin(StrEnum):
    """Where a figure of a sum comes from."""

    CASE = "case"
    """Somebody said so in the case."""
    TABLE = "table"
    """A row of the shipped tables."""
    ASSUMED = "assumed"
    """Nobody said, so the usual value was taken."""
    STEP = "step"
    """A step before this one."""
    BEDS = "beds"
    """The simulated beds behind the answer."""
    FIXED = "fixed"
    """Chemistry or arithmetic: nothing to measure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SumInput:
    """A figure that goes into a step, under the symbol it has in the formula.

    ``path`` of the case file that gives it or would; ``row`` the key that opens the row of the
    table; ``low`` to ``high`` where 90 in 100 such values lie [unit of the figure].
    """

    symbol: str
    name: Message
    value: float
    unit: SumUnit
    origin: Origin
    path: str = ""
    row: str = ""
    source_key: str = ""
    evidence: Evidence | None = None
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SumStep:
    """One step: what it does, its formula in symbols, what goes in and what comes out.

    ``formula`` is arithmetic with each symbol in braces, ``{m} = 10 × {d} × {r}``; empty where a
    curve is read, possible beds are counted or values are weighed, which ``says`` tells.
    ``result`` is the outcome as a reader is told it; ``day`` the outcome where it is a date.
    """

    says: Message
    symbol: str
    value: float
    unit: SumUnit
    formula: str = ""
    inputs: tuple[SumInput, ...] = ()
    result: Measure | None = None
    day: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSum:
    """How one number of an answer came about for its bed.

    ``answer_value`` is what the answer says, None for a date; ``aside`` the plain sum beside a
    figure counted among simulated beds; ``sure`` how sure the figure is and what makes its range
    wide; ``narrow`` what would narrow it, the cheapest first; ``source_keys`` in order of use.
    """

    key: str
    title: Message
    steps: tuple[SumStep, ...]
    answer_value: float | None
    aside: Prose = NOTHING
    sure: Prose = NOTHING
    narrow: Prose = NOTHING
    source_keys: tuple[str, ...] = ()

    @property
    def last(self) -> SumStep:
        """The step that gives the number."""
        return self.steps[-1]

    @property
    def inputs(self) -> tuple[SumInput, ...]:
        """Everything that goes in, once each, in order of use; results of steps left out."""
        found: dict[str, SumInput] = {}
        for step in self.steps:
            for one in step.inputs:
                if one.origin is not Origin.STEP:
                    found.setdefault(one.symbol, one)
        return tuple(found.values())
