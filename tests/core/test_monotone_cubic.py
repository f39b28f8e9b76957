from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from loamshift.core.monotone_cubic import monotone_cubic
from loamshift.errors import InputError

NODES = np.array([-2.4, -1.2, 0.0, 0.7, 2.4])


@given(st.integers(0, 10_000), st.integers(2, 7), st.booleans())
def test_it_is_the_interpolation_of_fritsch_and_butland_as_scipy_has_it(
    seed: int, count: int, rising: bool
) -> None:
    """``scipy.interpolate.PchipInterpolator``: the same method by other hands."""
    rng = np.random.default_rng(seed)
    nodes = np.cumsum(rng.uniform(0.1, 2.0, count))
    values = rng.normal(size=(count, 5))
    if rising:
        values = np.sort(values, axis=0)
    at = rng.uniform(nodes[0], nodes[-1], size=(9, 5))
    found = monotone_cubic(nodes, values, at)
    for curve in range(5):
        known = PchipInterpolator(nodes, values[:, curve])(at[:, curve])
        assert np.allclose(found[:, curve], known, rtol=1e-10, atol=1e-12)


def test_every_curve_may_hold_a_whole_course() -> None:
    rng = np.random.default_rng(3)
    values = rng.normal(size=(5, 4, 6))
    at = rng.uniform(-2.4, 2.4, size=(3, 4))
    found = monotone_cubic(NODES, values, at)
    assert found.shape == (3, 4, 6)
    for day in range(6):
        assert np.allclose(found[..., day], monotone_cubic(NODES, values[..., day], at))


@given(st.integers(0, 10_000))
def test_what_rises_at_the_nodes_rises_between_them(seed: int) -> None:
    rng = np.random.default_rng(seed)
    values = np.cumsum(rng.exponential(size=(5, 1)) * (rng.random((5, 1)) < 0.7), axis=0)
    at = np.linspace(-2.4, 2.4, 200)[:, None]
    found = monotone_cubic(NODES, values, at)[:, 0]
    assert np.all(np.diff(found) >= -1e-12)
    assert found.min() >= values[0, 0] - 1e-12 and found.max() <= values[-1, 0] + 1e-12


def test_at_the_nodes_and_outside_them_the_values_of_the_nodes_hold() -> None:
    values = np.array([[1.0], [2.0], [0.0], [5.0], [4.0]])
    assert np.allclose(monotone_cubic(NODES, values, NODES[:, None]), values)
    outside = monotone_cubic(NODES, values, np.array([[-9.0], [9.0]]))
    assert outside[:, 0].tolist() == [1.0, 4.0]


@pytest.mark.parametrize(
    ("nodes", "values", "at"),
    [
        ([0.0], [[1.0]], [[0.0]]),
        ([0.0, 0.0, 1.0], [[1.0], [2.0], [3.0]], [[0.5]]),
        ([1.0, 0.0], [[1.0], [2.0]], [[0.5]]),
        ([0.0, 1.0], [[1.0], [2.0], [3.0]], [[0.5]]),
        ([0.0, 1.0], [1.0, 2.0], [[0.5]]),
        ([0.0, 1.0], [[1.0], [2.0]], [[0.5, 0.5]]),
    ],
)
def test_nodes_that_do_not_rise_and_shapes_that_do_not_fit_are_refused(
    nodes: list[float], values: list[list[float]], at: list[list[float]]
) -> None:
    with pytest.raises(InputError):
        monotone_cubic(nodes, values, at)
