"""The two loops over days that cannot be done array by array.

Over plain numbers, not compiled: they run once for a place, soil and watering, and loading the
compiler would take a hundred times as long. For many beds ``core.many_loops`` compiles the same
lines.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
Bucket = Callable[
    [
        FloatArray,
        FloatArray,
        NDArray[np.bool_],
        NDArray[np.int64],
        FloatArray,
        FloatArray,
        FloatArray,
    ],
    None,
]
"""A way to follow the days of a bucket, as ``run_bucket`` does."""

MOST_ROUNDS: Final = 200
STILL_MM: Final = 1.0e-9
"""Years repeat themselves where store and snow end within this of where they began [mm]."""


def wet_days_in_a_row(
    chance: FloatArray, share: FloatArray, after_dry: float, is_wet: NDArray[np.bool_]
) -> None:
    """Which days are wet, one year after the other.

    Parameters
    ----------
    chance
        Uniform numbers, shape (years, 365) [0-1].
    share
        Share of wet days at each day of the year, shape (365,) [0-1].
    after_dry
        Chance of a wet day after a dry one, over that share [1].
    is_wet
        Filled here, shape (years, 365) [truth].

    Notes
    -----
    A chain of two states; see ``rain_days.rain_days_mm``.

    References
    ----------
    geng-1986

    Examples
    --------
    >>> found = np.empty((1, 3), dtype=np.bool_)
    >>> wet_days_in_a_row(np.array([[0.1, 0.9, 0.4]]), np.full(3, 0.5), 0.6, found)
    >>> found.tolist()
    [[True, False, False]]
    """
    shares = share.tolist()
    wet = False
    for year, thrown in enumerate(chance.tolist()):
        row = []
        for common, number in zip(shares, thrown, strict=True):
            limit = after_dry * common + (1.0 - after_dry if wet else 0.0)
            wet = common > 0.0 and number < limit
            row.append(wet)
        is_wet[year] = row


def run_bucket(
    supply: FloatArray,
    potential: FloatArray,
    is_frozen: NDArray[np.bool_],
    month_days: NDArray[np.int64],
    surface: FloatArray,
    days: FloatArray,
    snows: FloatArray,
) -> None:
    """Years end to end until they repeat themselves.

    Parameters
    ----------
    supply
        Rain and watering, shape (years, 365) [mm/d].
    potential
        Evaporation of a wet surface, shape (365,) [mm/d].
    is_frozen
        Months whose water falls and lies as snow, shape (12,) [truth].
    month_days
        Days of each month, shape (12,) [d].
    surface
        Water that can evaporate, and the store below which it comes slower [mm].
    days
        Filled here with sums over the years: evaporation, drainage, store, shape (3, 365) [mm].
    snows
        Filled here with sums over the years of the snow at the end of each month, (12,) [mm].

    Notes
    -----
    What stands above the store drains on the day; a thaw melts evenly over its month.

    References
    ----------
    thornthwaite-1948, own-judgement

    Examples
    --------
    >>> days, snows = np.zeros((3, 365)), np.zeros(12)
    >>> run_bucket(np.full((1, 365), 2.0), np.full(365, 0.5), np.zeros(12, dtype=np.bool_),
    ...            np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]),
    ...            np.array([50.0, 25.0]), days, snows)
    >>> float(days[1].sum().round(6))
    547.5
    """
    drawn_mm, drained_mm, stored_mm = ([0.0] * potential.size for _ in range(3))
    snow_mm = [0.0] * snows.size
    bucket_years(
        supply.tolist(),
        potential.tolist(),
        is_frozen.tolist(),
        month_days.tolist(),
        surface.tolist(),
        drawn_mm,
        drained_mm,
        stored_mm,
        snow_mm,
    )
    days[:] = drawn_mm, drained_mm, stored_mm
    snows[:] = snow_mm


def bucket_years(
    years: Any,
    wished: Any,
    is_frozen: Any,
    lengths: Any,
    surface: Any,
    drawn_mm: Any,
    drained_mm: Any,
    stored_mm: Any,
    snow_mm: Any,
) -> None:
    """The loop of ``run_bucket``, over lists or, compiled, over arrays.

    Parameters
    ----------
    years
        Rain and watering by year and day [mm/d].
    wished
        Evaporation of a wet surface by day [mm/d].
    is_frozen
        Months whose water lies as snow [truth].
    lengths
        Days of each month [d].
    surface
        Water that can evaporate, and the store below which it comes slower [mm].
    drawn_mm
        Takes the sum of evaporation by day [mm].
    drained_mm
        Takes that of drainage [mm].
    stored_mm
        Takes that of the store [mm].
    snow_mm
        Takes that of the snow at the end of each month [mm].

    References
    ----------
    thornthwaite-1948, own-judgement

    Examples
    --------
    See :func:`run_bucket`.

    >>> drained = [0.0] * 365
    >>> bucket_years([[2.0] * 365], [0.5] * 365, [False] * 12,
    ...              [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31], [50.0, 25.0],
    ...              [0.0] * 365, drained, [0.0] * 365, [0.0] * 12)
    >>> round(sum(drained), 6)
    547.5
    """
    capacity, eased = surface[0], surface[1]
    store = capacity
    snow = 0.0
    for _ in range(MOST_ROUNDS):
        store_before, snow_before = store, snow
        for day in range(len(wished)):
            drawn_mm[day] = drained_mm[day] = stored_mm[day] = 0.0
        for month in range(len(lengths)):
            snow_mm[month] = 0.0
        for year in range(len(years)):
            fallen = years[year]
            first = 0
            for month in range(len(lengths)):
                length = lengths[month]
                if is_frozen[month]:
                    for day in range(first, first + length):
                        snow += fallen[day]
                        stored_mm[day] += store
                else:
                    melt = snow / length
                    for day in range(first, first + length):
                        store += fallen[day] + melt
                        drawn = wished[day] * store / eased if store < eased else wished[day]
                        drawn = min(drawn, store)
                        store -= drawn
                        drawn_mm[day] += drawn
                        if store > capacity:
                            drained_mm[day] += store - capacity
                            store = capacity
                        stored_mm[day] += store
                    snow = 0.0
                first += length
                snow_mm[month] += snow
        if abs(store - store_before) + abs(snow - snow_before) < STILL_MM:
            break
