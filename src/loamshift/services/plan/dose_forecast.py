"""The amount and the plan by the forecast, beside the static dose."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.answer import Application, Decision, Dose, DoseByForecast
from loamshift.domain.bed_context import BedContext
from loamshift.services.belief.column_runs import DAYS_IN_WEEK, events_before, shortened
from loamshift.services.forecast.outlook import Outlook, forecast, outlook
from loamshift.services.plan.dose_bench import Bench, bench_of
from loamshift.services.plan.dose_reasons import reasons
from loamshift.services.plan.dose_search import Found, search
from loamshift.services.plan.part_dates import reacted_frac, retests, too_early_before
from loamshift.services.plan.parts import NO_PLAN, Plan, dated_parts
from loamshift.services.verdict.decision_table import Outcome

FloatArray = NDArray[np.float64]

ACTING = (Decision.GO, Decision.EFFORT, Decision.MEASURE_FIRST)
"""Decisions that come with a plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """What looking ahead adds: the amount by the forecast or None, the plan, its forecast."""

    by_forecast: DoseByForecast | None
    plan: Plan
    outlook: Outlook


def look_ahead(
    context: BedContext, outcome: Outcome, dose: Dose, *, members: int, seed: int, years: int
) -> Ahead:
    """The plan by the forecast and the forecast of that plan.

    Parameters
    ----------
    context
        A bed with a soil [object].
    outcome
        The decision on it, which stays [object].
    dose
        The static dose, which stays beside [object].
    members
        Members of the forecast, 3 or more [count].
    seed
        Seed of its draws [number].
    years
        Years shown; the search looks as far as it needs [years].

    Returns
    -------
    Ahead
        Amount, plan and forecast; the bed left alone where nothing should go on [object].
    """
    bench = bench_of(context, outcome, dose, members=members, seed=seed, years=years)
    if bench is None:
        alone = forecast(context, (), members=members, seed=seed, years=years)
        return Ahead(by_forecast=None, plan=NO_PLAN, outlook=alone)
    acting = outcome.decision in ACTING
    if not acting:  # no plan hangs on it, so some of the members will do
        bench = replace(bench, whole=bench.few)
    found = search(bench)
    reacted = reacted_frac(bench, found.trial.result, found.trial.events)
    told = _told(bench, found, reacted)
    if not acting:
        alone = forecast(context, (), members=members, seed=seed, years=years)
        return Ahead(by_forecast=told, plan=NO_PLAN, outlook=alone)
    plan = _plan(bench, found, reacted)
    return Ahead(
        by_forecast=told,
        plan=plan,
        outlook=_outlook(bench, found, plan.applications, years=years, seed=seed, members=members),
    )


def _told(bench: Bench, found: Found, reacted: FloatArray) -> DoseByForecast:
    result, target = found.trial.result, bench.target
    week = bench.week_of(found.by)
    then = result.ph[:, week]
    inside = (then >= target.ph_low) & (then <= target.ph_high)
    medians = np.median(result.ph, axis=0)[bench.today_week :]
    there = (medians >= target.ph_low) & (medians <= target.ph_high)
    first = bench.day_of(bench.today_week + int(np.argmax(there))) if there.any() else None
    amount = found.trial.amount_g_m2
    past = bench.closest_to_far(result, found.dates) < 0.0
    return DoseByForecast(
        sulfur_as_s_g_m2=amount if bench.acidify else None,
        lime_as_caco3_g_m2=None if bench.acidify else amount,
        by=found.by,
        limited_by=found.limited_by,
        share_in_range=float(inside.mean()),
        share_past_limit=float(past.mean()),
        median_ph_by=float(np.median(then)),
        median_in_range_on=first,
        because=reasons(bench, found, reacted=reacted, static_g_m2=bench.guess_g_m2),
    )


def _plan(bench: Bench, found: Found, reacted: FloatArray) -> Plan:
    amount, dates = found.trial.amount_g_m2, found.dates
    if amount <= 0.0:
        return Plan((), None, (found.by,))
    early = too_early_before(bench, found.trial.result, found.control, reacted, dates)
    tests = retests(bench, reacted, dates, too_early=early)
    parts = dated_parts(
        bench.context,
        bench.target,
        bench.material,
        bench.active_frac,
        bench.sizes(amount, len(dates)),
        dates,
        tests,
        acidify=bench.acidify,
    )
    return Plan(parts, early, tuple(sorted(set(tests))))


def _outlook(
    bench: Bench,
    found: Found,
    applications: tuple[Application, ...],
    *,
    years: int,
    seed: int,
    members: int,
) -> Outlook:
    """The forecast of the plan, from the last run of the search where that reaches so far."""
    shown = bench.shown_days
    run_days = DAYS_IN_WEEK * (found.control.ph.shape[1] - 1)
    if run_days < shown // DAYS_IN_WEEK * DAYS_IN_WEEK:
        return forecast(bench.context, applications, members=members, seed=seed, years=years)
    inputs = shortened(bench.whole, days=shown)
    plan = found.trial.result if applications else found.control
    events = found.trial.events if applications else inputs.control_events
    return outlook(inputs, plan, found.control, events=events_before(events, day=shown), days=shown)
