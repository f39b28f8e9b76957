"""Humus that rots in the compiled column: two pools of nitrogen, and the carbon that goes."""

from __future__ import annotations

from typing import Final

from loamshift.core.column_compile import inlined, woven
from loamshift.core.column_curve import set_carbon
from loamshift.core.column_exp import used_up
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_nitrogen import ammonify
from loamshift.core.column_numbers import (
    ACID,
    AMMONIUM,
    HUMUS_LABILE,
    HUMUS_SLOW,
    MASS,
    WORTH,
    rate,
)

DAYS_IN_YEAR: Final = 365.25
_LABILE_RATE = rate("humus_labile_per_year")
_SLOW_RATE = rate("humus_slow_per_year")
_FIRST = rate("humus_first_mmol_kg")
_CARBON = rate("humus_carbon_per_mmol_kg")
_REST = rate("humus_rest")


@inlined
def rotted_frac(clock: float) -> float:
    """Share of a pool of humus that rots in a step.

    Parameters
    ----------
    clock
        Rate of the pool times what the step is worth of a year at the reference temperature in
        moist soil; 0 where frozen [-].

    Returns
    -------
    float
        Share, 0 to 1 [0-1].

    Notes
    -----
    First order: dN/N = 1 - exp(-k g), g = Q10^((T - 10)/10) min(1, w/0.8) dt.

    References
    ----------
    whitmore-1992, addiscott-1988

    Examples
    --------
    >>> import math
    >>> round(rotted_frac(math.log(2.0)), 9)
    0.5
    >>> rotted_frac(0.0)
    0.0
    """
    return used_up(clock)


@woven
def carbon_left(gone_frac: float) -> float:
    """Organic carbon of a layer against its first.

    Parameters
    ----------
    gone_frac
        Share of it that went with the nitrogen lost since the first day [0-1].

    Returns
    -------
    float
        What is left, not below 0 [-].

    Notes
    -----
    x = 1 - lost (C:N) / (first carbon), carbon and nitrogen going together.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> carbon_left(0.2), carbon_left(1.5)
    (0.8, 0.0)
    """
    return max(0.0, 1.0 - gone_frac)


@woven
def rot(
    cell: FloatArray, number: FloatArray, work: FloatArray, layer: int, j: int, rotting: float
) -> None:
    """One step of humus in a layer: ammonium is made and carbon goes.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the worth of the step is read, the acid changed [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
    rotting
        Of the warmth, against the reference temperature [-].

    Notes
    -----
    Both pools rot at their own rate; carbon and nitrogen go together. ``humus_rest`` is acid per
    nitrogen beyond what the ammonium ledger counts.

    References
    ----------
    whitmore-1992, addiscott-1988
    """
    years = rotting * work[WORTH + j] / DAYS_IN_YEAR
    labile = cell[layer, HUMUS_LABILE + j] * rotted_frac(number[_LABILE_RATE + j] * years)
    slow = cell[layer, HUMUS_SLOW + j] * rotted_frac(number[_SLOW_RATE + j] * years)
    cell[layer, HUMUS_LABILE + j] -= labile
    cell[layer, HUMUS_SLOW + j] -= slow
    cell[layer, AMMONIUM + j] += labile + slow
    held = (cell[layer, HUMUS_LABILE + j] + cell[layer, HUMUS_SLOW + j]) / cell[layer, MASS + j]
    lost = number[_FIRST + j] - held
    set_carbon(cell, number, layer, j, carbon_left(lost * number[_CARBON + j]))
    ammonify(number, work, j, labile + slow)
    work[ACID + j] += number[_REST + j] * (labile + slow)
