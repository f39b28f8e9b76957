"""What is put on each of many beds: the events of a pattern worked out once, scaled by rate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_events import column_events
from loamshift.core.column_layout import ColumnEvent
from loamshift.core.column_many import PackedEvents
from loamshift.core.column_pack import AMOUNT, event_arrays
from loamshift.core.column_sulfur_dose import dose_numbers, dose_sizes
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Feed
from loamshift.domain.material import Material
from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.belief.column_inputs import (
    ForecastInputs,
    feed_days,
    inputs_from,
    reading_day,
    rotting_rows,
    yearly_feed,
)
from loamshift.services.belief.column_layers import layer_edges_cm
from loamshift.services.belief.column_parts import PutOn, events_of
from loamshift.services.belief.column_runs import shared_laws
from loamshift.services.context.build_context import require_soil
from loamshift.services.many.forecast_beds import ManyBeds
from loamshift.services.materials.named import material_named
from loamshift.tables.materials import load_materials

FloatArray = NDArray[np.float64]
Part = tuple[str, int, float]
"""Key of a material, day of the run [d], depth worked in [cm]."""
_KEPT: Final = 4096


@dataclass(frozen=True, slots=True, kw_only=True)
class BedEvents:
    """What a bed is run with: its layers, its events, and how what was put on rots.

    ``edges_cm`` from 0 down [cm]; ``rotting`` and ``organic_acid`` rows of the decay clocks.
    """

    edges_cm: tuple[float, ...]
    packed: PackedEvents
    rotting: str
    organic_acid: str


def bed_events(
    beds: ManyBeds, bed: int, plan: Sequence[Application], *, start: int, days: int
) -> BedEvents:
    """The events of one of many beds under its plan.

    Parameters
    ----------
    bed
        Which [index].
    start
        First day of the run, as an ordinal of the calendar [d].
    days
        Length of the run [d].

    Raises
    ------
    InputError
        For a material the table does not hold, where the bed brings none of its own.
    OutOfRangeError
        For a rate that is negative or no number.

    Notes
    -----
    All that happens is in proportion to the rate, so beds that are given the same things on the
    same days share one pattern. A bed on which something was put before has a past of its own,
    and is worked out by itself as in ``belief.column_inputs``.
    """
    for one in plan:
        if not 0.0 <= one.rate_g_m2 < float("inf"):
            raise OutOfRangeError(
                f"bed {bed}: {one.rate_g_m2:g} g/m2 of {one.material} is no rate; give 0 or more"
            )
    context = beds.context(bed)
    if context is not None:
        return _by_itself(context, plan, days=days, today=int(beds.today[bed]), start=start)
    kind = beds.kind(bed)
    parts = sorted(
        (
            (part.date.toordinal(), part.material, part.incorporate_cm, part.rate_g_m2)
            for part in plan
            if part.date.toordinal() < start + days
        ),
        key=lambda part: part[0],
    )
    edges = edges_of(
        depth_cm=float(beds.depth_cm[bed]),
        sample_cm=float(beds.sample_depth_cm[bed]),
        worked_cm=tuple(part[2] for part in parts),
        in_pot=kind.in_pot,
    )
    feed, feed_rate = _feed_of(beds.feeds[bed])
    south = kind.place is not None and kind.place.latitude < 0.0
    pattern, of_part = _pattern(
        tuple((material, max(0, on - start), depth) for on, material, depth, rate in parts if rate),
        feed,
        south,
        start,
        int(beds.today[bed]) - start,
        days,
        edges,
    )
    rates = np.array([feed_rate, *(rate for *_, rate in parts if rate)])
    events = pattern.events.copy()
    events[:, AMOUNT] *= rates[of_part]
    rotting, organic_acid = _rows(tuple(one.material for one in plan))
    return BedEvents(
        edges_cm=edges,
        packed=PackedEvents(
            when=pattern.when, events=events, sizes=pattern.sizes, doses=pattern.doses
        ),
        rotting=rotting,
        organic_acid=organic_acid,
    )


@lru_cache(maxsize=_KEPT)
def edges_of(
    *, depth_cm: float, sample_cm: float, worked_cm: tuple[float, ...], in_pot: bool
) -> tuple[float, ...]:
    """Edges of the layers of a bed, as ``belief.column_inputs`` lays them.

    Parameters
    ----------
    depth_cm
        Treated depth [cm].
    sample_cm
        Depth sampled [cm].
    worked_cm
        Depths worked to, in the order of the plan [cm].

    Returns
    -------
    tuple of float
        From 0 down [cm].
    """
    edges = layer_edges_cm(
        treated_cm=depth_cm,
        others_cm=(sample_cm, *worked_cm),
        bottom_cm=depth_cm if in_pot else None,
    )
    return tuple(float(edge) for edge in edges)


def packed_events(events: Sequence[ColumnEvent], *, n_layers: int) -> PackedEvents:
    """Events as the kernel reads them.

    Parameters
    ----------
    n_layers
        Layers of the soil [count].
    """
    made = column_events(events, n_layers=n_layers)
    when, amounts = event_arrays(made)
    return PackedEvents(
        when=when,
        events=amounts,
        sizes=dose_sizes(made),
        doses=dose_numbers(made, density_ug_cm3=shared_laws().density_ug_cm3),
    )


@lru_cache(maxsize=_KEPT)
def _pattern(
    parts: tuple[Part, ...],
    feed: tuple[str, int] | None,
    south: bool,
    start: int,
    since: int,
    days: int,
    edges_cm: tuple[float, ...],
) -> tuple[PackedEvents, NDArray[np.int64]]:
    """Events at a rate of 1 of everything, and which rate each of them goes by, the feed first."""
    edges = np.array(edges_cm)
    found: list[tuple[ColumnEvent, int]] = []
    if feed is not None:
        on = feed_days(feed[1], south=south, start=date.fromordinal(start), days=days)
        material = _named(feed[0])
        for day in (*(day for day in on if day < since), *(day for day in on if day >= since)):
            put = PutOn(material=material, rate_g_m2=1.0, day=day, depth_cm=0.0)
            found += [(event, 0) for event in events_of(put, edges_cm=edges)]
    before = False
    for index, (name, day, depth) in enumerate(parts, start=1):
        material = _named(name)
        sulfur = material.elemental_s_frac > 0.0
        put = PutOn(
            material=material,
            rate_g_m2=1.0,
            day=day,
            depth_cm=min(depth, edges_cm[-1]),
            sulfur_before=before and sulfur,
        )
        found += [(event, index) for event in events_of(put, edges_cm=edges)]
        before = before or sulfur
    kept = sorted((one for one in found if one[0].day < days), key=lambda one: one[0].day)
    packed = packed_events([event for event, _ in kept], n_layers=edges.size - 1)
    return packed, np.array([index for _, index in kept], dtype=np.int64)


def _by_itself(
    context: BedContext, plan: Sequence[Application], *, days: int, today: int, start: int
) -> BedEvents:
    """The events of a bed with a past, by the path for one bed."""
    soil = require_soil(context)
    inputs: ForecastInputs = inputs_from(
        context,
        plan,
        soil=soil,
        read=reading_day(context),
        members=None,  # type: ignore[arg-type]
        days_ahead=days - (today - start),
    )
    events = inputs.events
    own = context.case.own_materials
    materials = [material_named(part.material, own=own) for part in plan]
    materials += [applied.material for applied in context.case.applied]
    rows = rotting_rows(materials)
    when, amounts = event_arrays(events)
    return BedEvents(
        edges_cm=tuple(float(edge) for edge in inputs.soil.edges_cm),
        packed=PackedEvents(
            when=when,
            events=amounts,
            sizes=dose_sizes(events),
            doses=dose_numbers(events, density_ug_cm3=shared_laws().density_ug_cm3),
        ),
        rotting=rows["rotting"],
        organic_acid=rows["organic_acid"],
    )


def _feed_of(feed: Feed | None) -> tuple[tuple[str, int] | None, float]:
    """Material and parts a year of a feed, and the rate of one part [g/m2]."""
    told = None if feed is None else yearly_feed(feed)
    if told is None or told[1] == 0.0:
        return None, 0.0
    material, rate, times = told
    if load_materials().get(material.key) != material:
        raise InputError(
            f"the feed {material.key} is a product of one case only; "
            "give the context of that bed with it"
        )
    return (material.key, times), rate


@lru_cache(maxsize=_KEPT)
def _named(name: str) -> Material:
    return material_named(name, own={})


@lru_cache(maxsize=_KEPT)
def _rows(names: tuple[str, ...]) -> tuple[str, str]:
    rows = rotting_rows([_named(name) for name in names])
    return rows["rotting"], rows["organic_acid"]
