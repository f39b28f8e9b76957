"""Sulfur in the compiled column: what is left of a dose, and one step of its clock."""

from __future__ import annotations

from typing import Final

from loamshift.core.column_compile import compiled, inlined, woven
from loamshift.core.column_exp import exp_of, log_of
from loamshift.core.column_flux import SPENT
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_numbers import (
    A1,
    A2,
    A3,
    CROWD_GRAINS,
    DOSE_EATEN,
    DOSE_GROWN,
    DOSE_LEFT,
    FRAC,
    HIGH_UM,
    LEFT_ALL,
    LOW_UM,
    MADE,
    PER_LOG,
    PH_NOW,
    RATE_FACTOR,
    SHARE_LEFT,
    SPEED,
    WET,
    WORN,
    WORTH,
    law,
    rate,
)

_ALL_GROWN: Final = 1.0 - 1.0e-12
"""From here on the oxidisers count as grown."""
_EATEN: Final = rate("eaten_um_d")
_ACTIVATION: Final = rate("activation_energy")
_GROWTH: Final = rate("growth_d")
_RAMP_FROM: Final = rate("ramp_from")
_RAMP_WIDTH: Final = law("ramp_width_c")
_STEP_D: Final = rate("step_d")
_WETNESS_SHIFT: Final = rate("wetness_shift")
_MOISTURE_OPTIMUM: Final = law("moisture_optimum")
_MOISTURE_WIDTH: Final = law("moisture_width")
_ACID_SOIL_FACTOR: Final = law("acid_soil_factor")
_ACID_SOIL_PH: Final = law("acid_soil_ph")
_NORMAL_SOIL_PH: Final = law("normal_soil_ph")
_THIRD: Final = 1.0 / 3.0
_WHOLE: Final = 3.0 - 1.5 + _THIRD
_LEAST: Final = 1.0e-12


@inlined
def growth(grown_frac: float, growth_per_d: float, clock_d: float) -> tuple[float, float]:
    """Oxidisers after a step, and the days at full rate that the step is worth.

    Parameters
    ----------
    grown_frac
        Strength of the oxidisers before, above 0 to 1 [0-1].
    growth_per_d
        Their growth at 25 degC and field capacity, above 0 [1/d].
    clock_d
        Days at 25 degC and field capacity in the step [d].

    Returns
    -------
    tuple of float
        Strength after, days at full rate [0-1, d].

    Notes
    -----
    dP/dc = mu P (1 - P), exactly: with e = exp(-mu c), P becomes P/(P + (1 - P) e), and the
    integral of P dc is c + ln(P + (1 - P) e)/mu.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> [round(x, 3) for x in growth(0.2, 0.12, 20.0)]
    [0.734, 9.168]
    """
    if grown_frac >= _ALL_GROWN or clock_d <= 0.0:
        return grown_frac, clock_d
    reach = grown_frac + (1.0 - grown_frac) * exp_of(-growth_per_d * clock_d)
    return grown_frac / reach, clock_d + log_of(reach) / growth_per_d


@inlined
def sound_left(sizes: FloatArray, dose: int, i: int, eaten_um: float) -> float:
    """Share of a size class not yet oxidised, while none of its grains is gone.

    Parameters
    ----------
    sizes
        Of :func:`dose_sizes` [mixed].
    dose
        Which dose [index].
    i
        Which class [index].
    eaten_um
        Diameter that a grain has lost so far, not above the lower bound [um].

    Returns
    -------
    float
        Share left [0-1].

    Notes
    -----
    The mean of (1 - a/d)^3, mass even over the logarithm of d: 1 - a1 a + a2 a2 - a3 a3.

    References
    ----------
    watkinson-blair-1993, own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> sizes = np.zeros((1, 1, 8))
    >>> sizes[0, 0, :6] = 100.0, 100.0, 1.0, 3.0 / 100.0, 3.0 / 100.0**2, 1.0 / 100.0**3
    >>> round(float(sound_left(sizes, 0, 0, 50.0)), 9)
    0.125
    """
    a = eaten_um
    left: float = 1.0 - a * (sizes[dose, i, A1] - a * (sizes[dose, i, A2] - a * sizes[dose, i, A3]))
    return left


