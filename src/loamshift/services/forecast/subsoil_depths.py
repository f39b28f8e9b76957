"""How far down a plan reaches, and what every depth does by itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvents
from loamshift.domain.answer import Application
from loamshift.domain.subsoil import Subsoil, SubsoilDepth
from loamshift.services.belief.column_inputs import DAYS_IN_YEAR, events_under
from loamshift.services.belief.column_runs import events_before, run, shortened
from loamshift.services.belief.possible_beds import PossibleBeds

FloatArray = NDArray[np.float64]

SHOWS_PH: Final = 0.1
"""A change that careful tests could tell from none [pH]."""


def with_depths(
    subsoil: Subsoil, beds: PossibleBeds, applications: Sequence[Application], *, years: int
) -> Subsoil:
    """The same with the course of every depth, under a plan and left alone.

    Parameters
    ----------
    beds
        The possible beds that were judged.
    years
        How long from today [years].

    Notes
    -----
    A run keeps its layers at its end alone; so it is run once to each day looked at, today and
    then yearly, in which every bed lives the same days.

    References
    ----------
    own-judgement
    """
    inputs = beds.inputs
    first = (inputs.today - inputs.start).days
    ahead = [min(first + round(n * DAYS_IN_YEAR), inputs.days) for n in range(1, years + 1)]
    alone_events = inputs.control_events
    now = _layers_on(beds, alone_events, day=max(first, 1))
    alone = [_layers_on(beds, alone_events, day=day) for day in ahead]
    planned = alone
    if applications:
        events = events_under(inputs, applications)
        planned = [_layers_on(beds, events, day=day) for day in ahead]
    days = [inputs.start + timedelta(days=day) for day in ahead]
    change = [np.median(after - left, axis=0) for after, left in zip(planned, alone, strict=True)]
    edges = inputs.soil.edges_cm
    middle, left, treated = (np.median(one, axis=0) for one in (now, alone[-1], planned[-1]))
    return replace(
        subsoil,
        depths=tuple(
            SubsoilDepth(
                top_cm=float(edges[index]),
                bottom_cm=float(edges[index + 1]),
                ph_today=float(middle[index]),
                ph_untreated=float(left[index]),
                ph_planned=float(treated[index]),
                shows_from=_first_day([float(one[index]) for one in change], days),
            )
            for index in range(edges.size - 1)
        ),
        on=days[-1],
        treated=bool(applications),
    )


def _layers_on(beds: PossibleBeds, events: ColumnEvents, *, day: int) -> FloatArray:
    """PH of every layer of each bed at the end of a day of the run, shape (beds, L)."""
    result = run(shortened(beds.inputs, days=day), events_before(events, day=day))
    return beds.of_beds(result.end_ph)


def _first_day(change: Sequence[float], days: Sequence[date]) -> date | None:
    shown = (day for one, day in zip(change, days, strict=True) if abs(one) >= SHOWS_PH)
    return next(shown, None)
