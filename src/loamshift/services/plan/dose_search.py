"""The search for the least amount that has the median at the aim, within risk and limits."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import ceil, floor, log10
from typing import Final

import numpy as np

from loamshift.core.column_layout import ColumnResult
from loamshift.domain.answer import DoseLimit
from loamshift.services.belief.column_runs import events_before, run, shortened
from loamshift.services.plan.dose_bench import Bench, Trial
from loamshift.services.plan.part_dates import next_part
from loamshift.services.verdict.decision_table import SMALLEST_PART

CLOSE_PH: Final = 0.03
"""A median this near to the aim is at it; less than half the last digit a letter prints [pH]."""
_FEW_TRIES: Final = 4
_WHOLE_TRIES: Final = 4
_NARROW: Final = 0.015
"""A bracket this narrow against its upper end is closed [1]."""
_FALL_WITHIN: Final = 0.25
"""The fall is taken between trials at least this far apart, past the noise of few members [1]."""
_DIGITS: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What the search came to: the trial with all members, its dates, and what limits it.

    ``slope_ph_g_m2`` how fast the median on the date moves with the amount, positive
    [pH per g/m2]; ``control`` the run with nothing on, as long as that of the trial; ``is_near``
    where what is left to the aim makes no part of its own.
    """

    trial: Trial
    dates: list[date]
    by: date
    limited_by: DoseLimit
    slope_ph_g_m2: float
    control: ColumnResult
    is_near: bool


def search(bench: Bench) -> Found:
    """The least amount with the median at the aim, or the largest that is safe and allowed.

    Parameters
    ----------
    bench
        The bed prepared [object].

    Returns
    -------
    Found
        Amount, dates and limit [object].

    Notes
    -----
    The aim is the goal, not the near end of the range: with the median at the end every second
    possible bed would still lie outside. Fewest parts first: with as many as the limits ask for
    the room left falls as the amount grows, so the least amount at the aim and the
    largest within the risk are one root, that of the lesser room. It is bracketed with some of
    the members and settled with all, each the same bed in every trial. A last part too small to
    be worth a day is left out.
    """
    dates, near = [bench.first_day], False
    while True:
        most = bench.cap_g_m2 * len(dates)
        top = bench.attempt(most, dates)
        near = top.room_ph > 0.0 and _is_near_enough(bench, top)
        if near or top.room_ph <= 0.0:
            break
        further = next_part(bench, top.result, top.events, dates)
        if further is None:
            break
        dates.append(further)
    days = _run_days(bench, dates)
    inputs = shortened(bench.whole, days=days)
    control_events = events_before(inputs.control_events, day=days)
    control = run(inputs, control_events)
    nothing = bench.judged(0.0, dates, events=control_events, result=control)
    if nothing.room_ph <= 0.0:
        trial, slope = nothing, _slope(nothing, nothing, top)
    else:
        trial, slope = _root(bench, dates, nothing=nothing, top=top, days=days)
        if len(dates) > 1 and _last_part_frac(bench, trial, dates) < SMALLEST_PART:
            dates = dates[: max(1, ceil(trial.amount_g_m2 / bench.cap_g_m2 - SMALLEST_PART))]
            most = bench.cap_g_m2 * len(dates)
            trial = bench.attempt(_rounded(most), dates, whole=True, days=days)
    return Found(
        trial=trial,
        dates=dates,
        by=bench.wanted_by(dates),
        limited_by=_limit(bench, trial, dates, most=most),
        slope_ph_g_m2=slope,
        control=control,
        is_near=near,
    )


def _is_near_enough(bench: Bench, trial: Trial) -> bool:
    """True where what is left to the aim makes no part of its own."""
    if trial.amount_g_m2 <= 0.0:
        return False
    fall = (bench.distance_ph - trial.room_aim_ph) / trial.amount_g_m2
    return trial.room_aim_ph <= SMALLEST_PART * bench.cap_g_m2 * fall


def _last_part_frac(bench: Bench, trial: Trial, dates: list[date]) -> float:
    """The last part as a share of the largest that may go on at once; 0 or less for none."""
    return trial.amount_g_m2 / bench.cap_g_m2 - (len(dates) - 1)


def _run_days(bench: Bench, dates: list[date]) -> int:
    """All members run as long as the forecast shown, if that costs little more."""
    watched = bench.watched_days(dates)
    return bench.shown_days if watched <= bench.shown_days <= 2 * watched else watched


