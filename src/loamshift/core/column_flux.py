"""Water in the compiled column: what it carries from layer to layer in a step."""

from __future__ import annotations

import math
from typing import Final

from loamshift.core.column_compile import woven
from loamshift.core.column_exp import LN10, exp_of, used_up
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    ANION_IN,
    BASE,
    CO2,
    INFLOW,
    MASS,
    NEUTRAL_PH,
    ORGANIC,
    PH_NOW,
    PH_PER_BASE,
    SULFATE,
    SULFATE_IN,
    law,
    rate,
)

SPENT: Final = 1.0e-3
"""A pool smaller than this is used up at once [mmolc/m2]."""
_BICARBONATE = rate("bicarbonate")
_ALUMINIUM = rate("aluminium")
_TRANSPORT = rate("transport")
_ANIONS = rate("anions")
_ANIONS_SHARE = rate("anions_share")
_BICARBONATE_SHARE = rate("bicarbonate_share")
_BICARBONATE_HIGHEST = law("bicarbonate_highest_mmolc_l")
_AL_HIGHEST = law("al_highest_mmolc_l")
_SULFATE_LEACH = law("sulfate_leach_factor")


@woven
def water_hydrogen(h: float, anions_share: float, bicarbonate_share: float) -> float:
    """Hydrogen in the water of a layer, from that in the suspension its pH is read in.

    Parameters
    ----------
    h
        Hydrogen in the suspension, 10^-pH [mol/L].
    anions_share
        Anions of the water, bicarbonate apart, against calcium with magnesium in the suspension
        [-].
    bicarbonate_share
        Bicarbonate of the water times its hydrogen, against the same [mol/L].

    Returns
    -------
    float
        Hydrogen in the water [mol/L].

    Notes
    -----
    x = H root(C/C_w), C = anions + B/x: the exchanger holds H over the root of calcium with
    magnesium. Three turns of Newton's method, as ``soil_water.soil_water_hydrogen``.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(1e6 * water_hydrogen(1e-6, 4.0, 0.0), 9)
    2.0
    """
    straight = h * h * anions_share  # x^3 - straight x - rest = 0
    rest = h * h * bicarbonate_share
    x = math.sqrt(straight + h * bicarbonate_share)
    x = (2.0 * x * x * x + rest) / (3.0 * x * x - straight)
    x = (2.0 * x * x * x + rest) / (3.0 * x * x - straight)
    return (2.0 * x * x * x + rest) / (3.0 * x * x - straight)


@woven
def drained(
    ph: float,
    water: float,
    bicarbonate: float,
    bicarbonate_highest: float,
    aluminium: float,
    al_highest: float,
    neutral_ph: float,
    ph_per_base: float,
    anions: float,
    anions_share: float,
    bicarbonate_share: float,
) -> float:
    """Base that draining water carries out of a layer in a step; acid where negative.

    Parameters
    ----------
    ph
        pH of the layer [pH].
    water
        Water that drains in the step, as far as it takes part [mm].
    bicarbonate
        Times 1/H it is bicarbonate [mmol2/L2].
    bicarbonate_highest
        Ceiling of bicarbonate [mmolc/L].
    aluminium
        Times H cubed it is the charge of aluminium [mmolc/L per (mol/L)3].
    al_highest
        Ceiling of aluminium [mmolc/L].
    neutral_ph
        pH of the layer at which its water carries as much base as acid [pH].
    ph_per_base
        Rise of the pH of the layer with the base it holds [pH per mmolc/m2].
    anions
        Anions in the water, bicarbonate apart [mmolc/L].
    anions_share, bicarbonate_share
        As in :func:`water_hydrogen` [-, mol/L].

    Returns
    -------
    float
        Base; negative for acid [mmolc/m2].

    Notes
    -----
    A = 1000 (K pCO2/H - H - 3 KAl H3) [mmolc/L], H of the water, not of the suspension;
    bicarbonate and aluminium with a ceiling. F = w A/(1 + w A' dpH/db): linear implicit, A'
    analytic, dln H/dpH of the water by ``soil_water.slope_ratio``. Where a ceiling makes A' too
    small, the slope of the chord to the pH at which A is 0 stands in for it, so that no amount of
    water carries a layer past that pH.

    References
    ----------
    plummer-busenberg-1982, own-judgement

    Examples
    --------
    >>> drained(4.2, 10.0, 1e-7, 5.0, 0.0, 400.0, 5.0, 0.01, 1.0, 1.0, 1e-7) < 0.0
    True
    """
    h = water_hydrogen(
        h=exp_of(-LN10 * ph), anions_share=anions_share, bicarbonate_share=bicarbonate_share
    )
    over_h = bicarbonate / h
    hydrogen = 1000.0 * h
    al_h3 = aluminium * h * h * h
    slope = hydrogen + (over_h if over_h < bicarbonate_highest else 0.0)
    slope = LN10 * (slope + (3.0 * al_h3 if al_h3 < al_highest else 0.0))
    slope = slope * 2.0 * (anions + over_h) / (2.0 * anions + 3.0 * over_h)
    content = min(over_h, bicarbonate_highest) - hydrogen - min(al_h3, al_highest)
    off = ph - neutral_ph
    chord = content / off
    slope = max(slope, chord) if content * off > 0.0 else slope
    return water * content / (1.0 + water * slope * ph_per_base)


