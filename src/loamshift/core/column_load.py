"""The yearly load of a layer in the compiled column."""

from __future__ import annotations

from loamshift.core.column_compile import woven
from loamshift.core.column_exp import exp_of
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    ACID,
    BACKGROUND,
    LOWEST_PH,
    PH_NOW,
    ROOT_SHARE,
    TURNOVER,
    law,
    rate,
)

_BACKGROUND = rate("background")
_WEATHERING = rate("weathering")
_AIR = rate("air")
_REFERENCE_PH = law("background_reference_ph")
_HIGHEST_PH = law("background_highest_ph")
_RISE_PER_PH = rate("background_rise")


@woven
def background_rise(per_ph: float, ph: float, highest_ph: float, reference_ph: float) -> float:
    """How much larger the background load is at a pH than at the reference.

    Parameters
    ----------
    per_ph
        Rise of the logarithm of the load [1/pH].
    ph
        pH of the layer [pH].
    highest_ph
        pH above which it rises no further [pH].
    reference_ph
        pH at which the load is stated [pH].

    Returns
    -------
    float
        Factor [-].

    Notes
    -----
    exp(s (min(pH, highest) - reference)), as in ``background.background_factor``.

    References
    ----------
    glendining-2023

    Examples
    --------
    >>> round(background_rise(0.5, 6.0, 7.0, 5.0), 6), round(background_rise(0.5, 8.0, 7.0, 5.0), 6)
    (1.648721, 2.718282)
    """
    return exp_of(per_ph * (min(ph, highest_ph) - reference_ph))


@woven
def add_background(
    cell: FloatArray,
    number: FloatArray,
    totals: FloatArray,
    work: FloatArray,
    layer: int,
    j: int,
    air_mmolc_m2_year: float,
) -> None:
    """Begin a step of a layer: its pH, and the acid of the background and the air.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    number
        Numbers of the members [mixed].
    totals
        Sums of the run, changed here [mmolc/m2].
    work
        Room to work in; the pH is read, the acid set [mixed].
    layer
        Which layer [index].
    j
        Which lane [index].
    air_mmolc_m2_year
        Acid from the air beyond what the load holds [mmolc/m2/yr].

    Notes
    -----
    Share of the roots x (load x rise - weathering + air): what falls does not hang on the pH, and
    is shared among the layers as the load it is a part of.

    References
    ----------
    glendining-2023
    """
    ph = work[PH_NOW + j]
    rise = background_rise(
        per_ph=number[_RISE_PER_PH + j],
        ph=ph,
        highest_ph=number[_HIGHEST_PH],
        reference_ph=number[_REFERENCE_PH],
    )
    net = number[_BACKGROUND + j] * rise - number[_WEATHERING + j]
    acid = cell[layer, ROOT_SHARE + j] * (net + number[_AIR + j] * air_mmolc_m2_year)
    work[ACID + j] = acid
    totals[LOWEST_PH + j] = min(totals[LOWEST_PH + j], ph)
    totals[BACKGROUND + j] += acid
    totals[TURNOVER + j] += abs(acid)
