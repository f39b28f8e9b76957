"""The water year of many soils of one place at once, beside ``rain_loops`` for one."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import DAYS_IN_MONTH, DAYS_IN_YEAR
from loamshift.core.column_compile import outermost
from loamshift.core.rain_loops import MOST_ROUNDS, STILL_MM

FloatArray = NDArray[np.float64]
_LANES: Final = 64


def water_days(
    made_mm: FloatArray,
    potential_mm: FloatArray,
    is_frozen: NDArray[np.bool_],
    *,
    watering_mm: FloatArray,
    evaporable_mm: FloatArray,
    eased_below_mm: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    """Drainage and store of each day of the mean year, for many soils under the same rain.

    Parameters
    ----------
    made_mm
        Rain of generated years, shape (years, 365) [mm/d].
    potential_mm
        Evaporation of a wet surface, shape (365,) [mm/d].
    is_frozen
        Months whose water falls and lies as snow, shape (12,) [truth].
    watering_mm
        Watering of January to December, shape (n, 12) [mm/month].
    evaporable_mm
        Water that can evaporate, shape (n,) [mm].
    eased_below_mm
        Store below which it comes slower, above 0, shape (n,) [mm].

    Returns
    -------
    tuple of ndarray
        Drainage and store, each of shape (n, 365) [mm].

    Notes
    -----
    The same years until they repeat themselves as ``rain_loops.run_bucket``, with the same bits;
    soils side by side, each with as many rounds as it needs.

    References
    ----------
    thornthwaite-1948, own-judgement

    Examples
    --------
    >>> drained, store = water_days(np.full((1, 365), 2.0), np.full(365, 0.5),
    ...     np.zeros(12, dtype=np.bool_), watering_mm=np.zeros((2, 12)),
    ...     evaporable_mm=np.array([50.0, 60.0]), eased_below_mm=np.array([25.0, 30.0]))
    >>> drained.sum(axis=1).round(6).tolist()
    [547.5, 547.5]
    """
    n = evaporable_mm.size
    month = np.repeat(np.arange(12), DAYS_IN_MONTH)
    frozen = np.asarray(is_frozen)[month]
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    given = (watering_mm / month_days)[:, month]
    drained, stored = np.empty((n, DAYS_IN_YEAR)), np.empty((n, DAYS_IN_YEAR))
    for first in range(0, n, _LANES):
        lanes = slice(first, min(n, first + _LANES))
        count = lanes.stop - lanes.start
        days = np.zeros((2, DAYS_IN_YEAR, count))
        _run(
            made_mm,
            np.ascontiguousarray(given[lanes].T),
            potential_mm,
            frozen,
            month.astype(np.int64),
            month_days,
            np.stack((evaporable_mm[lanes], eased_below_mm[lanes])),
            np.empty((5, count)),
            days,
            np.zeros((2, DAYS_IN_YEAR, count)),
        )
        drained[lanes], stored[lanes] = days[0].T, days[1].T
    years = made_mm.shape[0]
    return drained / years, stored / years


@outermost
def _run(
    made: FloatArray,
    given: FloatArray,
    wished: FloatArray,
    frozen: NDArray[np.bool_],
    month: NDArray[np.int64],
    month_days: FloatArray,
    surface: FloatArray,
    room: FloatArray,
    days: FloatArray,
    sums: FloatArray,
) -> None:
    """Soils side by side; ``days`` keeps the sums of the round in which each came to rest."""
    n = surface.shape[1]
    store, snow, before, fell, open_ = room[0], room[1], room[2], room[3], room[4]
    for j in range(n):
        store[j] = surface[0, j]
        snow[j] = 0.0
        open_[j] = 1.0
    for round_ in range(MOST_ROUNDS):
        for j in range(n):
            before[j] = store[j]
            fell[j] = snow[j]
        for day in range(sums.shape[1]):
            for j in range(n):
                sums[0, day, j] = 0.0
                sums[1, day, j] = 0.0
        for year in range(made.shape[0]):
            for day in range(sums.shape[1]):
                rain = made[year, day]
                if frozen[day]:
                    for j in range(n):
                        snow[j] += rain + given[day, j]
                        sums[1, day, j] += store[j]
                    continue
                length = month_days[month[day]]
                wish = wished[day]
                for j in range(n):
                    held = store[j] + ((rain + given[day, j]) + snow[j] / length)
                    drawn = wish * held / surface[1, j] if held < surface[1, j] else wish
                    held -= min(drawn, held)
                    over = max(0.0, held - surface[0, j])
                    held = min(held, surface[0, j])
                    store[j] = held
                    sums[0, day, j] += over
                    sums[1, day, j] += held
                if day + 1 == sums.shape[1] or month[day + 1] != month[day]:
                    for j in range(n):
                        snow[j] = 0.0
        left = 0
        for j in range(n):
            moved = abs(store[j] - before[j]) + abs(snow[j] - fell[j])
            if open_[j] > 0.0 and (moved < STILL_MM or round_ + 1 == MOST_ROUNDS):
                open_[j] = 0.0
                for day in range(sums.shape[1]):
                    days[0, day, j] = sums[0, day, j]
                    days[1, day, j] = sums[1, day, j]
            left += int(open_[j] > 0.0)
        if left == 0:
            return
