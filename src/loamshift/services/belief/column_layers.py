"""The soil of a bed in layers, for the column."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypedDict

import numpy as np
from numpy.typing import NDArray

from loamshift.core.buffer import BufferParameters
from loamshift.core.column_layout import ColumnSoil
from loamshift.core.column_soil import column_soil, curve_columns, table_ph
from loamshift.domain.soil import Soil
from loamshift.services.belief.layers_below import LayerBelow
from loamshift.services.belief.scale_nodes import within_the_curve
from loamshift.tables.model import buffer_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT

FloatArray = NDArray[np.float64]


def layer_edges_cm(
    *, treated_cm: float, others_cm: Sequence[float] = (), bottom_cm: float | None = None
) -> FloatArray:
    """Edges of the layers: the default ones, with every depth that matters among them.

    Parameters
    ----------
    treated_cm
        Treated depth, above 0 [cm].
    others_cm
        Depths sampled or worked to; 0 is left out [cm].
    bottom_cm
        Where the soil ends, as in a pot; None in the ground [cm].

    Returns
    -------
    ndarray
        Edges from 0 down, shape (L + 1,) [cm].

    Notes
    -----
    A default edge too near to one that must be there gives way to it.

    References
    ----------
    own-judgement
    """
    column = parameter_values("column")
    near = column["nearest_edge_cm"]
    wanted: list[float] = [treated_cm]
    for depth in others_cm:
        if depth > 0.0 and all(abs(depth - one) > near for one in wanted):
            wanted.append(depth)
    for name in ("layer_edge_1_cm", "layer_edge_2_cm", "layer_edge_3_cm"):
        edge = column[name]
        if all(abs(edge - one) > near for one in wanted):
            wanted.append(edge)
    if bottom_cm is not None:
        wanted = [edge for edge in wanted if edge < bottom_cm - near] + [bottom_cm]
    return np.array([0.0, *sorted(wanted)], dtype=np.float64)


def soil_layers(
    soil: Soil,
    *,
    edges_cm: FloatArray,
    organic_only: bool = False,
    below: Sequence[LayerBelow] = (),
) -> ColumnSoil:
    """The soil in layers, with one per cent of free lime for the members to scale.

    Parameters
    ----------
    edges_cm
        Edges of the layers from 0 down, shape (L + 1,) [cm].
    organic_only
        True for peat and bark mixes.
    below
        Layers known by themselves: a layer of the column whose middle lies in one starts with its
        pH and its free lime; all others start like the sample.

    Notes
    -----
    Free lime of a layer that reads lower than lime can hold it lies in coarse grains, as in the
    sample; of the rest the usual share is fine. The error of the sample's reading shifts every
    layer alike.

    References
    ----------
    own-judgement
    """
    whole = column_soil(
        edges_cm=edges_cm.tolist(),
        bulk_density_g_cm3=soil.bulk_density_g_cm3,
        start_ph=soil.ph.ph_water,
        carbonate_mmolc_kg=CARBONATE_MMOLC_KG_PER_PCT,
        **_curve_figures(soil, organic_only=organic_only),
    )
    return _with_layers(whole, below) if below else whole


class _CurveFigures(TypedDict):
    clay_pct: float
    organic_carbon_pct: float
    params: BufferParameters
    al_highest_mmolc_kg: float
    organic_zero_ph: float
    organic_only: bool


def _curve_figures(soil: Soil, *, organic_only: bool) -> _CurveFigures:
    column = parameter_values("column")
    return _CurveFigures(
        clay_pct=soil.clay_pct,
        organic_carbon_pct=soil.organic_carbon_pct,
        params=buffer_parameters(),
        al_highest_mmolc_kg=column["al_highest_mmolc_kg"],
        organic_zero_ph=column["organic_zero_ph"],
        organic_only=organic_only,
    )


def tabulated_curve(soil: Soil, *, organic_only: bool) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The curve of ``soil_layers`` alone.

    Parameters
    ----------
    organic_only
        True for peat and bark mixes.

    Returns
    -------
    tuple of ndarray
        Points [pH]; what the scale multiplies there, and what it does not [mmolc/kg].
    """
    ph = table_ph()
    organic, rest, solution = curve_columns(ph, **_curve_figures(soil, organic_only=organic_only))
    return ph, organic + rest, solution


def _with_layers(soil: ColumnSoil, below: Sequence[LayerBelow]) -> ColumnSoil:
    """The soil with what is known of single layers, in place of what the sample says of them."""
    column = parameter_values("column")
    start, scaled = soil.start_ph.copy(), soil.carbonate_mmolc_m2.copy()
    own = np.full((soil.n_layers, 2), np.nan)
    middles = 0.5 * (soil.edges_cm[:-1] + soil.edges_cm[1:])
    for layer in below:
        inside = (middles > layer.top_cm) & (middles < layer.bottom_cm)
        fine = column["reactive_carbonate_frac"]
        if layer.ph_water < column["carbonate_plateau_lowest_ph"]:
            fine = 0.0
        lime = CARBONATE_MMOLC_KG_PER_PCT * layer.carbonate_pct * soil.mass_kg_m2[inside]
        start[inside] = within_the_curve(layer.ph_water)
        scaled[inside] = 0.0
        own[inside] = np.outer(lime, (fine, 1.0 - fine))
    return replace(soil, start_ph=start, carbonate_mmolc_m2=scaled, own_lime_mmolc_m2=own)
