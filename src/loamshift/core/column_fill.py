"""The layers of a member of the compiled column on the first day."""

from __future__ import annotations

from loamshift.core.column_compile import woven
from loamshift.core.column_curve import base_of, place_at
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_member import neutral_ph
from loamshift.core.column_numbers import (
    CARBONATE,
    CO2,
    COARSEST_LIME,
    HUMUS_LABILE,
    HUMUS_SLOW,
    LANES,
    MASS,
    NEUTRAL_PH,
    PLATEAU_RISE,
    ROOT_SHARE,
    law,
    member,
    rate,
)
from loamshift.core.column_pack import (
    LAYER_CO2,
    LAYER_COARSE,
    LAYER_FINE,
    LAYER_LIME,
    LAYER_MASS,
    LAYER_OWN,
    LAYER_PH,
    LAYER_ROOT,
)

_BICARBONATE = rate("bicarbonate")
_ALUMINIUM = rate("aluminium")
_ANIONS = rate("anions")
_SUSPENSION = law("suspension_mmolc_l")
_PLATEAU_PH = rate("plateau_ph")
_MASS_FACTOR = member("mass_factor")
_START_SHIFT = member("start_ph_shift")
_COARSE = member("coarse_carbonate_frac")
_COARSEST = law("coarse_carbonate_coarsest_frac")
_CARBONATE_FACTOR = member("carbonate_factor")
_HUMUS_LABILE = member("humus_labile_mmol_kg")
_HUMUS_SLOW = member("humus_slow_mmol_kg")


@woven
def fill(
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    layers: FloatArray,
    row: FloatArray,
    j: int,
) -> None:
    """The layers of a member on the first day.

    Parameters
    ----------
    cell
        State of the layers, filled here [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the members [mixed].
    layers
        As ``column_pack.layer_array`` has them [mixed].
    row
        Parameters of the member [mixed].
    j
        Which lane [index].

    Notes
    -----
    A layer with figures of its own is held at the pH it was found at where lime is free in it,
    and lies no higher than lime would hold it: as the sample by its own parameters.

    References
    ----------
    own-judgement
    """
    for layer in range(layers.shape[0]):
        mass = layers[layer, LAYER_MASS] * row[_MASS_FACTOR]
        lime = layers[layer, LAYER_LIME] * row[_CARBONATE_FACTOR] * row[_MASS_FACTOR]
        coarse = row[_COARSE] * lime
        cell[layer, MASS + j] = mass
        cell[layer, ROOT_SHARE + j] = layers[layer, LAYER_ROOT]
        cell[layer, CO2 + j] = layers[layer, LAYER_CO2]
        cell[layer, NEUTRAL_PH + j] = neutral_ph(
            bicarbonate=number[_BICARBONATE + j] * layers[layer, LAYER_CO2],
            aluminium=number[_ALUMINIUM + j],
            anions=number[_ANIONS + j],
            suspension=number[_SUSPENSION + j],
        )
        cell[layer, CARBONATE + j] = lime - coarse + layers[layer, LAYER_FINE] * row[_MASS_FACTOR]
        coarse += layers[layer, LAYER_COARSE] * row[_MASS_FACTOR]
        cell[layer, COARSEST_LIME + j] = number[_COARSEST] * coarse
        cell[layer, COARSEST_LIME - LANES + j] = coarse - cell[layer, COARSEST_LIME + j]
        cell[layer, HUMUS_LABILE + j] = row[_HUMUS_LABILE] * mass
        cell[layer, HUMUS_SLOW + j] = row[_HUMUS_SLOW] * mass
        ph = layers[layer, LAYER_PH] + row[_START_SHIFT]
        cell[layer, PLATEAU_RISE + j] = 0.0
        if layers[layer, LAYER_OWN] > 0.0:
            usual = number[_PLATEAU_PH + j]
            held = ph if layers[layer, LAYER_FINE] > 0.0 else max(ph, usual)
            cell[layer, PLATEAU_RISE + j] = base_of(curve, number, j, ph=held, carbon=1.0)
            cell[layer, PLATEAU_RISE + j] -= base_of(curve, number, j, ph=usual, carbon=1.0)
        place_at(cell, curve, number, layer, j, ph)
