"""The column: layers of soil through days of weather, for many possible beds at once."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from itertools import pairwise
from typing import Final

import numpy as np

from loamshift.core.column_kernel import (
    ASTRAY,
    DRAINED_OUT,
    LIME_LEFT,
    LOWEST,
    N_SUMS,
    NET_BACKGROUND,
    SULFUR_LEFT,
    WATER_IN,
    is_ready,
    room_for,
    run_members,
)
from loamshift.core.column_layout import (
    ColumnEvents,
    ColumnLaws,
    ColumnResult,
    ColumnSoil,
    ColumnWeather,
    IntArray,
    MemberParameters,
)
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
from loamshift.errors import InputError, OutOfRangeError

EDGE_CM: Final = 1.0e-6
LONGEST_BLOCK: Final = 200
"""Members run without looking up, so that an interrupt is heard within seconds [count]."""


def run_column(
    soil: ColumnSoil,
    members: MemberParameters,
    weather: ColumnWeather,
    events: ColumnEvents,
    *,
    laws: ColumnLaws,
    sample_depth_cm: float,
    stride_days: int = 7,
    threads: int = 2,
    steps_per_day: int = 1,
) -> ColumnResult:
    """How the pH of a bed moves day by day, in every member of an ensemble.

    Answers what a sample of the bed would read, week by week, with what was put on, the water,
    and what the soil loses by itself. Reading error, and crops that come and go, are left out.

    Parameters
    ----------
    soil
        Layers, masses, start and curve [arrays].
    members
        One value per member of everything uncertain [arrays].
    weather
        Soil temperature, wetness and water of each day [arrays].
    events
        What is put on, and tillage [arrays].
    laws
        Coefficients that all members share [see the dataclass].
    sample_depth_cm
        Depth sampled, one of the edges of the layers [cm].
    stride_days
        Days between readings, 1 or more [d].
    threads
        Threads that share the members, 1 or more [count].
    steps_per_day
        Steps a day is cut into, 1 or more; more is for tests of the step [count].

    Returns
    -------
    ColumnResult
        pH by member and day, stores at the end, and the balance [units as named there].

    Raises
    ------
    InputError
        Where soil, weather and events differ in their layers, or an event has no day.
    OutOfRangeError
        For a sampled depth that is no edge, or a count below 1.

    Notes
    -----
    The reading is the pH of the mass-weighted mean base of the layers sampled: a mix of pH 4 and
    7 reads near 5, not 5.5. Every step is exact, implicit or limited to its pool, so none is too
    long. The same bits for any number of threads and any split of the members. Below pH 3 iron
    and silicates, which hold a soil there, are missing: ``lowest_ph`` says where that happened.

    References
    ----------
    watkinson-blair-1993, glendining-2023, own-judgement

    Examples
    --------
    See ``tests/core/test_column.py`` for whole runs.

    >>> run_column(None, None, None, None, laws=None, sample_depth_cm=15.0, threads=0)
    Traceback (most recent call last):
    ...
    loamshift.errors.OutOfRangeError: threads = 0 must be 1 or more
    """
    for name, count in (
        ("threads", threads),
        ("stride_days", stride_days),
        ("steps_per_day", steps_per_day),
    ):
        if count < 1:
            raise OutOfRangeError(f"{name} = {count} must be 1 or more")
    sampled = _layers_sampled(soil, sample_depth_cm)
    _check_fit(soil, weather, events)
    n_members, n_layers = members.n_members, soil.n_layers
    readings = weather.n_days // stride_days + 1
    ph = np.empty((n_members, readings))
    oxidised = np.zeros((n_members, readings))
    ends = np.empty((n_members, 2, n_layers))
    sums = np.zeros((n_members, N_SUMS))
    when, amounts = event_arrays(events)
    plan = np.array([sampled, stride_days, steps_per_day], dtype=np.int64)
    given = (
        plan,
        np.array([weather.leaching_factor, *curve_ends(soil)]),
        member_array(members),
        law_array(laws),
        curve_array(soil),
        layer_array(soil, laws),
        climate_array(weather, laws),
        water_array(weather),
        when,
        amounts,
        dose_sizes(events),
        dose_numbers(events, density_ug_cm3=laws.density_ug_cm3),
    )
    sizes = events.size_frac.shape[1]

    def run_block(block: IntArray) -> None:
        room = room_for(layers=n_layers, doses=given[-1].shape[0], sizes=sizes)
        run_members(block, *given, *room, ph, oxidised, ends, sums)

    blocks = _blocks(n_members, threads)
    alone = len(blocks) if threads == 1 else 0 if is_ready() else 1
    for block in blocks[:alone]:  # the first run compiles, where an interrupt can stop it
        run_block(block)
    if blocks[alone:]:
        with ThreadPoolExecutor(max_workers=threads) as pool:
            try:
                for done in [pool.submit(run_block, block) for block in blocks[alone:]]:
                    done.result()
            except BaseException:  # an interrupt need not wait for blocks not yet begun
                pool.shutdown(wait=False, cancel_futures=True)
                raise
    if not np.isfinite(sums).all():
        which = int(np.nonzero(~np.isfinite(sums).all(axis=1))[0][0])
        raise OutOfRangeError(f"member {which} gave no number: one of its parameters divides by 0")
    return ColumnResult(
        day=np.arange(readings, dtype=np.int64) * stride_days,
        ph=ph,
        oxidised_frac=oxidised,
        balance_error=sums[:, ASTRAY].copy(),
        end_ph=ends[:, 0].copy(),
        carbonate_mmolc_m2=ends[:, 1].copy(),
        sulfur_left_mmolc_m2=sums[:, SULFUR_LEFT].copy(),
        lime_left_mmolc_m2=sums[:, LIME_LEFT].copy(),
        lowest_ph=sums[:, LOWEST].copy(),
        background_acid_mmolc_m2=sums[:, NET_BACKGROUND].copy(),
        water_base_mmolc_m2=sums[:, WATER_IN].copy(),
        drained_base_mmolc_m2=sums[:, DRAINED_OUT].copy(),
    )


def _blocks(n_members: int, threads: int) -> list[IntArray]:
    """Members in even blocks, none of them empty: one a thread, more where they would be long."""
    pieces = max(threads, -(-n_members // LONGEST_BLOCK))
    edges = [n_members * i // pieces for i in range(pieces + 1)]
    blocks = [(a, b) for a, b in pairwise(edges) if b > a] or [(0, 0)]
    return [np.array(block, dtype=np.int64) for block in blocks]


def _layers_sampled(soil: ColumnSoil, depth_cm: float) -> int:
    for layers, edge in enumerate(soil.edges_cm):
        if layers > 0 and abs(edge - depth_cm) < EDGE_CM:
            return layers
    edges = ", ".join(f"{edge:g}" for edge in soil.edges_cm[1:])
    raise OutOfRangeError(
        f"sample_depth_cm = {depth_cm:g} is no edge of a layer ({edges} cm); make it one"
    )


def _check_fit(soil: ColumnSoil, weather: ColumnWeather, events: ColumnEvents) -> None:
    layers = soil.n_layers
    if weather.soil_temp_c.shape[1] != layers or events.layer_share.shape[1] != layers:
        raise InputError(
            f"the soil has {layers} layers, the weather {weather.soil_temp_c.shape[1]} and the "
            f"events {events.layer_share.shape[1]}; build all three for the same layers"
        )
    if events.day.size and (events.day[0] < 0 or events.day[-1] >= weather.n_days):
        raise InputError(
            f"an event falls on day {int(events.day[-1])}, and the weather has "
            f"{weather.n_days} days; run longer or leave it out"
        )
