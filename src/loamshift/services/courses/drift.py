"""The drift of a bed left alone: one figure, read off its course in one way."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from loamshift.domain.answer import DRIFT_YEARS

_DAYS_IN_YEAR: Final = 365.25


def drift_ph_year(days: Sequence[date], ph: Sequence[float]) -> float:
    """How a pH moves in a year, by its course.

    Answers what a letter calls the drift. Verdict, upkeep and forecast all read it here, by the
    column or by one mixed layer, so that no two of them can tell of two drifts. By one mixed layer
    it may differ from the column's (``quick_drift_within_ph_year``), which a letter without a
    forecast says.

    Parameters
    ----------
    days
        Days of the course, rising, the first is today [calendar].
    ph
        The pH on each of them, of the bed left as it is [pH in water].

    Returns
    -------
    float
        Its change over the first three years, or over all of a shorter course, by year; negative
        where it falls [pH/yr].

    Examples
    --------
    >>> from datetime import date
    >>> drift = drift_ph_year((date(2026, 1, 1), date(2028, 1, 1)), (7.0, 6.8))
    >>> round(drift, 2)
    -0.1
    """
    last = days[0] + timedelta(days=round(DRIFT_YEARS * _DAYS_IN_YEAR))
    end = max(index for index, day in enumerate(days) if day <= last)
    years = max((days[end] - days[0]).days, 1) / _DAYS_IN_YEAR
    return (float(ph[end]) - float(ph[0])) / years
