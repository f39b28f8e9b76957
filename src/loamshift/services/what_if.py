"""What if: how the amount and the course answer to another aim or another first application.

A page that follows a finger cannot wait for the column. It asks here once, for a handful of
shares of the plan, and reads between them.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.dose_surface import DoseSurface
from loamshift.domain.answer import Direction, ForecastPh
from loamshift.domain.bed_context import BedContext, Target
from loamshift.errors import OutOfRangeError
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.need import dose_to
from loamshift.services.forecast.outlook import Outlook, reading_bands
from loamshift.services.forecast.reach import beyond_forecast
from loamshift.services.look import Look, look_with_column

FloatArray = NDArray[np.float64]

SHARES: Final = (0.0, 0.25, 0.5, 0.75, 1.0, 1.3, 1.7, 2.2)
"""Shares of the plan that are told, as far as the beds were run [0-1 and more]."""
WITHIN_FRAC: Final = 0.9
"""A share is told where at least so many beds get no more than was run [0-1]."""
AIM_STEP_PH: Final = 0.1
BEYOND_PH: Final = 0.5
"""How far past the range a slider may aim [pH]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AimStep:
    """The amount by the curve for one aim: pure sulfur or lime [g/m2]."""

    ph_aim: float
    lo90_g_m2: float
    mid_g_m2: float
    hi90_g_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareCourse:
    """The course of the pH with a share of the plan [1 is the plan]."""

    share: float
    ph: ForecastPh


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """Amount by aim, and course by share of the whole plan and of its first season alone."""

    direction: Direction
    ph_aim: float
    aims: tuple[AimStep, ...]
    dates: tuple[date, ...]
    whole_plan: tuple[ShareCourse, ...]
    first_part: tuple[ShareCourse, ...]


def what_if(context: BedContext, *, members: int, seed: int, years: int) -> WhatIf | None:
    """How the amount and the course answer to another aim or another first application.

    Parameters
    ----------
    members
        Members of the column, as many as the answer has [count].
    seed
        Seed of the draws, that of the answer [number].
    years
        How far the courses go [years].

    Notes
    -----
    The same beds, belief and simulation as the answer: the whole plan is its forecast. Each bed
    gets a share of what the rule gives it; with another first application its later ones stay.

    References
    ----------
    own-arithmetic
    """
    if context.soil is None or context.target is None or beyond_forecast(context) is not None:
        return None
    return what_if_of(
        look_with_column(context, members=members, seed=seed, years=years, refit=True)
    )


def what_if_of(look: Look) -> WhatIf | None:
    """The same from a look by the column that was taken already.

    Returns
    -------
    WhatIf or None
        None where nothing is to be put on, or no plant is named.
    """
    target = look.context.target
    rule, courses, outlook = look.judged.rule, look.judged.courses, look.outlook
    if target is None or rule is None or courses is None or outlook is None:
        return None
    surface = courses.surface
    amounts = rule.amounts_g_m2
    season = 0 if rule.first_g_m2 > 0.0 else min(1, amounts.shape[0] - 1)
    return WhatIf(
        direction=look.judged.direction,
        ph_aim=target.ph_aim,
        aims=_aims(look.context, target, look.judged.direction),
        dates=outlook.forecast.dates,
        whole_plan=tuple(
            _course(surface, outlook, amounts * share, share)
            for share in _shares_within(surface, amounts)
        ),
        first_part=tuple(
            _course(surface, outlook, _with_share(amounts, share, season=season), share)
            for share in _shares_within(surface, amounts)
        ),
    )


def _shares_within(surface: DoseSurface, amounts_g_m2: FloatArray) -> tuple[float, ...]:
    most = float(np.quantile(amounts_g_m2.sum(axis=0), WITHIN_FRAC))
    top = float(surface.amounts_g_m2[-1])
    return tuple(share for share in SHARES if share <= 1.0 or share * most <= top)


def _with_share(amounts_g_m2: FloatArray, share: float, *, season: int) -> FloatArray:
    """The amounts with a share of those of one season."""
    changed = amounts_g_m2.copy()
    changed[season] *= share
    return changed


def _course(
    surface: DoseSurface, outlook: Outlook, amounts_g_m2: FloatArray, share: float
) -> ShareCourse:
    days = len(outlook.forecast.dates)
    ph = surface.course(tuple(amounts_g_m2))[:, :days]
    return ShareCourse(share=share, ph=reading_bands(ph, error_ph=outlook.reading_error_ph))


def _aims(context: BedContext, target: Target, direction: Direction) -> tuple[AimStep, ...]:
    """The amount to every tenth of a pH between the reading and a little past the range."""
    start = require_soil(context).ph.ph_water
    if direction is Direction.ACIDIFY:
        low, high = min(target.ph_low, target.ph_aim) - BEYOND_PH, start
    else:
        low, high = start, max(target.ph_high, target.ph_aim) + BEYOND_PH
    steps: list[AimStep] = []
    count = max(round((high - low) / AIM_STEP_PH), 1)
    for number in range(count + 1):
        aim = round(low + number * AIM_STEP_PH, 2)
        if abs(aim - target.ph_aim) <= 0.5 * AIM_STEP_PH:
            aim = target.ph_aim  # the aim itself is one of the steps
        if steps and steps[-1].ph_aim == aim:
            continue
        try:
            band = dose_to(context, aim, acidify=direction is Direction.ACIDIFY)
        except OutOfRangeError:
            continue
        steps.append(
            AimStep(ph_aim=aim, lo90_g_m2=band.lo90, mid_g_m2=band.mid, hi90_g_m2=band.hi90)
        )
    return tuple(steps)
