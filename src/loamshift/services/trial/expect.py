"""What the forecast says of a trial before anybody reads a pot."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.bed_context import BedContext
from loamshift.domain.trial import Expected, Prediction, Trial
from loamshift.services.context.build_context import build_context
from loamshift.services.forecast.reach import beyond_forecast

FloatArray = NDArray[np.float64]

TRIAL_MEMBERS: Final = 200
"""Possible beds run for each treatment, as many as for a claim [count]."""
SERIES: Final = (0, 1, 3, 9, 30, 90, 180, 365)
"""Days that could be read, each about three times the last."""
_SETTLED_PH: Final = 0.05
"""A course that has this much left to go is as good as there [pH]."""
_MOVES_PH: Final = 0.02
"""A course that moved less since the last reading is not worth another [pH]."""
_EARLIEST_END: Final = 30
"""No trial ends before it has been seen that nothing more comes [d]."""
_OUTER: Final = (0.05, 0.95)


def predict(
    trial: Trial, *, today: date, version: str, members: int = TRIAL_MEMBERS
) -> Prediction | None:
    """The forecast of every treatment, in the possible beds of the trial's soil.

    Parameters
    ----------
    today
        The day it is made.
    version
        What made it.
    members
        How many possible beds are run for each treatment, 3 or more [count].

    Returns
    -------
    Prediction or None
        None for a soil that the forecast does not reach, such as a peat mix.
    """
    context = _context(trial)
    if context.soil is None or beyond_forecast(context) is not None:
        return None
    courses = _courses(context, trial, members=members)
    rows = [
        _expected(treatment.name, day, after[:, day], alone[:, day])
        for treatment, (after, alone) in zip(trial.treatments, courses, strict=True)
        for day in trial.days
        if 0 <= day < after.shape[1]
    ]
    return Prediction(
        digest=digest_of(trial),
        made_on=today,
        version=version,
        seed=trial.seed,
        rows=tuple(rows),
        days_advised=_days_advised([after - alone for after, alone in courses]),
    )


def digest_of(trial: Trial) -> str:
    """A digest of what a forecast was made for: soil, treatments, days; not of names or words."""
    bed = trial.case.bed
    facts = {
        "start": trial.start,
        "days": trial.days,
        "treatments": [
            [one.name, *((entry.material.key, entry.rate_g_m2) for entry in one.adds)]
            for one in trial.treatments
        ],
        "design": trial.design,
        "replicates": trial.replicates,
        "in_blocks": trial.in_blocks,
        **({} if trial.by_lot else {"by_lot": False}),
        "seed": trial.seed,
        "soil": dataclasses.asdict(trial.case.soil),
        "bed": [bed.kind, bed.area_m2, bed.depth_cm],
        "water": dataclasses.asdict(trial.case.water),
    }
    text = json.dumps(facts, default=str, sort_keys=True)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def doses_to_span(trial: Trial, *, ph_to: float, count: int) -> tuple[float, ...]:
    """Doses of the material of a dose series from nothing to a quarter past a pH.

    Parameters
    ----------
    ph_to
        The pH that the series should reach [pH in water].
    count
        How many doses, nothing among them, 3 or more [count].

    Returns
    -------
    tuple of float
        Rates, evenly spaced and rounded to two digits; empty where the material goes the other
        way [g/m2].
    """
    from loamshift.services.claim.settle import acid_needed_mmolc_m2
    from loamshift.services.materials.acid import acid_brought_mmolc_m2

    material = next(entry.material for one in trial.treatments for entry in one.adds)
    aimed = replace(trial.case, aim=replace(trial.case.aim, plants=(), target_ph=ph_to))
    context = build_context(aimed)
    needed = acid_needed_mmolc_m2(context)
    brought = acid_brought_mmolc_m2(
        material, rate_g_m2=1.0, in_pot=context.in_pot, land_use=context.nitrogen_use
    )
    if needed * brought <= 0.0:
        return ()
    top = 1.25 * needed / brought
    return tuple(float(f"{top * step / (count - 1):.2g}") for step in range(count))


def _context(trial: Trial) -> BedContext:
    """The bed of the trial, which knows every labelled product in it."""
    adds = tuple(entry for one in trial.treatments for entry in one.adds)
    return build_context(replace(trial.case, claims=adds))


def _courses(
    context: BedContext, trial: Trial, *, members: int
) -> list[tuple[FloatArray, FloatArray]]:
    """The pH of every treatment with and without what goes on, by member and day."""
    from loamshift.services.claim.course import treated_ph  # loads the compiler

    found: list[tuple[FloatArray, FloatArray] | None] = [
        treated_ph(context, one.adds, members=members, seed=trial.seed) if one.adds else None
        for one in trial.treatments
    ]
    known = next(pair for pair in found if pair is not None)
    return [(known[1], known[1]) if pair is None else pair for pair in found]


def _expected(name: str, day: int, after: FloatArray, alone: FloatArray) -> Expected:
    low, middle, high = np.quantile(after, (_OUTER[0], 0.5, _OUTER[1]))
    less, change, more = np.quantile(after - alone, (_OUTER[0], 0.5, _OUTER[1]))
    return Expected(
        treatment=name,
        day=day,
        ph=float(middle),
        ph_low=float(low),
        ph_high=float(high),
        change=float(change),
        change_low=float(less),
        change_high=float(more),
    )


def _days_advised(changes: Sequence[FloatArray]) -> tuple[int, ...]:
    """Days on which something has moved since the last, up to the one after all has settled."""
    middles = [np.median(change, axis=0) for change in changes]
    settled = next(
        (
            place
            for place, day in enumerate(SERIES)
            if day >= _EARLIEST_END
            and all(np.all(np.abs(one[day:] - one[-1]) < _SETTLED_PH) for one in middles)
        ),
        len(SERIES) - 1,
    )
    days = [SERIES[0]]
    for place, day in enumerate(SERIES[1 : settled + 2], start=1):
        moved = max(float(np.ptp(one[days[-1] : day + 1])) for one in middles)
        if moved >= _MOVES_PH or place >= settled:
            days.append(day)
    return tuple(days)
