"""What the ground between samples is like, by a Gaussian process that must earn its place."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

SMOOTHNESS: Final = 1.5
"""Order of the Matérn covariance: continuous with a slope, rougher than anything mapped smooth."""
Z90: Final = 1.6448536269514722
"""Nine in ten of a normal distribution lie within so many sd [1]."""
_LEAST_SD: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A fitted pattern: mean and scale of the values, and the process about them.

    ``range_m`` the length of its covariance [m]; ``nugget_sd`` what two samples from one spot
    differ by, beyond the error given with each [unit of the values].
    """

    mean: float
    scale: float
    range_m: float
    nugget_sd: float
    process: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """Left-out samples told by the others.

    ``skill_frac`` one less the squared error against that of the mean of the others [1]; errors
    are root mean squares, ``held_frac`` the share within the stated nine-in-ten ranges [0-1].
    """

    skill_frac: float
    error: float
    error_of_mean: float
    held_frac: float


def fit_pattern(
    x_m: FloatArray, y_m: FloatArray, values: FloatArray, *, error_sd: FloatArray
) -> Pattern:
    """The pattern that makes the samples likeliest.

    Parameters
    ----------
    x_m, y_m
        Places, shape (N,) [m].
    values
        What was measured there, shape (N,) [any unit].
    error_sd
        Error of each that the others do not share, 0 where there is none, shape (N,) [same unit].

    Returns
    -------
    Pattern
        Constant mean, Matérn covariance of order 1.5, white noise [unit of the values, m].

    References
    ----------
    rasmussen-williams-2006

    Examples
    --------
    >>> x, y = np.arange(40.0) * 10.0, np.zeros(40)
    >>> values = 6.0 + np.sin(x / 60.0)
    >>> fitted = fit_pattern(x, y, values, error_sd=np.zeros(40))
    >>> fitted.nugget_sd < 0.05
    True
    """
    from sklearn.exceptions import ConvergenceWarning
    from sklearn.gaussian_process import GaussianProcessRegressor
    from sklearn.gaussian_process.kernels import ConstantKernel, Matern, WhiteKernel
    from threadpoolctl import threadpool_limits

    places = np.column_stack([x_m, y_m])
    extent = float(max(np.ptp(x_m), np.ptp(y_m), 1.0))
    mean, scale = float(values.mean()), float(max(values.std(), _LEAST_SD))
    kernel = ConstantKernel(0.5, (1e-3, 10.0)) * Matern(
        extent / 5.0, (extent / 50.0, 2.0 * extent), nu=SMOOTHNESS
    ) + WhiteKernel(0.5, (1e-3, 10.0))
    process = GaussianProcessRegressor(kernel, alpha=1e-10 + (error_sd / scale) ** 2)
    with warnings.catch_warnings(), threadpool_limits(1, user_api="blas"):  # too small to share
        warnings.simplefilter("ignore", ConvergenceWarning)  # at a bound there is no pattern
        process.fit(places, (values - mean) / scale)
    return Pattern(
        mean=mean,
        scale=scale,
        range_m=float(process.kernel_.k1.k2.length_scale),
        nugget_sd=float(scale * np.sqrt(process.kernel_.k2.noise_level)),
        process=process,
    )


def pattern_at(pattern: Pattern, x_m: FloatArray, y_m: FloatArray) -> tuple[FloatArray, FloatArray]:
    """What a pattern says of places: the mean there, and how far the ground may lie from it.

    Parameters
    ----------
    pattern
        As fitted [unit of the values, m].
    x_m, y_m
        Places, shape (P,) [m].

    Returns
    -------
    tuple of ndarray
        Mean and sd without the scatter of single samples, shape (P,) [unit of the values].

    References
    ----------
    rasmussen-williams-2006

    Examples
    --------
    >>> x, y = np.arange(40.0) * 10.0, np.zeros(40)
    >>> values = 6.0 + np.sin(x / 60.0)
    >>> fitted = fit_pattern(x, y, values, error_sd=np.zeros(40))
    >>> mean, sd = pattern_at(fitted, np.array([95.0]), np.array([0.0]))
    >>> round(float(mean[0]), 1), bool(sd[0] < 0.1)
    (7.0, True)
    """
    mean, sd = pattern.process.predict(np.column_stack([x_m, y_m]), return_std=True)
    ground = np.sqrt(np.clip(sd**2 - pattern.process.kernel_.k2.noise_level, 0.0, None))
    return pattern.mean + pattern.scale * mean, pattern.scale * ground


