"""The acid a soil needs as a distribution: curve, free lime and reading error together.

No sampling: the distribution function is a fixed sum over nodes, so one soil and a million
soils get the same bits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.need_sums import need_at_most, need_quantile
from loamshift.errors import OutOfRangeError

FloatArray = NDArray[np.float64]

_READING_NODES, _READING_WEIGHTS = np.polynomial.hermite_e.hermegauss(7)
_READING_WEIGHTS = _READING_WEIGHTS / _READING_WEIGHTS.sum()
_CARBONATE_NODES, _CARBONATE_WEIGHTS = np.polynomial.legendre.leggauss(12)
_CARBONATE_WEIGHTS = _CARBONATE_WEIGHTS / 2.0
_MEASURED_NODES, _MEASURED_WEIGHTS = np.polynomial.hermite_e.hermegauss(9)
_MEASURED_WEIGHTS = _MEASURED_WEIGHTS / _MEASURED_WEIGHTS.sum()
WHOLE_PCT: Final = 100.0
"""No soil holds more carbonate than this [%]."""
_SCALE_NODES, _SCALE_WEIGHTS = np.polynomial.hermite_e.hermegauss(21)
_SCALE_WEIGHTS = _SCALE_WEIGHTS / _SCALE_WEIGHTS.sum()
_EVEN_NODES = np.linspace(-4.5, 4.5, 21)
_EVEN_WEIGHTS = np.exp(-0.5 * _EVEN_NODES**2) / np.exp(-0.5 * _EVEN_NODES**2).sum()
"""An even rule for a normal quantity: off by at most 0.00003 in probability where a second one of
the same width stands beside it, ten times less than as many Gauss-Hermite nodes."""
NODES: Final = tuple(
    tuple(one.tolist()) for one in (_SCALE_NODES, _SCALE_WEIGHTS, _EVEN_NODES, _EVEN_WEIGHTS)
)
"""Nodes and weights of the scale, and of what was measured, as ``need_sums`` takes them."""
_NORMAL: Final = NormalDist()
_CUT_OFF_NOTHING: Final = 1e-12
"""A probability outside the bounds too small to move a node by more than rounding does [0-1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """Acid needed: curve times a lognormal scale, plus free carbonate.

    ``curve_mmolc_kg`` acid of the curve at k = 1 for each node of the reading, in the direction
    asked and never negative, with ``curve_weight`` that sums to 1. The carbonate is none with
    ``zero_weight`` [0-1], else log-uniform from ``carbonate_low_mmolc_kg`` to ``_high``; equal
    bounds are a measured value, lognormal about it with ``carbonate_log_sd`` [ln].
    """

    curve_mmolc_kg: FloatArray
    curve_weight: FloatArray
    zero_weight: float
    carbonate_low_mmolc_kg: float
    carbonate_high_mmolc_kg: float
    log10_k_mean: float
    log10_k_sd: float
    carbonate_log_sd: float = 0.0

    def probability_at_most(self, acid_mmolc_kg: float) -> float:
        """Probability that this much acid is enough [0-1], for an acid [mmolc/kg].

        The scale is integrated exactly where the carbonate is none or an exact value; otherwise
        one of the two is, over nodes of the other.
        """
        curves, weights = self.curve_mmolc_kg.tolist(), self.curve_weight.tolist()
        return need_at_most(acid_mmolc_kg, curves, weights, self.belief, *NODES)

    @property
    def belief(self) -> tuple[float, ...]:
        """Carbonate and scale, in the order of ``need_sums.limed_at_most``."""
        return (
            self.zero_weight,
            self.carbonate_low_mmolc_kg,
            self.carbonate_high_mmolc_kg,
            self.carbonate_log_sd,
            self.log10_k_mean,
            self.log10_k_sd,
        )

    def quantile(self, probability: float) -> float:
        """Acid that is enough with this probability [mmolc/kg], for a probability [0-1]."""
        curves, weights = self.curve_mmolc_kg.tolist(), self.curve_weight.tolist()
        return quantile_of_need(probability, tuple(curves), tuple(weights), self.belief)


@lru_cache(maxsize=256)
def quantile_of_need(
    probability: float,
    curves: tuple[float, ...],
    weights: tuple[float, ...],
    belief: tuple[float, ...],
) -> float:
    """A quantile of a need, worked out once: verdict, dose and letter ask for the same.

    Parameters
    ----------
    probability
        The probability [0-1].
    curves
        Acid of the curve at k = 1 for each node of the reading [mmolc/kg].
    weights
        Weights of these nodes [0-1].
    belief
        Carbonate and scale, as ``Need.belief`` [mixed].

    Returns
    -------
    float
        Acid that is enough with it [mmolc/kg].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(quantile_of_need(0.5, (10.0,), (1.0,), (1.0, 0.0, 0.0, 0.0, 0.0, 0.2)), 6)
    10.0
    """
    return need_quantile(probability, curves, weights, belief, *NODES)


def reading_nodes(
    *, ph: float, ph_sd: float, low: float = -math.inf, high: float = math.inf
) -> tuple[FloatArray, FloatArray]:
    """Seven values that stand for a reading with its error, and their weights.

    Parameters
    ----------
    ph
        Reading in water [pH].
    ph_sd
        Its standard deviation, 0 or more [pH].
    low
        The distribution is cut off below this [pH].
    high
        The distribution is cut off above this [pH].

    Returns
    -------
    tuple of ndarray
        Values, none outside the bounds [pH], and weights [0-1], shape (7,).

    Raises
    ------
    OutOfRangeError
        Where the reading itself lies outside the bounds.

    Notes
    -----
    Gauss-Hermite nodes of a normal distribution, each moved to the place of equal probability in
    the truncated one: x = F^-1(F(low) + (F(high) - F(low)) Phi(z)). Where the bounds cut off
    nothing the nodes stay where they are.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> values, weights = reading_nodes(ph=6.5, ph_sd=0.0)
    >>> float(values.min()), round(float(weights.sum()), 12)
    (6.5, 1.0)
    >>> reading_nodes(ph=3.3, ph_sd=0.6, low=2.0, high=11.0)[0].round(2).tolist()
    [2.0, 2.11, 2.64, 3.31, 4.0, 4.72, 5.55]
    """
    if not low <= ph <= high:
        raise OutOfRangeError(f"ph = {ph:g} must lie between {low:g} and {high:g}")
    values = ph + ph_sd * _READING_NODES
    if ph_sd > 0.0 and (low > -math.inf or high < math.inf):
        below = _NORMAL.cdf((low - ph) / ph_sd)
        above = _NORMAL.cdf((ph - high) / ph_sd)
        if below + above > _CUT_OFF_NOTHING:
            kept = 1.0 - below - above
            moved = [_NORMAL.inv_cdf(below + kept * _NORMAL.cdf(z)) for z in _READING_NODES]
            values = np.clip(ph + ph_sd * np.array(moved), low, high)
    return values, _READING_WEIGHTS.copy()


def carbonate_nodes(
    *,
    zero_weight: float,
    low_pct: float,
    high_pct: float,
    mmolc_kg_per_pct: float,
    log_sd: float = 0.0,
) -> tuple[FloatArray, FloatArray]:
    """Carbonate contents that stand for a belief: some weight at none, the rest spread out.

    Parameters
    ----------
    zero_weight
        Weight of no free carbonate, 0 to 1 [1].
    low_pct
        Lower bound of the rest, above 0 unless equal to ``high_pct`` [%].
    high_pct
        Upper bound of the rest [%].
    mmolc_kg_per_pct
        Acid that one per cent takes up [mmolc/kg/%].
    log_sd
        Error of a measured value; only where the bounds are equal [ln].

    Returns
    -------
    tuple of ndarray
        Acid taken up [mmolc/kg] and weights [0-1].

    Notes
    -----
    Gauss-Legendre nodes in log content. Equal bounds are a measured value: one node, or nine
    Gauss-Hermite nodes of a lognormal distribution with the value as median. No soil is more
    than all carbonate.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> values, weights = carbonate_nodes(zero_weight=1.0, low_pct=0.1, high_pct=1.0,
    ...                                   mmolc_kg_per_pct=200.0)
    >>> values.tolist(), weights.tolist()
    ([0.0], [1.0])
    """
    if zero_weight >= 1.0 or high_pct <= 0.0:
        return np.zeros(1), np.ones(1)
    if high_pct == low_pct and log_sd > 0.0:
        values = np.minimum(high_pct * np.exp(log_sd * _MEASURED_NODES), WHOLE_PCT)
        weights = _MEASURED_WEIGHTS
    elif high_pct == low_pct:
        values, weights = np.array([high_pct]), np.ones(1)
    else:
        middle = 0.5 * (math.log(low_pct) + math.log(high_pct))
        half = 0.5 * (math.log(high_pct) - math.log(low_pct))
        values, weights = np.exp(middle + half * _CARBONATE_NODES), _CARBONATE_WEIGHTS
    acid = values * mmolc_kg_per_pct
    if zero_weight > 0.0:
        acid = np.concatenate(([0.0], acid))
        weights = np.concatenate(([zero_weight], weights * (1.0 - zero_weight)))
    return acid, weights.copy()


def weighted_quantile(values: Sequence[float], weights: Sequence[float], p: float) -> float:
    """The value below which a share of the weight lies, stepwise.

    Parameters
    ----------
    values
        Values, shape (n,) [any unit].
    weights
        Weights that sum to 1, shape (n,) [0-1].
    p
        Share, 0 to 1 [1].

    Returns
    -------
    float
        Smallest value whose cumulated weight reaches ``p`` [unit of the values].

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> weighted_quantile([3.0, 1.0, 2.0], [0.2, 0.5, 0.3], 0.6)
    2.0
    """
    total = 0.0
    ordered = sorted(zip(values, weights, strict=True))
    for value, weight in ordered:
        total += weight
        if total >= p - 1e-12:
            return value
    return ordered[-1][0]
