"""A soil for the column: its layers, and its buffer curve tabulated once."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from loamshift.core.buffer_curve import BufferParameters, shape_parts_mmolc_kg, solution_mmolc_kg
from loamshift.core.column_layout import HIGHEST_TABLE_PH, LOWEST_TABLE_PH, ColumnSoil, FloatArray
from loamshift.errors import OutOfRangeError

CURVE_POINTS: Final = 376
"""Every 0.02 of pH: within 6e-5 pH of 16,384 steps over three years."""


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
    organic_zero_ph: float,
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
    organic_zero_ph
        pH from which the base held by organic matter is counted [pH].
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
    Where the base of organic matter is counted from matters only as humus rots: what it held
    above that pH is handed back, and what it held below goes with it.

    References
    ----------
    aitken-1990, curtin-rostad-1997, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> soil = column_soil(edges_cm=[0, 5, 15, 30], bulk_density_g_cm3=1.3, start_ph=7.0,
    ...                    carbonate_mmolc_kg=0.0, clay_pct=18.0, organic_carbon_pct=1.5,
    ...                    params=BufferParameters(**parameter_values("buffer")),
    ...                    al_highest_mmolc_kg=100.0, organic_zero_ph=4.15)
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
    ph = table_ph()
    organic, rest, solution = curve_columns(
        ph,
        clay_pct=clay_pct,
        organic_carbon_pct=organic_carbon_pct,
        params=params,
        al_highest_mmolc_kg=al_highest_mmolc_kg,
        organic_zero_ph=organic_zero_ph,
        organic_only=organic_only,
    )
    return ColumnSoil(
        edges_cm=edges,
        mass_kg_m2=mass,
        start_ph=np.array(np.broadcast_to(np.asarray(start_ph, dtype=np.float64), (layers,))),
        carbonate_mmolc_m2=lime * mass,
        curve_ph=ph,
        organic_mmolc_kg=np.array(np.broadcast_to(organic, ph.shape)),
        rest_mmolc_kg=np.array(np.broadcast_to(rest, ph.shape)),
        solution_mmolc_kg=solution,
    )


@cache
def table_ph() -> FloatArray:
    """Points at which the curve is tabulated.

    Returns
    -------
    ndarray
        Rising in equal steps, not to be written to, shape (``CURVE_POINTS``,) [pH].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> table_ph()[:3].round(2).tolist()
    [2.0, 2.02, 2.04]
    """
    found = np.linspace(LOWEST_TABLE_PH, HIGHEST_TABLE_PH, CURVE_POINTS)
    found.flags.writeable = False
    return found


def curve_columns(
    ph: FloatArray,
    *,
    clay_pct: FloatArray | float,
    organic_carbon_pct: FloatArray | float,
    params: BufferParameters,
    al_highest_mmolc_kg: float,
    organic_zero_ph: float,
    organic_only: bool,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The three columns of the tabulated curve, of one soil or of many.

    Parameters
    ----------
    ph
        Points of the curve, shape (points,) [pH].
    clay_pct
        Clay, one number, or shape (B, 1) for many soils [%].
    organic_carbon_pct
        Organic carbon, likewise [%].
    params
        Coefficients of the topic ``buffer`` [see the dataclass].
    al_highest_mmolc_kg
        Ceiling of the acid dissolved with aluminium, above 0 [mmolc/kg].
    organic_zero_ph
        pH from which the base held by organic matter is counted [pH].
    organic_only
        True for peat and bark mixes [true or false].

    Returns
    -------
    tuple of ndarray
        Organic, rest and solution, broadcast over soils and points [mmolc/kg].

    Notes
    -----
    As in :func:`column_soil`.

    References
    ----------
    aitken-1990, curtin-rostad-1997, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> organic, rest, solution = curve_columns(
    ...     np.array([4.15, 6.0]), clay_pct=np.array([[10.0], [20.0]]),
    ...     organic_carbon_pct=np.array([[1.0], [2.0]]), organic_zero_ph=4.15,
    ...     params=BufferParameters(**parameter_values("buffer")), al_highest_mmolc_kg=100.0,
    ...     organic_only=False)
    >>> organic.shape, bool(abs(organic[1, 1] / organic[0, 1] - 2.0) < 1e-12)
    ((2, 2), True)
    """
    (organic, rest), (below, _) = (
        shape_parts_mmolc_kg(
            at,
            clay_pct=np.asarray(clay_pct, dtype=np.float64),
            organic_carbon_pct=np.asarray(organic_carbon_pct, dtype=np.float64),
            params=params,
            organic_only=organic_only,
        )
        for at in (ph, np.asarray(organic_zero_ph, dtype=np.float64))
    )
    aluminium = 3000.0 * params.solution_l_kg * 10.0 ** (params.al_solubility_log10_k - 3.0 * ph)
    excess = np.maximum(0.0, aluminium - al_highest_mmolc_kg)
    return organic - below, rest, solution_mmolc_kg(ph, params=params) + excess
