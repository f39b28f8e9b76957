"""One belief about a bed: the possible beds, weighed by every reading there is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import MemberParameters
from loamshift.core.member_weights import Weights, equal_beds, scale_quantiles, weigh_members
from loamshift.domain.answer import AcidScale, Application, Band, Refit
from loamshift.domain.bed_context import BedContext
from loamshift.domain.soil import KBelief, Soil
from loamshift.services.belief.column_inputs import draw_members_of, inputs_from, reading_day
from loamshift.services.belief.column_priors import Members
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, run
from loamshift.services.belief.possible_beds import (
    SCALE_SLICES,
    PossibleBeds,
    beds_before_readings,
)
from loamshift.services.belief.refit_words import Learned, refit_words
from loamshift.services.belief.scale_nodes import on_nodes
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import SeasonReading, season_readings

FloatArray = NDArray[np.float64]

FITTED_NODES_Z: Final = (-3.6, -2.4, -1.2, 0.0, 1.2, 2.4, 3.8)
"""Nodes of the buffer scale where readings are weighed: they must reach a bed far off [sd]."""
FITTED_OTHERS: Final = 60
"""Draws of everything else where readings are weighed [count]."""
REDRAWN_TIMES: Final = 4
"""So many times more where few of them carry the weight [count]."""
FEWEST_EFFECTIVE: Final = 10.0
"""Fewer effective draws than this are drawn anew, and then doubted [count]."""
ERROR_DEGREES: Final = 5.0
"""Degrees of freedom of the error of a reading: outliers happen [1]."""
DOUBTED_SD: Final = 3.0
"""A reading farther than this from every likely bed is doubted [sd]."""
PRESSED_SHARE: Final = 0.03
PRESSED_WITHIN_Z: Final = 0.5
"""More weight than this share so near an end of the scale, and it is said [0-1; sd]."""
NODE_PROBABILITIES: Final = (0.002, 0.12, 0.5, 0.88, 0.998)
"""Where the nodes of the scale stand once readings are weighed [0-1]."""
LEAST_NODE_GAP_Z: Final = 0.05
NEWS_SD_FRAC: Final = 0.97
"""Readings that leave more than this of the spread of the scale have taught nothing [0-1]."""


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
    context
        A bed with a soil [object].
    applications
        What may go on, for the depths of the layers [objects].
    members
        Members of the column, 25 or more [count].
    seed
        Seed of their draws [number].
    days_ahead
        Days from today that the beds are to be run [d].
    refit
        False leaves the earlier readings aside [truth].

    Returns
    -------
    Belief
        Beds, soil and what was learned [object].

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
        told = _set_aside(soil, seasons) if len(seasons) > 1 else None
        return Belief(beds=beds, soil=soil, refit=told)
    first, later = seasons[0], seasons[1:]
    before = replace(soil, ph=first.belief)
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
    believed = replace(soil, k=_scale_after(soil, weights))
    return Belief(beds=beds, soil=believed, refit=_told(context, soil, seasons, weights))


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
    kept = Members(
        MemberParameters(
            **{
                field.name: getattr(drawn.parameters, field.name)[chosen]
                for field in fields(MemberParameters)
            }
        ),
        drawn.words,
        drawn.draws[chosen],
        drawn.reading_z[chosen],
    )
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


def _scale_after(soil: Soil, weights: Weights) -> KBelief:
    share = weights.of_scale
    mean = float(share @ weights.z)
    sd = math.sqrt(max(float(share @ (weights.z - mean) ** 2), 1e-4))
    believed = soil.k
    return replace(
        believed,
        log10_k_mean=believed.log10_k_mean + believed.log10_k_sd * mean,
        log10_k_sd=believed.log10_k_sd * sd,
        contributions=(*believed.contributions, "earlier readings of this bed"),
    )


def _told(
    context: BedContext, soil: Soil, seasons: Sequence[SeasonReading], weights: Weights
) -> Refit:
    later = seasons[1:]
    sds = np.array([season.belief.ph_water_sd for season in later])
    read = np.array([season.ph_water for season in later])
    expected = np.einsum("fo,foj->j", weights.weight, weights.fitted_ph)
    missed = np.abs(read - expected) / sds
    scale = weights.of_scale
    mean = float(scale @ weights.z)
    sd = math.sqrt(max(float(scale @ (weights.z - mean) ** 2), 0.0))
    ends = weights.z[0] + PRESSED_WITHIN_Z, weights.z[-1] - PRESSED_WITHIN_Z
    learned = Learned(
        times=10.0 ** (soil.k.log10_k_sd * mean),
        sd_left_frac=sd,
        news=sd < NEWS_SD_FRAC or abs(mean) > 1.0 - NEWS_SD_FRAC,
        pressed_low=float(scale[weights.z < ends[0]].sum()) > PRESSED_SHARE,
        pressed_high=float(scale[weights.z > ends[1]].sum()) > PRESSED_SHARE,
        fits_no_bed=weights.effective_others < FEWEST_EFFECTIVE,
        lime_open=soil.carbonate.is_possible and not soil.carbonate.measured,
        doubted=tuple(
            season for season, far in zip(later, missed, strict=True) if far > DOUBTED_SD
        ),
        only_rough=all(season.rough for season in seasons),
    )
    words, doubted = refit_words(learned, units=context.case.units)
    return Refit(
        used=True,
        readings=sum(len(season.readings) for season in seasons),
        acid_scale=AcidScale(
            prior=_band(soil, (-1.6449, 0.0, 1.6449)),
            now=_band(soil, scale_quantiles(weights, (0.05, 0.5, 0.95)).tolist()),
        ),
        effective_members=weights.effective_others,
        doubted=doubted,
        words=words,
    )


def _set_aside(soil: Soil, seasons: Sequence[SeasonReading]) -> Refit:
    band = _band(soil, (-1.6449, 0.0, 1.6449))
    return Refit(
        used=False,
        readings=sum(len(season.readings) for season in seasons),
        acid_scale=AcidScale(prior=band, now=band),
        effective_members=float(FITTED_OTHERS),
        doubted=(),
        words="Earlier readings were set aside on request: this answer goes by the latest alone.",
    )


def _band(soil: Soil, z: Sequence[float]) -> Band:
    low, mid, high = (10.0 ** (soil.k.log10_k_mean + soil.k.log10_k_sd * one) for one in z)
    return Band(lo90=low, mid=mid, hi90=high)
