"""Several treatments against one control: intervals and chances that hold for all of them at once.

Dunnett's test, by the multivariate t distribution, so that blocks and missing pots are honoured.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from loamshift.errors import FitError

FloatArray = NDArray[np.float64]
Correlation: TypeAlias = tuple[tuple[float, ...], ...]

_POINTS: Final = 20_000
"""Points of the lattice that the distribution is integrated on: good to about 0.0001 [count]."""
_SCALES: Final = 121
_COMMON: Final = 241
"""Points of the rule in the scale and in what all comparisons share: good to 1e-7 [count]."""
_FARTHEST: Final = 8.5
"""A standard normal value lies beyond this with a chance below 1e-16 [1]."""
_ROUNDED: Final = 4e-6
"""A correlation is rounded to six decimals; products of two are off by so much at most [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Differences:
    """Differences with intervals that hold together at ``level``.

    ``estimate``, ``se``, ``low``, ``high`` (K,) [unit of the readings]; ``equal_low``,
    ``equal_high`` (K,) ends of the narrower interval, at 1 - 2(1 - level), that must lie inside a
    bound for two to count as equal [unit of the readings]; ``correlation`` of the K estimates
    [1]; ``df`` [count].
    """

    estimate: FloatArray
    se: FloatArray
    low: FloatArray
    high: FloatArray
    equal_low: FloatArray
    equal_high: FloatArray
    correlation: Correlation
    df: float
    level: float

    @property
    def p(self) -> FloatArray:
        """Chance of a difference as large somewhere among the K, were there none (K,) [0-1]."""
        sizes = np.abs(self.estimate / self.se)
        return np.array(
            [chance_of_more(self.correlation, size=float(t), df=self.df) for t in sizes]
        )


def against_control(n_treatments: int, *, control: int = 0) -> FloatArray:
    """Contrasts of every treatment less the control.

    Parameters
    ----------
    n_treatments
        How many treatments, the control among them [count].
    control
        Which of them is the control [number].

    Returns
    -------
    ndarray
        One contrast a row, shape (T - 1, T) [1].

    Notes
    -----
    Own arithmetic.

    Examples
    --------
    >>> against_control(3).tolist()
    [[-1.0, 1.0, 0.0], [-1.0, 0.0, 1.0]]
    """
    rows = np.delete(np.eye(n_treatments), control, axis=0)
    rows[:, control] = -1.0
    return rows


def differences(
    mean: FloatArray, covariance: FloatArray, contrasts: FloatArray, *, df: float, level: float
) -> Differences:
    """Contrasts of means with intervals that hold for all of them together.

    Parameters
    ----------
    mean
        Means of the treatments, shape (T,) [pH, or any unit].
    covariance
        Covariance of the means, shape (T, T) [square of that unit].
    contrasts
        One contrast a row, shape (K, T) [1].
    df
        Degrees of freedom of the covariance, above 0 [count].
    level
        Chance that all intervals hold, such as 0.95 [0-1].

    Returns
    -------
    Differences
        Estimates and intervals [units as named there].

    Raises
    ------
    FitError
        Where the means have no spread.

    Notes
    -----
    The largest of the K differences over its standard error follows the largest of a
    multivariate t; Dunnett (1955) for means against a control. Two count as equal where the
    interval at 1 - 2(1 - level) lies inside the bound (two one-sided tests, Schuirmann 1987).

    Examples
    --------
    >>> found = differences(np.array([7.0, 6.5]), 0.01 * np.eye(2), against_control(2),
    ...                     df=8, level=0.95)
    >>> [round(float(end), 2) for end in (found.low[0], found.high[0])]
    [-0.83, -0.17]
    """
    estimate = contrasts @ mean
    of_contrasts = contrasts @ covariance @ contrasts.T
    se = np.sqrt(np.diag(of_contrasts))
    if not np.all(se > 1e-9):
        raise FitError("all readings of a treatment are alike, so that nothing tells the error")
    correlation = of_contrasts / np.outer(se, se)
    key = tuple(map(tuple, correlation.round(6)))
    wide = critical_value(key, df=df, level=level)
    narrow = critical_value(key, df=df, level=2.0 * level - 1.0)
    return Differences(
        estimate=estimate,
        se=se,
        low=estimate - wide * se,
        high=estimate + wide * se,
        equal_low=estimate - narrow * se,
        equal_high=estimate + narrow * se,
        correlation=key,
        df=df,
        level=level,
    )


@lru_cache(maxsize=4096)
def chance_of_more(correlation: Correlation, *, size: float, df: float) -> float:
    """Chance that the largest of several t values is at least so large, whichever its sign.

    Parameters
    ----------
    correlation
        Of the t values, K rows of K [1].
    size
        The size, 0 or more [1].
    df
        Degrees of freedom [count].

    Returns
    -------
    float
        The chance [0-1].

    Notes
    -----
    One t value: the t distribution. More, whose correlations are products b_i b_j, as of means
    that are independent against one control: given what all share, a normal value z, and the
    scale s of the error, they are independent (Dunnett 1955), so that the chance is an integral
    over s and z of the product of Phi((size s + b_i z) / r_i) - Phi((-size s + b_i z) / r_i),
    r_i^2 = 1 - b_i^2. Else, as with blocks that miss pots: the multivariate t, integrated on a
    lattice that is the same each time.

    Examples
    --------
    >>> round(chance_of_more(((1.0,),), size=2.228, df=10.0), 3)
    0.05
    """
    from scipy import special, stats

    k = len(correlation)
    if k == 1:
        return float(2.0 * special.stdtr(df, -size))
    shared = _shared(correlation)
    if shared is not None:
        return float(np.clip(1.0 - _inside(shared, size=size, df=df), 0.0, 1.0))
    inside = stats.multivariate_t.cdf(
        np.full(k, size),
        shape=np.array(correlation),
        df=df,
        lower_limit=np.full(k, -size),
        allow_singular=True,
        maxpts=_POINTS,
        random_state=0,
    )
    return float(np.clip(1.0 - inside, 0.0, 1.0))


def _shared(correlation: Correlation) -> FloatArray | None:
    """Weights b_i of one shared value whose products are the correlations; None without such."""
    given = np.array(correlation)
    k = len(given)
    if k == 2:
        root = float(np.sqrt(abs(given[0, 1])))
        b = np.array([root, np.copysign(root, given[0, 1])])
    else:
        others = [((i + 1) % k, (i + 2) % k) for i in range(k)]
        products = [(given[i, j] * given[i, m], given[j, m]) for i, (j, m) in enumerate(others)]
        if any(over * under <= 0.0 for over, under in products):
            return None
        b = np.sqrt([over / under for over, under in products])
    apart = np.abs(np.outer(b, b) - given)[~np.eye(k, dtype=bool)]
    return b if apart.max() < _ROUNDED and np.abs(b).max() < 0.999 else None


def _inside(b: FloatArray, *, size: float, df: float) -> float:
    """Chance that all t values lie within a size, by the trapezoidal rule in log s and z."""
    from scipy import special

    low, high = (max(float(special.chdtri(df, share)) / df, 1e-24) for share in (1 - 1e-12, 1e-13))
    log_s = 0.5 * np.linspace(np.log(low), np.log(high), _SCALES)
    of_s = df * log_s - 0.5 * df * np.exp(2.0 * log_s)
    density = np.exp(of_s - of_s.max())
    z = np.linspace(-_FARTHEST, _FARTHEST, _COMMON)
    rest = np.sqrt(1.0 - b**2)
    reach = (size * np.exp(log_s))[:, None, None] / rest
    middle = (b * z[:, None]) / rest
    both = (special.ndtr(middle + reach) - special.ndtr(middle - reach)).prod(axis=2)
    of_z = np.exp(-0.5 * z**2)
    return float(density @ both @ of_z / (density.sum() * of_z.sum()))


@lru_cache(maxsize=1024)
def critical_value(correlation: Correlation, *, df: float, level: float) -> float:
    """How many standard errors make intervals that hold together.

    Parameters
    ----------
    correlation
        Of the t values, K rows of K [1].
    df
        Degrees of freedom [count].
    level
        Chance that all K hold [0-1].

    Returns
    -------
    float
        Half the width of the interval over the standard error [1].

    Notes
    -----
    Lies between the t value of one comparison and that by Bonferroni.

    Examples
    --------
    Two treatments and a control, 10 degrees of freedom: 2.57 (Dunnett 1964, table II, recalled).

    >>> round(critical_value(((1.0, 0.5), (0.5, 1.0)), df=10.0, level=0.95), 2)
    2.57
    """
    from scipy import special
    from scipy.optimize import brentq

    k, miss = len(correlation), 1.0 - level
    low = float(special.stdtrit(df, 1.0 - 0.5 * miss))
    if k == 1:
        return low
    high = float(special.stdtrit(df, 1.0 - 0.5 * miss / k)) + 0.01

    def beyond(size: float) -> float:
        return chance_of_more(correlation, size=size, df=df) - miss

    return float(brentq(beyond, low - 0.01, high, xtol=1e-4))
