"""Nitrogen and the decaying pools in the compiled column: one step of a lane."""

from __future__ import annotations

from loamshift.core.column_compile import inlined, woven
from loamshift.core.column_exp import exp_of
from loamshift.core.column_flux import SPENT
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    ACID,
    AMMONIUM,
    NITRATE,
    PH_NOW,
    UREA,
    WET,
    WORTH,
    law,
    rate,
)

_WETNESS_SHIFT = rate("wetness_shift")
_MOISTURE_FULL = law("moisture_full")
_WET_WIDTH = law("moisture_wet_width")
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


@woven
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
    low: float = number[_FACTOR_LOW]
    middle: float = number[_FACTOR_MIDDLE]
    above = (ph - number[_PH_MIDDLE]) / (number[_PH_FULL] - number[_PH_MIDDLE])
    below = (ph - number[_PH_LOW]) / (number[_PH_MIDDLE] - number[_PH_LOW])
    upper = middle + min(1.0, above) * (1.0 - middle)
    lower = low + max(0.0, below) * (middle - low)
    factor: float = upper if ph >= number[_PH_MIDDLE] else lower
    return factor


@woven
def open_life(number: FloatArray, work: FloatArray, j: int, wetness: float) -> None:
    """Begin a step of what lives in a layer: how dry it is, and how short of air.

    Parameters
    ----------
    number
        Numbers of the members [mixed].
    work
        Room to work in; set here [mixed].
    j
        Which lane [index].
    wetness
        Water of the layer [field capacity].

    Notes
    -----
    Days that the step is worth: min(1, w/0.8) t; of nitrification also 1 - ((w - 1)/width)^2 in
    soil wetter than field capacity.

    References
    ----------
    own-judgement
    """
    wet = max(0.0, wetness + number[_WETNESS_SHIFT + j])
    dry = min(1.0, wet / number[_MOISTURE_FULL]) * number[_STEP_D]
    gap = max(0.0, wet - 1.0) / number[_WET_WIDTH]
    work[WORTH + j] = dry
    work[WET + j] = dry * max(0.0, 1.0 - gap * gap)


@woven
def nitrify(
    cell: FloatArray,
    number: FloatArray,
    work: FloatArray,
    layer: int,
    j: int,
    urea_speed: float,
    nitrification: float,
) -> None:
    """One step of urea and ammonium in a layer, and the acid they make.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH and the worth of the step are read, the acid is changed [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
    urea_speed
        Of the warmth, against 25 degC [-].
    nitrification
        The same of nitrification [-].

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
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS, N_WORK
    >>> cell, number, work = np.zeros((1, N_CELL)), np.ones(N_NUMBERS), np.zeros(N_WORK)
    >>> cell[0, AMMONIUM], work[WET], work[PH_NOW] = 100.0, 1.0, 7.0
    >>> number[rate("nitrification_d")], number[law("ammonium_uptake_per_d")] = 0.1, 0.0
    >>> number[law("nitrification_ph_full")], number[law("acid_per_nh4_mol_mol")] = 2.0, 2.0
    >>> nitrify(cell, number, work, 0, 0, 1.0, 1.0)
    >>> round(float(work[ACID]), 2)
    19.03
    """
    urea = cell[layer, UREA + j]
    ammonium = cell[layer, AMMONIUM + j]
    speed = nitrification * work[WET + j] * nitrification_by_ph(number, work[PH_NOW + j])
    k_made = number[_NITRIFICATION_D + j] * speed
    k_lost = k_made + number[_UPTAKE_PER_D] * number[_STEP_D]
    k_urea = number[_UREA_D + j] * urea_speed * work[WORTH + j]
    lost_left = exp_of(-k_lost)
    share = exp_of(-k_urea)
    gap = k_lost - k_urea
    passing = (share - lost_left) / gap
    passing = lost_left if abs(gap) < 1.0e-9 else passing
    ammonium_left = ammonium * lost_left + urea * k_urea * passing
    urea_left = urea * share
    urea_left = 0.0 if urea_left < SPENT else urea_left
    spent = ammonium_left < SPENT and urea_left == 0.0 and k_lost > 0.0
    ammonium_left = 0.0 if spent else ammonium_left
    hydrolysed = urea - urea_left
    lost = max(0.0, ammonium + hydrolysed - ammonium_left)
    cell[layer, UREA + j] = urea_left
    cell[layer, AMMONIUM + j] = ammonium + hydrolysed - lost
    cell[layer, NITRATE + j] += lost
    protons = number[_PER_NH4] - number[_PER_UREA]
    acid = number[_REALISED + j] * (number[_PER_NH4] * lost - protons * hydrolysed)
    work[ACID + j] += acid


@inlined
def ammonify(number: FloatArray, work: FloatArray, j: int, nitrogen: float) -> None:
    """Acid of organic nitrogen turned to ammonium: below 0, for it takes protons up.

    Parameters
    ----------
    number
        Numbers of the members [mixed].
    work
        Room to work in; the acid is changed [mmolc/m2].
    j
        Which lane [index].
    nitrogen
        Nitrogen set free [mmol/m2].

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
    >>> from loamshift.core.column_numbers import N_NUMBERS, N_WORK
    >>> number, work = np.zeros(N_NUMBERS), np.zeros(N_WORK)
    >>> number[rate("realised")], number[law("acid_per_nh4_mol_mol")] = 0.5, 2.0
    >>> number[law("acid_per_urea_n_mol_mol")] = 1.0
    >>> ammonify(number, work, 0, 100.0)
    >>> float(work[ACID])
    -50.0
    """
    work[ACID + j] -= number[_REALISED + j] * (number[_PER_NH4] - number[_PER_UREA]) * nitrogen


@woven
def take_up_nitrate(
    cell: FloatArray, number: FloatArray, work: FloatArray, layer: int, j: int
) -> None:
    """One step of nitrate leaving, taken up or washed out; the acid is never above 0.

    Parameters
    ----------
    cell
        State of the layers, changed here [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the acid is changed [mmolc/m2].
    layer
        Which layer [index].
    j
        Which lane [index].

    Notes
    -----
    First order; the base per mole is the mean over what is taken up and what is washed out.

    References
    ----------
    auburn-anr174, own-judgement

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import N_CELL, N_NUMBERS, N_WORK
    >>> cell, number, work = np.zeros((1, N_CELL)), np.zeros(N_NUMBERS), np.zeros(N_WORK)
    >>> cell[0, NITRATE] = 100.0
    >>> number[rate("nitrate_gone")], number[rate("nitrate_base")] = 0.1, 0.5
    >>> take_up_nitrate(cell, number, work, 0, 0)
    >>> float(work[ACID])
    -5.0
    """
    gone = let_go(held=cell[layer, NITRATE + j], gone_frac=number[_NITRATE_GONE + j])
    cell[layer, NITRATE + j] -= gone
    work[ACID + j] -= number[_NITRATE_BASE + j] * gone


@inlined
def let_go(held: float, gone_frac: float) -> float:
    """What a pool lets go in a first-order step.

    Parameters
    ----------
    held
        Amount in the pool, below 0 for a store of base [mmolc/m2 or mmol/m2].
    gone_frac
        Share used up in the step [0-1].

    Returns
    -------
    float
        Amount let go [mmolc/m2 or mmol/m2].

    Notes
    -----
    What is left below a thousandth of a mmolc goes at once.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> let_go(8.0, 0.25), let_go(0.001, 0.5)
    (2.0, 0.001)
    """
    gone = held * gone_frac
    return held if abs(held - gone) < SPENT else gone
