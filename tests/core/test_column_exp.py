"""Exponential and logarithm of the column against those of Python in 40 digits."""

from __future__ import annotations

from decimal import Decimal, getcontext

import numpy as np
import pytest

from loamshift.core.column_compile import compiled
from loamshift.core.column_exp import exp_of, log_of, used_up
from loamshift.core.column_layout import FloatArray

getcontext().prec = 40
MOST_LAST_PLACES = 2.0
DRAWN = np.random.default_rng(7)


def last_places(found: float, exact: Decimal) -> float:
    """How far a number lies from the exact one, in its own last places."""
    return abs(float((Decimal(found) - exact) / Decimal(float(np.spacing(abs(float(exact)))))))


@pytest.mark.parametrize("widest", [1e-6, 1.0, 30.0, 690.0])
def test_the_exponential_is_right_to_its_last_places(widest: float) -> None:
    for x in DRAWN.uniform(-widest, widest, 300):
        assert last_places(exp_of(x), Decimal(float(x)).exp()) < MOST_LAST_PLACES


@pytest.mark.parametrize(("low", "high"), [(-200.0, 200.0), (-1.0, 1.0), (-0.01, 0.01)])
def test_the_logarithm_is_right_to_its_last_places(low: float, high: float) -> None:
    for x in 10.0 ** DRAWN.uniform(low, high, 300):
        assert last_places(log_of(float(x)), Decimal(float(x)).ln()) < MOST_LAST_PLACES


def test_the_ends_are_held() -> None:
    assert exp_of(-1e9) == exp_of(-700.0) > 0.0
    assert np.isfinite(exp_of(1e9))
    assert exp_of(0.0) == 1.0
    assert log_of(1.0) == 0.0


def test_a_share_used_up_is_smooth_across_its_two_formulas() -> None:
    x = np.concatenate((10.0 ** DRAWN.uniform(-12.0, 2.0, 500), [0.02, np.nextafter(0.02, 0.0)]))
    found = np.array([used_up(float(one)) for one in x])
    assert found == pytest.approx(-np.expm1(-x), rel=1e-11)


@compiled
def many(x: FloatArray, found: FloatArray, n: int) -> None:
    """Both of many numbers, as the loops of the column call them."""
    for i in range(n):
        found[0, i] = exp_of(-x[i])
        found[1, i] = log_of(x[i])
        found[2, i] = used_up(x[i])


@pytest.mark.parametrize("n", [1, 2, 7, 8, 9, 31, 64])
def test_many_at_a_time_have_the_bits_of_one(n: int) -> None:
    x, found = DRAWN.uniform(1e-4, 5.0, n), np.zeros((3, n))
    many(x, found, n)
    one = [[exp_of(-v), log_of(v), used_up(v)] for v in x.tolist()]
    assert np.array_equal(found.T.copy().view(np.int64), np.array(one).view(np.int64))
