"""What a step of pH takes on many soils at once: the static need of each, without a verdict."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loamshift.core.buffer import SOLVE_HIGH_PH, SOLVE_LOW_PH, acid_between_mmolc_kg
from loamshift.core.need import FloatArray, reading_nodes
from loamshift.core.need_rows import NeedRows
from loamshift.domain.case import SoilEntry
from loamshift.domain.material import Material
from loamshift.domain.ph import PhReading
from loamshift.errors import OutOfRangeError
from loamshift.services.context.readings import ph_belief
from loamshift.services.context.soil import carbonate_of
from loamshift.services.context.soil_scale import prior_scale, slope_window_ph
from loamshift.services.context.topsoil import Topsoil, fill_in_topsoil
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.tables.model import buffer_parameters
from loamshift.units import (
    CACO3_G_PER_MMOLC,
    CARBONATE_MMOLC_KG_PER_PCT,
    SULFUR_G_PER_MMOLC,
    soil_mass_kg_m2,
)

NO_STEP_PH: Final = 1e-9
"""A step no larger than this is none [pH]."""
PROBABILITIES: Final = (0.05, 0.5, 0.95)
_INNER: Final = (SOLVE_LOW_PH + 2.0, SOLVE_HIGH_PH - 2.0)
"""Readings whose nodes all lie in here are cut off nowhere [pH in water]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilRow:
    """One soil of a table: what was said of it, its depth [cm], and where it is to go.

    ``target_ph_water`` [pH in water]; the soil has a pH.
    """

    soil: SoilEntry
    depth_cm: float
    target_ph_water: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseRows:
    """What each of n soils takes: low, middle and high end of nine in ten, shape (n, 3).

    ``acid_mmolc_kg`` positive where it acidifies; ``pure_g_m2`` of sulfur as S or of lime as
    CaCO3; ``product_g_m2`` of the product that brings as much. ``direction`` (n,) is 1 for acid,
    -1 for lime and 0 for none.
    """

    direction: FloatArray
    acid_mmolc_kg: FloatArray
    pure_g_m2: FloatArray
    product_g_m2: FloatArray


def dose_rows(
    rows: Sequence[SoilRow], *, acidifier: Material, liming_material: Material
) -> DoseRows:
    """The sulfur or lime that takes each soil to its target, as a range.

    Answers what the step takes by the buffer curve and the free carbonate. It leaves out whether
    the step should be taken, printed limits, and what was put on before: that is advice on one
    bed.

    Parameters
    ----------
    rows
        Mineral soils with a pH, any number.
    acidifier
        Product that brings the acid, with acid in it.
    liming_material
        Product that brings the base, with base in it.

    Returns
    -------
    DoseRows
        In the order of the rows [mmolc/kg, g/m2].

    Raises
    ------
    OutOfRangeError
        Where a product brings nothing in its direction.

    Notes
    -----
    The same sums as ``services.context.need``, in arrays; equal to them within one part in 1e9.

    References
    ----------
    own-arithmetic
    """
    per_gram = (_acid_per_gram(acidifier, sign=1.0), _acid_per_gram(liming_material, sign=-1.0))
    if not rows:
        empty = np.zeros((0, 3))
        return DoseRows(
            direction=np.zeros(0), acid_mmolc_kg=empty, pure_g_m2=empty, product_g_m2=empty
        )
    beliefs = [ph_belief(_reading(row.soil)) for row in rows]
    ph = np.clip([belief.ph_water for belief in beliefs], SOLVE_LOW_PH, SOLVE_HIGH_PH)
    sd = np.array([belief.ph_water_sd for belief in beliefs])
    target = np.array([row.target_ph_water for row in rows])
    direction = np.where(np.abs(ph - target) <= NO_STEP_PH, 0.0, np.sign(ph - target))
    topsoils = [fill_in_topsoil(row.soil) for row in rows]
    needs = _needs(rows, topsoils, ph=ph, sd=sd, target=target, direction=direction)
    amount = np.stack([needs.quantile(share) for share in PROBABILITIES], axis=1)
    amount = np.where(direction[:, None] == 0.0, 0.0, amount)
    mass = np.array(
        [
            soil_mass_kg_m2(depth_cm=row.depth_cm, bulk_density_g_cm3=soil.bulk_density_g_cm3)
            for row, soil in zip(rows, topsoils, strict=True)
        ]
    )
    acidify = (direction > 0.0)[:, None]
    per_area = amount * mass[:, None]
    signed = np.where(acidify, amount, -amount[:, ::-1])
    return DoseRows(
        direction=direction,
        acid_mmolc_kg=np.where(direction[:, None] == 0.0, 0.0, signed),
        pure_g_m2=per_area * np.where(acidify, SULFUR_G_PER_MMOLC, CACO3_G_PER_MMOLC),
        product_g_m2=per_area / np.where(acidify, *per_gram),
    )


