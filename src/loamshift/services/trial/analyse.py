"""What a trial shows: day by day, over time, by dose and by factor, beside what was expected."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loamshift.core.analysis.dose_slope import dose_slope
from loamshift.core.analysis.many_to_one import against_control, differences
from loamshift.core.analysis.over_time import average_means
from loamshift.core.analysis.treatment_means import treatment_means
from loamshift.domain.message import message
from loamshift.domain.trial import Design, Lack, Prediction, TrialPlan
from loamshift.domain.trial_result import (
    BareChange,
    DayResult,
    Difference,
    FactorEffect,
    Lot,
    PotReading,
    Problem,
    RowRead,
    Slope,
    TrialResult,
    Trouble,
)
from loamshift.errors import FitError
from loamshift.services.trial.before_after import bare_changes, set_off_by_day
from loamshift.services.trial.compare import (
    Pots,
    compare_day,
    disagreeing,
    lots_of,
    pots_of,
    rows_from,
)
from loamshift.services.trial.expect import digest_of
from loamshift.services.trial.understand import understand

FloatArray = NDArray[np.float64]


def analyse(
    plan: TrialPlan,
    rows: Sequence[RowRead],
    *,
    prediction: Prediction | None,
    found: Sequence[Problem] = (),
) -> TrialResult:
    """Everything a trial shows, and everything that was found wrong with its readings.

    ``found`` is what was found while the sheets were read. A forecast for another version of
    the trial is told of, and not compared.
    """
    understood = understand(plan, rows)
    problems = [*found, *understood.problems]
    if prediction is not None and prediction.digest != digest_of(plan.trial):
        problems.append(Problem(kind=Trouble.OTHER_FORECAST, said=message("trial-plain-changed")))
        prediction = None
    by_day = {
        day: [one for one in understood.readings if one.day == day]
        for day in sorted({one.day for one in understood.readings})
    }
    bare: tuple[BareChange, ...] = ()
    if plan.trial.design is Design.BEFORE_AFTER and by_day:
        by_day, told = set_off_by_day(plan, by_day)
        problems += told
        bare = bare_changes(plan, by_day)
    days: list[DayResult] = []
    for day, readings in by_day.items():
        result, odd = compare_day(plan, prediction, day, readings)
        days.append(result)
        problems += odd
    if days and plan.trial.replicates < 2:
        lack = Lack.REPLICATES.value
        said = message("trial-demonstration", lack=lack, unit=plan.trial.unit)
        problems.append(Problem(kind=Trouble.ONE_POT, said=said, refuses=True))
    answered = [one for one in days if one.rows]
    after = _days_after(answered)
    if len({one.method for one in answered}) > 1:
        said = message("trial-methods-over-time")
        problems.append(Problem(kind=Trouble.TWO_METHODS, said=said, refuses=True))
        after = []
    average: tuple[Difference, ...] = ()
    change: tuple[Difference, ...] = ()
    if len(after) > 1:
        average = _average(plan, by_day, after)
        problems += disagreeing(plan, average, day=None)
        change = _change(plan, by_day, first=after[0], last=after[-1])
    last = answered[-1].day if answered else None
    return TrialResult(
        plan=plan,
        prediction=prediction,
        readings=understood.readings,
        problems=tuple(dict.fromkeys(problems)),
        days=tuple(days),
        average=average,
        change=change,
        change_days=(after[0], after[-1]) if change else None,
        slope=_slope(plan, by_day, last),
        factors=_factors(plan, by_day, after or ([] if last is None else [last])),
        bare=bare,
        predicted_well=_predicted_well(answered),
    )


def _days_after(answered: Sequence[DayResult]) -> list[int]:
    return [one.day for one in answered if one.day > 0]


def _table(
    plan: TrialPlan, by_day: dict[int, list[PotReading]], days: Sequence[int]
) -> tuple[Pots | None, FloatArray]:
    """Readings of the pots that were read on any of these days, NaN where one is missing."""
    read = {day: {one.pot: one.ph for one in by_day[day]} for day in days}
    values = {pot: 0.0 for day in days for pot in read[day]}
    pots, _ = pots_of(plan, values, day=days[0])
    if pots is None:
        return None, np.empty((0, len(days)))
    rows = [[read[day].get(label, np.nan) for day in days] for label in pots.labels]
    return pots, np.array(rows, dtype=np.float64)


def _average(
    plan: TrialPlan, by_day: dict[int, list[PotReading]], days: Sequence[int]
) -> tuple[Difference, ...]:
    """Treatments by the average of the days after the start, the pot as a random effect."""
    pots, read = _table(plan, by_day, days)
    if pots is None:
        return ()
    try:
        fit = average_means(read, pots.treatment, pots.block)
        found = differences(
            fit.mean, fit.covariance, against_control(len(pots.kept)), df=fit.df, level=plan.level
        )
    except FitError:
        return ()
    lots = _lots_of_average(plan, pots, read, days)
    return rows_from(plan, pots, fit.mean, found, prediction=None, day=None, lots=lots)


def _lots_of_average(
    plan: TrialPlan, pots: Pots, read: FloatArray, days: Sequence[int]
) -> tuple[Lot, ...]:
    """The check of the average; none where a reading is missing, for pots are then not alike."""
    if not np.all(np.isfinite(read)):
        return ()
    return lots_of(plan, pots, read.mean(axis=1), day=sum(days))


def _change(
    plan: TrialPlan, by_day: dict[int, list[PotReading]], *, first: int, last: int
) -> tuple[Difference, ...]:
    """Treatments by how each pot changed between two days."""
    both = {one.pot for one in by_day[first]} & {one.pot for one in by_day[last]}
    values = {one.pot: one.ph for one in by_day[last] if one.pot in both}
    for one in by_day[first]:
        if one.pot in both:
            values[one.pot] -= one.ph
    pots, _ = pots_of(plan, values, day=last)
    if pots is None:
        return ()
    moved = np.array([values[label] for label in pots.labels])
    try:
        fit = treatment_means(moved, pots.treatment, pots.block)
        found = differences(
            fit.mean, fit.covariance, against_control(len(pots.kept)), df=fit.df, level=plan.level
        )
    except FitError:
        return ()
    return rows_from(plan, pots, fit.mean, found, prediction=None, day=None)


def _slope(plan: TrialPlan, by_day: dict[int, list[PotReading]], day: int | None) -> Slope | None:
    """How the pH follows the dose on the last day."""
    if plan.trial.design is not Design.DOSES or day is None:
        return None
    values = {one.pot: one.ph for one in by_day[day]}
    places = [place for place in plan.places if place.label in values]
    dose = np.array([plan.trial.treatments[p.treatment].rate_g_m2 for p in places]) / 100.0
    block = None
    if plan.trial.in_blocks:
        _, block = np.unique([place.block for place in places], return_inverse=True)
    try:
        found = dose_slope(
            np.array([values[place.label] for place in places]), dose, block, level=plan.level
        )
    except FitError:
        return None
    return Slope(day=day, per_100=found.slope, low=found.low, high=found.high, bend_p=found.bend_p)


def _factors(
    plan: TrialPlan, by_day: dict[int, list[PotReading]], days: Sequence[int]
) -> tuple[FactorEffect, ...]:
    """Effects of the levels of two factors, each averaged over the other, and how they combine."""
    trial = plan.trial
    if trial.design is not Design.TWO_FACTOR or not days:
        return ()
    pots, read = _table(plan, by_day, days)
    if pots is None or len(pots.kept) != trial.n_treatments:
        return ()
    names, contrasts = _factor_contrasts(plan)
    try:
        fit = average_means(read, pots.treatment, pots.block)
        found = differences(fit.mean, fit.covariance, contrasts, df=fit.df, level=plan.level)
    except FitError:
        return ()
    chances = found.p
    return tuple(
        FactorEffect(
            name=name,
            estimate=float(found.estimate[k]),
            low=float(found.low[k]),
            high=float(found.high[k]),
            p=float(chances[k]),
        )
        for k, name in enumerate(names)
    )


def _factor_contrasts(plan: TrialPlan) -> tuple[list[str], FloatArray]:
    """One contrast for each further level of a factor; for two by two also how they combine."""
    cells = [treatment.levels for treatment in plan.trial.treatments]
    names: list[str] = []
    rows: list[FloatArray] = []
    for factor in (0, 1):
        base = cells[0][factor]
        for level in dict.fromkeys(cell[factor] for cell in cells):
            if level == base:
                continue
            row = np.zeros(len(cells))
            row[[cell[factor] == level for cell in cells]] = 1.0
            row[[cell[factor] == base for cell in cells]] = -1.0
            names.append(f"{level} − {base}")
            rows.append(row / np.count_nonzero(row > 0.0))
    if len(rows) == 2:
        names.append(" × ".join(plan.trial.factors))
        rows.append(rows[0] * rows[1] * 4.0)
    return names, np.array(rows)


def _predicted_well(answered: Sequence[DayResult]) -> tuple[int, int]:
    """How many intervals meet the range of the forecast, of those after the start."""
    rows = [row for one in answered if one.day > 0 for row in one.rows if row.expected is not None]
    met = [
        row
        for row in rows
        if row.expected_low is not None
        and row.expected_high is not None
        and row.low <= row.expected_high
        and row.high >= row.expected_low
    ]
    return len(met), len(rows)
