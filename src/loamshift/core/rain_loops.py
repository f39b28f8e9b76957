"""The two loops over days that cannot be done array by array.

Over plain numbers, not compiled: they run once for a place, soil and watering, and loading the
compiler would take a hundred times as long.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

_MOST_ROUNDS: Final = 200
_STILL_MM: Final = 1.0e-9
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
    capacity, eased = surface.tolist()
    months = list(zip(is_frozen.tolist(), month_days.tolist(), strict=True))
    wished = potential.tolist()
    years = supply.tolist()
    store = capacity
    snow = 0.0
    for _ in range(_MOST_ROUNDS):
        before = (store, snow)
        drawn_mm, drained_mm, stored_mm = ([0.0] * len(wished) for _ in range(3))
        snows[:] = 0.0
        for fallen in years:
            first = 0
            for month, (frozen, length) in enumerate(months):
                if frozen:
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
                snows[month] += snow
        if abs(store - before[0]) + abs(snow - before[1]) < _STILL_MM:
            break
    days[:] = drawn_mm, drained_mm, stored_mm
