"""The compiled loop of the column: members in blocks, a lane for each, through their days."""

from __future__ import annotations

import numpy as np

from loamshift.core.column_compile import compiled, outermost
from loamshift.core.column_curve import read_ph, stand_on
from loamshift.core.column_events_step import put_on, till
from loamshift.core.column_fill import fill
from loamshift.core.column_layout import N_LIME_CLASSES, EventKind, FloatArray, IntArray
from loamshift.core.column_member import set_doses, set_numbers
from loamshift.core.column_numbers import (
    AMMONIUM,
    APPLIED,
    BACKGROUND,
    BASE,
    CARBON,
    CARBONATE,
    DECAY,
    DOSE_POOL,
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
    NITRATE,
    ORGANIC,
    PH_NOW,
    PLATEAU_RISE,
    STEP,
    STORE,
    SULFUR,
    TURNOVER,
    UREA,
    WATER,
    law,
    rate,
)
from loamshift.core.column_pack import (
    AMOUNT,
    ON_TOP,
    SHARE,
)
from loamshift.core.column_reading import mix_sample
from loamshift.core.column_step import run_days

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
_HUMUS_REST = rate("humus_rest")
_PER_NH4 = law("acid_per_nh4_mol_mol")
_PER_UREA = law("acid_per_urea_n_mol_mol")


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


def is_ready() -> bool:
    """Whether machine code of a run is at hand in this process, so that threads need not make it.

    Returns
    -------
    bool
        True after the first run; a kind of event not met before may still be compiled [truth].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> is_ready() in (True, False)
    True
    """
    return all(getattr(one, "signatures", True) for one in (begin, run_days, finish))


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
        Shape (days, 3 + layers): drainage, base of the irrigation, acid from the air, wetness of
        each layer, see ``column_numbers`` [mixed].
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
    room = (number, cell, sample, grain, doses, totals, work, live)
    for first in range(int(bounds[0]), int(bounds[1]), LANES):
        block = slice(first, min(first + LANES, int(bounds[1])))
        for array in room:
            array[:] = 0
        n = block.stop - first
        begin(
            n,
            plan,
            shared,
            members[block],
            laws,
            curve,
            layers,
            given_doses,
            *(number, cell, sample, doses, totals, work),
            ph[block],
        )
        event = day = 0
        while day < water.shape[0]:
            while event < when.shape[0] and when[event, 0] == day:
                happen(when[event], events[event], sizes, number, cell, grain, doses, totals, n)
                event += 1
            until = int(when[event, 0]) if event < when.shape[0] else water.shape[0]
            run_days(
                n,
                np.array([day, until, *plan], dtype=np.int64),
                *(cell, sample, grain, sizes, doses, curve, number, totals, work, live),
                climate,
                water,
                ph[block],
                oxidised[block],
            )
            day = until
        finish(n, cell, curve, number, totals, work, ends[block], sums[block])


@outermost
def begin(
    n: int,
    plan: IntArray,
    shared: FloatArray,
    members: FloatArray,
    laws: FloatArray,
    curve: FloatArray,
    layers: FloatArray,
    given_doses: FloatArray,
    number: FloatArray,
    cell: FloatArray,
    sample: FloatArray,
    doses: FloatArray,
    totals: FloatArray,
    work: FloatArray,
    ph: FloatArray,
) -> None:
    """Put a block of members into its lanes, on the first day.

    Parameters
    ----------
    n
        Lanes in use [count].
    plan, shared, laws, curve, layers, given_doses
        As in :func:`run_members` [mixed].
    members
        One row per lane [mixed].
    number, cell, sample, doses, totals, work
        Room to work in, empty; filled here [mixed].
    ph
        One row per lane; the first reading is set here [pH].

    Notes
    -----
    The shares of sulfur that has turned to acid begin at 0.

    References
    ----------
    own-arithmetic
    """
    for j in range(n):
        number[_STEP_D + j] = 1.0 / plan[2]
        number[_LEACHING + j] = shared[0]
        number[_FIRST_PH + j] = shared[1]
        number[_STEP_PH + j] = shared[2]
        set_numbers(number, curve, laws, members[j], j)
        set_doses(doses, given_doses, members[j], j)
        fill(cell, curve, number, layers, members[j], j)
        sample[0, CARBON + j] = 1.0
        sample[0, PLATEAU_RISE + j] = 0.0
        stand_on(sample, curve, number, sample.shape[0] - 1, j, int(cell[0, STEP + j]))
        totals[LOWEST_PH + j] = 14.0
        work[STORE + j] = _store(cell, number, j)
    mix_sample(cell, curve, number, work, sample, plan[0], n, 0)
    for j in range(n):
        ph[j, 0] = work[PH_NOW + j]


