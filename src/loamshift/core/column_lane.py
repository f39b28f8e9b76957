"""One member of one of many beds, through all its days: what a thread of a graphics card does.

The laws are those of the processor, function for function: a thread is a block of members with a
single lane, whose numbers stand beside those of its neighbours.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from loamshift.core.column_compile import compiled
from loamshift.core.column_kernel import N_SUMS, begin, finish, happen
from loamshift.core.column_layout import FloatArray, IntArray
from loamshift.core.column_many import ManyResults, ManyRuns
from loamshift.core.column_numbers import (
    DOSE_POOL,
    LANES,
    N_CELL,
    N_DOSE,
    N_NUMBERS,
    N_TOTALS,
    N_WORK,
)
from loamshift.core.column_step import run_days

N_POOLS: Final = N_CELL // LANES
N_DAYS: Final = 5
"""Numbers that tell ``run_days`` which days to run."""


def room_shapes(runs: ManyRuns, slots: int) -> tuple[tuple[tuple[int, ...], type], ...]:
    """Shapes and kinds of the arrays that so many blocks of members work in.

    Parameters
    ----------
    runs
        The beds [arrays].
    slots
        Blocks of members at work at one time [count].

    Returns
    -------
    tuple
        Of each argument of :func:`run_lane` from ``number`` to ``work``: shape and kind [count].

    References
    ----------
    own-judgement

    Examples
    --------
    See ``tests/core/test_column_many.py`` for whole runs.

    >>> from types import SimpleNamespace
    >>> runs = SimpleNamespace(n_layers=3, doses=np.zeros((1, 2, 11)), sizes=np.zeros((1, 2, 4, 8)))
    >>> room_shapes(runs, 5)[3][0] == (5, 2, 3, DOSE_POOL + 8 * LANES)
    True
    """
    layers, doses = runs.n_layers, max(1, runs.doses.shape[1])
    grain = DOSE_POOL + 2 * LANES * max(1, runs.sizes.shape[2])
    return (
        ((slots, N_NUMBERS), np.float64),
        ((slots, layers, N_CELL), np.float64),
        ((slots, 1, N_CELL), np.float64),
        ((slots, doses, layers, grain), np.float64),
        ((slots, doses, N_DOSE), np.float64),
        ((slots, N_TOTALS), np.float64),
        ((slots, N_WORK), np.float64),
    )


def given_arrays(runs: ManyRuns) -> tuple[FloatArray | IntArray, ...]:
    """The arrays that :func:`run_lane` is given, none of them empty.

    Parameters
    ----------
    runs
        The beds [arrays].

    Returns
    -------
    tuple of ndarray
        In the order of its arguments: sizes, then from ``plan`` to ``given_doses`` [mixed].

    Notes
    -----
    A card takes no empty array: events and doses that nobody has are one unused row, and the
    first argument says how many there are.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> names = "plan shared members laws curve layers warmth warmth_of water when events "
    >>> names += "sizes doses"
    >>> runs = SimpleNamespace(**{name: np.ones((1, 2, 3)) for name in names.split()})
    >>> runs.doses = np.ones((1, 0, 3))
    >>> given = given_arrays(runs)
    >>> given[0].tolist(), given[-1].shape
    ([2, 0], (1, 1, 3))
    """
    counts = np.array([runs.when.shape[1], runs.doses.shape[1]], dtype=np.int64)

    arrays: tuple[FloatArray | IntArray, ...] = (
        *(runs.plan, runs.shared, runs.members, runs.laws, runs.curve, runs.layers),
        *(runs.warmth, runs.warmth_of, runs.water, runs.when, runs.events, runs.sizes, runs.doses),
    )
    given: list[FloatArray | IntArray] = [counts]
    for one in arrays:
        shape = [max(1, n) for n in one.shape]
        given.append(np.ascontiguousarray(one if one.size else np.resize(one, shape)))
    return tuple(given)


def result_arrays(found: ManyResults) -> tuple[FloatArray, ...]:
    """The arrays that :func:`run_lane` fills, in its order.

    Parameters
    ----------
    found
        Room for the results [arrays].

    Returns
    -------
    tuple of ndarray
        Of the last arguments [mixed].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> found = SimpleNamespace(sums=4.0, ends=3.0, oxidised_frac=2.0, ph=1.0)
    >>> result_arrays(found)
    (1.0, 2.0, 3.0, 4.0)
    """
    return found.ph, found.oxidised_frac, found.ends, found.sums


@compiled
def run_lane(
    slot: int,
    lane: int,
    slots: int,
    counts: IntArray,
    plan: IntArray,
    shared: FloatArray,
    members: FloatArray,
    laws: FloatArray,
    curve: FloatArray,
    layers: FloatArray,
    warmth: FloatArray,
    warmth_of: IntArray,
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
    alive: IntArray,
    span: IntArray,
    ph: FloatArray,
    oxidised: FloatArray,
    ends: FloatArray,
    sums: FloatArray,
) -> None:
    """Every block of members that falls to a slot: the member in one lane of it.

    Parameters
    ----------
    slot
        Which slot; it takes every ``slots``-th block of members of every bed [index].
    lane
        Which lane of the block [index].
    slots
        Slots at work [count].
    counts
        Events and doses in use [count].
    plan, shared, members, laws, curve, layers, warmth, warmth_of, water, when, events, sizes
        As in ``ManyRuns`` [mixed].
    given_doses
        ``doses`` of ``ManyRuns`` [mixed].
    number, cell, sample, grain, doses, totals, work
        Room to work in, of :func:`room_shapes` [mixed].
    alive, span
        Room of this thread alone: which pools hold anything, shape (layers, places), and
        ``N_DAYS`` numbers [count].
    ph, oxidised, ends, sums
        Filled here, as in ``ManyResults`` [mixed].

    Notes
    -----
    The order of ``column_kernel.run_members`` for a block of one lane: the state of a member
    stands a lane apart from its neighbours', so that threads side by side read side by side.

    References
    ----------
    own-arithmetic
    """
    n_members = members.shape[1]
    n_days = water.shape[1]
    blocks = (n_members + LANES - 1) // LANES
    n_doses = counts[1]
    numbers = number[slot, lane:]
    cells = cell[slot, :, lane:]
    mixed = sample[slot, :, lane:]
    grains = grain[slot, :n_doses, :, lane:]
    dosed = doses[slot, :n_doses, lane:]
    total = totals[slot, lane:]
    worked = work[slot, lane:]
    for job in range(slot, members.shape[0] * blocks, slots):
        bed = job // blocks
        j = (job % blocks) * LANES + lane
        if j >= n_members:
            continue
        _clear(numbers, cells, mixed, grains, dosed, total, worked)
        for i in range(N_SUMS):
            sums[bed, j, i] = 0.0
        oxidised[bed, j, 0] = 0.0
        classes = sizes[bed, :n_doses]
        given = given_doses[bed, :n_doses]
        begin(
            1,
            plan[bed],
            shared[bed],
            members[bed, j : j + 1],
            laws,
            curve[bed],
            layers[bed],
            given,
            numbers,
            cells,
            mixed,
            dosed,
            total,
            worked,
            ph[bed, j : j + 1],
        )
        event = 0
        day = 0
        while day < n_days:
            while event < counts[0] and when[bed, event, 0] == day:
                happen(
                    when[bed, event],
                    events[bed, event],
                    classes,
                    numbers,
                    cells,
                    grains,
                    dosed,
                    total,
                    1,
                )
                event += 1
            until = n_days
            if event < counts[0]:
                until = when[bed, event, 0]
            span[0] = day
            span[1] = until
            span[2] = plan[bed, 0]
            span[3] = plan[bed, 1]
            span[4] = plan[bed, 2]
            run_days(
                1,
                span,
                cells,
                mixed,
                grains,
                classes,
                dosed,
                curve[bed],
                numbers,
                total,
                worked,
                alive,
                warmth[warmth_of[bed]],
                water[bed],
                ph[bed, j : j + 1],
                oxidised[bed, j : j + 1],
            )
            day = until
        finish(
            1,
            cells,
            curve[bed],
            numbers,
            total,
            worked,
            ends[bed, j : j + 1],
            sums[bed, j : j + 1],
        )


@compiled
def _clear(
    number: FloatArray,
    cell: FloatArray,
    sample: FloatArray,
    grain: FloatArray,
    doses: FloatArray,
    totals: FloatArray,
    work: FloatArray,
) -> None:
    """Empty the room of one lane."""
    for i in range(0, N_NUMBERS, LANES):
        number[i] = 0.0
    for i in range(0, N_CELL, LANES):
        sample[0, i] = 0.0
        for layer in range(cell.shape[0]):
            cell[layer, i] = 0.0
    for dose in range(doses.shape[0]):
        for i in range(0, N_DOSE, LANES):
            doses[dose, i] = 0.0
        for layer in range(cell.shape[0]):
            for i in range(0, grain.shape[2], LANES):
                grain[dose, layer, i] = 0.0
    for i in range(0, N_TOTALS, LANES):
        totals[i] = 0.0
    for i in range(0, N_WORK, LANES):
        work[i] = 0.0
