"""Claims through the column: the bed with the material beside the same bed without it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column import run_column
from loamshift.core.column_layout import ColumnEvents, ColumnResult, EventKind
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import ClaimEntry
from loamshift.services.belief.column_inputs import ForecastInputs, forecast_inputs
from loamshift.services.claim.put_on import is_burnt_off, own_ph, worked_in_cm
from loamshift.services.forecast.outlook import shared_laws
from loamshift.services.materials.acid import acid_brought_mmolc_m2

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
Runs = dict[tuple[int, bytes], ColumnResult]
"""Runs without a material, by how many events they have: one more where it is dug in."""

FIRST_DAYS: Final = 14
"""The largest change within so many days is the change now."""
YEAR_DAYS: Final = 365
_SHOWS_PH: Final = 0.1
"""A change that careful tests could tell from none [pH]."""
_NOTHING_MMOLC_M2: Final = 1.0
_OUTER: Final = (0.05, 0.95)


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """What a material does to a bed day by day, and where its acid has gone after a year.

    ``ph_change`` is the middle of the members, with less without, by day from the evening before
    it went on, shape (366,) [pH]. ``now`` and ``year`` are the two of the answer [pH];
    ``year_low``, ``year_high`` hold nine members in ten [pH]; ``most`` is the largest of the
    whole year and ``most_day`` its day [pH, d]. ``first_shows_day`` is the day the middle first
    passes 0.1 pH, None where it never does [d]. Of all acid
    or base it brings, ``left_frac`` of sulfur and lime has not reacted after a year, free lime
    took up ``lime_frac``, and ``given_back_frac`` came back by drainage and roots, which take
    less where it is more acid [0-1]. ``alone`` is what the bed does by itself in the year [pH];
    ``lowest_ph`` the lowest of any layer on any day, ``lowest_alone_ph`` without the material [pH].
    """

    ph_change: FloatArray
    now: float
    year: float
    year_low: float
    year_high: float
    most: float
    most_day: int
    first_shows_day: int | None
    left_frac: float
    lime_frac: float
    given_back_frac: float
    alone: float
    lowest_ph: float
    lowest_alone_ph: float


def claim_courses(
    context: BedContext, claims: Iterable[ClaimEntry], *, members: int, seed: int
) -> tuple[Course, ...]:
    """What each material would do through the year, each on its own.

    Answers with the difference between two runs of the same possible beds, so that whatever the
    bed does by itself, and whatever is not known of it, falls out as far as it can.

    Parameters
    ----------
    members
        How many possible beds are run, 3 or more [count].
    seed
        Seed of the draws [number].

    Notes
    -----
    In bare ground a material is mixed into the treated depth, and the bed without it is dug the
    same; on planted ground it lies on the surface; in pots what dissolves is watered in. A peat
    takes no member below the pH of the peat, and an acid that soil life burns off leaves no
    member above where it was. One run without it serves all claims that share it.

    References
    ----------
    own-judgement
    """
    runs: Runs = {}
    return tuple(_course(context, entry, members=members, seed=seed, runs=runs) for entry in claims)


def treated_ph(
    context: BedContext, entries: Sequence[ClaimEntry], *, members: int, seed: int
) -> tuple[FloatArray, FloatArray]:
    """The bed with several materials put on at once, and the same bed without them.

    Parameters
    ----------
    members
        How many possible beds are run, 3 or more [count].
    seed
        Seed of the draws [number].

    Returns
    -------
    tuple of ndarray
        With and without, by member and by day from the evening before, shape (M, 366) [pH].
    """
    with_it, without, first = _both(context, entries, members=members, seed=seed, runs={})
    return _capped(entries, with_it, without, first=first)


def _course(
    context: BedContext,
    entry: ClaimEntry,
    *,
    members: int,
    seed: int,
    runs: Runs,
) -> Course:
    with_it, without, first = _both(context, (entry,), members=members, seed=seed, runs=runs)
    return _read(context, entry, with_it, without, first=first)


def claim_inputs(
    context: BedContext,
    entries: Sequence[ClaimEntry],
    *,
    years: int = 1,
    members: int,
    seed: int,
) -> tuple[ForecastInputs, ColumnEvents, ColumnEvents]:
    """What the column runs on for some materials put on today.

    Parameters
    ----------
    years
        How long from today [years].
    members
        How many possible beds, 3 or more [count].
    seed
        Seed of the draws [number].

    Returns
    -------
    tuple
        Inputs, the events with the materials, and those without them, dug alike.
    """
    parts = [
        Application(
            date=context.case.today,
            material=entry.material.key,
            rate_g_m2=entry.rate_g_m2,
            amount_g=None,
            incorporate_cm=worked_in_cm(context, entry.material),
            only_if=None,
        )
        for entry in entries
    ]
    inputs = forecast_inputs(context, parts, years=years, seed=seed, members=members)
    mine = _claimed(inputs)
    digs = mine & (inputs.events.kind == int(EventKind.TILLAGE))
    dug = digs if not context.in_pot else np.zeros_like(digs)
    return inputs, _rows(inputs.events, ~digs | dug), _rows(inputs.events, ~mine | dug)


def _both(
    context: BedContext, entries: Sequence[ClaimEntry], *, members: int, seed: int, runs: Runs
) -> tuple[ColumnResult, ColumnResult, int]:
    """The column with the materials and without, and the day of the run they go on."""
    inputs, with_events, without_events = claim_inputs(context, entries, members=members, seed=seed)
    first = (inputs.today - inputs.start).days
    key = (without_events.day.size, _decay_of_the_past(inputs))
    if key not in runs:
        runs[key] = _run(inputs, without_events)
    return _run(inputs, with_events), runs[key], first


def _claimed(inputs: ForecastInputs) -> BoolArray:
    """Which events belong to the claim: those that the bed without it does not have."""
    every, control = inputs.events, inputs.control_events
    mine = np.ones(every.day.size, dtype=np.bool_)
    at = 0
    for j in range(control.day.size):  # in the order of all events, those of the control
        while not all(
            np.array_equal(getattr(every, name)[at], getattr(control, name)[j])
            for name in ("day", "kind", "amount", "layer_share", "on_surface")
        ):
            at += 1
        mine[at] = False
        at += 1
    return mine


def _decay_of_the_past(inputs: ForecastInputs) -> bytes:
    """The clocks of rotting, which hang on the claim, where anything put on before rots by them."""
    rotting = (EventKind.DECAY, EventKind.ORGANIC_ACID, EventKind.ORGANIC_NITROGEN)
    if not np.isin(inputs.control_events.kind, rotting).any():
        return b""
    drawn = inputs.members.parameters
    return drawn.decay_half_time_d.tobytes() + drawn.organic_acid_half_time_d.tobytes()


def _rows(events: ColumnEvents, keep: BoolArray) -> ColumnEvents:
    return replace(
        events, **{field.name: getattr(events, field.name)[keep] for field in fields(events)}
    )


def _run(inputs: ForecastInputs, events: ColumnEvents) -> ColumnResult:
    return run_column(
        inputs.soil,
        inputs.members.parameters,
        inputs.weather,
        events,
        laws=shared_laws(),
        sample_depth_cm=inputs.sample_depth_cm,
        stride_days=1,
    )


def _capped(
    entries: Sequence[ClaimEntry], with_it: ColumnResult, without: ColumnResult, *, first: int
) -> tuple[FloatArray, FloatArray]:
    """The pH with and without, no member past where the materials stop by themselves."""
    alone = without.ph[:, first : first + YEAR_DAYS + 1]
    after = with_it.ph[:, first : first + YEAR_DAYS + 1]
    floors = [own_ph(entry.material) for entry in entries]
    if entries and all(floor is not None for floor in floors):
        lowest = min(floor for floor in floors if floor is not None)
        after = np.maximum(after, np.minimum(lowest, alone))
    if entries and all(is_burnt_off(entry.material) for entry in entries):
        after = np.minimum(after, alone)
    return after, alone


def _read(
    context: BedContext,
    entry: ClaimEntry,
    with_it: ColumnResult,
    without: ColumnResult,
    *,
    first: int,
) -> Course:
    after, alone = _capped((entry,), with_it, without, first=first)
    floor = own_ph(entry.material)
    change = after - alone
    middle = np.median(change, axis=0)
    early = middle[1 : FIRST_DAYS + 1]
    low, high = np.quantile(change[:, -1], _OUTER)
    most_day = int(np.argmax(np.abs(middle)))
    lowest_alone = float(np.median(without.lowest_ph))
    shows = np.flatnonzero(np.abs(middle) >= _SHOWS_PH)
    brought = acid_brought_mmolc_m2(
        entry.material,
        rate_g_m2=entry.rate_g_m2,
        in_pot=context.in_pot,
        land_use=context.nitrogen_use,
    )
    left = with_it.sulfur_left_mmolc_m2 - without.sulfur_left_mmolc_m2
    left = left - (with_it.lime_left_mmolc_m2 - without.lime_left_mmolc_m2)
    lime = np.sum(without.carbonate_mmolc_m2 - with_it.carbonate_mmolc_m2, axis=1)
    back = without.background_acid_mmolc_m2 - with_it.background_acid_mmolc_m2
    back = back + without.drained_base_mmolc_m2 - with_it.drained_base_mmolc_m2

    def share(acid: FloatArray) -> float:
        return float(np.median(acid)) / brought if abs(brought) >= _NOTHING_MMOLC_M2 else 0.0

    return Course(
        ph_change=middle,
        now=float(early[np.argmax(np.abs(early))]),
        year=float(middle[-1]),
        year_low=float(low),
        year_high=float(high),
        most=float(middle[most_day]),
        most_day=most_day,
        first_shows_day=int(shows[0]) if shows.size else None,
        left_frac=share(left),
        lime_frac=share(lime),
        given_back_frac=share(back),
        alone=float(np.median(alone[:, -1] - alone[:, 0])),
        lowest_ph=max(float(np.median(with_it.lowest_ph)), min(floor or 0.0, lowest_alone)),
        lowest_alone_ph=lowest_alone,
    )