@inlined
def class_left(sizes: FloatArray, dose: int, i: int, eaten_um: float) -> float:
    """Share of a size class not yet oxidised.

    Parameters
    ----------
    sizes
        Of :func:`dose_sizes` [mixed].
    dose
        Which dose [index].
    i
        Which class [index].
    eaten_um
        Diameter that a grain has lost so far [um].

    Returns
    -------
    float
        Share left [0-1].

    Notes
    -----
    The mean of max(0, 1 - a/d)^3, exactly: where the smaller grains are gone, that over those
    above a, (ln 1/r + 3 r - 3/2 r2 + 1/3 r3 - 11/6)/ln(high/low), r = a/high.

    References
    ----------
    watkinson-blair-1993, own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> sizes = np.zeros((1, 1, 8))
    >>> sizes[0, 0, :6] = 100.0, 100.0, 1.0, 3.0 / 100.0, 3.0 / 100.0**2, 1.0 / 100.0**3
    >>> round(float(class_left(sizes, 0, 0, 50.0)), 9), float(class_left(sizes, 0, 0, 150.0))
    (0.125, 0.0)
    """
    sound = max(0.0, sound_left(sizes, dose, i, eaten_um))
    r = min(1.0, max(_LEAST, eaten_um / sizes[dose, i, HIGH_UM]))
    worn = r * (3.0 - r * (1.5 - r * _THIRD)) - log_of(r) - _WHOLE
    worn = max(0.0, worn * sizes[dose, i, PER_LOG])
    left: float = sound if eaten_um <= sizes[dose, i, LOW_UM] else worn
    return left


@compiled
def dose_left(sizes: FloatArray, dose: int, eaten_um: float) -> float:
    """Share of a dose of loose grains not yet oxidised.

    Parameters
    ----------
    sizes
        Of :func:`dose_sizes` [mixed].
    dose
        Which one [index].
    eaten_um
        Diameter that a grain has lost so far, 2 K/rho [um].

    Returns
    -------
    float
        Share left [0-1].

    Notes
    -----
    The mean of max(0, 1 - a/d)^3 over each class, exactly.

    References
    ----------
    watkinson-blair-1993, watkinson-1993

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> from loamshift.core.column_layout import ColumnEvent, EventKind
    >>> from loamshift.core.column_sulfur_dose import dose_sizes
    >>> dose = ColumnEvent(kind=EventKind.SULFUR, day=0, layer_share=(1.0,), amount=1.0,
    ...                    sizes=((100.0, 100.0, 1.0),))
    >>> round(dose_left(dose_sizes(column_events([dose], n_layers=1)), 0, 50.0), 9)
    0.125
    """
    left = 0.0
    for i in range(sizes.shape[1]):
        if sizes[dose, i, FRAC] > 0.0:
            left += sizes[dose, i, FRAC] * class_left(sizes, dose, i, eaten_um)
    return left


@woven
def open_sulfur(
    number: FloatArray,
    work: FloatArray,
    j: int,
    wetness: float,
    heat: float,
    inverse_temp: float,
    temp_c: float,
) -> None:
    """Begin a step of sulfur in a layer: its speed, and what the step is worth.

    Parameters
    ----------
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH is read, speed, worth and moisture factor set [mixed].
    j
        Which lane [index].
    wetness
        Water of the layer [field capacity].
    heat
        Factor of the heat [0-1].
    inverse_temp
        What an activation energy is multiplied by [mol/kJ].
    temp_c
        Temperature, for the member's own ramp out of the cold [degC].

    Notes
    -----
    Worth = heat ramp exp(E (1/T25 - 1/T)/R) (1 - ((w - optimum)/width)^2) t, as in
    ``sulfur_rate``; speed of a grain 2 K/rho, by pH between that of acid and that of normal soil.

    References
    ----------
    watkinson-blair-1993, own-judgement
    """
    gap = (wetness + number[_WETNESS_SHIFT + j] - number[_MOISTURE_OPTIMUM]) / number[
        _MOISTURE_WIDTH
    ]
    wet = max(0.0, 1.0 - gap * gap)
    ramp = (temp_c - number[_RAMP_FROM + j]) / number[_RAMP_WIDTH]
    ramp = min(1.0, max(0.0, ramp))
    warmth = wet * heat * ramp * exp_of(number[_ACTIVATION + j] * inverse_temp)
    acid_ph = number[_ACID_SOIL_PH]
    share = (work[PH_NOW + j] - acid_ph) / (number[_NORMAL_SOIL_PH] - acid_ph)
    share = min(1.0, max(0.0, share))
    slow = number[_ACID_SOIL_FACTOR]
    work[SPEED + j] = number[_EATEN + j] * (slow + (1.0 - slow) * share)
    work[WORTH + j] = warmth * number[_STEP_D]
    work[WET + j] = wet
    work[LEFT_ALL + j] = 0.0
    work[MADE + j] = 0.0


