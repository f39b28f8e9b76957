"""Events in the compiled column: what is put on, and tillage."""

from __future__ import annotations

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import N_LIME_CLASSES, EventKind, FloatArray
from loamshift.core.column_numbers import (
    AMMONIUM,
    APPLIED,
    BASE,
    DECAY,
    DOSE_CLOCK,
    DOSE_EATEN,
    DOSE_LEFT,
    DOSE_START,
    FAST,
    FIRST_POOL,
    LIME,
    LIME_ON_TOP,
    MASS,
    NITRATE,
    ORGANIC,
    RATE_FACTOR,
    SULFATE,
    SULFUR,
    TURNOVER,
    UREA,
    law,
    rate,
)
from loamshift.core.column_sulfur import eaten_for

_SULFUR = int(EventKind.SULFUR)
_ACID = int(EventKind.ACID)
_FAST_SALT = int(EventKind.FAST_SALT)
_ORGANIC_ACID = int(EventKind.ORGANIC_ACID)
_DECAY = int(EventKind.DECAY)
_ORGANIC_NITROGEN = int(EventKind.ORGANIC_NITROGEN)
_AMMONIA = int(EventKind.AMMONIA)
_AMMONIUM = int(EventKind.AMMONIUM)
_UREA = int(EventKind.UREA)
_NITRATE = int(EventKind.NITRATE)
_LIME = int(EventKind.LIME)
_SULFATE = int(EventKind.SULFATE)
_PER_NH4 = law("acid_per_nh4_mol_mol")
_PER_UREA = law("acid_per_urea_n_mol_mol")
_REALISED = rate("realised")
_NITRATE_BASE = rate("nitrate_base")
_LIME_EFFICIENCY = rate("lime_efficiency")
_BREAK_UP = rate("break_up")


@compiled
def put_on(
    cell: FloatArray,
    grain: FloatArray,
    number: FloatArray,
    totals: FloatArray,
    what: tuple[int, int, int],
    amount: float,
    lime_lies: FloatArray,
) -> None:
    """Put an amount on one layer.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    grain
        State of the sulfur doses in the layers, changed here [mixed].
    number
        Numbers of the member [mixed].
    totals
        Sums of the run, changed here [mmolc/m2].
    what
        Kind of event, dose of sulfur, layer [index].
    amount
        How much; the unit stands at the kind [mmolc/m2 or mmol N/m2].
    lime_lies
        1 for lime left on the surface, then the shares of its sieve classes [0-1].

    Notes
    -----
    ``totals[APPLIED]`` counts the base that all of it will have brought, acid negative; so the
    balance of the run can be struck without knowing what has reacted when.

    References
    ----------
    own-arithmetic
    """
    kind, dose, layer = what
    base = -amount
    if kind == _SULFUR:
        grain[dose, layer, DOSE_START] += amount
        grain[dose, layer, DOSE_LEFT] += amount
        cell[layer, SULFUR] += amount
    elif kind == _ACID:
        cell[layer, BASE] -= amount / cell[layer, MASS]
    elif kind == _FAST_SALT:
        cell[layer, FAST] += amount
    elif kind == _ORGANIC_ACID:
        cell[layer, BASE] -= amount / cell[layer, MASS]
        cell[layer, ORGANIC] -= amount
        base = 0.0
    elif kind == _DECAY:
        cell[layer, DECAY] += amount
    elif kind == _ORGANIC_NITROGEN:
        base = -number[_REALISED] * number[_PER_UREA] * amount
        cell[layer, DECAY] -= base
    elif kind == _AMMONIA:
        taken = number[_REALISED] * (number[_PER_NH4] - number[_PER_UREA]) * amount
        cell[layer, BASE] += taken / cell[layer, MASS]
        cell[layer, AMMONIUM] += amount
        base = taken - number[_REALISED] * number[_PER_NH4] * amount
    elif kind == _AMMONIUM:
        cell[layer, AMMONIUM] += amount
        base = -number[_REALISED] * number[_PER_NH4] * amount
    elif kind == _UREA:
        cell[layer, UREA] += amount
        base = -number[_REALISED] * number[_PER_UREA] * amount
    elif kind == _NITRATE:
        cell[layer, NITRATE] += amount
        base = number[_NITRATE_BASE] * amount
    elif kind == _SULFATE:
        cell[layer, SULFATE] += amount
        base = 0.0
    elif kind == _LIME:
        base = number[_LIME_EFFICIENCY] * amount
        pool = LIME if lime_lies[0] == 0.0 else LIME_ON_TOP
        for i in range(N_LIME_CLASSES):
            cell[layer, pool + i] += base * lime_lies[1 + i]
    totals[APPLIED] += base
    totals[TURNOVER] += abs(base)


@compiled
def till(
    cell: FloatArray,
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    room: FloatArray,
    share: FloatArray,
) -> None:
    """Mix every pool of the layers that a tillage reaches.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    grain
        State of the sulfur doses in the layers, changed here [mixed].
    sizes
        Size classes of the doses [mixed].
    doses
        Prills, rate and lag of the doses, the rate changed here [um, -, d].
    number
        Numbers of the member [mixed].
    room
        Room to work in, 4 places or more [mixed].
    share
        Above 0 in the layers mixed [-].

    Notes
    -----
    Amounts per area are shared by mass. A dose of sulfur keeps its mass: the loss of diameter
    after mixing is the one that leaves as much as was left before; its clock is the mean by what
    was put on. What lay on the surface is mixed in and reacts at the full rate from then on.

    References
    ----------
    own-arithmetic
    """
    mass = 0.0
    base = 0.0
    for layer in range(cell.shape[0]):
        if share[layer] > 0.0:
            mass += cell[layer, MASS]
            base += cell[layer, MASS] * cell[layer, BASE]
    if mass <= 0.0:
        return
    for pool in range(FIRST_POOL, cell.shape[1]):
        held = 0.0
        for layer in range(cell.shape[0]):
            if share[layer] > 0.0:
                held += cell[layer, pool]
        for layer in range(cell.shape[0]):
            if share[layer] > 0.0:
                cell[layer, pool] = held * (cell[layer, MASS] / mass)
    for layer in range(cell.shape[0]):
        if share[layer] > 0.0:
            for i in range(N_LIME_CLASSES):
                cell[layer, LIME + i] += cell[layer, LIME_ON_TOP + i]
                cell[layer, LIME_ON_TOP + i] = 0.0
    wanted = room[:4]
    wanted[1] = number[_BREAK_UP]
    for dose in range(grain.shape[0]):
        start = 0.0
        left = 0.0
        clock = 0.0
        for layer in range(cell.shape[0]):
            if share[layer] > 0.0:
                start += grain[dose, layer, DOSE_START]
                left += grain[dose, layer, DOSE_LEFT]
                clock += grain[dose, layer, DOSE_START] * grain[dose, layer, DOSE_CLOCK]
        if start <= 0.0:
            continue
        doses[dose, RATE_FACTOR] = max(1.0, doses[dose, RATE_FACTOR])
        wanted[0] = left / start
        eaten = eaten_for(sizes, doses, dose, wanted)
        for layer in range(cell.shape[0]):
            if share[layer] > 0.0:
                part = cell[layer, MASS] / mass
                grain[dose, layer, DOSE_START] = start * part
                grain[dose, layer, DOSE_LEFT] = left * part
                grain[dose, layer, DOSE_CLOCK] = clock / start
                grain[dose, layer, DOSE_EATEN] = eaten
    for layer in range(cell.shape[0]):
        if share[layer] > 0.0:
            cell[layer, BASE] = base / mass
