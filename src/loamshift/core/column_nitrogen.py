"""Nitrogen and the decaying pools in the compiled column: one step in one layer."""

from __future__ import annotations

import math

from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import AMMONIUM, NITRATE, UREA, law, rate
from loamshift.core.column_sulfur import SPENT

_NITRIFICATION_D = rate("nitrification_d")
_UREA_D = rate("urea_d")
_STEP_D = rate("step_d")
_REALISED = rate("realised")
_NITRATE_BASE = rate("nitrate_base")
_NITRATE_GONE = rate("nitrate_gone")
_PER_NH4 = law("acid_per_nh4_mol_mol")
_PER_UREA = law("acid_per_urea_n_mol_mol")
_UPTAKE_PER_D = law("ammonium_uptake_per_d")
_PH_LOW = law("nitrification_ph_low")
_PH_MIDDLE = law("nitrification_ph_middle")
_PH_FULL = law("nitrification_ph_full")
_FACTOR_LOW = law("nitrification_factor_low")
_FACTOR_MIDDLE = law("nitrification_factor_middle")


@compiled
def nitrification_by_ph(number: FloatArray, ph: float) -> float:
    """Rate of nitrification against that above pH 6.

    Parameters
    ----------
    number
        Numbers of the member [mixed].
    ph
        pH of the layer [pH].

    Returns
    -------
    float
        Factor [-].

    Notes
    -----
    Straight between three points, as in ``nitrogen.nitrification_ph_factor``.

    References
    ----------
    zebarth-2015, own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[law("nitrification_ph_middle")], number[law("nitrification_ph_full")] = 5.0, 6.0
    >>> number[law("nitrification_factor_middle")] = 0.5
    >>> float(nitrification_by_ph(number, 5.5))
    0.75
    """
    if ph >= number[_PH_FULL]:
        return 1.0
    low: float = number[_FACTOR_LOW]
    middle: float = number[_FACTOR_MIDDLE]
    factor = low
    if ph >= number[_PH_MIDDLE]:
        share = (ph - number[_PH_MIDDLE]) / (number[_PH_FULL] - number[_PH_MIDDLE])
        factor = middle + share * (1.0 - middle)
    elif ph >= number[_PH_LOW]:
        share = (ph - number[_PH_LOW]) / (number[_PH_MIDDLE] - number[_PH_LOW])
        factor = low + share * (middle - low)
    return factor


@compiled
def nitrify(cell: FloatArray, number: FloatArray, layer: int, speed: FloatArray) -> float:
    """One step of urea and ammonium in a layer; the acid they made.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].
    speed
        What the step is worth of a day at 25 degC and its best: urea, nitrification [d].

    Returns
    -------
    float
        Acid; negative while urea takes it up [mmolc/m2].

    Notes
    -----
    Urea to ammonium to nitrate as two first-order steps in a row, solved exactly. Ammonium
    taken up as such counts as nitrified and taken up, which comes to the same. Only warm soil
    gets here.

    References
    ----------
    yadav-1987, zebarth-2015, own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS
    >>> cell, number = np.zeros((1, N_CELL)), np.zeros(N_NUMBERS)
    >>> cell[0, AMMONIUM] = 100.0
    >>> number[rate("nitrification_d")], number[rate("realised")] = 0.1, 1.0
    >>> number[law("acid_per_nh4_mol_mol")] = 2.0
    >>> round(float(nitrify(cell, number, 0, np.array([1.0, 1.0]))), 2)
    19.03
    """
    urea = cell[layer, UREA]
    ammonium = cell[layer, AMMONIUM]
    k_made = number[_NITRIFICATION_D] * speed[1]
    k_lost = k_made + number[_UPTAKE_PER_D] * number[_STEP_D]
    lost_left = math.exp(-k_lost)
    ammonium_left = ammonium * lost_left
    urea_left = 0.0
    if urea > 0.0:
        k_urea = number[_UREA_D] * speed[0]
        share = math.exp(-k_urea)
        gap = k_lost - k_urea
        if abs(gap) > 1.0e-9:
            ammonium_left += urea * k_urea * (share - lost_left) / gap
        else:
            ammonium_left += urea * k_urea * lost_left
        urea_left = urea * share
        if urea_left < SPENT:
            urea_left = 0.0
    if ammonium_left < SPENT and urea_left == 0.0 and k_lost > 0.0:
        ammonium_left = 0.0
    hydrolysed = urea - urea_left
    lost = max(0.0, ammonium + hydrolysed - ammonium_left)
    cell[layer, UREA] = urea_left
    cell[layer, AMMONIUM] = ammonium + hydrolysed - lost
    cell[layer, NITRATE] += lost
    protons = number[_PER_NH4] - number[_PER_UREA]
    acid: float = number[_REALISED] * (number[_PER_NH4] * lost - protons * hydrolysed)
    return acid


@compiled
def ammonified_acid(number: FloatArray, nitrogen: float) -> float:
    """Acid of organic nitrogen turned to ammonium: below 0, for it takes protons up.

    Parameters
    ----------
    number
        Numbers of the member [mixed].
    nitrogen
        Nitrogen set free [mmol/m2].

    Returns
    -------
    float
        Acid [mmolc/m2].

    Notes
    -----
    -r per mol, as urea; what the ammonium gives as it nitrifies is 2 r, less the base that
    plants give back for the nitrate. All steps have the same r.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("realised")], number[law("acid_per_nh4_mol_mol")] = 0.5, 2.0
    >>> number[law("acid_per_urea_n_mol_mol")] = 1.0
    >>> float(ammonified_acid(number, 100.0))
    -50.0
    """
    acid: float = -number[_REALISED] * (number[_PER_NH4] - number[_PER_UREA]) * nitrogen
    return acid


@compiled
def take_up_nitrate(cell: FloatArray, number: FloatArray, layer: int) -> float:
    """One step of nitrate leaving, taken up or washed out; the acid, never above 0.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the member [mixed].
    layer
        Which layer [index].

    Returns
    -------
    float
        Acid; negative, for base is given off [mmolc/m2].

    Notes
    -----
    First order; the base per mole is the mean over what is taken up and what is washed out.

    References
    ----------
    auburn-anr174, own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS
    >>> cell, number = np.zeros((1, N_CELL)), np.zeros(N_NUMBERS)
    >>> cell[0, NITRATE] = 100.0
    >>> number[rate("nitrate_gone")], number[rate("nitrate_base")] = 0.1, 0.5
    >>> float(take_up_nitrate(cell, number, 0))
    -5.0
    """
    nitrate = cell[layer, NITRATE]
    gone = nitrate * number[_NITRATE_GONE]
    if nitrate - gone < SPENT:
        gone = nitrate
    cell[layer, NITRATE] = nitrate - gone
    acid: float = -number[_NITRATE_BASE] * gone
    return acid


@compiled
def let_go(cell: FloatArray, layer: int, pool: int, gone_frac: float) -> float:
    """One first-order step of a pool in a layer; what it let go.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    layer
        Which layer [index].
    pool
        Which place [index].
    gone_frac
        Share used up in the step [0-1].

    Returns
    -------
    float
        Acid let go, base below 0 [mmolc/m2].

    Notes
    -----
    What is left below a thousandth of a mmolc goes at once.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> cell = np.array([[8.0]])
    >>> let_go(cell, 0, 0, 0.25), cell[0, 0].item()
    (2.0, 6.0)
    """
    held = cell[layer, pool]
    gone: float = held * gone_frac
    if abs(held - gone) < SPENT:
        gone = held
    cell[layer, pool] = held - gone
    return gone
