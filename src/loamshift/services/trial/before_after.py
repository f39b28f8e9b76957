"""Beds read before a start and after it: what came after, set off from what each read before."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from loamshift.core.analysis.before_after import set_off
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.trial import TrialPlan
from loamshift.domain.trial_result import BareChange, PotReading, Problem, Trouble
from loamshift.errors import FitError

ByDay = Mapping[int, Sequence[PotReading]]


def set_off_by_day(
    plan: TrialPlan, by_day: ByDay
) -> tuple[dict[int, list[PotReading]], list[Problem]]:
    """Readings of the days after the start as if all beds had read the same before it.

    The day of the start itself is read before anything is put on. Empty where there is nothing to
    set them off from; what is missing is told.
    """
    days = sorted(by_day)
    read = {(day, one.pot): one for day in days for one in by_day[day]}
    labels = [
        place.label for place in plan.places if any((day, place.label) in read for day in days)
    ]
    values = np.array(
        [[read[day, pot].ph if (day, pot) in read else np.nan for day in days] for pot in labels]
    )
    is_before = np.array([day <= 0 for day in days], dtype=bool)
    if len({one.method for day in days for one in by_day[day]}) > 1:
        said = message("trial-methods-before-after")
        return {}, [Problem(kind=Trouble.TWO_METHODS, said=said, refuses=True)]
    try:
        even = set_off(values, is_before)
    except (FitError, IndexError):
        said = message("trial-no-before", count=0, beds=None)
        return {}, [Problem(kind=Trouble.NO_BEFORE, said=said, refuses=True)]
    after = [day for day in days if day > 0]
    found: dict[int, list[PotReading]] = {
        day: [
            replace(read[day, pot], ph=float(even[row, column]))
            for row, pot in enumerate(labels)
            if np.isfinite(even[row, column])
        ]
        for column, day in enumerate(after)
    }
    lost = [
        pot
        for row, pot in enumerate(labels)
        if not np.isfinite(values[row, is_before]).any() and np.isfinite(values[row]).any()
    ]
    if not lost:
        return _not_empty(found), []
    listed = Listed(tuple(Given(pot) for pot in lost))
    said = message("trial-no-before", count=len(lost), beds=listed)
    return _not_empty(found), [Problem(kind=Trouble.NO_BEFORE, said=said, refuses=True)]


def bare_changes(
    plan: TrialPlan, set_off_readings: Mapping[int, Sequence[PotReading]]
) -> tuple[BareChange, ...]:
    """How much more treated beds changed than untreated ones, where too few allow no interval."""
    of_pot = {place.label: place.treatment for place in plan.places}
    by_bed: dict[str, list[float]] = {}
    for readings in set_off_readings.values():
        for one in readings:
            by_bed.setdefault(one.pot, []).append(one.ph)
    means: dict[int, list[float]] = {}
    for pot, values in by_bed.items():
        means.setdefault(of_pot[pot], []).append(sum(values) / len(values))
    control = means.get(0, [])
    if not plan.trial.has_control or not control:
        return ()
    return tuple(
        BareChange(
            treatment=treatment.name,
            change=sum(means[number]) / len(means[number]) - sum(control) / len(control),
            n=len(means[number]),
            n_control=len(control),
        )
        for number, treatment in enumerate(plan.trial.treatments)
        if number and number in means and min(len(means[number]), len(control)) < 2
    )


def _not_empty(found: dict[int, list[PotReading]]) -> dict[int, list[PotReading]]:
    return {day: readings for day, readings in found.items() if readings}
