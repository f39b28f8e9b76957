"""Sulfur in the compiled column: what is left of a dose, and one step of its clock."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from loamshift.core.acidity import SULFUR_ACID_MOLC_KG
from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import ColumnEvents, EventKind, FloatArray
from loamshift.core.column_numbers import (
    A1,
    A2,
    A3,
    BREAK_DUG_IN,
    BREAK_TOP,
    CROWD_GRAINS,
    CROWD_WHOLE,
    DOSE_EATEN,
    DOSE_GROWN,
    DOSE_LEFT,
    DOSE_POOL,
    DOSE_START,
    DOSE_WHOLE,
    FRAC,
    GRAIN_SURFACE,
    GROWN,
    HIGH_UM,
    INTACT,
    LOW_UM,
    MASS,
    N_DOSE_NUMBERS,
    N_SIZE_NUMBERS,
    ON_SURFACE,
    PER_EATEN,
    PER_LOG,
    RATE_FACTOR,
    WHOLE_SURFACE,
    law,
    rate,
)

CM_PER_UM: Final = 1.0e-4
SPENT: Final = 1.0e-3
"""A pool smaller than this is used up at once [mmolc/m2]."""
_ONE_SIZE: Final = 1.0 + 1.0e-4
"""Classes whose bounds differ by less are one size."""
_ALL_GROWN: Final = 1.0 - 1.0e-12
"""From here on the oxidisers count as grown."""
_REFERENCE_SURFACE: Final = law("reference_surface_cm2_kg")
_LOWEST_SURFACE: Final = law("lowest_surface_cm2_kg")
_CROWDING: Final = rate("crowding")
_UG_PER_MMOLC: Final = 1.0e6 / SULFUR_ACID_MOLC_KG
"""Sulfur that makes a mmolc of acid [ug]."""


def dose_sizes(events: ColumnEvents) -> FloatArray:
    """The size classes of each sulfur dose, with the constants of their means.

    Parameters
    ----------
    events
        All events of a run [arrays].

    Returns
    -------
    ndarray
        Shape (doses, classes, 8), places as in ``column_numbers`` [mixed].

    Notes
    -----
    Mass even over the logarithm of the diameter within a class, as in ``sulfur.left_frac``: the
    mean of (1 - a/d)^3 is 1 - a1 a + a2 a2 - a3 a3 while a is below the class. What prills break
    up into is followed by the mean diameter of its class.

    References
    ----------
    watkinson-blair-1993, own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> dose_sizes(column_events([], n_layers=3)).shape
    (0, 1, 8)
    """
    is_dose = events.kind == EventKind.SULFUR
    low, high = events.size_low_um[is_dose], events.size_high_um[is_dose]
    one = high / low < _ONE_SIZE
    middle = np.sqrt(low * high)
    log = np.log(np.where(one, 2.0, high / low))
    spread = [(1.0 / low**n - 1.0 / high**n) / log for n in (1, 2, 3)]
    sizes = np.empty((*low.shape, N_SIZE_NUMBERS))
    sizes[..., LOW_UM] = np.where(one, middle, low)
    sizes[..., HIGH_UM] = np.where(one, middle, high)
    sizes[..., FRAC] = events.size_frac[is_dose]
    sizes[..., A1] = np.where(one, 3.0 / middle, 3.0 * spread[0])
    sizes[..., A2] = np.where(one, 3.0 / middle**2, 1.5 * spread[1])
    sizes[..., A3] = np.where(one, 1.0 / middle**3, spread[2] / 3.0)
    sizes[..., PER_LOG] = np.where(one, 0.0, 1.0 / log)
    sizes[..., PER_EATEN] = 1.0 / np.where(one, middle, (high - low) / log)
    return sizes


def dose_numbers(events: ColumnEvents, *, density_ug_cm3: float) -> FloatArray:
    """Prills, rate, oxidisers and surface of each sulfur dose.

    Parameters
    ----------
    events
        All events of a run [arrays].
    density_ug_cm3
        Density of sulfur [ug/cm3].

    Returns
    -------
    ndarray
        Shape (doses, 10), places as in ``column_numbers`` [mixed].

    Notes
    -----
    The surface is 6/(rho d) of the sulfur that makes a mmolc of acid, of the loose grains and of
    whole prills; a dose that has shrunk already is given the surface it began with.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> dose_numbers(column_events([], n_layers=3), density_ug_cm3=2.07e6).shape
    (0, 10)
    """
    is_dose = events.kind == EventKind.SULFUR
    sizes = dose_sizes(events)
    per_um = (sizes[..., FRAC] * sizes[..., A1]).sum(axis=1) / 3.0
    intact = events.intact_um[is_dose]
    per_whole_um = 1.0 / np.where(intact > 0.0, intact, 1.0)
    scale = 6.0 * _UG_PER_MMOLC / density_ug_cm3 / CM_PER_UM
    given = events.surface_cm2_mmolc[is_dose]
    doses = np.zeros((intact.size, N_DOSE_NUMBERS))
    doses[:, INTACT] = intact
    doses[:, RATE_FACTOR] = events.rate_factor[is_dose]
    doses[:, GROWN] = events.grown_frac[is_dose]
    doses[:, BREAK_TOP : BREAK_TOP + 2] = events.break_up_top[is_dose]
    doses[:, BREAK_DUG_IN : BREAK_DUG_IN + 2] = events.break_up_dug_in[is_dose]
    doses[:, ON_SURFACE] = events.on_surface[is_dose]
    doses[:, GRAIN_SURFACE] = np.where(given > 0.0, given, scale * per_um)
    doses[:, WHOLE_SURFACE] = scale * per_whole_um
    return doses


@compiled
def crowding(
    surface_cm2_kg: float, reference_cm2_kg: float, lowest_cm2_kg: float, exponent: float
) -> float:
    """Rate of sulfur per surface against that at the reference surface.

    Parameters
    ----------
    surface_cm2_kg
        Sulfur surface per kg of soil at the start of the dose [cm2/kg].
    reference_cm2_kg
        Surface at which the rate is stated [cm2/kg].
    lowest_cm2_kg
        Surface below which the rate rises no further [cm2/kg].
    exponent
        How fast the rate falls with it [-].

    Returns
    -------
    float
        Factor [-].

    Notes
    -----
    (sigma/sigma0)^-b, as ``sulfur_rate.crowding_factor``.

    References
    ----------
    degryse-2016

    Examples
    --------
    >>> round(crowding(350.0, 175.0, 3.0, 0.22), 3)
    0.859
    """
    share = max(surface_cm2_kg, lowest_cm2_kg) / reference_cm2_kg
    return math.exp(-exponent * math.log(share))


@compiled
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
    if grown_frac >= _ALL_GROWN:
        return grown_frac, clock_d
    reach = grown_frac + (1.0 - grown_frac) * math.exp(-growth_per_d * clock_d)
    return grown_frac / reach, clock_d + math.log(reach) / growth_per_d


@compiled
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
    >>> from loamshift.core.column_layout import ColumnEvent
    >>> dose = ColumnEvent(kind=EventKind.SULFUR, day=0, layer_share=(1.0,), amount=1.0,
    ...                    sizes=((100.0, 100.0, 1.0),))
    >>> round(dose_left(dose_sizes(column_events([dose], n_layers=1)), 0, 50.0), 9)
    0.125
    """
    left = 0.0
    a = eaten_um
    for i in range(sizes.shape[1]):
        share = sizes[dose, i, FRAC]
        high = sizes[dose, i, HIGH_UM]
        if share <= 0.0 or a >= high:
            continue
        if a <= sizes[dose, i, LOW_UM]:
            part = 1.0 - a * (
                sizes[dose, i, A1] - a * (sizes[dose, i, A2] - a * sizes[dose, i, A3])
            )
        else:
            r = a / high
            part = math.log(high / a) + r * (3.0 - r * (1.5 - r / 3.0))
            part = (part - (3.0 - 1.5 + 1.0 / 3.0)) * sizes[dose, i, PER_LOG]
        left += share * max(0.0, part)
    return left


