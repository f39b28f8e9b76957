"""Lime and native carbonate in the compiled column: one step of a lane."""

from __future__ import annotations

from typing import Final

from loamshift.core.column_compile import compiled, inlined, woven
from loamshift.core.column_curve import is_outside, ph_here, walk
from loamshift.core.column_exp import LN10, exp_of, used_up
from loamshift.core.column_flux import SPENT
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    ACID,
    BASE,
    CARBONATE,
    GIVEN,
    GONE,
    LANES,
    LIME,
    MASS,
    PH_NOW,
    PLATEAU,
    PLATEAU_GYPSUM,
    ROOM,
    SULFATE,
    WORTH,
    law,
    rate,
)

MOST_PARTS: Final = 24
"""A step of acid native lime is cut into no more parts than this."""
NEAR_PLATEAU_PH: Final = 7.0
"""The rate of native lime is stated for this pH and above."""
_STEP_D = rate("step_d")
_PLATEAU_PH = rate("plateau_ph")
_LIME_RATE = rate("lime_rate_1")
_LIME_EXPONENT = rate("lime_exponent")
_SURFACE_LIME = rate("surface_lime")
_LIME_ACID_BELOW = law("lime_acid_below_ph")
_GYPSUM_FULL = law("gypsum_full_mmolc_kg")
_CARBONATE_RATE = rate("carbonate_rate")
_CARBONATE_GONE = rate("carbonate_gone")
_CARBONATE_EXPONENT = rate("carbonate_exponent")


@inlined
def plateau_base(cell: FloatArray, number: FloatArray, layer: int, j: int) -> float:
    """Base content at which lime holds a layer.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    number
        Numbers of the members [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].

    Returns
    -------
    float
        Base content [mmolc/kg].

    Notes
    -----
    Lowered by gypsum in proportion to the sulfate in the soil, up to its full effect; straight
    in base content, which over a third of a pH unit is the same as straight in pH.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS
    >>> cell, number = np.ones((1, N_CELL)), np.zeros(N_NUMBERS)
    >>> number[law("gypsum_full_mmolc_kg")], cell[0, SULFATE] = 40.0, 10.0
    >>> cell[0, PLATEAU], cell[0, PLATEAU_GYPSUM] = 50.0, 42.0
    >>> float(plateau_base(cell, number, 0, 0))
    48.0
    """
    sulfate = max(0.0, cell[layer, SULFATE + j])
    share = min(1.0, sulfate / (number[_GYPSUM_FULL] * cell[layer, MASS + j]))
    drop = cell[layer, PLATEAU + j] - cell[layer, PLATEAU_GYPSUM + j]
    base: float = cell[layer, PLATEAU + j] - share * drop
    return base


@woven
def open_lime(cell: FloatArray, number: FloatArray, work: FloatArray, layer: int, j: int) -> None:
    """Begin a step of applied lime in a layer: the base it may give, and the time it has.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH is read [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].

    Notes
    -----
    Time is u g t, u = plateau - pH between 0 and 1, g = 10^(exponent (6 - pH)) below pH 6; none
    where there is no room below the plateau.

    References
    ----------
    huang-2007, own-judgement
    """
    ph = work[PH_NOW + j]
    room = (plateau_base(cell, number, layer, j) - cell[layer, BASE + j]) * cell[layer, MASS + j]
    time = number[_STEP_D] * min(1.0, max(0.0, number[_PLATEAU_PH + j] - ph))
    acid = max(0.0, number[_LIME_ACID_BELOW] - ph)
    time *= exp_of(LN10 * number[_LIME_EXPONENT + j] * acid)
    work[ROOM + j] = room
    work[WORTH + j] = time if room > 0.0 else 0.0
    work[GIVEN + j] = 0.0


@woven
def dissolve_class(
    cell: FloatArray, number: FloatArray, work: FloatArray, layer: int, j: int, pool: int
) -> None:
    """What a sieve class of lime would give in a step.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; what goes is set here [mmolc/m2].
    layer
        Which layer [index].
    j
        Which lane [index].
    pool
        Which class, finest first; then those left on the surface [index].

    Notes
    -----
    1 - exp(-ln2 u g t/(half-time x class factor)); on top of the first layer by its own factor
    slower.

    References
    ----------
    huang-2007, own-judgement
    """
    held = cell[layer, LIME + LANES * pool + j]
    speed = number[_LIME_RATE + LANES * (pool % 5) + j]
    speed *= number[_SURFACE_LIME + j] if pool >= 5 else 1.0
    time = work[WORTH + j]
    gone = held * used_up(speed * time)
    gone = held if held - gone < SPENT and time > 0.0 else gone
    work[GONE + LANES * pool + j] = gone
    work[GIVEN + j] += gone


