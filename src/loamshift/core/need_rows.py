"""The acid that many soils need at once: the sums of ``core.need`` over arrays.

Every soil is solved on its own numbers only, so that a row does not depend on its neighbours.
Quantiles agree with those of ``core.need.Need`` to nine digits, not to the last bit: there each is
bisected to the end, here a bracket is closed faster.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from loamshift.core.need import (
    _EVEN_NODES,
    _EVEN_WEIGHTS,
    _SCALE_NODES,
    _SCALE_WEIGHTS,
    FloatArray,
)
from loamshift.errors import FitError, OutOfRangeError

_TOLERANCE: Final = 1e-10
"""Share of the answer by which the ends of a closed bracket may differ [-]."""
_SMALL: Final = 1e-4
"""Below this share of the most that a soil can need, an answer is sought on a plain scale."""
_SURE_SD: Final = 6.0
"""An acid so many deviations above the middle is enough [-]."""
_LN10: Final = math.log(10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedRows:
    """Needs of n soils: curve times a lognormal scale, plus free carbonate, as in ``Need``.

    ``curve_mmolc_kg`` (n, m) acid of the curve at k = 1 for each node of the reading, never
    negative, with ``curve_weight`` (m,) that sums to 1. All others (n,): ``zero_weight`` [0-1],
    carbonate from ``carbonate_low_mmolc_kg`` to ``_high``, ``carbonate_log_sd`` [ln] where both
    are equal, ``log10_k_mean`` and ``log10_k_sd`` [log10].
    """

    curve_mmolc_kg: FloatArray
    curve_weight: FloatArray
    zero_weight: FloatArray
    carbonate_low_mmolc_kg: FloatArray
    carbonate_high_mmolc_kg: FloatArray
    carbonate_log_sd: FloatArray
    log10_k_mean: FloatArray
    log10_k_sd: FloatArray

    def quantile(self, probability: float) -> FloatArray:
        """Acid that is enough with this probability, (n,) [mmolc/kg], for one [0-1]."""
        if not 0.0 < probability < 1.0:
            raise OutOfRangeError(f"probability = {probability:g} must lie between 0 and 1")
        found = np.zeros(self.log10_k_mean.shape)
        measured = (self.carbonate_log_sd > 0.0) & (self.carbonate_high_mmolc_kg > 0.0)
        spread = self.carbonate_high_mmolc_kg > self.carbonate_low_mmolc_kg
        none = self.zero_weight >= 1.0
        for rows, within in (
            (none, _of_curve),
            (~none & spread, _of_spread),
            (~none & ~spread & measured, _of_measured),
            (~none & ~spread & ~measured, _of_exact),
        ):
            chosen = np.flatnonzero(rows)
            if chosen.size:
                found[chosen] = _solved(self._take(chosen), within, probability)
        return found

    def _take(self, rows: Any) -> NeedRows:
        return NeedRows(
            curve_mmolc_kg=self.curve_mmolc_kg[rows],
            curve_weight=self.curve_weight,
            zero_weight=self.zero_weight[rows],
            carbonate_low_mmolc_kg=self.carbonate_low_mmolc_kg[rows],
            carbonate_high_mmolc_kg=self.carbonate_high_mmolc_kg[rows],
            carbonate_log_sd=self.carbonate_log_sd[rows],
            log10_k_mean=self.log10_k_mean[rows],
            log10_k_sd=self.log10_k_sd[rows],
        )


def _solved(needs: NeedRows, within: Any, probability: float) -> FloatArray:
    """Where each distribution passes the probability, each row by itself; 0 where none does."""
    most = needs.carbonate_high_mmolc_kg * np.exp(_SURE_SD * needs.carbonate_log_sd)
    sure = 10.0 ** (needs.log10_k_mean + _SURE_SD * needs.log10_k_sd)
    high = needs.curve_mmolc_kg.max(axis=1) * sure + most
    found: FloatArray = np.zeros_like(high)
    short = np.flatnonzero((within(needs, found) < probability) & (high > 0.0))
    low = high[short] * _SMALL
    small = within(needs._take(short), low) >= probability
    for rows, start, by_size in (
        (short[~small], low[~small], True),
        (short[small], np.zeros(int(small.sum())), False),
    ):
        end = high[rows] if by_size else high[rows] * _SMALL
        if rows.size:
            found[rows] = _roots(needs, within, probability, rows, start, end, by_size=by_size)
    return found


def _roots(
    needs: NeedRows,
    within: Any,
    probability: float,
    rows: Any,
    low: FloatArray,
    high: FloatArray,
    *,
    by_size: bool,
) -> FloatArray:
    """Answers inside brackets; by the logarithm of the acid where none is near zero."""
    from scipy.optimize.elementwise import find_root  # kept out of the start of every command

    def excess(place: FloatArray, row: Any) -> FloatArray:
        acid = np.exp(place) if by_size else place
        return np.asarray(within(needs._take(row), acid) - probability)

    ends = (np.log(low), np.log(high)) if by_size else (low, high)
    found = find_root(
        excess, ends, args=(rows,), tolerances={"xatol": _TOLERANCE, "xrtol": _TOLERANCE}
    )
    if not found.success.all():
        raise FitError("a need was not found; check the figures of the soil")
    return np.asarray(np.exp(found.x) if by_size else found.x)


def _of_curve(needs: NeedRows, acid: FloatArray) -> FloatArray:
    return np.asarray(_curve_within(needs, acid) @ needs.curve_weight)


def _of_exact(needs: NeedRows, acid: FloatArray) -> FloatArray:
    bare = _curve_within(needs, acid)
    limed = _curve_within(needs, acid - needs.carbonate_high_mmolc_kg)
    zero = needs.zero_weight[:, None]
    return np.asarray((zero * bare + (1.0 - zero) * limed) @ needs.curve_weight)


def _of_spread(needs: NeedRows, acid: FloatArray) -> FloatArray:
    low = needs.carbonate_low_mmolc_kg[:, None, None]
    width = np.log(needs.carbonate_high_mmolc_kg / needs.carbonate_low_mmolc_kg)[:, None]
    scale = 10.0 ** (needs.log10_k_mean[:, None] + needs.log10_k_sd[:, None] * _SCALE_NODES)
    left = (needs.curve_mmolc_kg / low[:, 0])[:, :, None] * scale[:, None, :]
    np.subtract(acid[:, None, None] / low, left, out=left)
    np.maximum(left, 1.0, out=left)
    np.minimum(left, needs.carbonate_high_mmolc_kg[:, None, None] / low, out=left)
    limed = (np.log(left, out=left) @ _SCALE_WEIGHTS) / width
    return _mixed(needs, acid, limed)


def _of_measured(needs: NeedRows, acid: FloatArray) -> FloatArray:
    spread = _LN10 * needs.log10_k_sd[:, None, None]
    log_sd = needs.carbonate_log_sd[:, None, None]
    median = needs.carbonate_high_mmolc_kg[:, None, None]
    curve = (needs.curve_mmolc_kg * 10.0 ** needs.log10_k_mean[:, None])[:, :, None]
    # The narrower of the two is gone through node by node, the wider is closed.
    wide = curve * spread > median * log_sd
    stepped = np.where(wide, median, curve) * np.exp(np.where(wide, log_sd, spread) * _EVEN_NODES)
    left = acid[:, None, None] - stepped
    limed = _lognormal(left, np.where(wide, curve, median), np.where(wide, spread, log_sd))
    return _mixed(needs, acid, limed @ _EVEN_WEIGHTS)


def _mixed(needs: NeedRows, acid: FloatArray, limed: FloatArray) -> FloatArray:
    zero = needs.zero_weight[:, None]
    bare = _curve_within(needs, acid) if bool((zero > 0.0).any()) else np.zeros_like(limed)
    return np.asarray((zero * bare + (1.0 - zero) * limed) @ needs.curve_weight)


def _curve_within(needs: NeedRows, acid: FloatArray) -> FloatArray:
    """Probability that the curve alone takes up no more than this, (n, m)."""
    nothing = needs.curve_mmolc_kg <= 0.0
    wanted = acid[:, None]
    ratio = np.where(wanted > 0.0, wanted, 1.0) / np.where(nothing, 1.0, needs.curve_mmolc_kg)
    z = (np.log10(ratio) - needs.log10_k_mean[:, None]) / needs.log10_k_sd[:, None]
    found = np.where(wanted > 0.0, _normal_below(z), 0.0)
    return np.where(nothing & (wanted >= 0.0), 1.0, found)


def _lognormal(value: FloatArray, median: FloatArray, log_sd: FloatArray) -> FloatArray:
    """Probability that a lognormal quantity is at most so much; none is below zero."""
    safe = np.where(median > 0.0, median, 1.0)
    below = _normal_below(np.log(np.where(value > 0.0, value, 1.0) / safe) / log_sd)
    return np.where(value > 0.0, np.where(median > 0.0, below, 1.0), 0.0)


def _normal_below(z: FloatArray) -> FloatArray:
    from scipy.special import ndtr  # kept out of the start of every command

    return np.asarray(ndtr(z), dtype=np.float64)
