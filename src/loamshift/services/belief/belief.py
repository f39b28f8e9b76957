"""One belief about a bed: the possible beds, weighed by every reading there is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.member_weights import Weights, equal_beds, scale_quantiles, weigh_members
from loamshift.domain.answer import Application, Refit
from loamshift.domain.bed_context import BedContext
from loamshift.domain.soil import Soil
from loamshift.services.belief.column_inputs import draw_members_of, inputs_from, reading_day
from loamshift.services.belief.column_priors import Members
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, run
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
from loamshift.services.belief.possible_beds import (
    SCALE_SLICES,
    PossibleBeds,
    beds_before_readings,
)
from loamshift.services.belief.scale_nodes import inside_the_curve, on_nodes
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import SeasonReading, season_readings

FloatArray = NDArray[np.float64]

NODE_PROBABILITIES: Final = (0.002, 0.12, 0.5, 0.88, 0.998)
"""Where the nodes of the scale stand once readings are weighed [0-1]."""
LEAST_NODE_GAP_Z: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """The possible beds behind a case, and what the readings taught about them.

    ``soil`` is the bed's soil with the scale of its curve as it is believed now.
    """

    beds: PossibleBeds
    soil: Soil
    refit: Refit | None


def believe(
    context: BedContext,
    applications: Sequence[Application] = (),
    *,
    members: int,
    seed: int,
    days_ahead: int,
    refit: bool = True,
) -> Belief:
    """The possible beds behind a case.

    Answers which beds could lie behind everything the case says: soil facts, every reading with
    its error, and what was put on, watered and fed in between, run through the column.

    Parameters
    ----------
    members
        Members of the column, 25 or more [count].
    seed
        Seed of their draws [number].
    days_ahead
        Days from today that the beds are to be run [d].
    refit
        False leaves the earlier readings aside.

    Notes
    -----
    Everything but the buffer scale is drawn; the scale stands on nodes and is integrated, so it
    cannot collapse onto one value. Readings of one season share its scatter. The error is a
    Student t with five degrees of freedom. Where fewer than ten draws carry the weight four times
    as many are drawn; where that does not help, the readings are doubted before the soil is.

    References
    ----------
    own-judgement
    """
    soil = require_soil(context)
    seasons = season_readings(context.case)
    n_others = max(5, members // 5)
    if len(seasons) < 2 or not refit:
        beds = beds_before_readings(
            context,
            applications,
            soil=soil,
            read=reading_day(context),
            n_others=n_others,
            seed=seed,
            days_ahead=days_ahead,
        )
        aside = set_aside(soil, seasons) if len(seasons) > 1 else None
        return Belief(beds=beds, soil=soil, refit=aside)
    first, later = seasons[0], seasons[1:]
    before = inside_the_curve(replace(soil, ph=first.belief))
    n_fitted = FITTED_OTHERS
    drawn, weights = _weighed(
        context, applications, soil=before, first=first, later=later, others=n_fitted, seed=seed
    )
    if weights.effective_others < FEWEST_EFFECTIVE:
        drawn, weights = _weighed(
            context,
            applications,
            soil=before,
            first=first,
            later=later,
            others=REDRAWN_TIMES * n_fitted,
            seed=seed,
        )
    beds = _beds_after(
        context,
        applications,
        soil=before,
        first=first,
        drawn=drawn,
        weights=weights,
        n_others=n_others,
        days_ahead=days_ahead,
    )
    believed = replace(soil, k=scale_after(soil, weights))
    return Belief(beds=beds, soil=believed, refit=told(context, soil, seasons, weights))


def _weighed(
    context: BedContext,
    applications: Sequence[Application],
    *,
    soil: Soil,
    first: SeasonReading,
    later: Sequence[SeasonReading],
    others: int,
    seed: int,
) -> tuple[Members, Weights]:
    """Draws, and their weights by the readings after the first."""
    nodes = np.array(FITTED_NODES_Z)
    drawn = draw_members_of(context, applications, soil=soil, members=others, seed=seed)
    inputs = inputs_from(
        context,
        applications,
        soil=soil,
        read=first.day,
        members=on_nodes(drawn, soil=soil, nodes_z=nodes),
        days_ahead=DAYS_IN_WEEK,
    )
    result = run(inputs, inputs.control_events)
    days = [(season.day - inputs.start).days / DAYS_IN_WEEK for season in later]
    predicted = np.stack([_at_week(result.ph, week) for week in days], axis=1)
    weights = weigh_members(
        nodes,
        predicted.reshape(nodes.size, others, len(later)),
        read_ph=[season.ph_water for season in later],
        read_sd_ph=[season.belief.ph_water_sd for season in later],
        degrees=ERROR_DEGREES,
    )
    return drawn, weights


def _at_week(ph: FloatArray, week: float) -> FloatArray:
    """PH of each member between two readings of a run [pH]."""
    low = min(int(week), ph.shape[1] - 1)
    high = min(low + 1, ph.shape[1] - 1)
    return ph[:, low] + (week - int(week)) * (ph[:, high] - ph[:, low])


def _beds_after(
    context: BedContext,
    applications: Sequence[Application],
    *,
    soil: Soil,
    first: SeasonReading,
    drawn: Members,
    weights: Weights,
    n_others: int,
    days_ahead: int,
) -> PossibleBeds:
    chosen, z = equal_beds(weights, n_others=n_others, n_scale=SCALE_SLICES)
    nodes = scale_quantiles(weights, NODE_PROBABILITIES)
    steps = np.arange(nodes.size) * LEAST_NODE_GAP_Z
    nodes = np.maximum.accumulate(nodes - steps) + steps
    nodes = nodes + 1e-6 * np.arange(nodes.size)
    kept = drawn.rows(chosen)
    return PossibleBeds(
        inputs=inputs_from(
            context,
            applications,
            soil=soil,
            read=first.day,
            members=on_nodes(kept, soil=soil, nodes_z=nodes),
            days_ahead=days_ahead,
        ),
        nodes_z=nodes,
        z=np.clip(z, nodes[0], nodes[-1]),
    )
