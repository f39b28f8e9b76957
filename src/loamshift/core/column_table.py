"""The buffer curve of the column: tabulated once per soil, turned round once per member."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from loamshift.core.buffer_curve import BufferParameters, shape_mmolc_kg, solution_mmolc_kg
from loamshift.core.column_compile import compiled
from loamshift.core.column_layout import (
    HIGHEST_TABLE_PH,
    LOWEST_TABLE_PH,
    ColumnSoil,
    FloatArray,
)
from loamshift.core.column_numbers import law, rate
from loamshift.errors import OutOfRangeError

CURVE_POINTS: Final = 1501
TABLE_STEPS: Final = 2048
"""Equal steps of base content in a member's table."""
PH, HYDROGEN, RISE = range(3)
"""Columns of a member's table: pH, hydrogen ions [mol/L], rise of the background load [-]."""
CURVE_PH, CURVE_HYDROGEN, SHAPE, SOLUTION = range(4)
"""Rows of the soil's curve; the last two [mmolc/kg]."""
_LOW = rate("table_low")
_PER = rate("table_per")
_REFERENCE_PH = law("background_reference_ph")
_HIGHEST_PH = law("background_highest_ph")
_RISE_PER_PH = rate("background_rise")


def column_soil(
    *,
    edges_cm: Sequence[float],
    bulk_density_g_cm3: ArrayLike,
    start_ph: ArrayLike,
    carbonate_mmolc_kg: ArrayLike,
    clay_pct: float,
    organic_carbon_pct: float,
    params: BufferParameters,
    al_highest_mmolc_kg: float,
    organic_only: bool = False,
) -> ColumnSoil:
    """A soil for the column, its curve tabulated from the buffer coefficients.

    Parameters
    ----------
    edges_cm
        Edges of the layers, from 0 down, L + 1 of them [cm].
    bulk_density_g_cm3
        Bulk density, one number or one per layer, above 0 [g/cm3].
    start_ph
        pH in water at the start, one number or one per layer, 2 to 9.5 [pH].
    carbonate_mmolc_kg
        Free lime, 200 per % CaCO3, one number or one per layer, 0 or more [mmolc/kg].
    clay_pct
        Clay, 0 to 100 [%].
    organic_carbon_pct
        Organic carbon, 0 to 60 [%].
    params
        Coefficients of the topic ``buffer`` [see the dataclass].
    al_highest_mmolc_kg
        Ceiling of the acid dissolved with aluminium, above 0 [mmolc/kg].
    organic_only
        True for peat and bark mixes: the organic term alone [true or false].

    Returns
    -------
    ColumnSoil
        Layers and curve [units as named there].

    Raises
    ------
    InputError
        For edges that do not rise from 0.
    OutOfRangeError
        For an impossible density, pH, carbonate or ceiling.

    Notes
    -----
    The curve is that of ``buffer.base_content_mmolc_kg`` down to about pH 3.1; below, where
    dissolved aluminium would pass the ceiling, it holds the ceiling. One curve for all layers.

    References
    ----------
    aitken-1990, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> soil = column_soil(edges_cm=[0, 5, 15, 30], bulk_density_g_cm3=1.3, start_ph=7.0,
    ...                    carbonate_mmolc_kg=0.0, clay_pct=18.0, organic_carbon_pct=1.5,
    ...                    params=BufferParameters(**parameter_values("buffer")),
    ...                    al_highest_mmolc_kg=100.0)
    >>> soil.mass_kg_m2.tolist()
    [65.0, 130.0, 195.0]
    """
    if not al_highest_mmolc_kg > 0.0:
        raise OutOfRangeError(f"al_highest_mmolc_kg = {al_highest_mmolc_kg:g} must be above 0")
    edges = np.asarray(edges_cm, dtype=np.float64)
    layers = edges.size - 1
    density = np.broadcast_to(np.asarray(bulk_density_g_cm3, dtype=np.float64), (layers,))
    mass = density * np.diff(edges) * 10.0
    lime = np.broadcast_to(np.asarray(carbonate_mmolc_kg, dtype=np.float64), (layers,))
    ph = np.linspace(LOWEST_TABLE_PH, HIGHEST_TABLE_PH, CURVE_POINTS)
    shape = shape_mmolc_kg(
        ph,
        clay_pct=np.asarray(clay_pct, dtype=np.float64),
        organic_carbon_pct=np.asarray(organic_carbon_pct, dtype=np.float64),
        params=params,
        organic_only=organic_only,
    )
    aluminium = 3000.0 * params.solution_l_kg * 10.0 ** (params.al_solubility_log10_k - 3.0 * ph)
    excess = np.maximum(0.0, aluminium - al_highest_mmolc_kg)
    return ColumnSoil(
        edges_cm=edges,
        mass_kg_m2=mass,
        start_ph=np.array(np.broadcast_to(np.asarray(start_ph, dtype=np.float64), (layers,))),
        carbonate_mmolc_m2=lime * mass,
        curve_ph=ph,
        shape_mmolc_kg=np.array(np.broadcast_to(shape, ph.shape)),
        solution_mmolc_kg=solution_mmolc_kg(ph, params=params) + excess,
    )