def try_pattern(
    x_m: FloatArray,
    y_m: FloatArray,
    values: FloatArray,
    *,
    error_sd: FloatArray,
    fold: IntArray,
) -> Trial:
    """How well the pattern of the other samples tells those left out.

    Parameters
    ----------
    x_m, y_m
        Places, shape (N,) [m].
    values
        What was measured there, shape (N,) [any unit].
    error_sd
        Error of each, shape (N,) [same unit].
    fold
        Which samples are left out together, shape (N,) [index].

    Returns
    -------
    Trial
        Fitted anew for each fold, so that nothing left out is known [unit of the values].

    References
    ----------
    rasmussen-williams-2006

    Examples
    --------
    >>> x, y = np.arange(40.0) * 10.0, np.zeros(40)
    >>> values = 6.0 + np.sin(x / 60.0)
    >>> fold = np.arange(40) % 4
    >>> try_pattern(x, y, values, error_sd=np.zeros(40), fold=fold).skill_frac > 0.9
    True
    """
    told, of_mean, stated = np.empty_like(values), np.empty_like(values), np.empty_like(values)
    for one in np.unique(fold):
        out = fold == one
        pattern = fit_pattern(x_m[~out], y_m[~out], values[~out], error_sd=error_sd[~out])
        told[out], ground = pattern_at(pattern, x_m[out], y_m[out])
        stated[out] = np.sqrt(ground**2 + pattern.nugget_sd**2 + error_sd[out] ** 2)
        of_mean[out] = values[~out].mean()
    squared = float(np.mean((values - told) ** 2))
    by_mean = float(np.mean((values - of_mean) ** 2))
    return Trial(
        skill_frac=1.0 - squared / max(by_mean, _LEAST_SD),
        error=squared**0.5,
        error_of_mean=by_mean**0.5,
        held_frac=float(np.mean(np.abs(values - told) <= Z90 * stated)),
    )


def covariance_between(pattern: Pattern, x_m: FloatArray, y_m: FloatArray) -> FloatArray:
    """How the errors of a pattern at some places go together.

    Parameters
    ----------
    pattern
        As fitted [unit of the values, m].
    x_m, y_m
        Places, shape (P,) [m].

    Returns
    -------
    ndarray
        Covariance of the ground, shape (P, P) [unit of the values, squared].

    References
    ----------
    rasmussen-williams-2006

    Examples
    --------
    >>> x, y = np.arange(40.0) * 10.0, np.zeros(40)
    >>> values = 6.0 + np.sin(x / 60.0)
    >>> fitted = fit_pattern(x, y, values, error_sd=np.zeros(40))
    >>> covariance_between(fitted, x[:3], y[:3]).shape
    (3, 3)
    """
    process = pattern.process
    _, found = process.predict(np.column_stack([x_m, y_m]), return_cov=True)
    level = process.kernel_.k2.noise_level
    return np.asarray(pattern.scale**2 * (found - level * np.eye(len(x_m))), dtype=np.float64)


def next_places(
    covariance: FloatArray, *, noise_sd: float, count: int
) -> tuple[IntArray, FloatArray]:
    """Places where further samples take away most of the error, one after another.

    Parameters
    ----------
    covariance
        Of the ground between places, shape (P, P) [unit squared].
    noise_sd
        Scatter of a single sample [unit].
    count
        How many places, fewer than P [count].

    Returns
    -------
    tuple of ndarray
        Which places, shape (count,) [index]; and the sd everywhere after none, one, two of them,
        shape (count + 1, P) [unit].

    Notes
    -----
    What a reading takes away does not depend on what it reads: its column of the covariance,
    squared, over its variance and the scatter (Schur complement). Chosen one by one, which is
    not always the best set.

    References
    ----------
    rasmussen-williams-2006

    Examples
    --------
    >>> places, sd = next_places(np.diag([1.0, 4.0]), noise_sd=0.0, count=1)
    >>> places.tolist(), sd.round(3).tolist()
    ([1], [[1.0, 2.0], [1.0, 0.0]])
    """
    left = covariance.copy()
    chosen: list[int] = []
    sds = [np.sqrt(np.clip(np.diag(left), 0.0, None))]
    for _ in range(count):
        variance = np.clip(np.diag(left), 0.0, None)
        taken = np.sum(left**2, axis=0) / (variance + noise_sd**2 + _LEAST_SD)
        taken[chosen] = -1.0
        best = int(np.argmax(taken))
        column = left[:, best]
        left = left - np.outer(column, column) / (variance[best] + noise_sd**2 + _LEAST_SD)
        chosen.append(best)
        sds.append(np.sqrt(np.clip(np.diag(left), 0.0, None)))
    return np.array(chosen, dtype=np.int64), np.array(sds)