@compiled
def eaten_for(sizes: FloatArray, dose: int, wanted_frac: float) -> float:
    """Loss of diameter at which this share of a dose of loose grains is left.

    Parameters
    ----------
    sizes
        Of :func:`dose_sizes` [mixed].
    dose
        Which one [index].
    wanted_frac
        Share left [0-1].

    Returns
    -------
    float
        Loss of diameter [um].

    Notes
    -----
    Bisection. Used where tillage mixes layers: the mixed dose keeps its mass, where a mean of
    the losses would not, because the law is curved.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_events import column_events
    >>> from loamshift.core.column_layout import ColumnEvent
    >>> dose = ColumnEvent(kind=EventKind.SULFUR, day=0, layer_share=(1.0,), amount=1.0,
    ...                    sizes=((100.0, 100.0, 1.0),))
    >>> round(eaten_for(dose_sizes(column_events([dose], n_layers=1)), 0, 0.125), 6)
    50.0
    """
    low = 0.0
    high = 0.0
    for i in range(sizes.shape[1]):
        high = max(high, sizes[dose, i, HIGH_UM])
    for _ in range(60):
        tried = 0.5 * (low + high)
        if dose_left(sizes, dose, tried) > wanted_frac:
            low = tried
        else:
            high = tried
    eaten: float = 0.5 * (low + high)
    return eaten


