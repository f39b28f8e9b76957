"""A plan's readings, which are in water, as the bed's own method gives them."""

from __future__ import annotations

import math

from loamshift.domain.answer import TestLine
from loamshift.domain.case import Case
from loamshift.domain.ph import PhConversion
from loamshift.report.letter_head import reading_in_force
from loamshift.tables.ph_methods import default_ph_conversion

_HALF_STEP_PH = 0.05
"""Readings are told to a tenth, so that a line ends halfway to the next."""


def own_method(case: Case) -> PhConversion | None:
    """How the bed's own method turns into pH in water, where the two differ."""
    reading = reading_in_force(case)
    if reading is None or reading.method.is_rough:
        return None
    found = default_ph_conversion(reading.method)
    return None if (found.intercept, found.slope) == (0.0, 1.0) else found


def in_own_method(line: TestLine, own: PhConversion) -> tuple[float | None, float | None]:
    """The ends of a line [pH in water] as the bed's own method reads them, to a tenth.

    The edge between two lines lies halfway between their tenths; turned into the other method
    it falls between two of its tenths, so that there too every reading has one line.
    """
    low = None if line.reads_from is None else _below(line.reads_from - _HALF_STEP_PH, own) + 0.1
    high = None if line.reads_to is None else _below(line.reads_to + _HALF_STEP_PH, own)
    return low, high


def _below(edge_ph: float, own: PhConversion) -> float:
    """The last tenth below an edge [pH in water], in the other method [pH]."""
    turned = (edge_ph - own.intercept) / own.slope
    return math.floor(10.0 * turned + 1e-6) / 10.0
