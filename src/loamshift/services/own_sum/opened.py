"""A bed opened for its sums: the case, its answer, and the soil as the answer believes it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

from loamshift.domain.answer import Answer, Direction, Refit
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case
from loamshift.services.context.build_context import build_context, require_soil
from loamshift.services.courses.cheap_belief import CHEAP_OTHERS, CHEAP_SLICES
from loamshift.services.verdict.decide import decide
from loamshift.tables.rows import tables_fingerprint

_LAYER_BEDS: Final = CHEAP_OTHERS * CHEAP_SLICES


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedBed:
    """A case with its answer, and the bed as the answer sees it.

    ``members`` beds stand behind its shares and medians [count]; ``same_tables`` is false where
    the answer was made with other tables than those of today.
    """

    case: Case
    answer: Answer
    context: BedContext
    members: int
    same_tables: bool

    @property
    def acidify(self) -> bool:
        """True where the answer brings the pH down."""
        return self.answer.dose.direction is Direction.ACIDIFY

    @property
    def aim_ph(self) -> float | None:
        """The point aimed at [pH in water]."""
        return None if self.context.target is None else self.context.target.ph_aim


def open_bed(case: Case, answer: Answer, *, learned: bool = True) -> OpenedBed:
    """The bed behind an answer.

    Parameters
    ----------
    learned
        False finds what earlier readings taught about the soil in the figures of the answer alone,
        and not by the simulated beds.
    """
    context = build_context(case)
    refit = answer.refit
    if context.soil is not None and refit is not None and refit.used:
        context = _believed(context, answer) if learned else _as_told(context, refit)
    return OpenedBed(
        case=case,
        answer=answer,
        context=context,
        members=answer.made_by.members or _LAYER_BEDS,
        same_tables=answer.made_by.tables == tables_fingerprint(),
    )


def scale_of(bed: OpenedBed) -> float:
    """How many times the average curve this soil resists, at the best estimate [times].

    Returns
    -------
    float
        At the best estimate [times].
    """
    return float(10.0 ** require_soil(bed.context).k.log10_k_mean)


def _as_told(context: BedContext, refit: Refit) -> BedContext:
    """The bed with the scale of its curve that the answer tells, its range left as it was."""
    soil = require_soil(context)
    scale = replace(soil.k, log10_k_mean=math.log10(refit.acid_scale.now.mid))
    return replace(context, soil=replace(soil, k=scale))


def _believed(context: BedContext, answer: Answer) -> BedContext:
    """The bed with the scale of its curve as its readings teach it."""
    made = answer.made_by
    if made.members is None or made.seed is None or made.years is None:
        return decide(context).context
    from loamshift.services.look import look_with_column  # loads the compiler

    look = look_with_column(
        context, members=made.members, seed=made.seed, years=made.years, refit=True
    )
    return replace(context, soil=look.context.soil)
