"""Beds of the column's own cases side by side, for the drivers of many beds."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.column_cases import laws
from loamshift.core.column_layout import ColumnEvents, ColumnSoil, ColumnWeather, MemberParameters
from loamshift.core.column_many import ManyRuns, PackedEvents, stack_events
from loamshift.core.column_pack import (
    climate_array,
    curve_array,
    curve_ends,
    event_arrays,
    law_array,
    layer_array,
    member_array,
    water_array,
)
from loamshift.core.column_sulfur_dose import dose_numbers, dose_sizes

Bed = tuple[ColumnSoil, MemberParameters, ColumnWeather, ColumnEvents]


def runs_of(beds: Sequence[Bed], *, sampled: int = 2, stride_days: int = 7) -> ManyRuns:
    """Beds of equal layers, days, doses and members, packed as the drivers read them."""
    packed = []
    for _, _, _, events in beds:
        when, amounts = event_arrays(events)
        given = dose_numbers(events, density_ug_cm3=laws().density_ug_cm3)
        packed.append(
            PackedEvents(when=when, events=amounts, sizes=dose_sizes(events), doses=given)
        )
    days = beds[0][2].n_days
    when, amounts, sizes, doses = stack_events(packed, n_layers=beds[0][0].n_layers, n_days=days)
    return ManyRuns(
        plan=np.array([[sampled, stride_days, 1]] * len(beds), dtype=np.int64),
        shared=np.array([[w.leaching_factor, *curve_ends(s)] for s, _, w, _ in beds]),
        members=np.stack([member_array(m) for _, m, _, _ in beds]),
        laws=law_array(laws()),
        curve=np.stack([curve_array(s) for s, *_ in beds]),
        layers=np.stack([layer_array(s, laws()) for s, *_ in beds]),
        warmth=np.stack([climate_array(w, laws()) for _, _, w, _ in beds]),
        warmth_of=np.arange(len(beds)),
        water=np.stack([water_array(w) for _, _, w, _ in beds]),
        when=when,
        events=amounts,
        sizes=sizes,
        doses=doses,
    )