@compiled
def put_dose(grain: FloatArray, doses: FloatArray, dose: int, layer: int, amount: float) -> None:
    """Put sulfur on one layer.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here [mixed].
    doses
        Of :func:`dose_numbers` [mixed].
    dose
        Which one [index].
    layer
        Which layer [index].
    amount
        Acid it will make [mmolc/m2].

    Notes
    -----
    Prills begin whole.

    References
    ----------
    own-arithmetic
    """
    grain[dose, layer, DOSE_START] += amount
    grain[dose, layer, DOSE_LEFT] += amount
    grain[dose, layer, DOSE_GROWN] = doses[dose, GROWN]
    if doses[dose, INTACT] > 0.0:
        grain[dose, layer, DOSE_WHOLE] += amount


@compiled
def set_crowding(
    grain: FloatArray,
    doses: FloatArray,
    dose: int,
    layer: int,
    mass_kg_m2: float,
    number: FloatArray,
) -> None:
    """Set how crowded a dose lies in a layer, by what was put there.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here [mixed].
    doses
        Of :func:`dose_numbers` [mixed].
    dose
        Which one [index].
    layer
        Which layer [index].
    mass_kg_m2
        Soil of the layer [kg/m2].
    number
        Numbers of the member [mixed].

    Notes
    -----
    Fixed from then on, but for tillage. What prills break up into counts as if all were out.

    References
    ----------
    degryse-2016
    """
    per_kg = grain[dose, layer, DOSE_START] / mass_kg_m2
    reference, lowest = number[_REFERENCE_SURFACE], number[_LOWEST_SURFACE]
    grain[dose, layer, CROWD_GRAINS] = crowding(
        per_kg * doses[dose, GRAIN_SURFACE], reference, lowest, number[_CROWDING]
    )
    grain[dose, layer, CROWD_WHOLE] = crowding(
        per_kg * doses[dose, WHOLE_SURFACE], reference, lowest, number[_CROWDING]
    )


@compiled
def has_prills(doses: FloatArray) -> bool:
    """Whether any dose was put on as prills, which break up in the cold too.

    Parameters
    ----------
    doses
        Of :func:`dose_numbers` [mixed].

    Returns
    -------
    bool
        True for prills [truth].

    Notes
    -----
    By the diameter.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> has_prills(np.zeros((1, 10)))
    False
    """
    found = False
    for dose in range(doses.shape[0]):
        found = found or doses[dose, INTACT] > 0.0
    return found


@compiled
def oxidise(
    grain: FloatArray, sizes: FloatArray, doses: FloatArray, layer: int, speed: FloatArray
) -> tuple[float, float]:
    """One step of every dose in a layer; what it turned to acid, and what is left.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here, shape (doses, layers, places) [mixed].
    sizes
        Of :func:`dose_sizes` [mixed].
    doses
        Of :func:`dose_numbers`, with the member's own break-up [mixed].
    layer
        Which layer [index].
    speed
        Loss of diameter in a day at full rate, days at 25 degC and field capacity in the step,
        growth of the oxidisers, length of the step, moisture factor [um/d, d, 1/d, d, -].

    Returns
    -------
    tuple of float
        Acid released, acid still to come [mmolc/m2].

    Notes
    -----
    Loose grains are exact for a step of any length in constant weather and pH. The last
    thousandth of a mmolc reacts at once, so that a spent dose costs nothing.

    References
    ----------
    watkinson-blair-1993

    Examples
    --------
    >>> grain = np.zeros((1, 1, 8))
    >>> grain[0, 0, :5] = 100.0, 100.0, 0.0, 1.0, 1.0
    >>> sizes = np.zeros((1, 1, 8))
    >>> sizes[0, 0, :6] = 100.0, 100.0, 1.0, 3.0 / 100.0, 3.0 / 100.0**2, 1.0 / 100.0**3
    >>> doses = np.zeros((1, 10))
    >>> doses[0, 1] = 1.0
    >>> acid, left = oxidise(grain, sizes, doses, 0, np.array([50.0, 1.0, 0.1, 1.0, 1.0]))
    >>> round(float(acid), 6), round(float(left), 6)
    (87.5, 12.5)
    """
    acid = 0.0
    total = 0.0
    for dose in range(grain.shape[0]):
        before = grain[dose, layer, DOSE_LEFT]
        if before <= 0.0:
            continue
        grown, worth = growth(grain[dose, layer, DOSE_GROWN], speed[2], speed[1])
        grain[dose, layer, DOSE_GROWN] = grown
        worn = speed[0] * doses[dose, RATE_FACTOR] * worth
        if doses[dose, INTACT] > 0.0:
            left = _prills_left(grain, sizes, doses, dose, layer, worn, speed)
        else:
            eaten = grain[dose, layer, DOSE_EATEN] + worn * grain[dose, layer, CROWD_GRAINS]
            grain[dose, layer, DOSE_EATEN] = eaten
            left = grain[dose, layer, DOSE_START] * dose_left(sizes, dose, eaten)
        if left < SPENT:
            left = 0.0
        left = min(left, before)
        grain[dose, layer, DOSE_LEFT] = left
        acid += before - left
        total += left
    return acid, total


