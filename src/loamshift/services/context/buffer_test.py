"""Whether a laboratory's buffer pH would tell how strongly a soil resists."""

from __future__ import annotations

from loamshift.domain.bed_context import BedContext
from loamshift.domain.soil import Fizz
from loamshift.services.context.build_context import require_soil
from loamshift.tables.parameters import parameter_values


def free_lime_found(context: BedContext) -> bool:
    """Whether free lime was found in the soil, by a fizz or by a laboratory."""
    soil = require_soil(context)
    fizzed = context.case.soil.fizz not in (None, Fizz.NONE)
    return fizzed or (soil.carbonate.measured and soil.carbonate.high_pct > 0.0)


def buffer_test_tells(context: BedContext) -> bool:
    """Whether a buffer pH, not given yet, would say how strongly this soil resists.

    Answers which test of the buffering a letter may ask for; the other is a jar titration.

    Returns
    -------
    bool
        False where one was given, in a growing medium, and where free lime leaves no acid for the
        test to measure: found, or by the pH.

    References
    ----------
    own-judgement
    """
    limit = parameter_values("advice")["buffer_test_highest_ph"]
    return (
        context.case.soil.buffer_ph is None
        and not context.organic_only
        and not free_lime_found(context)
        and require_soil(context).ph.ph_water <= limit
    )
