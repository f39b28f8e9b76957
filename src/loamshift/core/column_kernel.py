"""The compiled loop of the column: members in blocks, a lane for each, through their days."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from loamshift.core.column_compile import compiled, woven
from loamshift.core.column_curve import place_at, read_ph, set_carbon, stand_on
from loamshift.core.column_events_step import put_on, till
from loamshift.core.column_layout import N_LIME_CLASSES, EventKind, FloatArray, IntArray
from loamshift.core.column_member import set_doses, set_numbers
from loamshift.core.column_numbers import (
    ACID,
    AMMONIUM,
    APPLIED,
    BACKGROUND,
    BASE,
    CARBON,
    CARBONATE,
    CO2,
    COARSEST_LIME,
    DECAY,
    DOSE_LEFT,
    DOSE_POOL,
    DOSE_START,
    DRAINED,
    FAST,
    HUMUS_LABILE,
    HUMUS_SLOW,
    LANES,
    LIME,
    LOWEST_PH,
    MASS,
    N_CELL,
    N_DOSE,
    N_NUMBERS,
    N_TOTALS,
    N_WORK,
    NEUTRAL_DROP,
    NITRATE,
    ORGANIC,
    PH_NOW,
    ROOT_SHARE,
    STEP,
    STORE,
    SULFUR,
    TURNOVER,
    UREA,
    WATER,
    law,
    member,
    rate,
)
from loamshift.core.column_pack import (
    AMOUNT,
    LAYER_CO2,
    LAYER_LIME,
    LAYER_MASS,
    LAYER_PH,
    LAYER_ROOT,
    ON_TOP,
    SHARE,
)
from loamshift.core.column_step import find_live, step_block

LOOK_DAYS: Final = 16
"""Days from one look for empty pools to the next [d]."""
N_SUMS = 7
SULFUR_LEFT, LIME_LEFT, LOWEST, NET_BACKGROUND, WATER_IN, DRAINED_OUT, ASTRAY = range(N_SUMS)
"""Columns of the sums: stores left, lowest pH, flows of the run, and the balance."""
_TILLAGE = int(EventKind.TILLAGE)
_STEP_D = rate("step_d")
_LEACHING = rate("background")
_FIRST_PH = rate("curve_first_ph")
_STEP_PH = rate("curve_step_ph")
_REALISED = rate("realised")
_NITRATE_BASE = rate("nitrate_base")
_PER_NH4 = law("acid_per_nh4_mol_mol")
_PER_UREA = law("acid_per_urea_n_mol_mol")
_MASS_FACTOR = member("mass_factor")
_START_SHIFT = member("start_ph_shift")
_COARSE = member("coarse_carbonate_frac")
_COARSEST = law("coarse_carbonate_coarsest_frac")
_CARBONATE_FACTOR = member("carbonate_factor")
_HUMUS_LABILE = member("humus_labile_mmol_kg")
_HUMUS_SLOW = member("humus_slow_mmol_kg")


Room = tuple[
    FloatArray, FloatArray, FloatArray, FloatArray, FloatArray, FloatArray, FloatArray, IntArray
]


def room_for(*, layers: int, doses: int, sizes: int) -> Room:
    """Arrays for one thread to work in.

    Parameters
    ----------
    layers
        Layers of the soil [count].
    doses
        Doses of sulfur [count].
    sizes
        Size classes of a dose [count].

    Returns
    -------
    tuple of ndarray
        Numbers and layers of the members, the mixed sample, sulfur in the layers, doses, sums,
        room for a step, and which pools hold anything [mixed].

    Notes
    -----
    Made outside, for in compiled code every array made is counted in and out of each call.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> room_for(layers=3, doses=0, sizes=1)[1].shape == (3, N_CELL)
    True
    """
    return (
        np.zeros(N_NUMBERS),
        np.zeros((layers, N_CELL)),
        np.zeros((1, N_CELL)),
        np.zeros((doses, layers, DOSE_POOL + 2 * LANES * sizes)),
        np.zeros((doses, N_DOSE)),
        np.zeros(N_TOTALS),
        np.zeros(N_WORK),
        np.zeros((layers, N_CELL // LANES), dtype=np.int64),
    )


@compiled
def run_members(
    bounds: IntArray,
    plan: IntArray,
    shared: FloatArray,
    members: FloatArray,
    laws: FloatArray,
    curve: FloatArray,
    layers: FloatArray,
    climate: FloatArray,
    water: FloatArray,
    when: IntArray,
    events: FloatArray,
    sizes: FloatArray,
    given_doses: FloatArray,
    number: FloatArray,
    cell: FloatArray,
    sample: FloatArray,
    grain: FloatArray,
    doses: FloatArray,
    totals: FloatArray,
    work: FloatArray,
    live: IntArray,
    ph: FloatArray,
    oxidised: FloatArray,
    ends: FloatArray,
    sums: FloatArray,
) -> None:
    """Run some of the members.

    Parameters
    ----------
    bounds
        First member, and one past the last [index].
    plan
        Layers sampled, days between readings, steps in a day [count, d, count].
    shared
        Factor on the background load, pH of the first point of the curve, and its step
        [-, pH, pH].
    members
        One row per member, in the order of ``MemberParameters`` [mixed].
    laws
        In the order of ``ColumnLaws`` [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    layers
        Mass, start, carbonate, root share of each layer, see ``column_pack`` [mixed].
    climate
        Shape (days, layers, 7), see ``column_numbers`` [mixed].
    water
        Shape (days, 2): drainage, base of the irrigation [mm, mmolc/m2].
    when
        Day, kind and dose of each event [index].
    events
        Amount, how lime lies, and layer shares of each event, see ``column_pack`` [mixed].
    sizes
        Size classes of the sulfur doses [mixed].
    given_doses
        What holds for the whole of each sulfur dose [mixed].
    number, cell, sample, grain, doses, totals, work, live
        Room to work in, of :func:`room_for` [mixed].
    ph
        Filled here, shape (members, readings) [pH].
    oxidised
        Filled here, shape (members, readings) [0-1].
    ends
        Filled here, shape (members, 2, layers): pH and carbonate at the end [pH, mmolc/m2].
    sums
        Filled here, shape (members, 7) [mixed].

    Notes
    -----
    A member knows nothing of those in the lanes beside it, so any block gives it the same bits.

    References
    ----------
    own-arithmetic
    """
    n_layers = layers.shape[0]
    for first in range(bounds[0], bounds[1], LANES):
        n = min(LANES, bounds[1] - first)
        totals[:] = 0.0
        grain[:] = 0.0
        cell[:] = 0.0
        sample[:] = 0.0
        number[_STEP_D : _STEP_D + LANES] = 1.0 / plan[2]
        number[_LEACHING : _LEACHING + LANES] = shared[0]
        number[_FIRST_PH : _FIRST_PH + LANES] = shared[1]
        number[_STEP_PH : _STEP_PH + LANES] = shared[2]
        for j in range(n):
            row = members[first + j]
            set_numbers(number, curve, laws, row, j)
            set_doses(doses, given_doses, row, j)
            _fill(cell, curve, number, layers, row, j)
            sample[0, CARBON + j] = 1.0
            stand_on(sample, curve, number, sample.shape[0] - 1, j, int(cell[0, STEP + j]))
            totals[LOWEST_PH + j] = 14.0
            work[STORE + j] = _store(cell, number, j)
            oxidised[first + j, 0] = 0.0
        find_live(cell, live, n)
        _mix_sample(cell, curve, number, work, sample, plan[0], n)
        for j in range(n):
            ph[first + j, 0] = work[PH_NOW + j]
        done = 0
        for day in range(water.shape[0]):
            begun = done
            for event in range(begun, when.shape[0]):
                if when[event, 0] > day:
                    break
                for j in range(n):
                    _happen(event, when, events, sizes, number, cell, grain, doses, totals, j)
                done = event + 1
            if done > begun or day % LOOK_DAYS == 0:
                find_live(cell, live, n)
            for _ in range(plan[2]):
                step_block(
                    cell,
                    grain,
                    sizes,
                    doses,
                    curve,
                    number,
                    totals,
                    work,
                    live,
                    climate,
                    water,
                    day,
                    n,
                )
            if (day + 1) % plan[1] == 0:
                reading = (day + 1) // plan[1]
                _mix_sample(cell, curve, number, work, sample, plan[0], n)
                for j in range(n):
                    ph[first + j, reading] = work[PH_NOW + j]
                for j in range(n):
                    oxidised[first + j, reading] = _oxidised(grain, j)
        for layer in range(n_layers):
            read_ph(cell, curve, number, work, layer, n)
            for j in range(n):
                ends[first + j, 0, layer] = work[PH_NOW + j]
                totals[LOWEST_PH + j] = min(totals[LOWEST_PH + j], work[PH_NOW + j])
        for j in range(n):
            _sum_up(first + j, cell, number, totals, work[STORE + j], ends, sums, j)


@woven
def _fill(
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    layers: FloatArray,
    row: FloatArray,
    j: int,
) -> None:
    """The layers of a member on the first day."""
    for layer in range(layers.shape[0]):
        mass = layers[layer, LAYER_MASS] * row[_MASS_FACTOR]
        lime = layers[layer, LAYER_LIME] * row[_CARBONATE_FACTOR] * row[_MASS_FACTOR]
        coarse = row[_COARSE] * lime
        cell[layer, MASS + j] = mass
        cell[layer, ROOT_SHARE + j] = layers[layer, LAYER_ROOT]
        cell[layer, CO2 + j] = layers[layer, LAYER_CO2]
        cell[layer, NEUTRAL_DROP + j] = 0.5 * math.log10(layers[layer, LAYER_CO2])
        cell[layer, CARBONATE + j] = lime - coarse
        cell[layer, COARSEST_LIME + j] = number[_COARSEST] * coarse
        cell[layer, COARSEST_LIME - LANES + j] = coarse - cell[layer, COARSEST_LIME + j]
        cell[layer, HUMUS_LABILE + j] = row[_HUMUS_LABILE] * mass
        cell[layer, HUMUS_SLOW + j] = row[_HUMUS_SLOW] * mass
        place_at(cell, curve, number, layer, j, layers[layer, LAYER_PH] + row[_START_SHIFT])


@compiled
def _happen(
    event: int,
    when: IntArray,
    events: FloatArray,
    sizes: FloatArray,
    number: FloatArray,
    cell: FloatArray,
    grain: FloatArray,
    doses: FloatArray,
    totals: FloatArray,
    j: int,
) -> None:
    """One event in one lane."""
    if when[event, 1] == _TILLAGE:
        till(cell, grain, sizes, doses, number, events[event, SHARE:], j)
        return
    for layer in range(cell.shape[0]):
        amount = events[event, AMOUNT] * events[event, SHARE + layer]
        if amount != 0.0:
            what = (when[event, 1], when[event, 2], layer)
            shares = events[event, ON_TOP:SHARE]
            put_on(cell, grain, doses, number, totals, what, j, amount, shares)


@woven
def _sum_up(
    m: int,
    cell: FloatArray,
    number: FloatArray,
    totals: FloatArray,
    before: float,
    ends: FloatArray,
    sums: FloatArray,
    j: int,
) -> None:
    """What is left of a member at the end, its flows, and the balance."""
    sums[m, LIME_LEFT] = 0.0
    sums[m, SULFUR_LEFT] = 0.0
    for layer in range(cell.shape[0]):
        ends[m, 1, layer] = cell[layer, CARBONATE + j]
        sums[m, LIME_LEFT] += _lime(cell, layer, j)
        sums[m, SULFUR_LEFT] += cell[layer, SULFUR + j]
    should = before + totals[APPLIED + j] + totals[WATER + j]
    should -= totals[BACKGROUND + j] + totals[DRAINED + j]
    sums[m, LOWEST] = totals[LOWEST_PH + j]
    sums[m, NET_BACKGROUND] = totals[BACKGROUND + j]
    sums[m, WATER_IN] = totals[WATER + j]
    sums[m, DRAINED_OUT] = totals[DRAINED + j]
    sums[m, ASTRAY] = abs(_store(cell, number, j) - should) / max(1.0, totals[TURNOVER + j])


@compiled
def _lime(cell: FloatArray, layer: int, j: int) -> float:
    """Applied lime in a layer, all classes [mmolc/m2]."""
    total = 0.0
    for i in range(2 * N_LIME_CLASSES):
        total += cell[layer, LIME + LANES * i + j]
    return total


@compiled
def _store(cell: FloatArray, number: FloatArray, j: int) -> float:
    """Base held, and what every pool will still bring, acid taken off [mmolc/m2]."""
    total = 0.0
    per_nh4 = number[_REALISED + j] * number[_PER_NH4] - number[_NITRATE_BASE + j]
    per_urea = number[_REALISED + j] * number[_PER_UREA] - number[_NITRATE_BASE + j]
    for layer in range(cell.shape[0]):
        total += cell[layer, BASE + j] * cell[layer, MASS + j] + cell[layer, CARBONATE + j]
        total += _lime(cell, layer, j) - cell[layer, SULFUR + j]
        total -= cell[layer, FAST + j] + cell[layer, ORGANIC + j] + cell[layer, DECAY + j]
        total -= per_urea * cell[layer, UREA + j] + per_nh4 * cell[layer, AMMONIUM + j]
        total -= per_urea * (cell[layer, HUMUS_LABILE + j] + cell[layer, HUMUS_SLOW + j])
        total += number[_NITRATE_BASE + j] * cell[layer, NITRATE + j]
    return total


@compiled
def _mix_sample(
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    work: FloatArray,
    sample: FloatArray,
    sampled: int,
    n: int,
) -> None:
    """The pH of the mixed sample: that of the mean base, and carbon, of the layers by mass.

    The sample is a layer of its own that keeps its place on the curve from reading to reading.
    """
    last = sample.shape[0] - 1
    for j in range(n):
        sample[0, MASS + j] = 0.0
        sample[0, BASE + j] = 0.0
        work[ACID + j] = 0.0
    for layer in range(sampled):
        for j in range(n):
            mass = cell[layer, MASS + j]
            sample[0, MASS + j] += mass
            sample[0, BASE + j] += mass * cell[layer, BASE + j]
            work[ACID + j] += mass * cell[layer, CARBON + j]
    for j in range(n):
        sample[0, BASE + j] /= sample[0, MASS + j]
        set_carbon(sample, number, last, j, work[ACID + j] / sample[0, MASS + j])
    read_ph(sample, curve, number, work, last, n)


@woven
def _oxidised(grain: FloatArray, j: int) -> float:
    """Share of all sulfur put on so far that has turned to acid [0-1]."""
    start = 0.0
    left = 0.0
    for dose in range(grain.shape[0]):
        for layer in range(grain.shape[1]):
            start += grain[dose, layer, DOSE_START + j]
            left += grain[dose, layer, DOSE_LEFT + j]
    return 1.0 - left / start if start > 0.0 else 0.0
