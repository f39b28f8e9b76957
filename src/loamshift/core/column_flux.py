"""Water, lime and carbonate in the compiled column: one step in one layer."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import compiled
from loamshift.core.column_curve import find_ph
from loamshift.core.column_layout import N_LIME_CLASSES, FloatArray
from loamshift.core.column_numbers import (
    BASE,
    CARBONATE,
    CO2,
    LIME,
    LIME_ON_TOP,
    MASS,
    NEUTRAL_DROP,
    PH_PER_BASE,
    PLATEAU,
    PLATEAU_GYPSUM,
    SULFATE,
    law,
    rate,
)
from loamshift.core.column_sulfur import SPENT

LN10: Final = math.log(10.0)
MOST_PARTS: Final = 24
"""A step of acid native lime is cut into no more parts than this."""
NEAR_PLATEAU_PH: Final = 7.0
"""The rate of native lime is stated for this pH and above."""
_SMALL: Final = 0.02
_BICARBONATE = rate("bicarbonate")
_ALUMINIUM = rate("aluminium")
_TRANSPORT = rate("transport")
_NEUTRAL_PH = rate("neutral_ph")
_BICARBONATE_HIGHEST = law("bicarbonate_highest_mmolc_l")
_AL_HIGHEST = law("al_highest_mmolc_l")
_STEP_D = rate("step_d")
_PLATEAU_PH = rate("plateau_ph")
_LIME_RATE = rate("lime_rate_1")
_LIME_EXPONENT = rate("lime_exponent")
_SURFACE_LIME = rate("surface_lime")
_LIME_ACID_BELOW = law("lime_acid_below_ph")
_GYPSUM_FULL = law("gypsum_full_mmolc_kg")
_SULFATE_LEACH = law("sulfate_leach_factor")
_CARBONATE_RATE = rate("carbonate_rate")
_CARBONATE_GONE = rate("carbonate_gone")
_CARBONATE_EXPONENT = rate("carbonate_exponent")


@compiled
def drained_base(
    cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int, water_mm: float
) -> float:
    """Base that draining water carries out of a layer in a step; acid where negative.

    Parameters
    ----------
    cell
        State of the layers, the place on the curve changed here [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].
    water_mm
        Water that drains in the step [mm].

    Returns
    -------
    float
        Base; negative for acid [mmolc/m2].

    Notes
    -----
    A = 1000 (K pCO2/H - H - 3 KAl H3) [mmolc/L], bicarbonate and aluminium with a ceiling.
    F = w A/(1 + w A' (dpH/db)/M), w = transport x water: linear implicit, A' analytic. Where a
    ceiling makes A' too small, the slope of the chord to the pH at which A is 0 stands in for
    it, so that no amount of water carries a layer past that pH. Deeper layers hold more carbon
    dioxide, and their water is neutral at a lower pH by half the logarithm of the factor.

    References
    ----------
    plummer-busenberg-1982, own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS
    >>> from loamshift.core.column_curve import place_at
    >>> cell, number = np.ones((1, N_CELL)), np.zeros(N_NUMBERS)
    >>> number[rate("k")], number[rate("curve_first_ph")], number[rate("curve_step_ph")] = 1, 4, 2
    >>> number[rate("transport")], number[rate("neutral_ph")] = 1.0, 5.0
    >>> curve = np.array([[0.0, 0.0, 0.0], [10.0, 0.0, 0.0]])
    >>> cell[0, NEUTRAL_DROP] = 0.0
    >>> place_at(cell, curve, number, 0, 4.2)
    >>> drained_base(cell, curve, number, 0, 10.0) < 0.0
    True
    """
    ph = find_ph(cell, curve, number, layer)
    h = math.exp(-LN10 * ph)
    bicarbonate = cell[layer, CO2] * number[_BICARBONATE] / h
    hydrogen = 1000.0 * h
    aluminium = number[_ALUMINIUM] * h * h * h
    slope = hydrogen
    if bicarbonate < number[_BICARBONATE_HIGHEST]:
        slope += bicarbonate
    else:
        bicarbonate = number[_BICARBONATE_HIGHEST]
    if aluminium < number[_AL_HIGHEST]:
        slope += 3.0 * aluminium
    else:
        aluminium = number[_AL_HIGHEST]
    slope *= LN10
    content = bicarbonate - hydrogen - aluminium
    off = ph - number[_NEUTRAL_PH] + cell[layer, NEUTRAL_DROP]
    if content * off > 0.0:
        slope = max(slope, content / off)
    water = number[_TRANSPORT] * water_mm
    stiff = water * slope * cell[layer, PH_PER_BASE]
    flux: float = water * content / (1.0 + stiff / cell[layer, MASS])
    return flux


@compiled
def used_up(x: float) -> float:
    """Share used up by a first-order step, 1 - exp(-x).

    Parameters
    ----------
    x
        Rate times time, 0 or more [-].

    Returns
    -------
    float
        Share [0-1].

    Notes
    -----
    Coarse lime has a small x on every day of many years: below 0.02 five terms of the series,
    whose error is 5e-12 of the share, save the exponential.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> used_up(0.0), round(used_up(1.0), 6)
    (0.0, 0.632121)
    >>> abs(used_up(0.01) + math.expm1(-0.01)) < 1e-13
    True
    """
    if x < _SMALL:
        return x * (1.0 - x / 2.0 * (1.0 - x / 3.0 * (1.0 - x / 4.0 * (1.0 - x / 5.0))))
    return -math.expm1(-x)


@compiled
def dissolve_lime(
    cell: FloatArray, number: FloatArray, gone: FloatArray, layer: int, ph: float
) -> float:
    """One step of applied lime in a layer; the base it gave.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the member [mixed].
    gone
        Room to work in, two places per sieve class [mmolc/m2].
    layer
        Which layer [index].
    ph
        pH of the layer at the start of the step [pH].

    Returns
    -------
    float
        Base [mmolc/m2].

    Notes
    -----
    Per sieve class 1 - exp(-ln2 u g t/(half-time x class factor)), u = plateau - pH between 0
    and 1, g = 10^(exponent (6 - pH)) below pH 6; what lies on top of the first layer, by its
    own factor slower. No more in a step than takes the layer to its plateau.

    References
    ----------
    huang-2007, own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS
    >>> cell, number = np.ones((1, N_CELL)), np.zeros(N_NUMBERS)
    >>> cell[0, PLATEAU], number[rate("plateau_ph")] = 100.0, 7.7
    >>> number[rate("step_d")] = 1.0
    >>> number[rate("lime_rate_1") : rate("lime_rate_5") + 1] = 0.01
    >>> cell[0, LIME:], cell[0, SULFATE] = 20.0, 0.0
    >>> round(float(dissolve_lime(cell, number, np.zeros(10), 0, 6.0)), 3)
    0.995
    """
    room = (plateau_base(cell, number, layer) - cell[layer, BASE]) * cell[layer, MASS]
    time = number[_STEP_D] * min(1.0, max(0.0, number[_PLATEAU_PH] - ph))
    if room <= 0.0 or time <= 0.0:
        return 0.0
    if ph < number[_LIME_ACID_BELOW]:
        time *= math.exp(LN10 * number[_LIME_EXPONENT] * (number[_LIME_ACID_BELOW] - ph))
    pools = N_LIME_CLASSES if layer > 0 else 2 * N_LIME_CLASSES
    total = 0.0
    for i in range(pools):
        held = cell[layer, LIME + i]
        gone[i] = 0.0
        if held > 0.0:
            speed = number[_LIME_RATE + i % N_LIME_CLASSES]
            if i >= N_LIME_CLASSES:
                speed *= number[_SURFACE_LIME]
            gone[i] = held * used_up(speed * time)
            if held - gone[i] < SPENT:
                gone[i] = held
        total += gone[i]
    if total <= 0.0:
        return 0.0
    cut = min(1.0, room / total)
    for i in range(pools):
        cell[layer, LIME + i] -= cut * gone[i]
    given: float = cut * total
    return given


@compiled
def has_lime(cell: FloatArray, layer: int) -> bool:
    """True where applied lime is left in a layer.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    layer
        Which layer [index].

    Returns
    -------
    bool
        Whether any sieve class is left [truth].

    Notes
    -----
    Looks at each class.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL
    >>> has_lime(np.zeros((1, N_CELL)), 0)
    False
    """
    left = 0.0
    for i in range(N_LIME_CLASSES):
        left += cell[layer, LIME + i]
    if layer == 0:
        for i in range(N_LIME_CLASSES):
            left += cell[layer, LIME_ON_TOP + i]
    return left > 0.0


@compiled
def wash_sulfate(cell: FloatArray, number: FloatArray, layer: int, water_mm: float) -> float:
    """Sulfate that draining water carries out of a layer in a step.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].
    water_mm
        Water that drains in the step [mm].

    Returns
    -------
    float
        Sulfate, for the layer below [mmolc/m2].

    Notes
    -----
    Share 1 - exp(-factor x water / mass); it carries gypsum, and no acid of its own.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS
    >>> cell, number = np.ones((1, N_CELL)), np.zeros(N_NUMBERS)
    >>> cell[0, MASS], cell[0, SULFATE], number[law("sulfate_leach_factor")] = 65.0, 100.0, 4.0
    >>> round(float(wash_sulfate(cell, number, 0, 10.0)), 2)
    45.96
    """
    held = cell[layer, SULFATE]
    share = used_up(number[_SULFATE_LEACH] * water_mm / cell[layer, MASS])
    washed: float = held * share
    if held - washed < SPENT:
        washed = held
    cell[layer, SULFATE] = held - washed
    return washed


@compiled
def gypsum_share(cell: FloatArray, number: FloatArray, layer: int) -> float:
    """How much of its full effect the gypsum of a layer has.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].

    Returns
    -------
    float
        Share [0-1].

    Notes
    -----
    In proportion to the sulfate in the soil, up to the full effect.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS
    >>> cell, number = np.ones((1, N_CELL)), np.zeros(N_NUMBERS)
    >>> number[law("gypsum_full_mmolc_kg")], cell[0, SULFATE] = 40.0, 10.0
    >>> float(gypsum_share(cell, number, 0))
    0.25
    """
    sulfate: float = cell[layer, SULFATE]
    if sulfate <= 0.0:
        return 0.0
    share: float = min(1.0, sulfate / (number[_GYPSUM_FULL] * cell[layer, MASS]))
    return share


@compiled
def plateau_base(cell: FloatArray, number: FloatArray, layer: int) -> float:
    """Base content at which lime holds a layer.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].

    Returns
    -------
    float
        Base content [mmolc/kg].

    Notes
    -----
    Lowered by gypsum, straight in base content, which over a third of a pH unit is the same as
    straight in pH.

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
    >>> float(plateau_base(cell, number, 0))
    48.0
    """
    share = gypsum_share(cell, number, layer)
    base: float = cell[layer, PLATEAU] - share * (
        cell[layer, PLATEAU] - cell[layer, PLATEAU_GYPSUM]
    )
    return base


@compiled
def settle_carbonate(cell: FloatArray, curve: FloatArray, number: FloatArray, layer: int) -> None:
    """One step of native lime in a layer, giving base or taking it back.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].

    Notes
    -----
    Below the plateau: min(C, (Q(plateau) - b) M (1 - exp(-k g t))), g = 10^(exponent (7 - pH))
    below pH 7. At pH 7 and above g is 1 and the step exact; below, it is cut into up to 24
    parts, because g falls as the pH returns. Above the plateau the excess falls out as carbonate
    by the same law: soil water is never more than two to three times oversaturated with calcite,
    which the pH of the plateau, as found in limy soils, already holds.

    References
    ----------
    suarez-1992, own-judgement
    """
    lime = cell[layer, CARBONATE]
    mass = cell[layer, MASS]
    aim = plateau_base(cell, number, layer)
    if lime > 0.0 and cell[layer, BASE] < aim:
        ph = find_ph(cell, curve, number, layer)
        if ph >= NEAR_PLATEAU_PH:
            given = min(lime, (aim - cell[layer, BASE]) * mass * number[_CARBONATE_GONE])
            lime -= given
            cell[layer, BASE] += given / mass
        else:
            speed = number[_CARBONATE_RATE]
            g = math.exp(LN10 * number[_CARBONATE_EXPONENT] * (NEAR_PLATEAU_PH - ph))
            parts = 1 + int(min(4.0 * speed * g, MOST_PARTS - 1.0))
            for _ in range(parts):
                given = (aim - cell[layer, BASE]) * mass * -math.expm1(-speed * g / parts)
                given = min(lime, max(0.0, given))
                lime -= given
                cell[layer, BASE] += given / mass
                if lime <= 0.0:
                    break
                ph = min(NEAR_PLATEAU_PH, find_ph(cell, curve, number, layer))
                g = math.exp(LN10 * number[_CARBONATE_EXPONENT] * (NEAR_PLATEAU_PH - ph))
        if lime < SPENT:
            cell[layer, BASE] += lime / mass
            lime = 0.0
    elif cell[layer, BASE] > aim:
        fallen = (cell[layer, BASE] - aim) * mass * number[_CARBONATE_GONE]
        lime += fallen
        cell[layer, BASE] -= fallen / mass
    cell[layer, CARBONATE] = lime