@woven
def drain(
    cell: FloatArray, number: FloatArray, work: FloatArray, layer: int, j: int, water_mm: float
) -> None:
    """Water draining through a layer: base goes down with it, and anions of organic acids.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH is read, the flow to the layer below set [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
    water_mm
        Water that drains in the step [mm].

    Notes
    -----
    Deeper layers hold more carbon dioxide, and their water is neutral at a lower pH.

    References
    ----------
    plummer-busenberg-1982, own-judgement
    """
    mass = cell[layer, MASS + j]
    flux = drained(
        ph=work[PH_NOW + j],
        water=number[_TRANSPORT + j] * water_mm,
        bicarbonate=cell[layer, CO2 + j] * number[_BICARBONATE + j],
        bicarbonate_highest=number[_BICARBONATE_HIGHEST],
        aluminium=number[_ALUMINIUM + j],
        al_highest=number[_AL_HIGHEST],
        neutral_ph=cell[layer, NEUTRAL_PH + j],
        ph_per_base=cell[layer, PH_PER_BASE + j] / mass,
        anions=number[_ANIONS + j],
        anions_share=number[_ANIONS_SHARE + j],
        bicarbonate_share=cell[layer, CO2 + j] * number[_BICARBONATE_SHARE + j],
    )
    cell[layer, BASE + j] -= flux / mass
    work[INFLOW + j] = flux


@woven
def wash_anions(cell: FloatArray, work: FloatArray, layer: int, j: int) -> None:
    """Anions of organic acids that go down with the acid that drains.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    work
        Room to work in; the flow of base is read, that of anions changed [mmolc/m2].
    layer
        Which layer [index].
    j
        Which lane [index].

    Notes
    -----
    As many as the acid, as far as there are any.

    References
    ----------
    own-judgement
    """
    washed = min(0.0, max(work[INFLOW + j], cell[layer, ORGANIC + j]))
    cell[layer, ORGANIC + j] += work[ANION_IN + j] - washed
    work[ANION_IN + j] = washed


@woven
def wash_sulfate(
    cell: FloatArray, number: FloatArray, work: FloatArray, layer: int, j: int, water_mm: float
) -> None:
    """Sulfate that draining water carries out of a layer in a step.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the flow of sulfate is changed [mmolc/m2].
    layer
        Which layer [index].
    j
        Which lane [index].
    water_mm
        Water that drains in the step [mm].

    Notes
    -----
    Share 1 - exp(-factor x water / mass); it carries gypsum, and no acid of its own.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS, N_WORK
    >>> cell, number, work = np.ones((1, N_CELL)), np.zeros(N_NUMBERS), np.zeros(N_WORK)
    >>> cell[0, MASS], cell[0, SULFATE], number[law("sulfate_leach_factor")] = 65.0, 100.0, 4.0
    >>> wash_sulfate(cell, number, work, 0, 0, 10.0)
    >>> round(float(work[SULFATE_IN]), 2)
    45.96
    """
    held = cell[layer, SULFATE + j]
    washed = held * used_up(number[_SULFATE_LEACH] * water_mm / cell[layer, MASS + j])
    washed = held if held - washed < SPENT else washed
    cell[layer, SULFATE + j] = held - washed + work[SULFATE_IN + j]
    work[SULFATE_IN + j] = washed
