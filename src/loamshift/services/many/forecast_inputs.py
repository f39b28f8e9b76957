"""Beds and their plans turned into what the column runs on, a block of beds at a time."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import HIGHEST_TABLE_PH, LOWEST_TABLE_PH
from loamshift.core.column_many import ManyRuns, stack_events
from loamshift.core.column_pack import (
    LAYER_CO2,
    LAYER_ROOT,
    N_LAYER,
    edge_numbers,
    law_array,
    member_array,
)
from loamshift.core.column_soil import CURVE_POINTS, curve_columns
from loamshift.core.ensemble import even_shares
from loamshift.core.ensemble_many import draw_many
from loamshift.domain.answer import Application
from loamshift.domain.place import Place
from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.belief.column_inputs import DAYS_IN_YEAR, LONGEST_YEARS
from loamshift.services.belief.column_priors import PriorRows, priors_of
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, shared_laws
from loamshift.services.belief.humus import humus_parameters
from loamshift.services.belief.member_parameters import (
    BedNumbers,
    carbonate_quantile_pct,
    parameters_from,
)
from loamshift.services.context.air import air_acid
from loamshift.services.many.forecast_beds import ManyBeds
from loamshift.services.many.forecast_events import BedEvents, bed_events
from loamshift.services.many.forecast_weather import warmth_of, water_of
from loamshift.tables.model import buffer_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

_PH: Final = np.linspace(LOWEST_TABLE_PH, HIGHEST_TABLE_PH, CURVE_POINTS)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyBlock:
    """Beds of equal layers, days and doses, ready to run.

    ``which`` (n,) their places among all beds; ``first_week`` (n,) the reading of today.
    """

    which: IntArray
    first_week: IntArray
    runs: ManyRuns


class _HumusSoil(NamedTuple):
    organic_carbon_pct: float
    bulk_density_g_cm3: float


def ready_blocks(
    beds: ManyBeds,
    plans: Sequence[Sequence[Application]],
    *,
    seeds: IntArray,
    years: int,
    members: int,
) -> tuple[ReadyBlock, ...]:
    """What the column runs on for these beds and their plans.

    Parameters
    ----------
    plans
        Dated applications of each bed; those after the end are left out.
    seeds
        Seed of each bed, shape (B,) [number].
    years
        How long from today, 1 to 50 [years].
    members
        Members of each bed, 1 or more [count].

    Returns
    -------
    tuple of ReadyBlock
        Every bed in one of them.

    Raises
    ------
    InputError
        For plans or seeds that are not one for each bed.
    OutOfRangeError
        For a number of years outside 1 to 50, no members, or a seed below 0.

    Notes
    -----
    As ``belief.column_inputs.forecast_inputs`` for one bed, array by array: nothing here is done
    member by member. A bed knows nothing of those beside it.
    """
    if len(plans) != beds.n_beds or seeds.shape != (beds.n_beds,):
        raise InputError(
            f"{len(plans)} plans and {seeds.size} seeds for {beds.n_beds} beds; give one each"
        )
    if members < 1 or (seeds < 0).any():
        raise OutOfRangeError("members must be 1 or more, and every seed 0 or more")
    if not 1 <= years <= LONGEST_YEARS:
        raise OutOfRangeError(f"years = {years} must lie between 1 and {LONGEST_YEARS}")
    if not beds.n_beds:
        return ()
    since = -(-(beds.today - beds.read) // DAYS_IN_WEEK) * DAYS_IN_WEEK
    start, days = beds.today - since, since + round(years * DAYS_IN_YEAR)
    events = [
        bed_events(beds, bed, plan, start=int(start[bed]), days=int(days[bed]))
        for bed, plan in enumerate(plans)
    ]
    groups: dict[tuple[int, ...], list[int]] = defaultdict(list)
    for bed, one in enumerate(events):
        groups[(len(one.edges_cm), int(days[bed]), *one.packed.shape)].append(bed)
    parameters = _members(beds, events, seeds=seeds, since=since, members=members)
    return tuple(
        _block(
            beds,
            np.array(group, dtype=np.int64),
            events=[events[bed] for bed in group],
            members=parameters,
            start=start,
            days=int(days[group[0]]),
            since=since,
        )
        for group in groups.values()
    )


def _block(
    beds: ManyBeds,
    which: IntArray,
    *,
    events: Sequence[BedEvents],
    members: FloatArray,
    start: IntArray,
    days: int,
    since: IntArray,
) -> ReadyBlock:
    laws = shared_laws()
    n_layers = len(events[0].edges_cm) - 1
    water, leaching = water_of(beds, which, start=start[which], days=days, n_layers=n_layers)
    warmth, warmth_index = _warmth(beds, which, events, start=start, days=days)
    when, amounts, sizes, doses = stack_events(
        [one.packed for one in events], n_layers=n_layers, n_days=days
    )
    edges, edge_of = np.unique([one.edges_cm for one in events], axis=0, return_inverse=True)
    numbers = np.stack([edge_numbers(one, laws) for one in edges])[edge_of.ravel()]
    thickness = np.diff(edges, axis=1)[edge_of.ravel()]
    layers = np.zeros((which.size, n_layers, N_LAYER))
    mass = beds.bulk_density_g_cm3[which, None] * thickness * 10.0
    layers[:, :, 0] = mass
    layers[:, :, 1] = beds.ph_water[which, None]
    layers[:, :, 2] = CARBONATE_MMOLC_KG_PER_PCT * mass
    layers[:, :, LAYER_ROOT : LAYER_CO2 + 1] = numbers
    sample = beds.sample_depth_cm[which, None]
    sampled = np.abs(edges[edge_of.ravel(), 1:] - sample).argmin(axis=1) + 1
    step = float((_PH[-1] - _PH[0]) / (_PH.size - 1))
    return ReadyBlock(
        which=which,
        first_week=since[which] // DAYS_IN_WEEK,
        runs=ManyRuns(
            plan=np.column_stack(
                (sampled, np.full(which.size, DAYS_IN_WEEK), np.ones(which.size, dtype=np.int64))
            ).astype(np.int64),
            shared=np.column_stack(
                (leaching, np.full(which.size, _PH[0]), np.full(which.size, step))
            ),
            members=members[which],
            laws=law_array(laws),
            curve=_curves(beds, which),
            layers=layers,
            warmth=warmth,
            warmth_of=warmth_index,
            water=water,
            when=when,
            events=amounts,
            sizes=sizes,
            doses=doses,
        ),
    )


def _warmth(
    beds: ManyBeds, which: IntArray, events: Sequence[BedEvents], *, start: IntArray, days: int
) -> tuple[FloatArray, IntArray]:
    """The warmth of each place among the beds, and which one each bed has."""
    found: dict[tuple[int, tuple[float, ...], int], int] = {}
    arrays: list[FloatArray] = []
    index = np.empty(which.size, dtype=np.int64)
    for i, (bed, one) in enumerate(zip(which.tolist(), events, strict=True)):
        key = (int(beds.kind_of[bed]), one.edges_cm, int(start[bed]))
        if key not in found:
            kind = beds.kind(bed)
            made = warmth_of(kind.place, kind.wave, kind.in_pot, one.edges_cm, key[2], days)
            same = [i for i, other in enumerate(arrays) if other is made]
            found[key] = same[0] if same else len(arrays)
            if not same:
                arrays.append(made)
        index[i] = found[key]
    return np.stack(arrays), index


def _curves(beds: ManyBeds, which: IntArray) -> FloatArray:
    """The buffer curve of each bed, shape (n, points, 3) [mmolc/kg]."""
    column = parameter_values("column")
    curves = np.empty((which.size, _PH.size, 3))
    organic_only = np.array([kind.organic_only for kind in beds.kinds])[beds.kind_of[which]]
    for alone in (False, True):
        rows = np.nonzero(organic_only == alone)[0]
        if not rows.size:
            continue
        parts = curve_columns(
            _PH,
            clay_pct=beds.clay_pct[which[rows], None],
            organic_carbon_pct=beds.organic_carbon_pct[which[rows], None],
            params=buffer_parameters(),
            al_highest_mmolc_kg=column["al_highest_mmolc_kg"],
            organic_zero_ph=column["organic_zero_ph"],
            organic_only=alone,
        )
        for place, part in enumerate(parts):
            curves[rows, :, place] = part
    return curves


def _members(
    beds: ManyBeds,
    events: Sequence[BedEvents],
    *,
    seeds: IntArray,
    since: IntArray,
    members: int,
) -> FloatArray:
    """The members of every bed, shape (B, members, fields) [mixed]."""
    priors = [
        priors_of(
            land_use=kind.land_use,
            in_pot=kind.in_pot,
            water_known=kind.water_known,
            rotting=one.rotting,
            organic_acid=one.organic_acid,
            humus=kind.humus,
            air_spread=_air_spread(kind.place, int(today)),
            is_fed=feed is not None,
        )
        for one, feed, today, kind in zip(
            events, beds.feeds, beds.today, map(beds.kind, range(beds.n_beds)), strict=True
        )
    ]
    groups: dict[tuple[str, ...], list[int]] = defaultdict(list)
    for bed, one in enumerate(priors):
        groups[one.names].append(bed)
    parts = [
        (
            np.array(group),
            _drawn(
                beds,
                np.array(group, dtype=np.int64),
                [priors[bed] for bed in group],
                seeds=seeds,
                since=since,
                members=members,
            ),
        )
        for group in groups.values()
    ]
    if len(parts) == 1:
        return parts[0][1]
    made = np.empty((beds.n_beds, *parts[0][1].shape[1:]))
    for group_index, part in parts:
        made[group_index] = part
    return made


def _drawn(
    beds: ManyBeds,
    which: IntArray,
    priors: Sequence[PriorRows],
    *,
    seeds: IntArray,
    since: IntArray,
    members: int,
) -> FloatArray:
    """The members of beds of which the same is drawn, shape (n, members, fields) [mixed]."""
    kinds = {id(one): one for one in priors}
    place = {key: index for index, key in enumerate(kinds)}
    tables = np.array([one.rows for one in kinds.values()], dtype=np.float64)
    rows = tables[[place[id(one)] for one in priors]]
    rows[:, 0, 0], rows[:, 0, 1] = beds.log10_k_mean[which], beds.log10_k_sd[which]
    rows[:, 1, 1] = beds.ph_water_sd[which]
    centre, spread, logged, low, high = (rows[:, :, i] for i in range(5))
    found, shares_of = np.unique(seeds[which], return_inverse=True)
    shares = np.stack(
        [
            even_shares(rows.shape[1], n_members=members, rng=np.random.default_rng(int(seed)))
            for seed in found
        ]
    )
    draws = draw_many(
        centre,
        spread,
        lognormal=logged > 0.0,
        low=low,
        high=high,
        shares=shares,
        shares_of=shares_of,
    )
    by_bed = dict(zip(priors[0].names, draws, strict=True))
    carbonate = np.stack(
        [
            carbonate_quantile_pct(beds.carbonate(bed), z)
            for bed, z in zip(which.tolist(), by_bed["carbonate"], strict=True)
        ]
    )
    humus = _humus(beds, which, priors, by_bed, since=since)
    kind_of = [beds.kind(bed) for bed in which.tolist()]

    def each(values: FloatArray | Sequence[bool]) -> FloatArray:
        return np.repeat(np.asarray(values), members)

    parameters = parameters_from(
        {name: value.ravel() for name, value in by_bed.items()},
        bed=BedNumbers(
            ph_water=each(beds.ph_water[which]),
            log10_k_usual=each(beds.log10_k_mean[which]),
            in_pot=each([kind.in_pot for kind in kind_of]).astype(bool),
            water_known=each([kind.water_known for kind in kind_of]).astype(bool),
            keeps_bare=each([one.keeps_bare for one in priors]).astype(bool),
            water_anions_mmolc_l=each(beds.water_anions_mmolc_l[which]),
        ),
        carbonate_pct=carbonate.ravel(),
        humus=humus,
    )
    return member_array(parameters).reshape(which.size, members, -1)


def _humus(
    beds: ManyBeds,
    which: IntArray,
    priors: Sequence[PriorRows],
    by_bed: dict[str, FloatArray],
    *,
    since: IntArray,
) -> dict[str, FloatArray]:
    """The humus of every member of beds where some rots; nothing where none does."""
    of_humus = priors[0].of_humus
    if not of_humus:
        return {}
    made: dict[str, list[FloatArray]] = defaultdict(list)
    for row, bed in enumerate(which.tolist()):
        history = beds.kind(bed).humus
        assert history is not None
        found = humus_parameters(
            history,
            {name: by_bed[name][row] for name in of_humus},
            soil=_HumusSoil(
                float(beds.organic_carbon_pct[bed]), float(beds.bulk_density_g_cm3[bed])
            ),
            years_back=int(beds.today[bed] - beds.read[bed]) / DAYS_IN_YEAR,
        )
        for name, values in found.items():
            made[name].append(values)
    return {name: np.concatenate(values) for name, values in made.items()}


@lru_cache(maxsize=1024)
def _air_spread(place: Place | None, today: int) -> float:
    """Factor that bounds 95 in 100 sites of the place's acid from the air [-]."""
    return air_acid(place, year=date.fromordinal(today).year).spread
