"""Means of treatments with blocks taken off, and how sure they are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import FitError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]


@dataclass(frozen=True, slots=True, kw_only=True)
class TreatmentMeans:
    """Means of treatments in an average block.

    ``mean`` (T,) [unit of the readings]; ``spread`` (T, T) their covariance over the variance
    of one reading [1]; ``sd`` of one reading about its mean [unit of the readings]; ``df``
    degrees of freedom of that sd [count]; ``count`` (T,) readings of each treatment [count];
    ``fitted`` (N,) what each reading would be without its error [unit of the readings];
    ``leverage`` (N,) how far a reading draws its own fitted value [0-1].
    """

    mean: FloatArray
    spread: FloatArray
    sd: float
    df: int
    count: IntArray
    fitted: FloatArray
    leverage: FloatArray

    @property
    def covariance(self) -> FloatArray:
        """Covariance of the means, shape (T, T) [square of the unit of the readings]."""
        return self.sd**2 * self.spread


def treatment_means(
    reading: FloatArray, treatment: IntArray, block: IntArray | None = None
) -> TreatmentMeans:
    """Least-squares means of treatments, each as it would be in an average block.

    Answers what the treatments differ by once the blocks are taken off; pots may be missing and
    replication unequal. Leaves out any other covariate.

    Parameters
    ----------
    reading
        One reading of each pot, shape (N,) [pH, or any unit].
    treatment
        Number of the treatment of each pot, 0 to T - 1, each at least once, shape (N,) [number].
    block
        Number of the block of each pot, from 0, shape (N,); None without blocks [number].

    Returns
    -------
    TreatmentMeans
        Means, their covariance, sd and degrees of freedom [units as named there].

    Raises
    ------
    FitError
        Where no pot is left over to tell the error, or blocks and treatments cannot be told
        apart.

    Notes
    -----
    Blocks are coded so that their effects add up to zero, which makes a treatment's coefficient
    its mean in an average block. Equal to the averages where every block is complete.

    Examples
    --------
    >>> found = treatment_means(np.array([7.0, 7.2, 6.5, 6.7]), np.array([0, 0, 1, 1]))
    >>> found.mean.round(2).tolist(), found.df
    ([7.1, 6.6], 2)
    """
    n_treatments = int(treatment.max()) + 1
    design = np.eye(n_treatments)[treatment]
    if block is not None:
        design = np.hstack([design, summed_to_zero(block)])
    rank = int(np.linalg.matrix_rank(design))
    df = reading.size - rank
    if rank < design.shape[1]:
        raise FitError("blocks and treatments cannot be told apart: too many pots are missing")
    if df < 1:
        raise FitError("no pot is left over to tell the error: every treatment has one reading")
    inverse = np.linalg.inv(design.T @ design)
    coefficients = inverse @ design.T @ reading
    fitted = design @ coefficients
    residual = reading - fitted
    return TreatmentMeans(
        mean=coefficients[:n_treatments],
        spread=np.asarray(inverse[:n_treatments, :n_treatments], dtype=np.float64),
        sd=float(np.sqrt(residual @ residual / df)),
        df=df,
        count=np.bincount(treatment, minlength=n_treatments),
        fitted=fitted,
        leverage=np.einsum("ij,jk,ik->i", design, inverse, design),
    )


def summed_to_zero(group: IntArray) -> FloatArray:
    """Columns for groups whose effects add up to zero.

    Parameters
    ----------
    group
        Number of the group of each reading, 0 to G - 1, shape (N,) [number].

    Returns
    -------
    ndarray
        One column less than there are groups, shape (N, G - 1) [-1, 0 or 1].

    Notes
    -----
    The last group has -1 in every column.

    Examples
    --------
    >>> summed_to_zero(np.array([0, 1, 2])).tolist()
    [[1.0, 0.0], [0.0, 1.0], [-1.0, -1.0]]
    """
    n_groups = int(group.max()) + 1
    codes = np.vstack([np.eye(n_groups - 1), -np.ones(n_groups - 1)])
    return np.asarray(codes[group], dtype=np.float64)
