"""What a material does to each layer of a bed, month by month, for a class to watch."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvents, ColumnResult
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import ClaimEntry
from loamshift.domain.lesson import LayerCourse
from loamshift.services.belief.column_inputs import ForecastInputs
from loamshift.services.belief.column_runs import events_before, run, shortened
from loamshift.services.claim.course import claim_inputs
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT

FloatArray = NDArray[np.float64]

YEARS: Final = 2
_MONTHS: Final = 12 * YEARS
_FIRST_WEEKS: Final = (14,)
"""Days shown before the first month is over: much happens early [d]."""


def layer_course(context: BedContext, entry: ClaimEntry, *, members: int, seed: int) -> LayerCourse:
    """The pH and the free lime of every layer for two years, month by month.

    Answers with the middle of the same possible beds that settle a claim about the material.

    Parameters
    ----------
    members
        How many possible beds are run, 3 or more [count].
    seed
        Seed of the draws [number].

    Notes
    -----
    A run keeps its layers at its end alone; so it is run once to each day shown, in which every
    member lives the same days.

    References
    ----------
    own-judgement
    """
    inputs, with_it, without = claim_inputs(
        context, (entry,), years=YEARS, members=members, seed=seed
    )
    days = _days(inputs)
    after, alone = ([_end(inputs, events, day) for day in days] for events in (with_it, without))
    mass_kg_m2 = inputs.soil.mass_kg_m2
    lime = CARBONATE_MMOLC_KG_PER_PCT * mass_kg_m2
    return LayerCourse(
        edges_cm=tuple(float(edge) for edge in inputs.soil.edges_cm),
        dates=tuple(inputs.start + timedelta(days=day) for day in days),
        with_ph=_middle([one.end_ph for one in after]),
        alone_ph=_middle([one.end_ph for one in alone]),
        lime_pct=_middle([one.carbonate_mmolc_m2 / lime for one in after]),
    )


def _days(inputs: ForecastInputs) -> list[int]:
    """Days of the run that are shown: the evening before, two weeks, then every month [d]."""
    first = (inputs.today - inputs.start).days
    months = [(_months_on(inputs.today, n) - inputs.start).days for n in range(1, _MONTHS + 1)]
    shown = [first, *(first + days for days in _FIRST_WEEKS), *months]
    return [min(max(day, 1), inputs.days) for day in shown]


def _months_on(day: date, months: int) -> date:
    """The same day of a later month, or its last."""
    year, month = divmod(day.month - 1 + months, 12)
    first = date(day.year + year, month + 1, 1)
    last = (first + timedelta(days=31)).replace(day=1) - timedelta(days=1)
    return first.replace(day=min(day.day, last.day))


def _end(inputs: ForecastInputs, events: ColumnEvents, day: int) -> ColumnResult:
    return run(shortened(inputs, days=day), events_before(events, day=day))


def _middle(ends: list[FloatArray]) -> tuple[tuple[float, ...], ...]:
    """The middle of the members at each day, layer by layer."""
    return tuple(tuple(float(value) for value in np.median(each, axis=0)) for each in ends)
