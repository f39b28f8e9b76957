"""How the reading follows the dose: a straight line, and whether a line is enough."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.analysis.treatment_means import summed_to_zero
from loamshift.errors import FitError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseSlope:
    """A line through readings at several doses.

    ``slope``, ``low``, ``high`` [unit of the readings over that of the dose]; ``p`` chance of a
    slope as steep, were there none; ``bend_p`` chance of departures from the line as large, were
    it straight; None where there is nothing to tell it from [0-1]; ``df`` [count].
    """

    slope: float
    low: float
    high: float
    p: float
    bend_p: float | None
    df: int


def dose_slope(
    reading: FloatArray, dose: FloatArray, block: IntArray | None = None, *, level: float
) -> DoseSlope:
    """The slope of a reading against the dose, blocks taken off.

    Parameters
    ----------
    reading
        One reading of each pot, shape (N,) [pH, or any unit].
    dose
        Dose of each pot, two or more of them different, shape (N,) [g/m2, or any unit].
    block
        Number of the block of each pot, from 0, shape (N,); None without blocks [number].
    level
        Chance that the interval holds [0-1].

    Returns
    -------
    DoseSlope
        Slope with its interval, and whether the line bends [units as named there].

    Raises
    ------
    FitError
        Where all doses are alike or no pot is left over to tell the error.

    Notes
    -----
    Lack of fit: the sum of squares of the dose means about the line over the error within doses,
    as F. Where the line bends the error is that within doses, so that a bend is not taken for
    error.

    Examples
    --------
    >>> found = dose_slope(np.array([7.0, 7.1, 6.5, 6.6, 6.0, 6.1]),
    ...                    np.array([0.0, 0.0, 50.0, 50.0, 100.0, 100.0]), level=0.95)
    >>> round(found.slope, 3)
    -0.01
    """
    from scipy.special import fdtrc, stdtr, stdtrit

    blocks = np.ones((reading.size, 1))
    if block is not None:
        blocks = np.hstack([blocks, summed_to_zero(block)])
    line = np.column_stack([blocks, dose])
    doses, level_of = np.unique(dose, return_inverse=True)
    full = np.hstack([blocks, summed_to_zero(level_of)]) if doses.size > 1 else blocks
    within = reading.size - int(np.linalg.matrix_rank(full))
    if doses.size < 2 or np.linalg.matrix_rank(line) < line.shape[1] or within < 1:
        raise FitError("a slope needs two doses or more, and pots to tell the error")
    left, left_full = _left_over(reading, line), _left_over(reading, full)
    bends = within - (reading.size - line.shape[1])
    bend_p = None
    if left_full <= 1e-18:
        raise FitError("all readings of a dose are alike, so that nothing tells the error")
    if bends < 0:
        bend_p = float(fdtrc(-bends, within, (left - left_full) / -bends / (left_full / within)))
    variance = left_full / within
    inverse = np.linalg.inv(line.T @ line)
    slope = float((inverse @ line.T @ reading)[-1])
    se = float(np.sqrt(variance * inverse[-1, -1]))
    half = float(stdtrit(within, 0.5 + 0.5 * level)) * se
    return DoseSlope(
        slope=slope,
        low=slope - half,
        high=slope + half,
        p=float(2.0 * stdtr(within, -abs(slope) / se)),
        bend_p=bend_p,
        df=within,
    )


def _left_over(reading: FloatArray, design: FloatArray) -> float:
    residual = reading - design @ np.linalg.lstsq(design, reading, rcond=None)[0]
    return float(residual @ residual)
