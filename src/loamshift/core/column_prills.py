"""Prills of sulfur in the compiled column: how they shrink, break up and react."""

from __future__ import annotations

from typing import Final

from loamshift.core.column_compile import inlined, woven
from loamshift.core.column_exp import exp_of, used_up
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    BREAK_DUG_IN,
    BREAK_TOP,
    CROWD_GRAINS,
    CROWD_WHOLE,
    DOSE_EATEN,
    DOSE_POOL,
    DOSE_WHOLE,
    INTACT,
    LANES,
    ON_SURFACE,
    PER_EATEN,
    SHARE_LEFT,
    WET,
    WORN,
    rate,
)

_STEP_D: Final = rate("step_d")
_THIRD: Final = 1.0 / 3.0


@inlined
def whole_left(eaten_um: float, diameter_um: float) -> float:
    """Share of one sphere not yet oxidised.

    Parameters
    ----------
    eaten_um
        Diameter lost so far [um].
    diameter_um
        Diameter at the start, above 0 [um].

    Returns
    -------
    float
        Share left [0-1].

    Notes
    -----
    max(0, 1 - a/d)^3.

    References
    ----------
    watkinson-blair-1993

    Examples
    --------
    >>> whole_left(50.0, 100.0)
    0.125
    """
    side = max(0.0, 1.0 - eaten_um / diameter_um)
    return side * side * side


@woven
def eat_pool(
    grain: FloatArray, sizes: FloatArray, work: FloatArray, dose: int, layer: int, j: int, i: int
) -> None:
    """One step of what prills have broken up into, in one size class.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here [mixed].
    sizes
        Of :func:`dose_sizes` [mixed].
    work
        Room to work in; the wear is read, what is left added up [um, mmolc/m2].
    dose
        Which one [index].
    layer
        Which layer [index].
    j
        Which lane [index].
    i
        Which class [index].

    Notes
    -----
    By the mean diameter of the class, in two pools one after the other, as
    ``sulfur.oxidised_course``.

    References
    ----------
    own-judgement
    """
    young = DOSE_POOL + 2 * LANES * i + j
    worn = sizes[dose, i, PER_EATEN] * work[WORN + j] * grain[dose, layer, CROWD_GRAINS + j]
    kept = exp_of(-6.0 * worn)
    fresh = grain[dose, layer, young]
    old = kept * (grain[dose, layer, young + LANES] + 3.0 * worn * fresh)
    grain[dose, layer, young] = fresh * kept
    grain[dose, layer, young + LANES] = old
    work[SHARE_LEFT + j] += fresh * kept + old


@woven
def break_up(
    grain: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    work: FloatArray,
    dose: int,
    layer: int,
    j: int,
) -> None:
    """One step of whole prills: they shrink, then some of them break up.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here [mixed].
    doses
        Of :func:`dose_numbers` [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; what is left is added up, what broke up set in place of the wear
        [mmolc/m2].
    dose
        Which one [index].
    layer
        Which layer [index].
    j
        Which lane [index].

    Notes
    -----
    First order, by the moisture factor on the surface.

    References
    ----------
    boswell-1988, own-judgement
    """
    diameter = doses[dose, INTACT + j]
    whole = grain[dose, layer, DOSE_WHOLE + j]
    eaten = grain[dose, layer, DOSE_EATEN + j]
    share = whole_left(eaten_um=eaten, diameter_um=diameter)
    worn = work[WORN + j] * grain[dose, layer, CROWD_WHOLE + j]
    eaten += worn if whole > 0.0 else 0.0
    grain[dose, layer, DOSE_EATEN + j] = eaten
    whole *= whole_left(eaten_um=eaten, diameter_um=diameter) / share if whole > 0.0 else 0.0
    top = doses[dose, BREAK_TOP + j] * work[WET + j]
    per_d = top if doses[dose, ON_SURFACE + j] > 0.0 else doses[dose, BREAK_DUG_IN + j]
    broken = whole * used_up(per_d * number[_STEP_D])
    grain[dose, layer, DOSE_WHOLE + j] = whole - broken
    work[SHARE_LEFT + j] += whole
    work[WORN + j] = broken
