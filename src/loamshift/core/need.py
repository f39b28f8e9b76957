"""The acid a soil needs as a distribution: curve, free lime and reading error together.

No sampling: the distribution function is a fixed sum over nodes, so one soil and a million
soils get the same bits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import Final

import numpy as np
from numpy.typing import NDArray

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
_BISECTIONS = 60
_SECANTS = 12
_HAIR = 1e-12
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
        enough = np.zeros_like(self.curve_mmolc_kg)
        if self.zero_weight > 0.0:
            enough += self.zero_weight * self._curve_within(acid_mmolc_kg)
        if self.zero_weight < 1.0:
            low, high = self.carbonate_low_mmolc_kg, self.carbonate_high_mmolc_kg
            if high == low and self.carbonate_log_sd > 0.0 and high > 0.0:
                within = self._within_measured(acid_mmolc_kg)
            elif high == low:
                within = self._curve_within(acid_mmolc_kg - high)
            else:
                scale = 10.0 ** (self.log10_k_mean + self.log10_k_sd * _SCALE_NODES)
                left = acid_mmolc_kg - self.curve_mmolc_kg[:, None] * scale[None, :]
                share = np.log(np.maximum(left, low) / low) / math.log(high / low)
                within = np.minimum(share, 1.0) @ _SCALE_WEIGHTS
            enough += (1.0 - self.zero_weight) * within
        return float(np.dot(enough, self.curve_weight))

    def _within_measured(self, acid_mmolc_kg: float) -> FloatArray:
        """As ``_curve_within``, with a measured carbonate that has an error.

        The wider of curve and carbonate is integrated exactly, over nodes of the narrower, so
        that the steps between nodes never show. Without carbonate both ways are the curve alone.
        """
        middle, log_sd = self.carbonate_high_mmolc_kg, self.carbonate_log_sd
        spread = math.log(10.0) * self.log10_k_sd
        width = self.curve_mmolc_kg * 10.0**self.log10_k_mean * spread
        wide = width > middle * log_sd
        found = np.zeros_like(self.curve_mmolc_kg)
        if wide.any():
            carbonate = middle * np.exp(log_sd * _EVEN_NODES)
            curve = self.curve_mmolc_kg[wide] * 10.0**self.log10_k_mean
            left = acid_mmolc_kg - carbonate[None, :]
            found[wide] = (
                _lognormal_at_most(left, median=curve[:, None], log_sd=spread) @ _EVEN_WEIGHTS
            )
        if not wide.all():
            scale = 10.0 ** (self.log10_k_mean + self.log10_k_sd * _EVEN_NODES)
            left = acid_mmolc_kg - self.curve_mmolc_kg[~wide, None] * scale[None, :]
            found[~wide] = _lognormal_at_most(left, median=middle, log_sd=log_sd) @ _EVEN_WEIGHTS
        return found

    def _curve_within(self, acid_mmolc_kg: float) -> FloatArray:
        """Probability that the curve alone takes up no more than this, for each node."""
        nothing = self.curve_mmolc_kg <= 0.0
        if acid_mmolc_kg <= 0.0:
            return np.where(nothing & (acid_mmolc_kg >= 0.0), 1.0, 0.0)
        ratio = acid_mmolc_kg / np.where(nothing, 1.0, self.curve_mmolc_kg)
        z = (np.log10(ratio) - self.log10_k_mean) / self.log10_k_sd
        below = np.array([0.5 * math.erfc(-value / math.sqrt(2.0)) for value in z])
        return np.where(nothing, 1.0, below)

    def quantile(self, probability: float) -> float:
        """Acid that is enough with this probability [mmolc/kg], for a probability [0-1].

        Bisection to the last bit; where a narrower bracket already tells which half holds the
        answer, the probability is not worked out again, and the bits are the same.
        """
        low, high = 0.0, 1.0
        below = self.probability_at_most(low) - probability
        if below >= 0.0:
            return 0.0
        least, left = low, below
        while (right := self.probability_at_most(high) - probability) < 0.0:
            least, left = high, right
            high *= 2.0
        short, enough = self._bracket((least, left), (high, right), probability)
        for _ in range(_BISECTIONS):
            middle = 0.5 * (low + high)
            if middle in (low, high):
                break
            if middle <= short:
                low = middle
            elif middle >= enough or self.probability_at_most(middle) >= probability:
                high = middle
            else:
                low = middle
        return 0.5 * (low + high)

    def _bracket(
        self, low: tuple[float, float], high: tuple[float, float], probability: float
    ) -> tuple[float, float]:
        """Two acids [mmolc/kg] close about the answer, one too little and one enough.

        Both ends come as the acid and how far its probability lies from the one asked. Secants
        with the end that stays put halved; a hair is left for what rounding does.
        """
        moved = 0
        for _ in range(_SECANTS):
            if high[0] - low[0] <= _HAIR * high[0] or high[1] == low[1]:
                break
            guess = high[0] - high[1] * (high[0] - low[0]) / (high[1] - low[1])
            if not low[0] < guess < high[0]:
                break
            beside = self.probability_at_most(guess) - probability
            if beside < 0.0:
                low = guess, beside
                high = (high[0], high[1] / 2.0) if moved < 0 else high
                moved = -1
            else:
                high = guess, beside
                low = (low[0], low[1] / 2.0) if moved > 0 else low
                moved = 1
        return low[0] * (1.0 - _HAIR), high[0] * (1.0 + _HAIR)


def _lognormal_at_most(
    value: FloatArray, *, median: FloatArray | float, log_sd: float
) -> FloatArray:
    """Probability that a lognormal quantity is at most so much [0-1]; none is below zero."""
    ratio = np.where(value > 0.0, value, 1.0) / median
    z = np.log(ratio) / log_sd
    below = [0.5 * math.erfc(-one / math.sqrt(2.0)) for one in z.ravel().tolist()]
    return np.where(value > 0.0, np.array(below).reshape(z.shape), 0.0)


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
