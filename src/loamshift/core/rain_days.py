"""Days of rain made from monthly totals: a chain of wet and dry days with gamma amounts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import (
    DAYS_IN_MONTH,
    DAYS_IN_YEAR,
    ClimateParameters,
    monthly_values,
)
from loamshift.core.rain_loops import wet_days_in_a_row

FloatArray = NDArray[np.float64]

_KEPT_PLACES: Final = 64


@dataclass(frozen=True, eq=False, slots=True)
class RainDice:
    """The chance in the generated rain, the same for every place.

    ``chance`` uniform numbers for wet and dry [0-1] and ``amount`` gamma numbers for the rain of
    a wet day [1], shape (years, 365) each.
    """

    chance: FloatArray
    amount: FloatArray


def throw_dice(rng: np.random.Generator, *, params: ClimateParameters) -> RainDice:
    """The chance of the generated years.

    Parameters
    ----------
    rng
        Generator, seeded by the caller [object].
    params
        Coefficients of the topic ``climate`` [see the dataclass].

    Returns
    -------
    RainDice
        Numbers for every day of every year [1].

    Notes
    -----
    Uniform numbers first, then gamma ones of mean equal to their shape.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> throw_dice(np.random.default_rng(1), params=p).chance.shape
    (40, 365)
    """
    shape = (round(params.rain_years), DAYS_IN_YEAR)
    chance = rng.random(shape)
    return RainDice(chance, rng.standard_gamma(params.rain_shape, shape))


def usual_wet_days(rain_mm: Sequence[float], *, params: ClimateParameters) -> FloatArray:
    """Wet days of each month where nobody counted them.

    Parameters
    ----------
    rain_mm
        Rain of January to December, 12 values, 0 to 3000 [mm/month].
    params
        Coefficients of the topic ``climate`` [see the dataclass].

    Returns
    -------
    ndarray
        Days with more than 0.1 mm, shape (12,) [d/month].

    Notes
    -----
    scale x rain^power, the middle of the land of the Earth; a single place lies within a factor
    of three of it.

    References
    ----------
    new-2002

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> usual_wet_days([0.0] + [60.0] * 11, params=p).round(1)[:2].tolist()
    [0.0, 10.3]
    """
    rain = monthly_values("rain_mm", rain_mm, low=0.0, high=3000.0, unit="mm")
    days = params.wet_days_scale * rain**params.wet_days_power
    return np.minimum(days, np.asarray(DAYS_IN_MONTH, dtype=np.float64))


def rain_days_mm(
    rain_mm: Sequence[float],
    *,
    wet_days: Sequence[float],
    params: ClimateParameters,
    dice: RainDice,
) -> FloatArray:
    """Daily rain of generated years whose monthly means are those given.

    Parameters
    ----------
    rain_mm
        Rain of January to December, 12 values, 0 to 3000 [mm/month].
    wet_days
        Days with rain in each month, 12 values, 0 to 31 [d/month].
    params
        Coefficients of the topic ``climate`` [see the dataclass].
    dice
        Chance of the years, from :func:`throw_dice` [object].

    Returns
    -------
    ndarray
        Shape (years, 365) [mm/d].

    Raises
    ------
    OutOfRangeError
        For other than 12 sensible values.

    Notes
    -----
    With f the share of wet days, a day is wet after a dry one with chance s f and after a wet
    one with 1 - s + s f, so that the share of wet days stays f. A wet day brings a gamma amount.
    Each month is scaled so that its mean over the years is the rain given; a month with rain has
    at least one wet day in it.

    References
    ----------
    geng-1986, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> dice = throw_dice(np.random.default_rng(1), params=p)
    >>> made = rain_days_mm([60.0] * 12, wet_days=[13.0] * 12, params=p, dice=dice)
    >>> made.shape, round(float(made.sum(axis=1).mean()), 6)
    ((40, 365), 720.0)
    """
    rain = monthly_values("rain_mm", rain_mm, low=0.0, high=3000.0, unit="mm")
    days = monthly_values("wet_days", wet_days, low=0.0, high=31.0, unit="d")
    return _kept_days(tuple(rain.tolist()), tuple(days.tolist()), params, dice)


@lru_cache(maxsize=_KEPT_PLACES)
def _kept_days(
    rain_mm: tuple[float, ...],
    wet_days: tuple[float, ...],
    params: ClimateParameters,
    dice: RainDice,
) -> FloatArray:
    """The days of checked inputs, worked out once for a place."""
    rain, days = np.asarray(rain_mm), np.asarray(wet_days)
    month_days = np.asarray(DAYS_IN_MONTH, dtype=np.float64)
    share = np.clip(days, np.where(rain > 0.0, 1.0, 0.0), month_days) / month_days
    month = np.repeat(np.arange(12), DAYS_IN_MONTH)
    is_wet = np.empty(dice.chance.shape, dtype=np.bool_)
    wet_days_in_a_row(dice.chance, share[month], params.wet_after_dry_share, is_wet)
    made = np.where(is_wet, dice.amount, 0.0)
    means = np.array([made[:, month == m].sum() for m in range(12)]) / made.shape[0]
    factor = np.divide(rain, means, out=np.zeros(12), where=means > 0.0)
    found = np.asarray(made * factor[month], dtype=np.float64)
    found.setflags(write=False)
    return found
