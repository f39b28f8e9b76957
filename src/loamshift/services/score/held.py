"""A forecast on a day held against one reading, the error of the reading's method counted in."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from statistics import NormalDist
from typing import Final

import numpy as np

from loamshift.core.scores import FloatArray, crps, share_below, values_from_quantiles
from loamshift.domain.answer import ForecastPh

LEVELS: Final = (0.05, 0.25, 0.5, 0.75, 0.95)
"""Share of a forecast below each of its quantiles [0-1]."""
_ONE_SD: Final = (NormalDist().cdf(-1.0), NormalDist().cdf(1.0))
"""Share of a normal quantity below one sd under its mean, and below one over it [0-1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What a reading says of a forecast.

    ``quantiles`` are the forecast's own, ``ends`` those of what such a reading should show, at 5,
    25, 50, 75 and 95 in 100; ``crps`` what it missed by [pH in water]. ``share_below`` of what it
    should show lies below the reading [0-1].
    """

    quantiles: tuple[float, ...]
    ends: tuple[float, ...]
    share_below: float
    crps: float

    @property
    def is_inside_90(self) -> bool:
        """True where the reading is in the range for nine in ten."""
        return abs(self.share_below - 0.5) <= 0.45


def held_against(
    dates: Sequence[date],
    ph: ForecastPh,
    *,
    on: date,
    read_ph: float,
    read_sd: float,
    held_sd: float,
) -> Held:
    """A forecast held against a reading.

    Parameters
    ----------
    dates
        Weeks of the forecast, with the day of the reading among or between them.
    on
        Day of the reading.
    read_ph
        What was read [pH in water].
    read_sd
        Its error [pH in water].
    held_sd
        Error of a reading that the forecast holds already [pH in water].
    """
    quantiles = _quantiles_on(dates, ph, on)
    values = values_from_quantiles(quantiles, levels_frac=LEVELS)
    more = math.sqrt(max(read_sd**2 - held_sd**2, 0.0))
    return Held(
        quantiles=quantiles,
        ends=_ends(values, more),
        share_below=share_below(values, read_ph=read_ph, error_sd=more),
        crps=crps(values, read_ph=read_ph, error_sd=more),
    )


def _quantiles_on(dates: Sequence[date], ph: ForecastPh, day: date) -> tuple[float, ...]:
    """The quantiles of a forecast between the weeks on either side of a day [pH in water]."""
    later = next(week for week, on in enumerate(dates) if on >= day)
    earlier = max(later - 1, 0)
    span = (dates[later] - dates[earlier]).days
    share = (day - dates[earlier]).days / span if span else 1.0
    courses = (ph.q05, ph.q25, ph.q50, ph.q75, ph.q95)
    return tuple(q[earlier] + share * (q[later] - q[earlier]) for q in courses)


def _ends(values: FloatArray, more_sd: float) -> tuple[float, ...]:
    """Quantiles of values blurred by a further error [pH]."""
    if more_sd > 0.0:
        blur = values_from_quantiles((-more_sd, more_sd), levels_frac=_ONE_SD)
        values = np.add.outer(values, blur).ravel()
    return tuple(float(one) for one in np.quantile(values, LEVELS, method="hazen"))