@compiled
def fill_table(table: FloatArray, number: FloatArray, curve: FloatArray, k: float) -> None:
    """Turn the curve of one member round: pH on equal steps of base content.

    Parameters
    ----------
    table
        Filled here, shape (steps + 1, 3): pH, hydrogen, rise [pH, mol/L, -].
    number
        Numbers of the member; the ends of its table are set here, the rise of its load before
        [mixed].
    curve
        Shape (4, points) over pH: pH, hydrogen, shape, solution [mixed].
    k
        Scale of this member's curve [-].

    Notes
    -----
    One walk along both axes. Between points of the curve (0.005 pH apart) everything is straight.
    rise = exp(s (min(pH, highest) - reference)), as in ``background.background_factor``.

    References
    ----------
    glendining-2023, own-arithmetic
    """
    steps = table.shape[0] - 1
    last = curve.shape[1] - 1
    low = k * curve[SHAPE, 0] + curve[SOLUTION, 0]
    high = k * curve[SHAPE, last] + curve[SOLUTION, last]
    number[_LOW] = low
    number[_PER] = steps / (high - low)
    at = 0
    below = low
    above = k * curve[SHAPE, 1] + curve[SOLUTION, 1]
    for j in range(steps + 1):
        base = low + (high - low) * (j / steps)
        while above < base and at < last - 1:
            at += 1
            below = above
            above = k * curve[SHAPE, at + 1] + curve[SOLUTION, at + 1]
        t = min(1.0, (base - below) / (above - below))
        for i in range(2):
            table[j, i] = curve[i, at] + t * (curve[i, at + 1] - curve[i, at])
        over = min(table[j, PH], number[_HIGHEST_PH]) - number[_REFERENCE_PH]
        table[j, RISE] = math.exp(number[_RISE_PER_PH] * over)


@compiled
def place(table: FloatArray, number: FloatArray, base: float) -> tuple[int, float]:
    """Where a base content stands in the table; its ends are not passed.

    Parameters
    ----------
    table
        Of :func:`fill_table` [pH, mol/L, -].
    number
        Numbers of the member [mixed].
    base
        Base content [mmolc/kg].

    Returns
    -------
    tuple of int and float
        Step, and how far along it, 0 to 1 [-].

    Notes
    -----
    A product and a cut: the steps are equal.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("table_low")], number[rate("table_per")] = 10.0, 2.0
    >>> place(np.zeros((5, 3)), number, 10.75)
    (1, 0.5)
    """
    x = (base - number[_LOW]) * number[_PER]
    steps = table.shape[0] - 1
    if x <= 0.0:
        return 0, 0.0
    if x >= steps:
        return steps - 1, 1.0
    step = int(x)
    return step, x - step


@compiled
def ph_of(table: FloatArray, number: FloatArray, base: float) -> float:
    """PH of a base content.

    Parameters
    ----------
    table
        Of :func:`fill_table` [pH, mol/L, -].
    number
        Numbers of the member [mixed].
    base
        Base content [mmolc/kg].

    Returns
    -------
    float
        pH in water [pH].

    Notes
    -----
    Straight within a step.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("table_low")], number[rate("table_per")] = 10.0, 2.0
    >>> ph_of(np.array([[4.0, 0.0, 0.0], [5.0, 0.0, 0.0], [7.0, 0.0, 0.0]]), number, 10.75)
    6.0
    """
    step, t = place(table, number, base)
    below = table[step, PH]
    ph: float = below + t * (table[step + 1, PH] - below)
    return ph


@compiled
def base_of(table: FloatArray, number: FloatArray, ph: float) -> float:
    """Base content at a pH: the table read the other way.

    Parameters
    ----------
    table
        Of :func:`fill_table` [pH, mol/L, -].
    number
        Numbers of the member [mixed].
    ph
        pH in water [pH].

    Returns
    -------
    float
        Base content; the end of the table for a pH beyond it [mmolc/kg].

    Notes
    -----
    Bisection over the steps, straight within one: the exact inverse of :func:`ph_of`.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.core.column_numbers import N_NUMBERS
    >>> number = np.zeros(N_NUMBERS)
    >>> number[rate("table_low")], number[rate("table_per")] = 10.0, 2.0
    >>> base_of(np.array([[4.0, 0.0, 0.0], [5.0, 0.0, 0.0], [7.0, 0.0, 0.0]]), number, 6.0)
    10.75
    """
    low = 0
    high = table.shape[0] - 1
    while high - low > 1:
        middle = (low + high) // 2
        if table[middle, PH] <= ph:
            low = middle
        else:
            high = middle
    t = (ph - table[low, PH]) / (table[low + 1, PH] - table[low, PH])
    t = min(1.0, max(0.0, t))
    base: float = number[_LOW] + (low + t) / number[_PER]
    return base
