"""Readings of a bed held against the forecasts that were issued before them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date
from statistics import NormalDist
from typing import Final

import numpy as np

from loamshift.core.scores import FloatArray, crps, share_below, values_from_quantiles
from loamshift.domain.case import Applied, Case
from loamshift.domain.score import (
    IssuedAs,
    IssuedForecast,
    LeftOut,
    ScoredPair,
    ScoredReading,
)
from loamshift.services.context.readings import ph_belief

LEVELS: Final = (0.05, 0.25, 0.5, 0.75, 0.95)
"""Share of a forecast below each of its quantiles [0-1]."""
_ONE_SD: Final = (NormalDist().cdf(-1.0), NormalDist().cdf(1.0))
"""Share of a normal quantity below one sd under its mean, and below one over it [0-1]."""
_AS_PLANNED: Final = (0.7, 1.4)
"""What was put on over what was planned, between which a plan counts as followed [1]."""


def scored_readings(case: Case) -> tuple[ScoredReading, ...]:
    """Every dated reading of a bed as pH in water with its error, the earliest first."""
    report = (case.soil.ph,) if case.soil.ph is not None else ()
    found = []
    for reading in (*report, *case.readings):
        if reading.taken is None:
            continue
        belief = ph_belief(reading)
        found.append(
            ScoredReading(
                on=reading.taken,
                ph=reading.ph,
                method=reading.method,
                ph_water=belief.ph_water,
                ph_water_sd=belief.ph_water_sd,
            )
        )
    return tuple(sorted(dict.fromkeys(found), key=lambda one: one.on))


def scored_pairs(
    case: Case, issued: Sequence[IssuedForecast], *, bed: str, bed_key: str = ""
) -> tuple[ScoredPair, ...]:
    """Every reading that a forecast had been issued for, with its score.

    Parameters
    ----------
    issued
        Forecasts of this bed, in any order.

    Returns
    -------
    tuple of ScoredPair
        By the day of the reading; what is left out of the count says why.

    Notes
    -----
    A reading belongs to the forecast issued last before its day; one of the same day went into
    that forecast. Each forecast counts once, by the first careful reading under it, for the
    readings of one bed under one forecast miss together.
    """
    ordered = sorted(issued, key=lambda one: (one.on, one.issued_as is IssuedAs.LETTER))
    pairs: list[ScoredPair] = []
    counted: set[str] = set()
    for read in scored_readings(case):
        before = [one for one in ordered if one.on < read.on]
        if not before or not before[-1].dates[0] <= read.on <= before[-1].dates[-1]:
            continue
        last = before[-1]
        left_out = None
        if read.method.is_rough:
            left_out = LeftOut.ROUGH
        elif not _as_planned(last, case.applied, read.on):
            left_out = LeftOut.OTHERWISE
        elif last.key in counted:
            left_out = LeftOut.AGAIN
        else:
            counted.add(last.key)
        pairs.append(_scored(last, read, left_out, bed=bed, bed_key=bed_key))
    return tuple(pairs)


def _as_planned(issued: IssuedForecast, applied: Sequence[Applied], day: date) -> bool:
    """Whether what the forecast takes as done by a day was put on, near enough."""
    planned = math.fsum(part.rate_g_m2 for part in issued.parts if part.on < day)
    put_on = math.fsum(one.rate_g_m2 for one in applied if issued.on <= one.on < day)
    done = max(put_on - issued.known_g_m2, 0.0)
    if planned == 0.0 or done == 0.0:
        return planned == done
    return _AS_PLANNED[0] <= done / planned <= _AS_PLANNED[1]


def _scored(
    issued: IssuedForecast,
    read: ScoredReading,
    left_out: LeftOut | None,
    *,
    bed: str,
    bed_key: str,
) -> ScoredPair:
    quantiles = quantiles_on(issued, read.on)
    values = values_from_quantiles(quantiles, levels_frac=LEVELS)
    held = issued.measured_sd or 0.0
    more = math.sqrt(max(read.ph_water_sd**2 - held**2, 0.0))
    ends = _ends(values, more)
    stays = None
    if issued.measured_ph is not None:
        both = math.hypot(held, read.ph_water_sd)
        stays = crps([issued.measured_ph], read_ph=read.ph_water, error_sd=both)
    return ScoredPair(
        bed=bed,
        bed_key=bed_key,
        issued=issued,
        read=read,
        quantiles=quantiles,
        low=ends[0],
        low50=ends[1],
        middle=ends[2],
        high50=ends[3],
        high=ends[4],
        error=read.ph_water - ends[2],
        share_below=share_below(values, read_ph=read.ph_water, error_sd=more),
        crps=crps(values, read_ph=read.ph_water, error_sd=more),
        crps_stays=stays,
        left_out=left_out,
    )


def quantiles_on(issued: IssuedForecast, day: date) -> tuple[float, ...]:
    """The quantiles of a forecast between the weeks on either side of a day [pH in water]."""
    later = next(week for week, on in enumerate(issued.dates) if on >= day)
    earlier = max(later - 1, 0)
    span = (issued.dates[later] - issued.dates[earlier]).days
    share = (day - issued.dates[earlier]).days / span if span else 1.0
    courses = (issued.ph.q05, issued.ph.q25, issued.ph.q50, issued.ph.q75, issued.ph.q95)
    return tuple(q[earlier] + share * (q[later] - q[earlier]) for q in courses)


def _ends(values: FloatArray, more_sd: float) -> list[float]:
    """Quantiles of values blurred by a further error [pH]."""
    if more_sd > 0.0:
        blur = values_from_quantiles((-more_sd, more_sd), levels_frac=_ONE_SD)
        values = np.add.outer(values, blur).ravel()
    return [float(one) for one in np.quantile(values, LEVELS, method="hazen")]