@compiled
def _prills_left(
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    dose: int,
    layer: int,
    worn_um: float,
    speed: FloatArray,
) -> float:
    """What a step leaves of prills, whole and broken up, as ``sulfur.oxidised_course`` [mmolc/m2].

    First what has broken up reacts, then the whole prills shrink, then some of them break up.
    """
    total = 0.0
    for i in range(sizes.shape[1]):
        young = DOSE_POOL + 2 * i
        worn = sizes[dose, i, PER_EATEN] * worn_um * grain[dose, layer, CROWD_GRAINS]
        kept = math.exp(-6.0 * worn)
        old = kept * (grain[dose, layer, young + 1] + 3.0 * worn * grain[dose, layer, young])
        grain[dose, layer, young] *= kept
        grain[dose, layer, young + 1] = old
        total += grain[dose, layer, young] + old
    whole: float = grain[dose, layer, DOSE_WHOLE]
    if whole <= 0.0:
        return total
    eaten = grain[dose, layer, DOSE_EATEN]
    share = whole_left(eaten, doses[dose, INTACT])
    eaten += worn_um * grain[dose, layer, CROWD_WHOLE]
    grain[dose, layer, DOSE_EATEN] = eaten
    whole *= whole_left(eaten, doses[dose, INTACT]) / share
    per_d = doses[dose, BREAK_DUG_IN]
    if doses[dose, ON_SURFACE] > 0.0:
        per_d = doses[dose, BREAK_TOP] * speed[4]
    broken = -whole * math.expm1(-per_d * speed[3])
    grain[dose, layer, DOSE_WHOLE] = whole - broken
    for i in range(sizes.shape[1]):
        grain[dose, layer, DOSE_POOL + 2 * i] += sizes[dose, i, FRAC] * broken
    total += whole
    return total


@compiled
def mix_dose(
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    dose: int,
    cell: FloatArray,
    share: FloatArray,
) -> bool:
    """Mix one dose among the layers that a tillage reaches.

    Parameters
    ----------
    grain
        State of each dose in each layer, changed here [mixed].
    sizes
        Of :func:`dose_sizes` [mixed].
    doses
        Of :func:`dose_numbers`; what lay on the surface is mixed in, changed here [mixed].
    dose
        Which one [index].
    cell
        State of the layers [mixed].
    share
        Above 0 in the layers mixed [-].

    Returns
    -------
    bool
        Whether there was any [truth].

    Notes
    -----
    A dose keeps its mass, whole and broken up: the loss of diameter after mixing is the one that
    leaves as much as was left before; its oxidisers are the mean by what was put on.

    References
    ----------
    own-arithmetic
    """
    start = 0.0
    left = 0.0
    grown = 0.0
    whole = 0.0
    number = 0.0
    mass = 0.0
    diameter = doses[dose, INTACT]
    for layer in range(grain.shape[1]):
        if share[layer] > 0.0:
            mass += cell[layer, MASS]
            start += grain[dose, layer, DOSE_START]
            left += grain[dose, layer, DOSE_LEFT]
            grown += grain[dose, layer, DOSE_START] * grain[dose, layer, DOSE_GROWN]
            if grain[dose, layer, DOSE_WHOLE] > 0.0:
                whole += grain[dose, layer, DOSE_WHOLE]
                number += grain[dose, layer, DOSE_WHOLE] / whole_left(
                    grain[dose, layer, DOSE_EATEN], diameter
                )
    if start <= 0.0:
        return False
    doses[dose, RATE_FACTOR] = max(1.0, doses[dose, RATE_FACTOR])
    doses[dose, ON_SURFACE] = 0.0
    eaten = 0.0
    if diameter <= 0.0:
        eaten = eaten_for(sizes, dose, left / start)
    elif number > 0.0:
        eaten = diameter * (1.0 - (whole / number) ** (1.0 / 3.0))
    for i in range(DOSE_POOL, grain.shape[2]):
        held = 0.0
        for layer in range(grain.shape[1]):
            if share[layer] > 0.0:
                held += grain[dose, layer, i]
        for layer in range(grain.shape[1]):
            if share[layer] > 0.0:
                grain[dose, layer, i] = held * (cell[layer, MASS] / mass)
    for layer in range(grain.shape[1]):
        if share[layer] > 0.0:
            part = cell[layer, MASS] / mass
            grain[dose, layer, DOSE_START] = start * part
            grain[dose, layer, DOSE_LEFT] = left * part
            grain[dose, layer, DOSE_WHOLE] = whole * part
            grain[dose, layer, DOSE_GROWN] = grown / start
            grain[dose, layer, DOSE_EATEN] = eaten
    return True