@woven
def close_lime(work: FloatArray, j: int) -> None:
    """End a step of applied lime: no more than takes the layer to its plateau.

    Parameters
    ----------
    work
        Room to work in; the share given of what would go is set in its place [mmolc/m2, 0-1].
    j
        Which lane [index].

    Notes
    -----
    All classes are cut alike.

    References
    ----------
    own-judgement
    """
    total = work[GIVEN + j]
    cut = min(1.0, work[ROOM + j] / total) if total > 0.0 else 0.0
    work[ACID + j] -= cut * total
    work[GIVEN + j] = cut


@woven
def settle(cell: FloatArray, number: FloatArray, work: FloatArray, layer: int, j: int) -> int:
    """One step of native lime in a layer at pH 7 and above: giving base, or taking it back.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH is read [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].

    Returns
    -------
    int
        1 where the layer is more acid than that, and is left to :func:`settle_acid` [count].

    Notes
    -----
    Below the plateau: min(C, (Q(plateau) - b) M (1 - exp(-k t))), exactly. Above the plateau the
    excess falls out as carbonate by the same law: soil water is never more than two to three
    times oversaturated with calcite, which the pH of the plateau, as found in limy soils, already
    holds. Soil comes to the same product of ions from below as from above, so there is one plateau
    for both.

    References
    ----------
    suarez-1992, suarez-1977, levy-1981, own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS, N_WORK
    >>> cell, number, work = np.ones((1, N_CELL)), np.ones(N_NUMBERS), np.zeros(N_WORK)
    >>> cell[0, PLATEAU], cell[0, SULFATE], work[PH_NOW] = 20.0, 0.0, 6.5
    >>> int(settle(cell, number, work, 0, 0))
    1
    """
    lime = cell[layer, CARBONATE + j]
    gap = (plateau_base(cell, number, layer, j) - cell[layer, BASE + j]) * cell[layer, MASS + j]
    if lime > 0.0 and gap > 0.0 and work[PH_NOW + j] < NEAR_PLATEAU_PH:
        return 1
    given = min(lime, gap * number[_CARBONATE_GONE + j])
    given = lime if lime > 0.0 and gap > 0.0 and lime - given < SPENT else given
    cell[layer, CARBONATE + j] = lime - given
    cell[layer, BASE + j] += given / cell[layer, MASS + j]
    return 0


@compiled
def settle_acid(
    cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int, j: int, ph: float
) -> None:
    """One step of native lime in a layer below pH 7.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the members [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
    ph
        pH of the layer [pH].

    Notes
    -----
    min(C, (Q(plateau) - b) M (1 - exp(-k g t))), g = 10^(exponent (7 - pH)), cut into up to 24
    parts, because g falls as the pH returns.

    References
    ----------
    suarez-1992, own-judgement
    """
    lime = cell[layer, CARBONATE + j]
    mass = cell[layer, MASS + j]
    aim = plateau_base(cell, number, layer, j)
    if lime <= 0.0 or cell[layer, BASE + j] >= aim or ph >= NEAR_PLATEAU_PH:
        return
    speed = number[_CARBONATE_RATE + j]
    exponent = LN10 * number[_CARBONATE_EXPONENT + j]
    g = exp_of(exponent * (NEAR_PLATEAU_PH - ph))
    parts = 1 + int(min(4.0 * speed * g, MOST_PARTS - 1.0))
    for _ in range(parts):
        given = (aim - cell[layer, BASE + j]) * mass * used_up(speed * g / parts)
        given = min(lime, max(0.0, given))
        lime -= given
        cell[layer, BASE + j] += given / mass
        if lime <= 0.0:
            break
        if is_outside(cell, layer, j):
            walk(cell, curve, number, layer, j)
        g = exp_of(exponent * (NEAR_PLATEAU_PH - min(NEAR_PLATEAU_PH, ph_here(cell, layer, j))))
    if lime < SPENT:
        cell[layer, BASE + j] += lime / mass
        lime = 0.0
    cell[layer, CARBONATE + j] = lime
