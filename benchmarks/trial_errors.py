#!/usr/bin/env python3
"""How often trials err: 2,000 invented trials of each design, without an effect and with one.

    benchmarks/trial_errors.py             the table of docs/how-to/run-a-trial.md, in minutes
    benchmarks/trial_errors.py --few 200   the same from fewer trials

Prints for each design how often a trial without any effect shows one (wanted: 5 in 100), how often
all intervals hold the true differences (95 in 100), and how often a trial shows the smallest
difference that its design promises to show (80 in 100). Then how often the check by lot comes to
5 in 100 or less for one treatment that does nothing: at most so often, by the lot itself.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.analysis.before_after import set_off
from loamshift.core.analysis.dealt_again import dealt_again
from loamshift.core.analysis.dose_slope import dose_slope
from loamshift.core.analysis.many_to_one import against_control, differences
from loamshift.core.analysis.over_time import average_means
from loamshift.core.analysis.treatment_means import treatment_means
from loamshift.core.design.layout import shuffled
from loamshift.core.design.size import smallest_difference_ph

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]
LEVEL, POWER, SD_PH = 0.95, 0.8, 0.1
BED_SD_PH = 0.5
BLOCK_SD_PH, POT_SD_PH, DAY_SD_PH, LASTS = 0.3, 0.08, 0.05, 0.6
FACTORS = np.array([[-0.5, 0.5, -0.5, 0.5], [-0.5, -0.5, 0.5, 0.5], [1.0, -1.0, -1.0, 1.0]])


@dataclass(frozen=True)
class Kind:
    """A design: its size, how readings are made, and how they are compared.

    ``true`` are the true differences of a trial with something to find [pH].
    """

    name: str
    replicates: int
    treatments: int
    in_blocks: bool
    judge: Callable[[Kind, FloatArray, np.random.Generator], tuple[FloatArray, FloatArray]]
    contrasts: FloatArray
    has_power: bool = True
    lost: int = 0
    days: int = 1
    before: int = 0
    gaps: int = 0

    @property
    def promised_ph(self) -> float:
        """The smallest difference the design promises to show [pH]."""
        sd = SD_PH if self.days == 1 else float(np.sqrt(variance_of_average(self.days)))
        if self.before:
            sd = SD_PH * float(np.sqrt(1.0 / self.before + 1.0 / self.days))
        return smallest_difference_ph(
            sd_ph=sd,
            replicates=self.replicates,
            n_treatments=self.treatments,
            in_blocks=self.in_blocks,
            level=LEVEL,
            power=POWER,
        )


def variance_of_average(days: int) -> float:
    """Variance of the average of a pot over days whose errors fade slowly [pH2]."""
    lag = np.abs(np.subtract.outer(np.arange(days), np.arange(days)))
    return POT_SD_PH**2 + DAY_SD_PH**2 * float((LASTS**lag).mean())


def one_day(
    kind: Kind, effect: FloatArray, rng: np.random.Generator
) -> tuple[FloatArray, FloatArray]:
    """Ends of the intervals of one trial read once."""
    treatment, block = laid_out(kind, rng)
    read = 7.0 + effect[treatment] + rng.normal(0.0, SD_PH, treatment.size)
    if block is not None:
        read += rng.normal(0.0, BLOCK_SD_PH, kind.replicates)[block]
    if kind.lost:
        kept = np.sort(np.argsort(treatment, kind="stable")[kind.lost :])
        treatment, read = treatment[kept], read[kept]
        block = None if block is None else block[kept]
    fit = treatment_means(read, treatment, block)
    found = differences(fit.mean, fit.covariance, kind.contrasts, df=fit.df, level=LEVEL)
    return found.low, found.high


def over_days(
    kind: Kind, effect: FloatArray, rng: np.random.Generator
) -> tuple[FloatArray, FloatArray]:
    """Ends of the intervals of the average over days, errors of a pot fading slowly."""
    treatment, block = laid_out(kind, rng)
    error = np.empty((treatment.size, kind.days))
    error[:, 0] = rng.normal(0.0, DAY_SD_PH, treatment.size)
    for day in range(1, kind.days):
        fresh = rng.normal(0.0, DAY_SD_PH, treatment.size)
        error[:, day] = LASTS * error[:, day - 1] + np.sqrt(1.0 - LASTS**2) * fresh
    read = 7.0 + effect[treatment][:, None] + error
    read += rng.normal(0.0, POT_SD_PH, treatment.size)[:, None]
    for _ in range(kind.gaps):
        read[rng.integers(treatment.size), rng.integers(kind.days)] = np.nan
    fit = average_means(read, treatment, block)
    found = differences(fit.mean, fit.covariance, kind.contrasts, df=fit.df, level=LEVEL)
    return found.low, found.high


def before_after(
    kind: Kind, effect: FloatArray, rng: np.random.Generator
) -> tuple[FloatArray, FloatArray]:
    """Ends of the intervals of changes since before, of beds that differ from the start."""
    treatment, _ = laid_out(kind, rng)
    read = 7.0 + rng.normal(0.0, SD_PH, (treatment.size, kind.before + kind.days))
    read += rng.normal(0.0, BED_SD_PH, treatment.size)[:, None]
    is_before = np.arange(read.shape[1]) < kind.before
    read += 0.2 * ~is_before  # the season, alike for all
    read[:, ~is_before] += effect[treatment][:, None]
    for _ in range(kind.gaps):
        read[rng.integers(treatment.size), rng.integers(kind.before, read.shape[1])] = np.nan
    fit = average_means(set_off(read, is_before), treatment)
    found = differences(fit.mean, fit.covariance, kind.contrasts, df=fit.df, level=LEVEL)
    return found.low, found.high


def by_dose(
    kind: Kind, effect: FloatArray, rng: np.random.Generator
) -> tuple[FloatArray, FloatArray]:
    """Ends of the interval of a slope; the effect is that of each step of dose."""
    treatment, block = laid_out(kind, rng)
    read = 7.0 + effect[treatment] + rng.normal(0.0, SD_PH, treatment.size)
    found = dose_slope(read, treatment.astype(np.float64), block, level=LEVEL)
    return np.array([found.low]), np.array([found.high])


def laid_out(kind: Kind, rng: np.random.Generator) -> tuple[IntArray, IntArray | None]:
    """A fresh layout: treatment and block of each place."""
    treatment = shuffled(
        replicates=kind.replicates,
        n_treatments=kind.treatments,
        in_blocks=kind.in_blocks,
        rng=rng,
    )
    blocks = np.repeat(np.arange(kind.replicates), kind.treatments)
    return treatment, blocks if kind.in_blocks else None


STEP = np.array([[-1.0, 1.0, 0.0, 0.0, 0.0]])
KINDS = (
    Kind("randomised, 3 treatments and control, 5 pots", 5, 4, False, one_day, against_control(4)),
    Kind("randomised, 1 treatment and control, 3 pots", 3, 2, False, one_day, against_control(2)),
    Kind(
        "randomised, 5 pots, 2 of the control lost",
        *(5, 4, False, one_day, against_control(4)),
        has_power=False,
        lost=2,
    ),
    Kind("blocks, 3 treatments and control, 5 blocks", 5, 4, True, one_day, against_control(4)),
    Kind("paired, 6 pairs", 6, 2, True, one_day, against_control(2)),
    Kind("strips, 2 treatments and control, 4 blocks", 4, 3, True, one_day, against_control(3)),
    Kind("two-factor, 2 by 2, 4 pots", 4, 4, False, one_day, FACTORS, has_power=False),
    Kind("dose series, 5 doses, 4 pots: slope", 4, 5, False, by_dose, STEP, has_power=False),
    Kind("average of 5 days, 4 pots", 4, 4, False, over_days, against_control(4), days=5),
    Kind(
        "average of 5 days, 1 treatment and control, 5 pots, 3 readings missing",
        *(5, 2, False, over_days, against_control(2)),
        has_power=False,
        days=5,
        gaps=3,
    ),
    Kind(
        "before and after, 4 beds of each, 3 days before and 4 after",
        *(4, 2, False, before_after, against_control(2)),
        days=4,
        before=3,
    ),
    Kind(
        "before and after, 2 treatments and control, 3 beds, 2 days before and 3 after",
        *(3, 3, False, before_after, against_control(3)),
        days=3,
        before=2,
    ),
)


@dataclass(frozen=True)
class Deal:
    """One treatment and its control, checked by lot; ``skewed`` errors are exponential."""

    name: str
    pots: int
    in_blocks: bool = False
    lost: int = 0
    skewed: bool = False


DEALS = (
    Deal("randomised, 4 pots", 4),
    Deal("randomised, 5 pots", 5),
    Deal("randomised, 5 pots, errors far from normal", 5, skewed=True),
    Deal("randomised, 10 pots, 9,999 deals drawn", 10),
    Deal("randomised, 6 pots, 2 of the control lost", 6, lost=2),
    Deal("6 pairs or blocks", 6, in_blocks=True),
    Deal("8 pairs or blocks, errors far from normal", 8, in_blocks=True, skewed=True),
)


def dealt(deal: Deal, *, trials: int) -> float:
    """Share of trials without an effect in which the check comes to 5 in 100 or less [0-1]."""
    rng = np.random.default_rng(2026)
    few = 0
    for _ in range(trials):
        treatment = shuffled(
            replicates=deal.pots, n_treatments=2, in_blocks=deal.in_blocks, rng=rng
        )
        block = np.repeat(np.arange(deal.pots), 2) if deal.in_blocks else None
        error = rng.exponential(SD_PH, treatment.size) if deal.skewed else None
        read = 7.0 + (rng.normal(0.0, SD_PH, treatment.size) if error is None else error)
        if block is not None:
            read += rng.normal(0.0, BLOCK_SD_PH, deal.pots)[block]
        kept = np.sort(np.argsort(treatment, kind="stable")[deal.lost :])
        found = dealt_again(
            read[kept],
            treatment[kept] == 1,
            None if block is None else block[kept],
            rng=rng,
        )
        few += found.p <= 1.0 - LEVEL
    return few / trials


def tried(kind: Kind, *, trials: int) -> tuple[float, float, float | None]:
    """Shares of trials [0-1]: an effect shown where none is, all intervals right, power."""
    rng = np.random.default_rng(2026)
    none = np.zeros(kind.treatments)
    some = 0.13 * np.arange(kind.treatments, dtype=np.float64)
    true = kind.contrasts @ some
    wrong = right = shown = 0
    for _ in range(trials):
        low, high = kind.judge(kind, none, rng)
        wrong += bool(np.any((low > 0.0) | (high < 0.0)))
        low, high = kind.judge(kind, some, rng)
        right += bool(np.all((low <= true) & (true <= high)))
    if not kind.has_power:
        return wrong / trials, right / trials, None
    one = none.copy()
    one[-1] = -kind.promised_ph
    for _ in range(trials):
        _, high = kind.judge(kind, one, rng)
        shown += bool(high[-1] < 0.0)
    return wrong / trials, right / trials, shown / trials


def main(arguments: list[str]) -> int:
    """Print the table; 1 where a figure lies outside what is wanted."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--few", type=int, default=2000, metavar="TRIALS")
    trials = parser.parse_args(arguments).few
    print("| design | effect shown where none is | all intervals right | power, promised 80% |")
    print("|---|---|---|---|", flush=True)
    outside = False
    for kind in KINDS:
        wrong, right, power = tried(kind, trials=trials)
        said = "" if power is None else f"{100 * power:.1f}%"
        print(f"| {kind.name} | {100 * wrong:.1f}% | {100 * right:.1f}% | {said} |", flush=True)
        outside |= not (0.035 <= wrong <= 0.065 and 0.935 <= right <= 0.965)
        outside |= power is not None and abs(power - POWER) > 0.03
    print("\n| check by lot | at 5 in 100 or less where nothing was done |")
    print("|---|---|", flush=True)
    for deal in DEALS:
        share = dealt(deal, trials=trials)
        print(f"| {deal.name} | {100 * share:.1f}% |", flush=True)
        outside |= share > 0.065
    return int(outside)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
