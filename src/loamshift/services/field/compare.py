"""What dosing by zones leaves a field like, beside one dose by its mean, and none."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loamshift.core.field_outcome import shares_over
from loamshift.domain.case import Case
from loamshift.domain.decision import Direction
from loamshift.domain.field import FieldInput, WayOfDosing
from loamshift.domain.ph import PhMethod
from loamshift.services.field.cells import Cells
from loamshift.services.field.estimate import Estimate
from loamshift.services.field.judge import Judged, outcomes
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]
LOWEST_PH, HIGHEST_PH = 3.2, 9.5
"""What the pH of a spot is looked at between [pH in water]."""
REACH_SD = 2.5
"""So many sd either way a spot is followed [sd]."""


def compared(
    field: FieldInput,
    base: Case,
    method: PhMethod,
    cells: Cells,
    found: Estimate,
    judged: list[Judged],
    by_mean: Judged,
    direction: Direction,
    shared_sd: float,
) -> tuple[WayOfDosing, WayOfDosing, WayOfDosing]:
    """By zones, by the mean, and left alone.

    Parameters
    ----------
    shared_sd
        Error that all samples share [pH].

    Notes
    -----
    Each spot is followed for itself: what it may be today, and what the possible beds with its
    soil do under either dose until the day wanted, tests and their most likely answer included.
    """
    ways = [0.0, 0.0], [0.0, 0.0]
    shares = np.zeros((3, 3))
    for number, one in enumerate(judged):
        mine = cells.zone == number
        if not mine.any():
            continue
        acts = one.judgement.direction is direction
        path = one.path if acts else ()
        ph, sd = _spots(field, found, one, mine, shared_sd)
        knots = knots_over(ph, sd)
        there = outcomes(base, one.ground, method, knots_ph=knots, ways=(path, by_mean.path, ()))
        for way in range(3):
            spots = shares_over(ph, sd, knots_ph=knots, shares=there[:, way])
            shares[way] += spots.mean(axis=0) * one.ground.area_m2
        if acts:
            ways[0][0] += one.rate_g_m2 * one.ground.area_m2
            ways[0][1] += (one.rate_g_m2 + one.later_g_m2) * one.ground.area_m2
    total = sum(one.ground.area_m2 for one in judged)
    ways[1][0] = by_mean.rate_g_m2 * total
    ways[1][1] = (by_mean.rate_g_m2 + by_mean.later_g_m2) * total
    amounts = (*ways, [0.0, 0.0])
    made = []
    for (now, in_all), (below, within, above) in zip(
        amounts, shares / max(total, 1e-9), strict=True
    ):
        made.append(
            WayOfDosing(
                now_g=now,
                in_all_g=in_all,
                below=float(below),
                within=float(within),
                above=float(above),
                cost_now=None,
                cost_in_all=None,
            )
        )
    return made[0], made[1], made[2]


def knots_over(ph: FloatArray, ph_sd: FloatArray) -> FloatArray:
    """Where outcomes are worked out, for spots believed so.

    Parameters
    ----------
    ph, ph_sd
        Of each spot, shape (P,) [pH].

    Returns
    -------
    ndarray
        Rising, a step apart, two at the least [pH].
    """
    step = parameter_values("field")["outcome_step_ph"]
    low = max(float((ph - REACH_SD * ph_sd).min()), LOWEST_PH)
    high = min(float((ph + REACH_SD * ph_sd).max()), HIGHEST_PH)
    count = max(int(np.ceil((high - low) / step)), 1) + 1
    return np.linspace(low, max(high, low + 0.05), count)


def _spots(
    field: FieldInput,
    found: Estimate,
    one: Judged,
    mine: NDArray[np.bool_],
    shared_sd: float,
) -> tuple[FloatArray, FloatArray]:
    """What is believed of each spot of a zone: its cells, or the zone as a whole [pH]."""
    if found.pattern is None and field.zones:
        soil = one.context.soil
        assert soil is not None
        sd = soil.ph.ph_water_sd if one.ground.ph_sd is None else one.ground.ph_sd
        return np.array([one.ground.ph_water]), np.array([sd])
    if found.pattern is None:
        sd = float(np.hypot(found.spread_ph, shared_sd))
        return np.array([one.ground.ph_water]), np.array([sd])
    return found.ph_water[mine], np.hypot(found.ph_sd[mine], shared_sd)
