"""What earlier readings taught about a bed: its soil, and how that is told."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from loamshift.core.member_weights import Weights, scale_quantiles
from loamshift.domain.answer import AcidScale, Band, Refit
from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import message
from loamshift.domain.soil import KBelief, Soil
from loamshift.services.belief.expected import latest_expected
from loamshift.services.belief.refit_words import Learned, refit_words
from loamshift.services.context.readings import SeasonReading

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
DOUBTED_SD: Final = 2.5
"""A reading farther than this from every likely bed is doubted [sd]."""
PRESSED_SHARE: Final = 0.03
PRESSED_WITHIN_Z: Final = 0.5
"""More weight than this share so near an end of the scale, and it is said [0-1; sd]."""
NEWS_SD_FRAC: Final = 0.97
"""Readings that leave more than this of the spread of the scale have taught nothing [0-1]."""


def scale_after(soil: Soil, weights: Weights) -> KBelief:
    """The scale of the buffer curve as it is believed after the readings.

    Parameters
    ----------
    soil
        The soil as it was believed before.
    """
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


def told(
    context: BedContext, soil: Soil, seasons: Sequence[SeasonReading], weights: Weights
) -> Refit:
    """What the readings taught, in figures and a sentence.

    Parameters
    ----------
    soil
        The soil as it was believed before.
    seasons
        Its readings by season, two or more.
    weights
        Weights of possible beds by the seasons after the first.
    """
    later = seasons[1:]
    sds = np.array([season.belief.ph_water_sd for season in later])
    read = np.array([season.ph_water for season in later])
    expected = np.einsum("fo,foj->j", weights.weight, weights.fitted_ph)
    missed = np.abs(read - expected) / sds
    scale = weights.of_scale
    mean = float(scale @ weights.z)
    sd = math.sqrt(max(float(scale @ (weights.z - mean) ** 2), 0.0))
    low, high = scale_quantiles(weights, (0.05, 0.95)).tolist()
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
        expected=latest_expected(weights, seasons, degrees=ERROR_DEGREES),
    )
    words, doubted = refit_words(learned)
    return Refit(
        used=True,
        readings=sum(len(season.readings) for season in seasons),
        acid_scale=AcidScale(
            prior=_band(soil, (-1.6449, 0.0, 1.6449)),
            now=_band(soil, (low, mean, high)),
        ),
        effective_members=weights.effective_others,
        doubted=doubted,
        words=words,
    )


def set_aside(soil: Soil, seasons: Sequence[SeasonReading]) -> Refit:
    """That earlier readings were left out because somebody asked for it."""
    band = _band(soil, (-1.6449, 0.0, 1.6449))
    return Refit(
        used=False,
        readings=sum(len(season.readings) for season in seasons),
        acid_scale=AcidScale(prior=band, now=band),
        effective_members=float(FITTED_OTHERS),
        doubted=(),
        words=message("refit-set-aside"),
    )


def _band(soil: Soil, z: Sequence[float]) -> Band:
    low, mid, high = (10.0 ** (soil.k.log10_k_mean + soil.k.log10_k_sd * one) for one in z)
    return Band(lo90=low, mid=mid, hi90=high)
