"""The judgement without the column: for batches, and where no forecast is asked for."""

from __future__ import annotations

from loamshift.domain.bed_context import BedContext
from loamshift.services.courses.cheap_beds import cheap_beds
from loamshift.services.verdict.judge import days_needed, judge, judge_without_soil
from loamshift.services.verdict.judgement import Judgement


def decide(context: BedContext) -> Judgement:
    """The judgement on a bed, by one mixed layer instead of the column.

    Parameters
    ----------
    context
        The bed as understood [object].

    Returns
    -------
    Judgement
        The same judgement as with the column, on a cheaper belief: where they differ, the column
        is right [object].
    """
    if context.soil is None:
        return judge_without_soil(context)
    beds = cheap_beds(context, days_ahead=days_needed(context))
    return judge(context, beds, alone=beds.run(()), quick=True)
