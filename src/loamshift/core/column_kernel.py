"""The compiled loop of the column: members, one after the other, through their days."""

from __future__ import annotations

import math

import numpy as np

from loamshift.core.column_compile import compiled, compiled_with_room
from loamshift.core.column_curve import find_ph, ph_of, place_at
from loamshift.core.column_events_step import put_on, till
from loamshift.core.column_layout import EventKind, FloatArray, IntArray
from loamshift.core.column_member import set_doses, set_numbers
from loamshift.core.column_numbers import (
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
    LIME,
    LOWEST_PH,
    MASS,
    N_CELL,
    N_DOSE_NUMBERS,
    N_NUMBERS,
    N_TOTALS,
    NEUTRAL_DROP,
    NITRATE,
    ORGANIC,
    ROOT_SHARE,
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
from loamshift.core.column_step import step_member

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


@compiled_with_room
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
    ph: FloatArray,
    oxidised: FloatArray,
    ends: FloatArray,
    sums: FloatArray,
) -> None:
    """Run the members of one block.

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
    A member knows nothing of the others, so a block of any size gives each the same bits.

    References
    ----------
    own-arithmetic
    """
    n_layers = layers.shape[0]
    n_doses = given_doses.shape[0]
    number = np.empty(N_NUMBERS)
    cell = np.empty((n_layers, N_CELL))
    grain = np.empty((n_doses, n_layers, DOSE_POOL + 2 * sizes.shape[1]))
    doses = np.empty((n_doses, N_DOSE_NUMBERS))
    totals = np.empty(N_TOTALS)
    room = np.empty(10)
    for m in range(bounds[0], bounds[1]):
        _run_member(
            m,
            plan,
            shared,
            members,
            laws,
            curve,
            layers,
            climate,
            water,
            when,
            events,
            sizes,
            given_doses,
            number,
            cell,
            grain,
            doses,
            totals,
            room,
            ph,
            oxidised,
            ends,
            sums,
        )


@compiled
def _run_member(
    m: int,
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
    grain: FloatArray,
    doses: FloatArray,
    totals: FloatArray,
    room: FloatArray,
    ph: FloatArray,
    oxidised: FloatArray,
    ends: FloatArray,
    sums: FloatArray,
) -> None:
    """One member through all its days; arguments as in :func:`run_members`, then the room."""
    n_layers = layers.shape[0]
    n_days = water.shape[0]
    n_events = when.shape[0]
    row = members[m]
    number[_STEP_D] = 1.0 / plan[2]
    number[_LEACHING] = shared[0]
    number[_FIRST_PH] = shared[1]
    number[_STEP_PH] = shared[2]
    set_numbers(number, laws, row)
    set_doses(doses, given_doses, row)
    totals[:] = 0.0
    totals[LOWEST_PH] = 14.0
    grain[:] = 0.0
    cell[:] = 0.0
    for layer in range(n_layers):
        mass = layers[layer, LAYER_MASS] * row[_MASS_FACTOR]
        lime_kg = layers[layer, LAYER_LIME] * row[_CARBONATE_FACTOR]
        cell[layer, MASS] = mass
        cell[layer, ROOT_SHARE] = layers[layer, LAYER_ROOT]
        cell[layer, CO2] = layers[layer, LAYER_CO2]
        cell[layer, NEUTRAL_DROP] = 0.5 * math.log10(layers[layer, LAYER_CO2])
        coarse = row[_COARSE] * lime_kg * row[_MASS_FACTOR]
        cell[layer, CARBONATE] = lime_kg * row[_MASS_FACTOR] - coarse
        cell[layer, COARSEST_LIME] = number[_COARSEST] * coarse
        cell[layer, COARSEST_LIME - 1] = coarse - cell[layer, COARSEST_LIME]
        cell[layer, HUMUS_LABILE] = row[_HUMUS_LABILE] * mass
        cell[layer, HUMUS_SLOW] = row[_HUMUS_SLOW] * mass
        place_at(cell, curve, number, layer, layers[layer, LAYER_PH] + row[_START_SHIFT])
    before = _store(cell, number)
    ph[m, 0] = _reading(cell, curve, number, plan[0])
    oxidised[m, 0] = 0.0
    event = 0
    for day in range(n_days):
        while event < n_events and when[event, 0] == day:
            if when[event, 1] == _TILLAGE:
                till(cell, grain, sizes, doses, number, events[event, SHARE:])
            else:
                for layer in range(n_layers):
                    amount = events[event, AMOUNT] * events[event, SHARE + layer]
                    if amount != 0.0:
                        what = (when[event, 1], when[event, 2], layer)
                        shares = events[event, ON_TOP:SHARE]
                        put_on(cell, grain, doses, number, totals, what, amount, shares)
            event += 1
        for _ in range(plan[2]):
            step_member(
                cell,
                grain,
                sizes,
                doses,
                curve,
                number,
                totals,
                room,
                climate,
                water,
                day,
            )
        if (day + 1) % plan[1] == 0:
            reading = (day + 1) // plan[1]
            ph[m, reading] = _reading(cell, curve, number, plan[0])
            oxidised[m, reading] = _oxidised(grain)
    sums[m, LIME_LEFT] = 0.0
    for layer in range(n_layers):
        end = find_ph(cell, curve, number, layer)
        ends[m, 0, layer] = end
        ends[m, 1, layer] = cell[layer, CARBONATE]
        totals[LOWEST_PH] = min(totals[LOWEST_PH], end)
        sums[m, LIME_LEFT] += cell[layer, LIME:].sum()
    should = before + totals[APPLIED] + totals[WATER]
    should -= totals[BACKGROUND] + totals[DRAINED]
    sums[m, SULFUR_LEFT] = cell[:, SULFUR].sum()
    sums[m, LOWEST] = totals[LOWEST_PH]
    sums[m, NET_BACKGROUND] = totals[BACKGROUND]
    sums[m, WATER_IN] = totals[WATER]
    sums[m, DRAINED_OUT] = totals[DRAINED]
    sums[m, ASTRAY] = abs(_store(cell, number) - should) / max(1.0, totals[TURNOVER])


