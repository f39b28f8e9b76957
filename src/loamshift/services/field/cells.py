"""Which cells of a field go together: by what they need, or as somebody drew them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.core.field_zones import (
    nearest_step,
    smoothed,
    steps_of_need,
    with_gaps_filled,
    without_scraps,
)
from loamshift.domain.bed_context import BedContext
from loamshift.domain.field import FieldGrid, FieldInput
from loamshift.services.context.build_context import require_soil
from loamshift.services.field.estimate import Estimate
from loamshift.tables.model import buffer_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.units import organic_matter_pct_from_organic_carbon_pct

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
VOTE_M: Final = 30.0
"""Side of the square in which cells outvote one another: about a bout of a spreader [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """Cells of a field by zone: ``zone`` of each inside, row by row, from 0; names of the zones."""

    zone: IntArray
    names: tuple[str, ...]


def need_of_cells(context: BedContext, found: Estimate) -> FloatArray:
    """Base each cell takes up to come to the aim; nothing where it is in the range or above.

    Parameters
    ----------
    context
        The field as one bed, whose buffer scale and density serve every cell.

    Returns
    -------
    ndarray
        Shape (P,) [mmolc/kg].
    """
    soil, target = require_soil(context), context.target
    assert target is not None
    organic = found.organic_matter_pct
    base = -acid_between_mmolc_kg(
        found.ph_water,
        target.ph_aim,
        clay_pct=soil.clay_pct if found.clay_pct is None else found.clay_pct,
        organic_carbon_pct=soil.organic_carbon_pct
        if organic is None
        else organic / organic_matter_pct_from_organic_carbon_pct(1.0),
        params=buffer_parameters(),
        organic_only=context.organic_only,
    )
    short = found.ph_water < target.ph_low
    need = np.where(short, np.clip(base, 0.0, None), 0.0) * 10.0**soil.k.log10_k_mean
    return np.asarray(need, dtype=np.float64)


def cells_of(field: FieldInput, context: BedContext, found: Estimate) -> Cells:
    """The zones of a field.

    Parameters
    ----------
    context
        The field as one bed.

    Returns
    -------
    Cells
        Zones as drawn; else steps of the need that a spreader can follow; else the whole field.
    """
    if found.pattern is None and field.zones:
        return _drawn(field)
    if found.pattern is None:
        return Cells(zone=np.zeros(len(found.ph_water), dtype=np.int64), names=("",))
    limits = parameter_values("field")
    need = need_of_cells(context, found)
    steps = steps_of_need(
        need, most=int(limits["zones_most"]) - 1, explained_frac=limits["zones_explained"]
    )
    grid = field.grid
    whole = spread_out(nearest_step(need, steps), grid)
    width = max(3, round(VOTE_M / grid.cell_m) | 1)
    whole = smoothed(whole, inside=grid.inside, width=width)
    whole = without_scraps(
        whole,
        inside=grid.inside,
        least_cells=max(1, round(limits["zone_least_m2"] / grid.cell_area_m2)),
    )
    kinds, zone = np.unique(whole[grid.inside], return_inverse=True)
    return Cells(zone=zone.astype(np.int64), names=("",) * len(kinds))


def spread_out(values: IntArray, grid: FieldGrid) -> IntArray:
    """Values of the cells inside as a grid, -1 outside.

    Parameters
    ----------
    values
        Zone of each, row by row, shape (P,) [index].

    Returns
    -------
    ndarray
        Shape (R, C) [index].
    """
    whole = np.full(grid.inside.shape, -1, dtype=np.int64)
    whole[grid.inside] = values
    return whole


def _drawn(field: FieldInput) -> Cells:
    """Zones of a file; cells between them go with the nearest."""
    whole = np.full(field.grid.inside.shape, -1, dtype=np.int64)
    for number, zone in enumerate(field.zones):
        whole[zone.cells] = number
    whole = with_gaps_filled(whole)
    return Cells(zone=whole[field.grid.inside], names=tuple(zone.name for zone in field.zones))
