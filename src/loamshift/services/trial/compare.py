"""One day of a trial: every treatment against the control, and what could not be answered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.analysis.dealt_again import dealt_again
from loamshift.core.analysis.many_to_one import Differences, against_control, differences
from loamshift.core.analysis.odd_readings import apart, exchanged
from loamshift.core.analysis.treatment_means import treatment_means
from loamshift.domain.message import Given, message
from loamshift.domain.message import ph as ph_of
from loamshift.domain.trial import Prediction, TrialPlan
from loamshift.domain.trial_result import (
    DayResult,
    Difference,
    Lot,
    PotReading,
    Problem,
    Shown,
    Trouble,
)
from loamshift.errors import FitError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]
MOST_TO_EXCHANGE = 60
"""With more pots than this no pair is looked for: it would take too long [count]."""


@dataclass(frozen=True, slots=True)
class Pots:
    """The pots of a comparison: numbers of those kept, their treatments and blocks from 0.

    ``kept`` are the treatments in the order they are numbered here.
    """

    labels: tuple[str, ...]
    treatment: IntArray
    block: IntArray | None
    kept: tuple[int, ...]


def compare_day(
    plan: TrialPlan, prediction: Prediction | None, day: int, readings: Sequence[PotReading]
) -> tuple[DayResult, list[Problem]]:
    """The differences of one day, with what is wrong with it."""
    first = readings[0]
    nothing = DayResult(
        day=day,
        on=first.on,
        method=first.method,
        control_mean=None,
        sd=None,
        df=None,
        rows=(),
    )
    values = {one.pot: one.ph for one in readings}
    pots, problems = pots_of(plan, values, day=day)
    if pots is None:
        return nothing, problems
    read = np.array([values[label] for label in pots.labels])
    if np.ptp(read) == 0.0:
        said = message("trial-all-equal", day=day, ph=ph_of(float(read[0])))
        return nothing, [*problems, Problem(kind=Trouble.ALL_EQUAL, said=said, refuses=True)]
    try:
        fit = treatment_means(read, pots.treatment, pots.block)
        found = differences(
            fit.mean,
            fit.covariance,
            against_control(len(pots.kept)),
            df=fit.df,
            level=plan.level,
        )
    except FitError:
        said = message("trial-no-error", day=day)
        return nothing, [*problems, Problem(kind=Trouble.NO_ERROR, said=said, refuses=True)]
    problems += _odd(plan, day, read, pots)
    lots = lots_of(plan, pots, read, day=day)
    rows = rows_from(plan, pots, fit.mean, found, prediction=prediction, day=day, lots=lots)
    problems += disagreeing(plan, rows, day=day)
    result = DayResult(
        day=day,
        on=first.on,
        method=first.method,
        control_mean=float(fit.mean[0]),
        sd=fit.sd,
        df=fit.df,
        rows=rows,
    )
    return result, problems


def pots_of(
    plan: TrialPlan, values: dict[str, float], *, day: int
) -> tuple[Pots | None, list[Problem]]:
    """The pots that can be compared: two or more of a treatment, and the control among them.

    Parameters
    ----------
    values
        Readings by label [pH].
    day
        The day they are of, for messages [d].
    """
    trial = plan.trial
    count = np.zeros(trial.n_treatments, dtype=int)
    for place in plan.places:
        count[place.treatment] += place.label in values
    problems = []
    for number, treatment in enumerate(trial.treatments):
        if count[number] < 2 <= trial.replicates:  # a demonstration is told of as a whole
            kind = Trouble.ONE_POT if count[number] else Trouble.NO_POT
            said = message(
                "trial-few-pots",
                trouble=kind.value,
                treatment=Given(treatment.name),
                day=day,
                control="yes" if number == 0 else "no",
                unit=trial.unit,
            )
            problems.append(Problem(kind=kind, said=said, refuses=True))
    kept = tuple(int(number) for number in np.flatnonzero(count >= 2))
    if len(kept) < 2 or kept[0] != 0:
        return None, problems
    places = [p for p in plan.places if p.label in values and p.treatment in kept]
    block = None
    if trial.in_blocks:
        _, block = np.unique([place.block for place in places], return_inverse=True)
        if int(block.max()) == 0:
            block = None
    pots = Pots(
        labels=tuple(place.label for place in places),
        treatment=np.array([kept.index(place.treatment) for place in places]),
        block=block,
        kept=kept,
    )
    return pots, problems


def rows_from(
    plan: TrialPlan,
    pots: Pots,
    mean: FloatArray,
    found: Differences,
    *,
    prediction: Prediction | None,
    day: int | None,
    lots: tuple[Lot, ...] = (),
) -> tuple[Difference, ...]:
    """Differences as rows, each with what the forecast said of that day, and what the lot says."""
    rows, chances = [], found.p
    for k, number in enumerate(pots.kept[1:]):
        name = plan.trial.treatments[number].name
        said = prediction.of(name, day) if prediction is not None and day is not None else None
        rows.append(
            Difference(
                treatment=name,
                mean=float(mean[k + 1]),
                n=int(np.count_nonzero(pots.treatment == k + 1)),
                estimate=float(found.estimate[k]),
                low=float(found.low[k]),
                high=float(found.high[k]),
                p=float(chances[k]),
                shown=_shown(found, k, matters_ph=plan.trial.matters_ph),
                expected=None if said is None else said.change,
                expected_low=None if said is None else said.change_low,
                expected_high=None if said is None else said.change_high,
                lot=lots[k] if lots else None,
            )
        )
    return tuple(rows)


def lots_of(plan: TrialPlan, pots: Pots, read: FloatArray, *, day: int) -> tuple[Lot, ...]:
    """What dealing out again says of each treatment; empty where nothing was dealt by lot."""
    if not plan.trial.by_lot:
        return ()
    found = []
    for k in range(1, len(pots.kept)):
        two = np.isin(pots.treatment, (0, k))
        dealt = dealt_again(
            read[two],
            pots.treatment[two] == k,
            None if pots.block is None else pots.block[two],
            rng=np.random.default_rng([plan.trial.seed, abs(day), pots.kept[k]]),
        )
        found.append(
            Lot(
                ways=dealt.ways,
                as_large=dealt.as_large,
                is_exact=dealt.is_exact,
                p=dealt.p,
                can_reach=dealt.can_reach,
            )
        )
    return tuple(found)


def disagreeing(plan: TrialPlan, rows: Sequence[Difference], *, day: int | None) -> list[Problem]:
    """Differences that are shown, and that the lot alone gives too often to be sure of."""
    limit = 1.0 - plan.level
    return [
        Problem(
            kind=Trouble.LOT_DISAGREES,
            said=message("trial-lot-disagrees", treatment=Given(row.treatment), day=day),
        )
        for row in rows
        if row.lot is not None
        and row.shown in (Shown.DIFFERS, Shown.DIFFERS_LITTLE)
        and row.lot.can_reach <= limit < row.lot.p
    ]


def _shown(found: Differences, k: int, *, matters_ph: float) -> Shown:
    is_small = -matters_ph < found.equal_low[k] and found.equal_high[k] < matters_ph
    differs = not found.low[k] <= 0.0 <= found.high[k]
    if differs:
        return Shown.DIFFERS_LITTLE if is_small else Shown.DIFFERS
    return Shown.EQUAL if is_small else Shown.OPEN


def _odd(plan: TrialPlan, day: int, read: FloatArray, pots: Pots) -> list[Problem]:
    """Pots that lie apart, and two whose readings fit better the other way round."""
    fit = treatment_means(read, pots.treatment, pots.block)
    names = [plan.trial.treatments[number].name for number in pots.kept]
    if read.size <= MOST_TO_EXCHANGE:
        pair = exchanged(read, pots.treatment, pots.block)
        if pair is not None:
            said = message(
                "trial-exchanged",
                unit=plan.trial.unit,
                day=day,
                first=Given(pots.labels[pair.first]),
                second=Given(pots.labels[pair.second]),
                one=Given(names[pots.treatment[pair.first]]),
                other=Given(names[pots.treatment[pair.second]]),
            )
            return [Problem(kind=Trouble.EXCHANGED, said=said)]
    return [
        Problem(
            kind=Trouble.APART,
            said=message(
                "trial-apart",
                unit=plan.trial.unit,
                day=day,
                pot=Given(pots.labels[place]),
                ph=ph_of(float(read[place])),
                treatment=Given(names[pots.treatment[place]]),
                mean=ph_of(float(fit.fitted[place])),
            ),
        )
        for place in apart(read, fit)
    ]
