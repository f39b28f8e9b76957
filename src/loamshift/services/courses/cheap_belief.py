"""The belief about a bed without the column: beds of one layer, weighed by its readings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import MemberParameters
from loamshift.core.member_weights import Weights, equal_beds, normal_slices, weigh_members
from loamshift.domain.answer import Refit
from loamshift.domain.bed_context import BedContext
from loamshift.domain.soil import Soil
from loamshift.services.belief.column_inputs import draw_members_of, reading_day
from loamshift.services.belief.column_priors import Members, at_scale
from loamshift.services.belief.learned import (
    ERROR_DEGREES,
    FEWEST_EFFECTIVE,
    FITTED_NODES_Z,
    FITTED_OTHERS,
    REDRAWN_TIMES,
    scale_after,
    set_aside,
    told,
)
from loamshift.services.belief.scale_nodes import inside_the_curve, on_nodes
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import SeasonReading, season_readings
from loamshift.services.courses.cheap_beds import CheapBeds, beds_of_one_layer, ph_since

FloatArray = NDArray[np.float64]

CHEAP_OTHERS: Final = 50
"""Draws of everything but the buffer scale: those of the column with its usual members [count]."""
CHEAP_SLICES: Final = 7
"""Values of the buffer scale, each a member of its own [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheapBelief:
    """Possible beds of one layer, the soil as believed, and what earlier readings taught."""

    beds: CheapBeds
    soil: Soil
    refit: Refit | None


def cheap_belief(
    context: BedContext, *, days_ahead: int, refit: bool = True, seed: int = 1
) -> CheapBelief:
    """The belief about a bed by one mixed layer.

    Parameters
    ----------
    days_ahead
        Days from today that the beds are run [d].
    refit
        False leaves earlier readings aside.
    seed
        Seed of the draws [number].

    Notes
    -----
    As :func:`loamshift.services.belief.belief.believe`, with a layer in place of the column:
    readings of a season together, the scale on nodes and integrated, errors by Student's t.
    """
    soil = require_soil(context)
    seasons = season_readings(context.case)
    shape = (CHEAP_SLICES, CHEAP_OTHERS)
    if len(seasons) < 2 or not refit:
        drawn = draw_members_of(context, (), soil=soil, members=CHEAP_OTHERS, seed=seed)
        beds = beds_of_one_layer(
            context,
            soil=soil,
            members=on_nodes(drawn, soil=soil, nodes_z=normal_slices(CHEAP_SLICES)).parameters,
            shape=shape,
            read=reading_day(context),
            days_ahead=days_ahead,
        )
        aside = set_aside(soil, seasons) if len(seasons) > 1 else None
        return CheapBelief(beds=beds, soil=soil, refit=aside)
    first = seasons[0]
    before = inside_the_curve(replace(soil, ph=first.belief))
    drawn, weights = _weighed(context, before, seasons, others=FITTED_OTHERS, seed=seed)
    if weights.effective_others < FEWEST_EFFECTIVE:
        many = REDRAWN_TIMES * FITTED_OTHERS
        drawn, weights = _weighed(context, before, seasons, others=many, seed=seed)
    chosen, z = equal_beds(weights, n_others=CHEAP_OTHERS, n_scale=CHEAP_SLICES)
    beds = beds_of_one_layer(
        context,
        soil=before,
        members=_members_after(before, drawn, chosen=chosen, z=z),
        shape=shape,
        read=first.day,
        days_ahead=days_ahead,
    )
    believed = replace(soil, k=scale_after(soil, weights))
    return CheapBelief(beds=beds, soil=believed, refit=told(context, soil, seasons, weights))


def _weighed(
    context: BedContext, soil: Soil, seasons: Sequence[SeasonReading], *, others: int, seed: int
) -> tuple[Members, Weights]:
    """Draws, and their weights by the readings after the first."""
    nodes = np.array(FITTED_NODES_Z)
    first, later = seasons[0], seasons[1:]
    drawn = draw_members_of(context, (), soil=soil, members=others, seed=seed)
    days, ph = ph_since(
        context,
        soil=soil,
        members=on_nodes(drawn, soil=soil, nodes_z=nodes).parameters,
        read=first.day,
    )
    at = [float((season.day - first.day).days) for season in later]
    predicted = np.stack([[np.interp(day, days, one) for day in at] for one in ph])
    weights = weigh_members(
        nodes,
        predicted.reshape(nodes.size, others, len(later)),
        read_ph=[season.ph_water for season in later],
        read_sd_ph=[season.belief.ph_water_sd for season in later],
        degrees=ERROR_DEGREES,
    )
    return drawn, weights


def _members_after(
    soil: Soil, drawn: Members, *, chosen: NDArray[np.int64], z: FloatArray
) -> MemberParameters:
    """The draws that carry the weight, each at the values of the scale that do."""
    kept = drawn.rows(chosen)
    tiled = on_nodes(kept, soil=soil, nodes_z=normal_slices(z.shape[0])).parameters
    scale = soil.k.log10_k_mean + soil.k.log10_k_sd * z.ravel()
    return at_scale(tiled, scale)
