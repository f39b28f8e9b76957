#!/usr/bin/env python3
"""How often trials err: 2,000 invented trials of each design, without an effect and with one.

    benchmarks/trial_errors.py             the table of docs/how-to/run-a-trial.md, in minutes
    benchmarks/trial_errors.py --few 200   the same from fewer trials

Prints for each design how often a trial without any effect shows one (wanted: 5 in 100), how often
all intervals hold the true differences (95 in 100), and how often a trial shows the smallest
difference that its design promises to show (80 in 100).
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.analysis.dose_slope import dose_slope
from loamshift.core.analysis.many_to_one import against_control, differences
from loamshift.core.analysis.over_time import average_means
from loamshift.core.analysis.treatment_means import treatment_means
from loamshift.core.design.layout import shuffled
from loamshift.core.design.size import smallest_difference_ph

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]
LEVEL, POWER, SD_PH = 0.95, 0.8, 0.1
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
    gaps: int = 0

    @property
    def promised_ph(self) -> float:
        """The smallest difference the design promises to show [pH]."""
        sd = SD_PH if self.days == 1 else float(np.sqrt(variance_of_average(self.days)))
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
)


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
    return int(outside)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