def _root(
    bench: Bench, dates: list[date], *, nothing: Trial, top: Trial, days: int
) -> tuple[Trial, float]:
    """The trial of all members nearest to no room left that keeps within the risk."""
    low, high = nothing, top
    amount = top.amount_g_m2
    if top.room_ph <= 0.0:
        low, high = _bracket(bench, dates, low=low, high=high)
        amount = _between(low, high)
    fall = _fall(nothing, low, high)
    best, least, most = nothing, 0.0, top.amount_g_m2
    for _ in range(_WHOLE_TRIES):
        trial = bench.attempt(_rounded(amount), dates, whole=True, days=days)
        safe = trial.room_risk_ph >= 0.0
        if safe and trial.room_aim_ph >= -CLOSE_PH and trial.amount_g_m2 > best.amount_g_m2:
            best = trial
        if safe and abs(trial.room_ph) <= CLOSE_PH:
            break
        if trial.room_ph > 0.0:
            least = trial.amount_g_m2
        else:
            most = trial.amount_g_m2
        if most - least <= _NARROW * most or fall <= 0.0:
            break
        wanted = trial.amount_g_m2 + (trial.room_ph - 0.4 * CLOSE_PH) / fall
        amount = wanted if least < wanted < most else 0.5 * (least + most)
    return best, _slope(nothing, low, high)


def _bracket(bench: Bench, dates: list[date], *, low: Trial, high: Trial) -> tuple[Trial, Trial]:
    """The root between two trials, closer, with some of the members."""
    amount = min(max(bench.guess_g_m2, 0.1 * high.amount_g_m2), 0.9 * high.amount_g_m2)
    for _ in range(_FEW_TRIES):
        trial = bench.attempt(amount, dates)
        if trial.room_ph > 0.0:
            low = trial
        else:
            high = trial
        if abs(trial.room_ph) < CLOSE_PH:
            break
        width = high.amount_g_m2 - low.amount_g_m2
        if width <= _NARROW * high.amount_g_m2:
            break
        inner = 0.05 * width
        amount = min(max(_between(low, high), low.amount_g_m2 + inner), high.amount_g_m2 - inner)
    return low, high


def _between(low: Trial, high: Trial) -> float:
    """Where the line through two trials has no room left [g/m2]."""
    fall = low.room_ph - high.room_ph
    if fall <= 0.0:
        return high.amount_g_m2
    share = low.room_ph / fall
    return low.amount_g_m2 + share * (high.amount_g_m2 - low.amount_g_m2)


def _fall(nothing: Trial, low: Trial, high: Trial) -> float:
    """How fast the room falls as more goes on, positive [pH per g/m2]."""
    if low.amount_g_m2 > (1.0 - _FALL_WITHIN) * high.amount_g_m2:
        low = nothing
    width = high.amount_g_m2 - low.amount_g_m2
    return max((low.room_ph - high.room_ph) / width, 0.0) if width > 0.0 else 0.0


def _slope(nothing: Trial, low: Trial, high: Trial) -> float:
    """How fast the median on the date moves between two trials, positive [pH per g/m2]."""
    if low.amount_g_m2 > (1.0 - _FALL_WITHIN) * high.amount_g_m2:
        low = nothing
    width = high.amount_g_m2 - low.amount_g_m2
    return max((low.room_aim_ph - high.room_aim_ph) / width, 0.0) if width > 0.0 else 0.0


def _limit(bench: Bench, trial: Trial, dates: list[date], *, most: float) -> DoseLimit:
    """What keeps the median from the aim, if anything does."""
    if trial.room_aim_ph <= 2.0 * CLOSE_PH:
        return DoseLimit.NONE
    if trial.amount_g_m2 < most * (1.0 - 2.0 * _NARROW):
        return DoseLimit.RISK
    week = bench.week_of(bench.wanted_by(dates))
    later = bench.sign * (np.median(trial.result.ph[:, week:], axis=0) - bench.target.ph_aim)
    more = bench.context.case.aim.by is not None and len(dates) < bench.most_parts
    return DoseLimit.DATE if more or bool((later <= 0.0).any()) else DoseLimit.CAPS


def _rounded(amount_g_m2: float) -> float:
    """An amount [g/m2] cut to three digits, so that a last bit never shows [g/m2]."""
    if amount_g_m2 <= 0.0:
        return 0.0
    places = _DIGITS - 1 - floor(log10(amount_g_m2))
    return round(floor(amount_g_m2 * 10.0**places + 1e-9) / 10.0**places, max(places, 0))
