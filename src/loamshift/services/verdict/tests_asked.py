"""Which further test of the soil would change a verdict."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Message, message
from loamshift.services.context.buffer_test import buffer_test_tells
from loamshift.services.context.build_context import require_soil
from loamshift.services.verdict.bed_words import Planned, range_of, target_of_bed
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.reach import retest_error_ph

_NO_SLIP_SD: Final = 3.0
"""A reading further from the range than so many errors of a test is no slip of the test [sd]."""


def repeat_test(context: BedContext, judged: Judgement, plan: Planned = None) -> Message:
    """A further test that would take the reason away: in the range, or still there in a year.

    Parameters
    ----------
    judged
        Where the bed is taken to stand now, which after some years is not where it was read.
    plan
        Its plan: where no slip of a test explains how far the bed lies off, its test is named.
    """
    target, ph_water = target_of_bed(context), require_soil(context).ph.ph_water
    if judged.ph_now is not None:
        ph_water = judged.ph_now
    if target.ph_low <= ph_water <= target.ph_high:
        return message("verdict-same-in-a-year-change", range=range_of(target))
    gap = max(ph_water - target.ph_high, target.ph_low - ph_water)
    far = gap > _NO_SLIP_SD * retest_error_ph(context)
    if far and plan is not None and plan.decides:
        day = plan.decides[0].test
        return message("verdict-planned-test-change", day=day, range=range_of(target))
    return message("verdict-repeat-change", range=range_of(target), far="yes" if far else "no")


def buffering_test(context: BedContext) -> str:
    """Which test would tell how strongly the soil resists, and nobody has made."""
    return "buffer" if buffer_test_tells(context) else "jar"
