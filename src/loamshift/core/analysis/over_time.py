"""Readings of the same pots on several days: the pot as a random effect, and changes pot by pot.

A pot that is read six times is one pot, not six: what is said of treatments rests on how pots of
one treatment differ.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.analysis.treatment_means import summed_to_zero, treatment_means
from loamshift.errors import FitError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedModel:
    """A linear model with one random effect for each pot.

    ``coefficient`` (P,), ``covariance`` (P, P) [unit of the readings over that of the column];
    ``df`` (P,) degrees of freedom of each [count].
    """

    coefficient: FloatArray
    covariance: FloatArray
    df: IntArray


@dataclass(frozen=True, slots=True, kw_only=True)
class AverageMeans:
    """Means of treatments, averaged over days.

    ``mean`` (T,) and ``covariance`` (T, T) [unit of the readings]; ``df`` between pots [count].
    """

    mean: FloatArray
    covariance: FloatArray
    df: int


def mixed_model(reading: FloatArray, design: FloatArray, pot: IntArray) -> MixedModel:
    """A linear model in which readings of one pot share a random effect, fitted by REML.

    Parameters
    ----------
    reading
        Readings, shape (N,) [pH, or any unit].
    design
        Columns of the model, the first all 1 or columns that add up to it, shape (N, P) [1].
    pot
        Number of the pot of each reading, from 0, shape (N,) [number].

    Returns
    -------
    MixedModel
        Coefficients, covariance and degrees of freedom [units as named there].

    Raises
    ------
    FitError
        Where the fit does not converge.

    Notes
    -----
    Between-within degrees of freedom (Pinheiro and Bates 2000, section 2.4.2): a column that is
    the same for all readings of a pot has the number of pots less such columns; any other has
    the readings less pots less the others. The normal distribution that the fit itself would
    give is too eager with few pots.

    Examples
    --------
    >>> reading = np.array([7.0, 6.9, 7.2, 7.1, 6.5, 6.3, 6.6, 6.5])
    >>> treated = np.repeat([0.0, 0.0, 1.0, 1.0], 2)
    >>> found = mixed_model(reading, np.column_stack([np.ones(8), treated]),
    ...                     np.repeat(np.arange(4), 2))
    >>> found.coefficient.round(3).tolist(), found.df.tolist()
    ([7.05, -0.575], [2, 2])
    """
    import warnings

    from statsmodels.regression.mixed_linear_model import MixedLM

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            fit = MixedLM(reading, design, groups=pot).fit(reml=True, method=["powell", "bfgs"])
        covariance = np.asarray(fit.cov_params())[: design.shape[1], : design.shape[1]]
        coefficient = np.asarray(fit.fe_params, dtype=np.float64)
    except (np.linalg.LinAlgError, ValueError) as error:
        raise FitError("the model with a random effect for each pot does not converge") from error
    n_pots = int(pot.max()) + 1
    first = np.array([np.flatnonzero(pot == number)[0] for number in range(n_pots)])
    between = np.all(np.isclose(design, design[first][pot]), axis=0)
    df = np.where(between, n_pots - between.sum(), reading.size - n_pots - (~between).sum()).astype(
        np.int_
    )
    return MixedModel(coefficient=coefficient, covariance=covariance, df=df)


def average_means(
    readings: FloatArray, treatment: IntArray, block: IntArray | None = None
) -> AverageMeans:
    """Means of treatments over several days, with the pot as a random effect.

    Parameters
    ----------
    readings
        One row a pot, one column a day, NaN where a reading is missing, shape (N, D) [pH].
    treatment
        Number of the treatment of each pot, from 0, shape (N,) [number].
    block
        Number of the block of each pot, from 0, shape (N,); None without blocks [number].

    Returns
    -------
    AverageMeans
        Means over the days, each day counting alike [pH].

    Raises
    ------
    FitError
        Where too few pots are left, or the fit does not converge.

    Notes
    -----
    Without a gap the model with a random effect for each pot gives the averages of the pots and
    the error between them, in closed form; with gaps it is fitted by REML. Degrees of freedom
    are those between pots in both.

    Examples
    --------
    >>> read = np.array([[7.0, 6.9], [7.2, 7.1], [6.5, 6.3], [6.6, 6.5]])
    >>> found = average_means(read, np.array([0, 0, 1, 1]))
    >>> found.mean.round(3).tolist(), found.df
    ([7.05, 6.475], 2)
    """
    kept = np.any(np.isfinite(readings), axis=1)
    readings, treatment = readings[kept], treatment[kept]
    block = None if block is None else block[kept]
    if np.all(np.isfinite(readings)):
        of_pots = treatment_means(readings.mean(axis=1), treatment, block)
        return AverageMeans(mean=of_pots.mean, covariance=of_pots.covariance, df=of_pots.df)
    n_treatments = int(treatment.max()) + 1
    pot, day = np.nonzero(np.isfinite(readings))
    of_day = summed_to_zero(day)
    treated = np.eye(n_treatments)[treatment][pot]
    parts = [treated, of_day]
    parts += [treated[:, [i]] * of_day for i in range(1, n_treatments)]
    if block is not None:
        parts.append(summed_to_zero(block)[pot])
    fit = mixed_model(readings[pot, day], np.hstack(parts), pot)
    return AverageMeans(
        mean=fit.coefficient[:n_treatments],
        covariance=fit.covariance[:n_treatments, :n_treatments],
        df=int(fit.df[0]),
    )