def _reading(soil: SoilEntry) -> PhReading:
    assert soil.ph is not None
    return soil.ph


def _acid_per_gram(material: Material, *, sign: float) -> float:
    acid = sign * acid_brought_mmolc_m2(material, rate_g_m2=1.0, in_pot=False)
    if acid <= 0.0:
        wanted = "acid" if sign > 0.0 else "base"
        raise OutOfRangeError(f"{material.key} brings no lasting {wanted}; name another product")
    return acid


def _needs(
    rows: Sequence[SoilRow],
    topsoils: Sequence[Topsoil],
    *,
    ph: FloatArray,
    sd: FloatArray,
    target: FloatArray,
    direction: FloatArray,
) -> NeedRows:
    clay = np.array([soil.clay_pct for soil in topsoils])
    carbon = np.array([soil.organic_carbon_pct for soil in topsoils])
    nodes, weight = _nodes(ph, sd)
    step = acid_between_mmolc_kg(
        nodes,
        target[:, None],
        clay_pct=clay[:, None],
        organic_carbon_pct=carbon[:, None],
        params=buffer_parameters(),
    )
    window = acid_between_mmolc_kg(
        np.full(clay.shape, slope_window_ph()[0]),
        slope_window_ph()[1],
        clay_pct=clay,
        organic_carbon_pct=carbon,
        params=buffer_parameters(),
    )
    scale = [
        prior_scale(
            row.soil,
            organic_carbon_pct=soil.organic_carbon_pct,
            window_acid_mmolc_kg=acid,
            texture_assumed="soil.texture" in soil.assumed,
        )
        for row, soil, acid in zip(rows, topsoils, window.tolist(), strict=True)
    ]
    free = [carbonate_of(row.soil, value) for row, value in zip(rows, ph.tolist(), strict=True)]
    acidify = direction > 0.0
    return NeedRows(
        curve_mmolc_kg=np.where(acidify[:, None], step, -step).clip(min=0.0),
        curve_weight=weight,
        zero_weight=np.where(acidify, [belief.zero_weight for belief in free], 1.0),
        carbonate_low_mmolc_kg=np.array([b.low_pct for b in free]) * CARBONATE_MMOLC_KG_PER_PCT,
        carbonate_high_mmolc_kg=np.array([b.high_pct for b in free]) * CARBONATE_MMOLC_KG_PER_PCT,
        carbonate_log_sd=np.array([belief.log_sd for belief in free]),
        log10_k_mean=np.array([mean for mean, _, _ in scale]),
        log10_k_sd=np.array([spread for _, spread, _ in scale]),
    )


def _nodes(ph: FloatArray, sd: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Seven pH values that stand for each reading, (n, 7), and their weights, (7,)."""
    middle, weight = reading_nodes(ph=0.0, ph_sd=1.0)
    nodes = ph[:, None] + sd[:, None] * middle
    for row in np.flatnonzero((nodes.min(axis=1) < _INNER[0]) | (nodes.max(axis=1) > _INNER[1])):
        nodes[row] = reading_nodes(
            ph=float(ph[row]), ph_sd=float(sd[row]), low=SOLVE_LOW_PH, high=SOLVE_HIGH_PH
        )[0]
    return nodes, weight
