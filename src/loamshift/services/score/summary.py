"""What some scored readings show together, and whether they are enough to show anything."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import fmean
from typing import Final

from loamshift.core.scores import chance_interval, share_interval, skill
from loamshift.domain.score import (
    Calibration,
    IssuedAs,
    LeftOut,
    ScoredPair,
    ScoreSummary,
    Shown,
)

STATED: Final = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9)
"""Widths of the middle ranges that are looked at [0-1]."""
_NINE_IN_TEN: Final = 0.9
FEW: Final = 20
"""Fewer readings than this are said to prove nothing: of 20 forecasts that say nine in ten rightly,
chance alone leaves as few as 15 inside, or all [count]."""


def score_summary(pairs: Sequence[ScoredPair]) -> ScoreSummary:
    """How good forecasts were over some readings.

    Parameters
    ----------
    pairs
        Readings with their scores, those that are left out among them.
    """
    counted = [pair for pair in pairs if pair.left_out is None]
    left = [pair.left_out for pair in pairs]
    compared = [pair for pair in counted if pair.crps_stays is not None]
    stays = [pair.crps_stays for pair in compared if pair.crps_stays is not None]
    inside_90 = sum(pair.is_inside_90 for pair in counted)
    ours = [pair.crps for pair in compared]
    return ScoreSummary(
        count=len(counted),
        beds=len({pair.bed_key or pair.bed for pair in counted}),
        rough=left.count(LeftOut.ROUGH),
        otherwise=left.count(LeftOut.OTHERWISE),
        again=left.count(LeftOut.AGAIN),
        hindcast=sum(pair.issued.issued_as is IssuedAs.HINDCAST for pair in counted),
        shown=_shown(inside_90, len(counted)),
        inside_50=sum(pair.is_inside_50 for pair in counted),
        inside_90=inside_90,
        share_90=share_interval(inside_90, len(counted)) if counted else None,
        mean_error=fmean(pair.error for pair in counted) if counted else None,
        mean_off=fmean(abs(pair.error) for pair in counted) if counted else None,
        crps=fmean(pair.crps for pair in counted) if counted else None,
        compared=len(compared),
        crps_compared=fmean(ours) if ours else None,
        crps_stays=fmean(stays) if stays else None,
        skill=skill(ours, against_ph=stays) if stays else None,
        calibration=tuple(_calibration(counted, stated) for stated in STATED) if counted else (),
    )


def _shown(inside: int, of: int) -> Shown:
    if of == 0:
        return Shown.NOTHING
    if of < FEW:
        return Shown.FEW
    low, high = share_interval(inside, of)
    if high < _NINE_IN_TEN:
        return Shown.NARROW
    return Shown.WIDE if low > _NINE_IN_TEN else Shown.AGREES


def _calibration(pairs: Sequence[ScoredPair], stated: float) -> Calibration:
    inside = sum(abs(pair.share_below - 0.5) <= 0.5 * stated for pair in pairs)
    low, high = chance_interval(stated, len(pairs))
    return Calibration(stated=stated, inside=inside, share=inside / len(pairs), low=low, high=high)
