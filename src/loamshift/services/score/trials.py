"""Forecasts of trials held against what their treatments read, day by day."""

from __future__ import annotations

from collections import Counter
from typing import Final

from loamshift.domain.answer import ForecastPh
from loamshift.domain.ph import PhReading
from loamshift.domain.score import (
    BedFacts,
    IssuedAs,
    IssuedForecast,
    LeftOut,
    ScoredPair,
    ScoredReading,
)
from loamshift.domain.trial import Expected
from loamshift.domain.trial_result import PotReading, TrialResult
from loamshift.services.context.readings import ph_belief
from loamshift.services.score.pairs import scored_pair

_QUARTER: Final = 0.6745 / 1.6449
"""From the middle to a quarter, over that to the end of nine in ten, of a normal quantity [1]."""


def trial_pairs(result: TrialResult, *, bed: str, bed_key: str = "") -> tuple[ScoredPair, ...]:
    """What was forecast for each treatment of a trial, held against what it read.

    Returns
    -------
    tuple of ScoredPair
        By treatment and day; empty where no forecast was kept, or only after the readings.

    Notes
    -----
    One pair for each treatment and day after the start: the mean of its pots or plots, with the
    error of one reading, since one meter and one method read them all. Each treatment counts once,
    by its first day, as a forecast of a bed does; its further days are shown and left out. The
    kept forecast holds its middle and the ends of nine in ten, and the quarters are put between
    them as in a normal distribution.
    """
    prediction, trial = result.prediction, result.plan.trial
    if prediction is None:
        return ()
    of_pot = {place.label: place.treatment for place in result.plan.places}
    soil = trial.case.soil.ph
    pairs: list[ScoredPair] = []
    for number, treatment in enumerate(trial.treatments):
        counted = False
        for day in sorted({one.day for one in result.readings if one.day > 0}):
            said = prediction.of(treatment.name, day)
            readings = [
                one for one in result.readings if one.day == day and of_pot[one.pot] == number
            ]
            if said is None or not readings:
                continue
            read = _read(readings)
            if read.on <= prediction.made_on:
                continue
            left_out = LeftOut.ROUGH if read.method.is_rough else None
            if left_out is None and counted:
                left_out = LeftOut.AGAIN
            counted = counted or left_out is None
            issued = IssuedForecast(
                key=f"{prediction.digest}:{treatment.name}",
                title=trial.name,
                issued_as=IssuedAs.TRIAL,
                on=prediction.made_on,
                dates=(read.on,),
                ph=_quantiles(said),
                measured_ph=None if soil is None else ph_belief(soil).ph_water,
                measured_sd=None,
                facts=BedFacts(
                    bed_kind=trial.case.bed.kind.value, depth_cm=trial.case.bed.depth_cm
                ),
            )
            pairs.append(
                scored_pair(issued, read, left_out, bed=f"{bed}: {treatment.name}", bed_key=bed_key)
            )
    return tuple(pairs)


def _read(readings: list[PotReading]) -> ScoredReading:
    """The mean of a treatment on a day, on the day that most of it was read."""
    on = Counter(one.on for one in readings).most_common(1)[0][0]
    ph = sum(one.ph for one in readings) / len(readings)
    method = readings[0].method
    belief = ph_belief(PhReading(ph=ph, method=method))
    return ScoredReading(
        on=on, ph=ph, method=method, ph_water=belief.ph_water, ph_water_sd=belief.ph_water_sd
    )


def _quantiles(said: Expected) -> ForecastPh:
    low, high = said.ph - said.ph_low, said.ph_high - said.ph
    return ForecastPh(
        q05=(said.ph_low,),
        q25=(said.ph - _QUARTER * low,),
        q50=(said.ph,),
        q75=(said.ph + _QUARTER * high,),
        q95=(said.ph_high,),
    )