@outermost
def happen(
    when: IntArray,
    what: FloatArray,
    sizes: FloatArray,
    number: FloatArray,
    cell: FloatArray,
    grain: FloatArray,
    doses: FloatArray,
    totals: FloatArray,
    n: int,
) -> None:
    """One event in every lane of a block.

    Parameters
    ----------
    when
        Day, kind and dose [index].
    what
        Amount, how lime lies, and layer shares [mixed].
    sizes
        Size classes of the sulfur doses [mixed].
    number
        Numbers of the members [mixed].
    cell
        State of the layers, changed here [mixed].
    grain
        State of the sulfur doses in the layers, changed here [mixed].
    doses
        What holds for the whole of each dose, changed here [mixed].
    totals
        Sums of the run, changed here [mmolc/m2].
    n
        Lanes in use [count].

    Notes
    -----
    Tillage, or an amount on each of its layers.

    References
    ----------
    own-arithmetic
    """
    for j in range(n):
        if when[1] == _TILLAGE:
            till(cell, grain, sizes, doses, number, what[SHARE:], j)
        else:
            for layer in range(cell.shape[0]):
                amount = what[AMOUNT] * what[SHARE + layer]
                if amount != 0.0:
                    place = (when[1], when[2], layer)
                    lies = what[ON_TOP:SHARE]
                    put_on(cell, grain, doses, number, totals, place, j, amount, lies)


@outermost
def finish(
    n: int,
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    totals: FloatArray,
    work: FloatArray,
    ends: FloatArray,
    sums: FloatArray,
) -> None:
    """What is left of each member of a block at the end, its flows, and the balance.

    Parameters
    ----------
    n
        Lanes in use [count].
    cell
        State of the layers, the places on the curve changed here [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the members [mixed].
    totals
        Sums of the run [mmolc/m2].
    work
        Room to work in, the stores of the first day in it [mixed].
    ends
        Filled here, one row per lane [pH, mmolc/m2].
    sums
        Filled here, one row per lane [mixed].

    Notes
    -----
    The balance: base of all stores at the end, against that of the first day and what came and
    went, over all that moved.

    References
    ----------
    own-arithmetic
    """
    for layer in range(cell.shape[0]):
        read_ph(cell, curve, number, work, layer, n)
        for j in range(n):
            ends[j, 0, layer] = work[PH_NOW + j]
            ends[j, 1, layer] = cell[layer, CARBONATE + j]
            totals[LOWEST_PH + j] = min(totals[LOWEST_PH + j], work[PH_NOW + j])
            sums[j, LIME_LEFT] += _lime(cell, layer, j)
            sums[j, SULFUR_LEFT] += cell[layer, SULFUR + j]
    for j in range(n):
        should = work[STORE + j] + totals[APPLIED + j] + totals[WATER + j]
        should -= totals[BACKGROUND + j] + totals[DRAINED + j]
        sums[j, LOWEST] = totals[LOWEST_PH + j]
        sums[j, NET_BACKGROUND] = totals[BACKGROUND + j]
        sums[j, WATER_IN] = totals[WATER + j]
        sums[j, DRAINED_OUT] = totals[DRAINED + j]
        sums[j, ASTRAY] = abs(_store(cell, number, j) - should) / max(1.0, totals[TURNOVER + j])


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
        per_humus = per_urea + number[_HUMUS_REST + j]
        total -= per_humus * (cell[layer, HUMUS_LABILE + j] + cell[layer, HUMUS_SLOW + j])
        total += number[_NITRATE_BASE + j] * cell[layer, NITRATE + j]
    return total
