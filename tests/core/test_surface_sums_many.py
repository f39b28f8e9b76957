"""What a dose surface and the choice of a rule ask, by machine code as by NumPy."""

from __future__ import annotations

import numpy as np
import pytest

from loamshift.core.surface_sums import PLAIN_SUMS
from loamshift.core.surface_sums_many import COMPILED_SUMS

BEDS = 60
KNOTS = np.array([0.0, 20.0, 55.0, 90.0])


def curves(sign: float) -> np.ndarray:
    """pH of beds that amounts move, some of them back again by a little."""
    rng = np.random.default_rng(5)
    steps = rng.normal(0.5, 0.4, (BEDS, KNOTS.size - 1)).cumsum(axis=1)
    start = rng.normal(6.5, 0.5, (BEDS, 1))
    return np.concatenate((start, start - sign * steps), axis=1)


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_curves_are_read_and_passed_alike(sign: float) -> None:
    curve = curves(sign)
    rng = np.random.default_rng(6)
    for amounts in (rng.uniform(-10.0, 110.0, BEDS), rng.uniform(0.0, 90.0, (BEDS, 3))):
        one, other = (s.read(KNOTS, curve, amounts) for s in (PLAIN_SUMS, COMPILED_SUMS))
        assert np.array_equal(one, other)
    for ph in (4.0, 5.8, 6.5, float(curve[3, 1]), 8.0):
        one, other = (s.passing(KNOTS, curve, ph, sign=sign) for s in (PLAIN_SUMS, COMPILED_SUMS))
        assert np.array_equal(one, other)
    assert np.isneginf(one).any() or np.isinf(one).any()


def test_readings_are_spread_alike() -> None:
    ph = np.random.default_rng(7).normal(6.0, 1.5, BEDS)
    edges = np.arange(4.05, 8.0, 0.1)
    one, other = (s.shares(ph, edges, sd_ph=0.18) for s in (PLAIN_SUMS, COMPILED_SUMS))
    assert np.allclose(one, other, rtol=0.0, atol=1e-15)
    assert np.allclose(other.sum(axis=1), 1.0)


@pytest.mark.parametrize("rising", [True, False])
@pytest.mark.parametrize("lines", [1, 2, 4])
def test_bins_are_cut_alike_ties_too(lines: int, *, rising: bool) -> None:
    rng = np.random.default_rng(lines)
    for number in range(40):
        bins, choices = int(rng.integers(2, 24)), int(rng.integers(1, 7))
        value = rng.normal(0.0, 1.0, (bins, choices))
        if number % 2:
            value = np.round(value)  # many sums are equal then, and which is taken is a rule
        one, other = (s.cut(value, lines=lines, rising=rising) for s in (PLAIN_SUMS, COMPILED_SUMS))
        assert one == other