@compiled
def _store(cell: FloatArray, number: FloatArray) -> float:
    """Base held, and what every pool will still bring, acid taken off [mmolc/m2]."""
    total = 0.0
    per_nh4 = number[_REALISED] * number[_PER_NH4] - number[_NITRATE_BASE]
    per_urea = number[_REALISED] * number[_PER_UREA] - number[_NITRATE_BASE]
    for layer in range(cell.shape[0]):
        total += cell[layer, BASE] * cell[layer, MASS] + cell[layer, CARBONATE]
        total += cell[layer, LIME:].sum() - cell[layer, SULFUR]
        total -= cell[layer, FAST] + cell[layer, ORGANIC] + cell[layer, DECAY]
        total -= per_urea * cell[layer, UREA] + per_nh4 * cell[layer, AMMONIUM]
        total -= per_urea * (cell[layer, HUMUS_LABILE] + cell[layer, HUMUS_SLOW])
        total += number[_NITRATE_BASE] * cell[layer, NITRATE]
    return total


@compiled
def _reading(cell: FloatArray, curve: FloatArray, number: FloatArray, sampled: int) -> float:
    """The pH of the mixed sample: that of the mean base, and carbon, of the layers by mass."""
    mass = 0.0
    base = 0.0
    carbon = 0.0
    for layer in range(sampled):
        mass += cell[layer, MASS]
        base += cell[layer, MASS] * cell[layer, BASE]
        carbon += cell[layer, MASS] * cell[layer, CARBON]
    reading: float = ph_of(curve, number, base / mass, carbon / mass)
    return reading


@compiled
def _oxidised(grain: FloatArray) -> float:
    """Share of all sulfur put on so far that has turned to acid [0-1]."""
    start = 0.0
    left = 0.0
    for dose in range(grain.shape[0]):
        for layer in range(grain.shape[1]):
            start += grain[dose, layer, DOSE_START]
            left += grain[dose, layer, DOSE_LEFT]
    return 1.0 - left / start if start > 0.0 else 0.0
