from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm
from scipy.stats import t as student

from loamshift.core.member_weights import (
    Weights,
    equal_beds,
    normal_slices,
    scale_quantiles,
    weigh_members,
)
from loamshift.errors import InputError, OutOfRangeError

NODES = np.array([-3.6, -2.4, -1.2, 0.0, 1.2, 2.4, 3.8])
NEARLY_NORMAL = 1e7
"""Degrees of freedom at which a Student t is a normal distribution."""


def weighed(
    predicted: np.ndarray, read: list[float], sd: list[float], *, degrees: float = 5.0
) -> Weights:
    return weigh_members(NODES, predicted, read_ph=read, read_sd_ph=sd, degrees=degrees)


def linear(others: int, readings: int, *, slope: float = 1.0) -> np.ndarray:
    """Beds that read their own standard scale: pH = slope z."""
    return np.broadcast_to(slope * NODES[:, None, None], (NODES.size, others, readings)).copy()


def test_without_readings_the_prior_stands() -> None:
    weights = weighed(np.zeros((NODES.size, 8, 0)), [], [])
    assert weights.weight.sum() == pytest.approx(1.0)
    assert weights.effective_others == pytest.approx(8.0)
    for share in (0.05, 0.25, 0.5, 0.75, 0.95):
        assert scale_quantiles(weights, [share])[0] == pytest.approx(norm.ppf(share), abs=0.02)


@given(st.floats(-1.5, 1.5), st.floats(0.2, 1.0), st.integers(1, 4))
def test_normal_errors_give_the_product_of_normal_densities(
    read: float, sd: float, count: int
) -> None:
    """Mean and variance of n readings of a standard normal: r n/(n + s2) and s2/(n + s2)."""
    weights = weighed(linear(3, count), [read] * count, [sd] * count, degrees=NEARLY_NORMAL)
    share = weights.of_scale
    mean = float(np.sum(share * weights.z))
    variance = float(np.sum(share * (weights.z - mean) ** 2))
    assert mean == pytest.approx(read * count / (count + sd**2), abs=0.01)
    assert variance == pytest.approx(sd**2 / (count + sd**2), rel=0.05)


def test_the_likelihood_is_that_of_a_student_t() -> None:
    """``scipy.stats.t`` with the scale of the reading."""
    rng = np.random.default_rng(1)
    predicted = linear(4, 2) + rng.normal(scale=0.3, size=(1, 4, 2))
    read, sd = np.array([0.4, -0.2]), np.array([0.3, 0.5])
    weights = weighed(predicted, read.tolist(), sd.tolist())
    density = norm.pdf(weights.z)[:, None] * np.prod(
        student.pdf((read - weights.fitted_ph) / sd, 5.0), axis=2
    )
    assert np.allclose(weights.weight, density / density.sum(), rtol=1e-9)


def test_a_reading_far_from_every_bed_teaches_less_than_a_near_one() -> None:
    """An outlier of a heavy tail moves the belief less than one a third as far."""
    prior = scale_quantiles(weighed(linear(3, 0), [], []), [0.5])[0]
    near, far = (
        scale_quantiles(weighed(linear(3, 1, slope=0.2), [read], [0.1]), [0.5])[0]
        for read in (0.6, 9.0)
    )
    assert abs(far - prior) < abs(near - prior)


def test_draws_that_read_what_was_read_carry_the_weight() -> None:
    predicted = np.zeros((NODES.size, 50, 1))
    predicted[:, :, 0] = np.linspace(-1.0, 1.0, 50)[None, :]
    weights = weighed(predicted, [0.5], [0.1])
    best = int(np.argmax(weights.of_others))
    assert predicted[0, best, 0] == pytest.approx(0.5, abs=0.03)
    assert 2.0 < weights.effective_others < 15.0


def test_the_scale_cannot_collapse_onto_a_node() -> None:
    """A very exact reading between two nodes leaves the weight where it belongs."""
    weights = weighed(linear(3, 1), [0.6], [0.03], degrees=NEARLY_NORMAL)
    low, middle, high = scale_quantiles(weights, [0.05, 0.5, 0.95])
    assert middle == pytest.approx(0.6, abs=0.02)
    assert 0.0 < low < middle < high < 1.2


def test_equal_beds_stand_for_the_weighted_ones() -> None:
    rng = np.random.default_rng(5)
    predicted = linear(40, 1) + rng.normal(scale=0.5, size=(1, 40, 1))
    weights = weighed(predicted, [0.7], [0.3])
    chosen, z = equal_beds(weights, n_others=30, n_scale=15)
    assert chosen.shape == (30,) and z.shape == (15, 30)
    assert np.all(np.diff(z, axis=0) >= 0.0)
    times = np.bincount(chosen, minlength=40)
    assert np.abs(times - 30.0 * weights.of_others).max() <= 1.0 + 1e-9
    for share in (0.1, 0.5, 0.9):
        assert np.quantile(z, share) == pytest.approx(
            scale_quantiles(weights, [share])[0], abs=0.12
        )


@pytest.mark.parametrize("count", [1, 2, 7, 15, 200])
def test_slices_of_a_normal_distribution(count: int) -> None:
    known = norm.ppf((np.arange(count) + 0.5) / count)
    assert np.allclose(normal_slices(count), known, atol=2e-3)


def test_what_does_not_fit_is_refused() -> None:
    good = linear(3, 1)
    with pytest.raises(InputError):
        weigh_members(NODES[:-1], good, read_ph=[0.0], read_sd_ph=[0.1], degrees=5.0)
    with pytest.raises(InputError):
        weighed(good, [0.0, 1.0], [0.1, 0.1])
    with pytest.raises(InputError):
        weighed(good, [0.0], [0.1, 0.1])
    with pytest.raises(OutOfRangeError):
        weighed(good, [0.0], [0.0])
    with pytest.raises(OutOfRangeError):
        normal_slices(0)
