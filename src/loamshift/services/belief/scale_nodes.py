"""Members of the column at fixed nodes of the buffer scale."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.background import load_at_scale
from loamshift.core.column_layout import (
    HIGHEST_TABLE_PH,
    LOWEST_TABLE_PH,
    MEMBER_FIELDS,
    MemberParameters,
)
from loamshift.domain.soil import Soil
from loamshift.services.belief.column_priors import Members
from loamshift.tables.model import ledger_parameters

FloatArray = NDArray[np.float64]


NODES_Z: Final = (-2.4, -1.2, 0.0, 1.2, 2.4)
"""Nodes of the buffer scale on which the members stand [sd of what is believed]."""
INSIDE_PH: Final = 0.05
"""A start is kept this far inside the ends of the curve [pH]."""


def inside_the_curve(soil: Soil) -> Soil:
    """A soil whose reading lies inside the buffer curve: sodic soils, and slips, lie beyond it."""
    return replace(soil, ph=replace(soil.ph, ph_water=within_the_curve(soil.ph.ph_water)))


def within_the_curve(ph_water: float) -> float:
    """The nearest pH that lies inside the buffer curve.

    Parameters
    ----------
    ph_water
        A pH, perhaps beyond its ends [pH in water].

    Returns
    -------
    float
        It, or the end that it lies beyond [pH in water].
    """
    lowest, highest = LOWEST_TABLE_PH + INSIDE_PH, HIGHEST_TABLE_PH - INSIDE_PH
    return min(max(ph_water, lowest), highest)


def on_nodes(drawn: Members, *, soil: Soil, nodes_z: FloatArray) -> Members:
    """Every draw at each node of the buffer scale.

    Parameters
    ----------
    nodes_z
        Nodes, rising, shape (N,) [sd].
    """
    n_others = drawn.reading_z.size
    drawn_once = np.array([getattr(drawn.parameters, name) for name in MEMBER_FIELDS])
    values = dict(zip(MEMBER_FIELDS, np.tile(drawn_once, (1, nodes_z.size)), strict=True))
    scale = soil.k.log10_k_mean + soil.k.log10_k_sd * nodes_z
    start = soil.ph.ph_water
    values["start_ph_shift"] = np.clip(
        values["start_ph_shift"],
        LOWEST_TABLE_PH + INSIDE_PH - start,
        HIGHEST_TABLE_PH - INSIDE_PH - start,
    )
    draws = np.tile(drawn.draws, (nodes_z.size, 1))
    draws[:, 0] = np.repeat(scale, n_others)
    log10_k = draws[:, 0].copy()
    values["background_mmolc_m2_year"] = load_at_scale(
        values["background_mmolc_m2_year"],
        log10_k=log10_k,
        log10_k_usual=values["log10_k"],
        params=ledger_parameters(),
    )
    values["log10_k"] = log10_k
    return Members(
        MemberParameters(**values),
        drawn.causes,
        draws,
        np.tile(drawn.reading_z, nodes_z.size),
    )
