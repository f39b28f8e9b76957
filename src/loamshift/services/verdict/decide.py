"""The judgement without the column: for batches, and where no forecast is asked for."""

from __future__ import annotations

from dataclasses import dataclass, replace

from loamshift.domain.answer import Refit
from loamshift.domain.bed_context import BedContext
from loamshift.services.belief.bed_run import Runner
from loamshift.services.courses.cheap_belief import cheap_belief
from loamshift.services.verdict.judge import days_needed, judge, judge_without_soil
from loamshift.services.verdict.judgement import Judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """A bed as it is believed by one mixed layer, the judgement on it, and what readings taught.

    ``beds`` the possible beds that were judged, None without a pH.
    """

    context: BedContext
    judged: Judgement
    refit: Refit | None = None
    beds: Runner | None = None


def decide(context: BedContext, *, refit: bool = True) -> Decided:
    """The judgement on a bed, by one mixed layer instead of the column.

    Parameters
    ----------
    refit
        False leaves earlier readings aside.

    Returns
    -------
    Decided
        The same judgement as with the column, on a cheaper belief: where they differ, the column
        is right.
    """
    if context.soil is None:
        return Decided(context=context, judged=judge_without_soil(context))
    belief = cheap_belief(context, days_ahead=days_needed(context), refit=refit)
    believed = replace(context, soil=belief.soil)
    judged = judge(
        believed,
        belief.beds,
        alone=belief.beds.run(()),
        quick=True,
        doubted=belief.refit is not None and bool(belief.refit.doubted),
    )
    return Decided(context=believed, judged=judged, refit=belief.refit, beds=belief.beds)
