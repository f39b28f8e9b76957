"""Readings that do not fit: one that lies apart, and two that look exchanged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.analysis.treatment_means import TreatmentMeans, treatment_means
from loamshift.errors import FitError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]

CHANCE: Final = 0.05
"""How often a day without anything wrong has a pot named all the same [0-1]."""
_STILL_NEAR_SD: Final = 2.0
"""Two exchanged readings must both lie as near as this to their treatments [sd]."""


@dataclass(frozen=True, slots=True)
class Exchange:
    """Two pots whose readings fit better the other way round, by their place in the arrays."""

    first: int
    second: int


def apart(reading: FloatArray, fit: TreatmentMeans) -> tuple[int, ...]:
    """Readings that lie too far from their treatment to be chance.

    Parameters
    ----------
    reading
        The readings that were fitted, shape (N,) [pH, or any unit].
    fit
        Their treatment means [the same unit].

    Returns
    -------
    tuple of int
        Places in the array, from 0 [number].

    Notes
    -----
    Externally studentised residuals against a t value by Bonferroni over all pots.

    Examples
    --------
    >>> read = np.array([7.0, 7.1, 7.05, 7.0, 6.5, 6.55, 6.5, 7.6])
    >>> apart(read, treatment_means(read, np.repeat([0, 1], 4)))
    (7,)
    """
    from scipy.special import stdtrit

    if fit.df < 2:
        return ()
    residual = reading - fit.fitted
    scale = np.maximum(1.0 - fit.leverage, 1e-12)
    left = fit.df * fit.sd**2 - residual**2 / scale
    studentised = residual * np.sqrt((fit.df - 1) / np.maximum(left * scale, 1e-12))
    limit = float(stdtrit(fit.df - 1, 1.0 - 0.5 * CHANCE / reading.size))
    told = (fit.leverage < 1.0 - 1e-9) & (np.abs(studentised) > limit)
    return tuple(int(place) for place in np.flatnonzero(told))


def exchanged(
    reading: FloatArray, treatment: IntArray, block: IntArray | None = None
) -> Exchange | None:
    """The two pots whose readings look exchanged, where two do.

    Parameters
    ----------
    reading
        One reading of each pot, shape (N,) [pH, or any unit].
    treatment
        Number of the treatment of each pot, from 0, shape (N,) [number].
    block
        Number of the block of each pot, from 0, shape (N,); None without blocks [number].

    Returns
    -------
    Exchange or None
        Places in the array, from 0 [number].

    Notes
    -----
    The pair of pots with unlike treatments that lowers the sum of squares most when exchanged.
    It is named where both readings together lie apart (F for two pots left out, by Bonferroni
    over all pairs) and, exchanged, both lie within two sd of their treatments.

    Examples
    --------
    >>> read = np.array([7.0, 7.1, 7.05, 6.5, 6.5, 6.55, 7.0, 6.45])
    >>> exchanged(read, np.repeat([0, 1], 4))
    Exchange(first=3, second=6)
    """
    from scipy.special import fdtrc

    fit = treatment_means(reading, treatment, block)
    left, best = fit.df * fit.sd**2, None
    pairs = 0
    for i in range(reading.size):
        for j in range(i + 1, reading.size):
            if treatment[i] == treatment[j]:
                continue
            pairs += 1
            turned = reading.copy()
            turned[[i, j]] = reading[[j, i]]
            new = treatment_means(turned, treatment, block)
            near = np.abs(turned - new.fitted)[[i, j]].max() <= _STILL_NEAR_SD * new.sd
            if near and new.df * new.sd**2 < left:
                left, best = new.df * new.sd**2, Exchange(i, j)
    if best is None or fit.df < 3:
        return None
    rest = np.delete(np.arange(reading.size), [best.first, best.second])
    try:
        without = treatment_means(
            reading[rest], treatment[rest], None if block is None else block[rest]
        )
    except FitError:
        return None
    if without.count.size != fit.count.size or without.count.min() < 1 or without.sd == 0.0:
        return None
    ratio = (fit.df * fit.sd**2 - without.df * without.sd**2) / 2.0 / without.sd**2
    return best if float(fdtrc(2, without.df, ratio)) * pairs < CHANCE else None
