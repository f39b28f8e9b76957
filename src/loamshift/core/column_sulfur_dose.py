"""Doses of sulfur in the compiled column: their numbers, put on, crowded and mixed by tillage."""

from __future__ import annotations

from typing import Final

import numpy as np

from loamshift.core.acidity import SULFUR_ACID_MOLC_KG
from loamshift.core.column_compile import compiled, inlined, woven
from loamshift.core.column_exp import exp_of, log_of
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
    GROWN_SD,
    HIGH_UM,
    INTACT,
    LANES,
    LOW_UM,
    MASS,
    N_DOSE,
    N_SIZE_NUMBERS,
    ON_SURFACE,
    PER_EATEN,
    PER_LOG,
    RATE_FACTOR,
    WHOLE_SURFACE,
    law,
    rate,
)
from loamshift.core.column_prills import whole_left
from loamshift.core.column_sulfur import dose_left

CM_PER_UM: Final = 1.0e-4
_ONE_SIZE: Final = 1.0 + 1.0e-4
"""Classes whose bounds differ by less are one size."""
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
        Shape (doses, 11), places as in ``column_numbers`` [mixed].

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
    (0, 11)
    """
    is_dose = events.kind == EventKind.SULFUR
    sizes = dose_sizes(events)
    per_um = (sizes[..., FRAC] * sizes[..., A1]).sum(axis=1) / 3.0
    intact = events.intact_um[is_dose]
    per_whole_um = 1.0 / np.where(intact > 0.0, intact, 1.0)
    scale = 6.0 * _UG_PER_MMOLC / density_ug_cm3 / CM_PER_UM
    given = events.surface_cm2_mmolc[is_dose]
    doses = np.zeros((intact.size, N_DOSE // LANES))
    doses[:, INTACT // LANES] = intact
    doses[:, RATE_FACTOR // LANES] = events.rate_factor[is_dose]
    doses[:, GROWN // LANES] = events.grown_frac[is_dose]
    doses[:, GROWN_SD // LANES] = events.grown_sd[is_dose]
    top, dug_in = BREAK_TOP // LANES, BREAK_DUG_IN // LANES
    doses[:, top : top + 2] = events.break_up_top[is_dose]
    doses[:, dug_in : dug_in + 2] = events.break_up_dug_in[is_dose]
    doses[:, ON_SURFACE // LANES] = events.on_surface[is_dose]
    doses[:, GRAIN_SURFACE // LANES] = np.where(given > 0.0, given, scale * per_um)
    doses[:, WHOLE_SURFACE // LANES] = scale * per_whole_um
    return doses


@inlined
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
    return exp_of(-exponent * log_of(share))


@woven
def put_dose(
    grain: FloatArray, doses: FloatArray, dose: int, layer: int, j: int, amount: float
) -> None:
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
    j
        Which lane [index].
    amount
        Acid it will make [mmolc/m2].

    Notes
    -----
    Prills begin whole.

    References
    ----------
    own-arithmetic
    """
    grain[dose, layer, DOSE_START + j] += amount
    grain[dose, layer, DOSE_LEFT + j] += amount
    grain[dose, layer, DOSE_GROWN + j] = doses[dose, GROWN + j]
    if doses[dose, INTACT + j] > 0.0:
        grain[dose, layer, DOSE_WHOLE + j] += amount


@compiled
def set_crowding(
    grain: FloatArray,
    doses: FloatArray,
    dose: int,
    layer: int,
    j: int,
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
    j
        Which lane [index].
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
    per_kg = grain[dose, layer, DOSE_START + j] / mass_kg_m2
    reference, lowest = number[_REFERENCE_SURFACE], number[_LOWEST_SURFACE]
    grain[dose, layer, CROWD_GRAINS + j] = crowding(
        surface_cm2_kg=per_kg * doses[dose, GRAIN_SURFACE + j],
        reference_cm2_kg=reference,
        lowest_cm2_kg=lowest,
        exponent=number[_CROWDING + j],
    )
    grain[dose, layer, CROWD_WHOLE + j] = crowding(
        surface_cm2_kg=per_kg * doses[dose, WHOLE_SURFACE + j],
        reference_cm2_kg=reference,
        lowest_cm2_kg=lowest,
        exponent=number[_CROWDING + j],
    )


@woven
def mix_dose(
    grain: FloatArray,
    sizes: FloatArray,
    doses: FloatArray,
    dose: int,
    cell: FloatArray,
    share: FloatArray,
    j: int,
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
    j
        Which lane [index].

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

    Examples
    --------
    >>> from loamshift.core.column_numbers import N_CELL
    >>> grain, cell = np.zeros((1, 2, DOSE_POOL)), np.ones((2, N_CELL))
    >>> put_dose(grain, np.zeros((1, N_DOSE)), 0, 0, 0, 10.0)
    >>> sizes, doses = np.zeros((1, 1, 8)), np.zeros((1, N_DOSE))
    >>> mix_dose(grain, sizes, doses, 0, cell, np.ones(2), 0), grain[0, :, DOSE_LEFT].tolist()
    (True, [5.0, 5.0])
    """
    start = 0.0
    left = 0.0
    grown = 0.0
    whole = 0.0
    number = 0.0
    mass = 0.0
    diameter = doses[dose, INTACT + j]
    for layer in range(grain.shape[1]):
        if share[layer] > 0.0:
            mass += cell[layer, MASS + j]
            start += grain[dose, layer, DOSE_START + j]
            left += grain[dose, layer, DOSE_LEFT + j]
            grown += grain[dose, layer, DOSE_START + j] * grain[dose, layer, DOSE_GROWN + j]
            if grain[dose, layer, DOSE_WHOLE + j] > 0.0:
                whole += grain[dose, layer, DOSE_WHOLE + j]
                number += grain[dose, layer, DOSE_WHOLE + j] / whole_left(
                    eaten_um=grain[dose, layer, DOSE_EATEN + j], diameter_um=diameter
                )
    if start <= 0.0:
        return False
    doses[dose, RATE_FACTOR + j] = max(1.0, doses[dose, RATE_FACTOR + j])
    doses[dose, ON_SURFACE + j] = 0.0
    eaten = 0.0
    if diameter <= 0.0:
        eaten = eaten_for(sizes, dose, left / start)
    elif number > 0.0:
        eaten = diameter * (1.0 - (whole / number) ** (1.0 / 3.0))
    for i in range(DOSE_POOL + j, grain.shape[2], LANES):
        held = 0.0
        for layer in range(grain.shape[1]):
            if share[layer] > 0.0:
                held += grain[dose, layer, i]
        for layer in range(grain.shape[1]):
            if share[layer] > 0.0:
                grain[dose, layer, i] = held * (cell[layer, MASS + j] / mass)
    for layer in range(grain.shape[1]):
        if share[layer] > 0.0:
            part = cell[layer, MASS + j] / mass
            grain[dose, layer, DOSE_START + j] = start * part
            grain[dose, layer, DOSE_LEFT + j] = left * part
            grain[dose, layer, DOSE_WHOLE + j] = whole * part
            grain[dose, layer, DOSE_GROWN + j] = grown / start
            grain[dose, layer, DOSE_EATEN + j] = eaten
    return True


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
