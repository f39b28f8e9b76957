"""What if: how dose and course answer to another aim or another first part, worked out ahead.

A page that follows a finger cannot wait for the column. It asks here once, for a handful of
amounts, and reads between them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnResult
from loamshift.core.ensemble import quantile_bands
from loamshift.domain.answer import Application, Direction, Dose, ForecastPh
from loamshift.domain.bed_context import BedContext, Target
from loamshift.errors import OutOfRangeError
from loamshift.services.belief.column_inputs import ForecastInputs, events_under, forecast_inputs
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, run
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.need import dose_to

SHARES: Final = (0.0, 0.25, 0.5, 0.75, 1.0, 1.3, 1.7, 2.2)
"""Shares of the plan that are run [0-1 and more]."""
AIM_STEP_PH: Final = 0.1
BEYOND_PH: Final = 0.5
"""How far past the range a slider may aim [pH]."""
SLIDER_MEMBERS: Final = 120
"""Members run for each share; the plan itself is always the full forecast [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AimStep:
    """The static dose to one aim: pure sulfur or lime [g/m2], acid by its middle [mmolc/kg]."""

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
    """Dose by aim, and course by share of the whole plan and of its first part alone."""

    direction: Direction
    ph_aim: float
    aims: tuple[AimStep, ...]
    dates: tuple[date, ...]
    whole_plan: tuple[ShareCourse, ...]
    first_part: tuple[ShareCourse, ...]


def what_if(
    context: BedContext,
    dose: Dose,
    applications: Sequence[Application],
    *,
    members: int = SLIDER_MEMBERS,
    seed: int = 1,
    years: int = 3,
) -> WhatIf | None:
    """How dose and course answer to another aim or another first part.

    Parameters
    ----------
    context
        The bed as understood [object].
    dose
        Its static dose [object].
    applications
        The recommended parts [objects].
    members
        Members run for each share [count].
    seed
        Seed of the draws, the same as the forecast's [number].
    years
        How far the courses go [years].

    Returns
    -------
    WhatIf or None
        Nothing where no dose was worked out or nothing goes on [object].

    References
    ----------
    own-arithmetic
    """
    target = context.target
    if context.soil is None or target is None or dose.direction is Direction.NONE:
        return None
    if not applications:
        return None
    inputs = forecast_inputs(context, applications, years=years, seed=seed, members=members)
    shares = SHARES if len(applications) > 1 else ()
    first = (inputs.today - inputs.start).days // DAYS_IN_WEEK
    whole = tuple(
        _course(inputs, [_scaled(part, share) for part in applications], share, first)
        for share in SHARES
    )
    alone = tuple(
        _course(inputs, [_scaled(applications[0], share), *applications[1:]], share, first)
        for share in shares
    )
    weeks = len(whole[0].ph.q50)
    return WhatIf(
        direction=dose.direction,
        ph_aim=target.ph_aim,
        aims=_aims(context, target, dose.direction),
        dates=tuple(inputs.today + timedelta(days=DAYS_IN_WEEK * week) for week in range(weeks)),
        whole_plan=whole,
        first_part=alone or whole,
    )


def _aims(context: BedContext, target: Target, direction: Direction) -> tuple[AimStep, ...]:
    """The dose to every tenth of a pH between the reading and a little past the range."""
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


def _scaled(part: Application, share: float) -> Application:
    return replace(part, rate_g_m2=part.rate_g_m2 * share)


def _course(
    inputs: ForecastInputs, parts: Sequence[Application], share: float, first: int
) -> ShareCourse:
    put_on = tuple(part for part in parts if part.rate_g_m2 > 0.0)
    events = events_under(inputs, put_on) if put_on else inputs.control_events
    result: ColumnResult = run(inputs, events)
    error = (inputs.retest_sd * inputs.members.reading_z)[:, None]
    read: NDArray[np.float64] = result.ph[:, first:] + error
    q05, q25, q50, q75, q95 = (
        tuple(float(value) for value in band) for band in quantile_bands(read)
    )
    return ShareCourse(share=share, ph=ForecastPh(q05=q05, q25=q25, q50=q50, q75=q75, q95=q95))
