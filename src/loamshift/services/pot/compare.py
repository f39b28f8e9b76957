"""Pot and ground side by side, by forecasts of both on the same seeds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.answer import Application, Decision, Direction, Upkeep
from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.pot import PlantingPlace, PlantingWay, PotOrGround
from loamshift.services.belief.belief import believe
from loamshift.services.courses.seasons import choose_material
from loamshift.services.plan.plan import Plan
from loamshift.services.pot.asked import not_compared, pots_needed
from loamshift.services.pot.potted import fresh_mix_ph, medium_of, potted, volume_of
from loamshift.services.pot.words import which_is_better
from loamshift.services.pot.work import (
    hours_of_ground,
    hours_of_pots,
    pots_and_mix,
    products,
    renewals,
)
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

YEARS: Final = 5
MOST_MEMBERS: Final = 250
DAYS_IN_YEAR: Final = 365.25
DAYS_IN_WEEK: Final = 7
HALF: Final = 0.5
_SAME_SHARE: Final = 0.03
"""Rainwater that brings no more of the pots into the range is not told by itself [0-1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """What goes on the ground within the years, and the share of beds in range each week."""

    applications: tuple[Application, ...]
    share: FloatArray
    unrenewed: FloatArray


def pot_or_ground(
    context: BedContext,
    judged: Judgement,
    plan: Plan,
    keeping: Upkeep | None,
    *,
    members: int,
    seed: int,
) -> PotOrGround | None:
    """Pot and ground side by side over five years; None where they are not compared.

    Parameters
    ----------
    context
        The bed, with its soil as it is believed.
    plan
        What goes on first, by the judgement on the ground.
    keeping
        How the ground is held; None where it is not to be.
    members
        Members of the column; no more than 250 are run [count].
    seed
        Seed of their draws, the same for both [number].

    Notes
    -----
    The ground follows its plan as a rule, with the tests, and is left alone where there is none.
    Beyond the end of what was judged its share is taken as held by the yearly amount of its upkeep,
    which counts in cost and work. Pots begin with fresh mix and are left to their water and
    fertiliser; where half have left the range after whole years, all of the mix is renewed then.
    Where the bed is left alone, near the range counts as in it, for both.
    The third that is replaced for its structure is counted in cost and work and not in the pH.

    References
    ----------
    own-judgement, rhs-containers
    """
    why = not_compared(context, decision=judged.decision, reason=judged.reason, forecast=True)
    if why is not None or context.target is None:
        return None
    few = min(members, MOST_MEMBERS)
    days = round(YEARS * DAYS_IN_YEAR) + DAYS_IN_WEEK
    ground = _ground(context, judged, plan, keeping, members=few, seed=seed, days=days)
    pot_context = potted(context)
    pots = believe(pot_context, members=few, seed=seed, days_ahead=days).beds
    low, high = _bounds(context.target, judged)
    tap = _in_range(pots.run(()).ph, low=low, high=high)
    rain = _in_range(pots.with_rain_water().run(()).ph, low=low, high=high)
    ways = [
        _ground_way(context, judged, ground),
        _pot_way(context, PlantingPlace.POT, tap),
        _pot_way(context, PlantingPlace.POT_WITH_RAINWATER, rain),
    ]
    if ways[2].share < ways[1].share + _SAME_SHARE:
        del ways[2]
    found = tuple(ways)
    return PotOrGround(
        years=YEARS,
        pots=pots_needed(context),
        volume_l=volume_of(context.case),
        medium=medium_of(context.case),
        mix_ph=fresh_mix_ph(context.target.ph_aim),
        water_known=context.case.water.alkalinity_mg_l_as_caco3 is not None,
        ways=found,
        words=which_is_better(judged, found),
    )


def _ground(
    context: BedContext,
    judged: Judgement,
    plan: Plan,
    keeping: Upkeep | None,
    *,
    members: int,
    seed: int,
    days: int,
) -> _Ground:
    assert context.target is not None
    low, high = _bounds(context.target, judged)
    beds = believe(context, plan.applications, members=members, seed=seed, days_ahead=days).beds
    alone = _in_range(beds.run(plan.applications).ph, low=low, high=high)
    if plan.ph is None:
        return _Ground(applications=(), share=alone, unrenewed=alone)
    held = _yearly(context, judged, plan, keeping, until=beds.days[-1])
    followed = _in_range(plan.ph, low=low, high=high)[: alone.size]
    share = np.pad(followed, (0, alone.size - followed.size), mode="edge")
    return _Ground(applications=(*plan.applications, *held), share=share, unrenewed=alone)


def _bounds(target: Target, judged: Judgement) -> tuple[float, float]:
    """What counts as in the range: near it too, where a bed is left because it is near enough."""
    near = verdict_values()["leave_gain_ph"] if judged.decision is Decision.LEAVE else 0.0
    return target.ph_low - near, target.ph_high + near


def _yearly(
    context: BedContext,
    judged: Judgement,
    plan: Plan,
    keeping: Upkeep | None,
    *,
    until: date,
) -> tuple[Application, ...]:
    """The yearly amount of the upkeep, from a year after the plan is done."""
    if keeping is None or plan.rule is None or judged.direction is Direction.NONE:
        return ()
    acidify = judged.direction is Direction.ACIDIFY
    amount = keeping.sulfur_as_s_g_m2_year if acidify else keeping.lime_as_caco3_g_m2_year
    if amount <= 0.0:
        return ()
    material, active = choose_material(context, acidify=acidify)
    last = max((one.date for one in plan.applications), default=context.case.today)
    return tuple(
        Application(
            date=day,
            material=material.key,
            rate_g_m2=amount / active,
            amount_g=None,
            incorporate_cm=0.0,
            only_if=None,
        )
        for day in _years_after(last, until=until)
    )


def _years_after(first: date, *, until: date) -> list[date]:
    days = (first + timedelta(days=round(n * DAYS_IN_YEAR)) for n in range(1, YEARS + 1))
    return [day for day in days if day < until]


def _in_range(ph: FloatArray, *, low: float, high: float) -> FloatArray:
    """Share of the beds in the range each week from today, shape (W,) [0-1]."""
    inside = (ph >= low) & (ph <= high)
    return np.asarray(inside.mean(axis=0), dtype=np.float64)


def _ground_way(context: BedContext, judged: Judgement, ground: _Ground) -> PlantingWay:
    works = judged.decision is not Decision.ELSEWHERE
    needs = products(context, ground.applications) if works else ()
    return PlantingWay(
        place=PlantingPlace.GROUND,
        works=works,
        in_range=tuple(_at_year(ground.share, year) for year in range(1, YEARS + 1)),
        share=float(ground.share.mean()),
        lasts_years=_lasts_years(ground.unrenewed),
        hours=hours_of_ground(context, ground.applications, years=YEARS) if works else None,
        cost=_sum_of([need.cost for need in needs]),
        currency=_currency(context, [need.material for need in needs if need.cost is not None]),
        needs=needs,
    )


def _pot_way(context: BedContext, place: PlantingPlace, share: FloatArray) -> PlantingWay:
    lasts = _lasts_years(share)
    every = YEARS if lasts is None else max(1, min(int(lasts), YEARS))
    renewed = renewals(every=every, years=YEARS)
    week = round(every * DAYS_IN_YEAR / DAYS_IN_WEEK)
    mean = float(share[: week + 1].mean())
    holds = mean >= parameter_values("pot")["holds_frac"] and (lasts is None or lasts >= 1.0)
    needs = pots_and_mix(context, renewed)
    return PlantingWay(
        place=place,
        works=holds,
        in_range=tuple(_at_year(share, (year - 1) % every + 1) for year in range(1, YEARS + 1)),
        share=mean,
        lasts_years=lasts,
        hours=hours_of_pots(context, renewed, years=YEARS),
        cost=_sum_of([need.cost for need in needs]),
        currency=context.case.currency,
        needs=needs,
    )


def _at_year(share: FloatArray, year: int) -> float:
    week = round(year * DAYS_IN_YEAR / DAYS_IN_WEEK)
    return float(share[min(week, share.size - 1)])


def _lasts_years(share: FloatArray) -> float | None:
    """Years from when half are in the range until fewer are; 0 for never, None for longer."""
    inside = share >= HALF
    if not inside.any():
        return 0.0
    first = int(np.argmax(inside))
    left = ~inside[first:]
    return float(np.argmax(left)) * DAYS_IN_WEEK / DAYS_IN_YEAR if left.any() else None


def _sum_of(costs: Sequence[float | None]) -> float | None:
    """What is priced, in all; None where nothing is [currency]."""
    known = [cost for cost in costs if cost is not None]
    return sum(known) if known else None


def _currency(context: BedContext, priced: Sequence[str | None]) -> str | None:
    """Currency of the products that have a price."""
    for item in context.case.on_hand:
        if item.material.key in priced:
            return item.currency
    return context.case.currency
