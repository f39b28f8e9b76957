"""Events in the compiled column: what is put on, and tillage."""

from __future__ import annotations

from loamshift.core.column_compile import woven
from loamshift.core.column_exp import exp_of, log_of
from loamshift.core.column_layout import N_LIME_CLASSES, EventKind, FloatArray
from loamshift.core.column_numbers import (
    AMMONIUM,
    APPLIED,
    BASE,
    DECAY,
    FAST,
    FIRST_POOL,
    LANES,
    LIME,
    LIME_ON_TOP,
    MASS,
    N_CELL,
    NITRATE,
    ORGANIC,
    SULFATE,
    SULFUR,
    TURNOVER,
    UREA,
    law,
    rate,
)
from loamshift.core.column_sulfur_dose import mix_dose, put_dose, set_crowding

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


@woven
def put_on(
    cell: FloatArray,
    grain: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    totals: FloatArray,
    what: tuple[int, int, int],
    j: int,
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
    doses
        What holds for the whole of each dose [mixed].
    number
        Numbers of the member [mixed].
    totals
        Sums of the run, changed here [mmolc/m2].
    what
        Kind of event, dose of sulfur, layer [index].
    j
        Which lane [index].
    amount
        How much; the unit stands at the kind [mmolc/m2 or mmol N/m2].
    lime_lies
        1 for lime left on the surface, the power of the field efficiency, then the shares of its
        sieve classes [0-1, -, 0-1].

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
        put_dose(grain, doses, dose, layer, j, amount)
        set_crowding(grain, doses, dose, layer, j, cell[layer, MASS + j], number)
        cell[layer, SULFUR + j] += amount
    elif kind == _ACID:
        cell[layer, BASE + j] -= amount / cell[layer, MASS + j]
    elif kind == _FAST_SALT:
        cell[layer, FAST + j] += amount
    elif kind == _ORGANIC_ACID:
        cell[layer, BASE + j] -= amount / cell[layer, MASS + j]
        cell[layer, ORGANIC + j] -= amount
        base = 0.0
    elif kind == _DECAY:
        cell[layer, DECAY + j] += amount
    elif kind == _ORGANIC_NITROGEN:
        base = (number[_NITRATE_BASE + j] - number[_REALISED + j] * number[_PER_UREA]) * amount
        cell[layer, DECAY + j] -= base
    elif kind == _AMMONIA:
        taken = number[_REALISED + j] * (number[_PER_NH4 + j] - number[_PER_UREA + j]) * amount
        cell[layer, BASE + j] += taken / cell[layer, MASS + j]
        cell[layer, AMMONIUM + j] += amount
        base = (
            taken + (number[_NITRATE_BASE + j] - number[_REALISED + j] * number[_PER_NH4]) * amount
        )
    elif kind == _AMMONIUM:
        cell[layer, AMMONIUM + j] += amount
        base = (number[_NITRATE_BASE + j] - number[_REALISED + j] * number[_PER_NH4]) * amount
    elif kind == _UREA:
        cell[layer, UREA + j] += amount
        base = (number[_NITRATE_BASE + j] - number[_REALISED + j] * number[_PER_UREA]) * amount
    elif kind == _NITRATE:
        cell[layer, NITRATE + j] += amount
        base = number[_NITRATE_BASE + j] * amount
    elif kind == _SULFATE:
        cell[layer, SULFATE + j] += amount
        base = 0.0
    elif kind == _LIME:
        efficiency = number[_LIME_EFFICIENCY + j]
        if lime_lies[1] != 1.0 and efficiency > 0.0:
            efficiency = exp_of(lime_lies[1] * log_of(efficiency))
        base = efficiency * amount
        pool = LIME if lime_lies[0] == 0.0 else LIME_ON_TOP
        for i in range(N_LIME_CLASSES):
            cell[layer, pool + LANES * i + j] += base * lime_lies[2 + i]
    totals[APPLIED + j] += base
    totals[TURNOVER + j] += abs(base)


@woven
def till(
    cell: FloatArray,
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    share: FloatArray,
    j: int,
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
        What holds for the whole of each dose, changed here [mixed].
    number
        Numbers of the member [mixed].
    share
        Above 0 in the layers mixed [-].
    j
        Which lane [index].

    Notes
    -----
    Amounts per area are shared by mass. What lay on the surface is mixed in and reacts at the
    full rate from then on.

    References
    ----------
    own-arithmetic
    """
    mass = 0.0
    base = 0.0
    for layer in range(cell.shape[0]):
        if share[layer] > 0.0:
            mass += cell[layer, MASS + j]
            base += cell[layer, MASS + j] * cell[layer, BASE + j]
    if mass <= 0.0:
        return
    for pool in range(FIRST_POOL + j, N_CELL, LANES):
        held = 0.0
        for layer in range(cell.shape[0]):
            if share[layer] > 0.0:
                held += cell[layer, pool]
        for layer in range(cell.shape[0]):
            if share[layer] > 0.0:
                cell[layer, pool] = held * (cell[layer, MASS + j] / mass)
    for layer in range(cell.shape[0]):
        if share[layer] > 0.0:
            for i in range(N_LIME_CLASSES):
                cell[layer, LIME + LANES * i + j] += cell[layer, LIME_ON_TOP + LANES * i + j]
                cell[layer, LIME_ON_TOP + LANES * i + j] = 0.0
    for dose in range(grain.shape[0]):
        if mix_dose(grain, sizes, doses, dose, cell, share, j):
            for layer in range(cell.shape[0]):
                if share[layer] > 0.0:
                    set_crowding(grain, doses, dose, layer, j, cell[layer, MASS + j], number)
    for layer in range(cell.shape[0]):
        if share[layer] > 0.0:
            cell[layer, BASE + j] = base / mass
