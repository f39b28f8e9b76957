"""Readings of a bed held against the forecasts that were issued before them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date
from typing import Final

from loamshift.core.scores import crps
from loamshift.domain.case import Applied, Case
from loamshift.domain.score import (
    IssuedAs,
    IssuedForecast,
    LeftOut,
    ScoredPair,
    ScoredReading,
)
from loamshift.services.context.readings import ph_belief
from loamshift.services.score.held import held_against

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
        pairs.append(scored_pair(last, read, left_out, bed=bed, bed_key=bed_key))
    return tuple(pairs)


def _as_planned(issued: IssuedForecast, applied: Sequence[Applied], day: date) -> bool:
    """Whether what the forecast takes as done by a day was put on, near enough."""
    planned = math.fsum(part.rate_g_m2 for part in issued.parts if part.on < day)
    put_on = math.fsum(one.rate_g_m2 for one in applied if issued.on <= one.on < day)
    done = max(put_on - issued.known_g_m2, 0.0)
    if planned == 0.0 or done == 0.0:
        return planned == done
    return _AS_PLANNED[0] <= done / planned <= _AS_PLANNED[1]


def scored_pair(
    issued: IssuedForecast,
    read: ScoredReading,
    left_out: LeftOut | None,
    *,
    bed: str,
    bed_key: str,
) -> ScoredPair:
    """A reading held against a forecast for its day; ``left_out`` says why it does not count."""
    held_sd = issued.measured_sd or 0.0
    held = held_against(
        issued.dates,
        issued.ph,
        on=read.on,
        read_ph=read.ph_water,
        read_sd=read.ph_water_sd,
        held_sd=held_sd,
    )
    low, low50, middle, high50, high = held.ends
    stays = None
    if issued.measured_ph is not None:
        both = math.hypot(held_sd, read.ph_water_sd)
        stays = crps([issued.measured_ph], read_ph=read.ph_water, error_sd=both)
    return ScoredPair(
        bed=bed,
        bed_key=bed_key,
        issued=issued,
        read=read,
        quantiles=held.quantiles,
        low=low,
        low50=low50,
        middle=middle,
        high50=high50,
        high=high,
        error=read.ph_water - middle,
        share_below=held.share_below,
        crps=held.crps,
        crps_stays=stays,
        left_out=left_out,
    )
