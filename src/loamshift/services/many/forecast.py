"""How the pH of many beds will move under plans already made, in blocks of beds."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_many import ManyResults, ManyRuns, run_many
from loamshift.core.ensemble import BAND_PROBABILITIES
from loamshift.domain.answer import Application
from loamshift.errors import OutOfRangeError
from loamshift.services.belief.column_inputs import DAYS_IN_YEAR
from loamshift.services.belief.column_runs import DAYS_IN_WEEK
from loamshift.services.many.forecast_beds import ManyBeds
from loamshift.services.many.forecast_inputs import ready_blocks

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

BLOCK_BEDS: Final = 256
"""Beds worked on at a time on the processor: some 60 MB for two years of 64 members [count]."""


class Device(StrEnum):
    """Where the column runs."""

    CPU = "cpu"
    CUDA = "cuda"


@dataclass(frozen=True, slots=True, kw_only=True)
class ManyForecasts:
    """What the beds will do from today on; B beds, T weekly readings, today the first.

    ``ph`` (B, 5, T) bands at ``BAND_PROBABILITIES`` of the beds themselves, without the error of
    a reading [pH in water]; ``oxidised_frac`` (B, T) median share of the sulfur put on [0-1];
    ``balance_error`` (B,) the worst of all members [share of all acid moved].
    """

    ph: FloatArray
    oxidised_frac: FloatArray
    balance_error: FloatArray


def forecast_many(
    beds: ManyBeds,
    plans: Sequence[Sequence[Application]],
    *,
    seeds: IntArray,
    years: int = 2,
    members: int = 64,
    device: Device = Device.CPU,
    threads: int = 1,
) -> ManyForecasts:
    """The course of the pH of many beds, each under a plan already made.

    Parameters
    ----------
    plans
        Dated applications of each bed; none for a bed left alone.
    seeds
        Seed of each bed, shape (B,); the same bed and seed give the same forecast [number].
    years
        How long from today, 1 to 50 [years].
    members
        Possible beds behind each, 1 or more [count].
    device
        Where the column runs; nothing falls back from one to the other.
    threads
        Threads on the processor that share the beds [count].

    Raises
    ------
    DeviceError
        Where the card is not there, is too small or was lost.
    OutOfRangeError
        For years outside 1 to 50, or a bed whose members gave no number.

    Notes
    -----
    On the processor the bits of each bed do not hang on the block, its order, the threads or the
    beds beside it. The prior alone: earlier readings of a bed but the last are left aside.
    """
    run = _runner(device, threads)
    weeks = round(years * DAYS_IN_YEAR) // DAYS_IN_WEEK + 1
    found = ManyForecasts(
        ph=np.empty((beds.n_beds, len(BAND_PROBABILITIES), weeks)),
        oxidised_frac=np.empty((beds.n_beds, weeks)),
        balance_error=np.empty(beds.n_beds),
    )
    for block in ready_blocks(beds, plans, seeds=seeds, years=years, members=members):
        results = run(block.runs)
        for first in np.unique(block.first_week):
            rows = np.nonzero(block.first_week == first)[0]
            where = block.which[rows]
            found.ph[where] = bands(results.ph[rows, :, first:])
            found.oxidised_frac[where] = median(results.oxidised_frac[rows, :, first:])
        found.balance_error[block.which] = results.balance_error
    return found


def bands(ph: FloatArray) -> FloatArray:
    """The bands of each bed on each day.

    Parameters
    ----------
    ph
        By bed, member and day, shape (n, M, T) [pH].

    Returns
    -------
    ndarray
        Shape (n, 5, T), at ``BAND_PROBABILITIES`` [pH].

    Notes
    -----
    Linear between the sorted members, as ``core.ensemble.quantile_bands``; sorted once for all.
    """
    ordered = np.sort(np.ascontiguousarray(ph.transpose(0, 2, 1)), axis=2)
    made = [_between(ordered, share) for share in BAND_PROBABILITIES]
    return np.stack(made, axis=1)


def median(values: FloatArray) -> FloatArray:
    """The median of the members of each bed on each day.

    Parameters
    ----------
    values
        By bed, member and day, shape (n, M, T) [any unit].

    Returns
    -------
    ndarray
        Shape (n, T) [the same unit].
    """
    return _between(np.sort(np.ascontiguousarray(values.transpose(0, 2, 1)), axis=2), 0.5)


def _between(ordered: FloatArray, share: float) -> FloatArray:
    """The value at a share of the way through the sorted last axis."""
    place = share * (ordered.shape[2] - 1)
    below = min(int(place), max(0, ordered.shape[2] - 2))
    above = min(below + 1, ordered.shape[2] - 1)
    low, high = ordered[:, :, below], ordered[:, :, above]
    return np.asarray(low + (high - low) * (place - below), dtype=np.float64)


def _runner(device: Device, threads: int) -> Callable[[ManyRuns], ManyResults]:
    if threads < 1:
        raise OutOfRangeError(f"threads = {threads} must be 1 or more")
    if device is Device.CUDA:
        from loamshift.core.column_many_cuda import run_many_cuda

        return run_many_cuda
    return lambda runs: run_many(runs, threads=threads)