@woven
def wear(
    grain: FloatArray,
    doses: FloatArray,
    number: FloatArray,
    work: FloatArray,
    dose: int,
    layer: int,
    j: int,
) -> None:
    """How much diameter a step takes off the grains of a dose, crowding left out.

    Parameters
    ----------
    grain
        State of each dose in each layer, the oxidisers changed here [mixed].
    doses
        Of :func:`dose_numbers` [mixed].
    number
        Numbers of the members [mixed].
    work
        Room to work in; speed and worth are read, the wear set [um].
    dose
        Which one [index].
    layer
        Which layer [index].
    j
        Which lane [index].

    Notes
    -----
    Speed x factor x days at full rate, none where nothing is left.

    References
    ----------
    watkinson-blair-1993, own-judgement
    """
    live = grain[dose, layer, DOSE_LEFT + j] > 0.0
    clock = work[WORTH + j] if live else 0.0
    grown, worth = growth(
        grown_frac=grain[dose, layer, DOSE_GROWN + j],
        growth_per_d=number[_GROWTH + j],
        clock_d=clock,
    )
    grain[dose, layer, DOSE_GROWN + j] = grown
    work[WORN + j] = work[SPEED + j] * doses[dose, RATE_FACTOR + j] * worth
    work[SHARE_LEFT + j] = 0.0


@woven
def eat(grain: FloatArray, work: FloatArray, dose: int, layer: int, j: int) -> float:
    """Take the wear of a step off loose grains; the diameter lost so far.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here [mixed].
    work
        Room to work in; the wear is read [um].
    dose
        Which one [index].
    layer
        Which layer [index].
    j
        Which lane [index].

    Returns
    -------
    float
        Diameter lost [um].

    Notes
    -----
    Slower where the surface is crowded.

    References
    ----------
    degryse-2016

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import DOSE_POOL, N_WORK
    >>> grain, work = np.zeros((1, 1, DOSE_POOL)), np.zeros(N_WORK)
    >>> work[WORN], grain[0, 0, CROWD_GRAINS] = 2.0, 0.5
    >>> float(eat(grain, work, 0, 0, 0))
    1.0
    """
    eaten: float = (
        grain[dose, layer, DOSE_EATEN + j] + work[WORN + j] * grain[dose, layer, CROWD_GRAINS + j]
    )
    grain[dose, layer, DOSE_EATEN + j] = eaten
    return eaten


@inlined
def turn_acid(
    grain: FloatArray, work: FloatArray, dose: int, layer: int, j: int, scale: float
) -> None:
    """What a step turned to acid: what was left of a dose less what is left now.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here [mixed].
    work
        Room to work in; the acid is added, and what is left [mmolc/m2].
    dose
        Which one [index].
    layer
        Which layer [index].
    j
        Which lane [index].
    scale
        What the share left is a share of [mmolc/m2].

    Notes
    -----
    The last thousandth of a mmolc reacts at once, so that a spent dose costs nothing.

    References
    ----------
    own-arithmetic
    """
    before = grain[dose, layer, DOSE_LEFT + j]
    left = scale * work[SHARE_LEFT + j]
    left = min(0.0 if left < SPENT else left, before)
    grain[dose, layer, DOSE_LEFT + j] = left
    work[MADE + j] += before - left
    work[LEFT_ALL + j] += left
