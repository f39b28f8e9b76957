"""Patterns in samples: found where there is one, refused where there is none."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from loamshift.core.field_outcome import shares_over
from loamshift.core.field_pattern import (
    covariance_between,
    fit_pattern,
    next_places,
    pattern_at,
    try_pattern,
)

FloatArray = NDArray[np.float64]
NONE = np.zeros(40)


def _field(seed: int, *, smooth: bool) -> tuple[FloatArray, FloatArray, FloatArray]:
    rng = np.random.default_rng(seed)
    x, y = rng.uniform(0, 300, 40), rng.uniform(0, 300, 40)
    wave = 0.6 * np.sin(x / 60.0) + 0.4 * np.cos(y / 70.0)
    values = 6.0 + (wave if smooth else 0.0) + rng.normal(0.0, 0.1 if smooth else 0.5, 40)
    return x, y, values


@pytest.mark.parametrize("smooth", [True, False])
def test_left_out_samples_tell_a_pattern_from_chance(smooth: bool) -> None:
    x, y, values = _field(3, smooth=smooth)
    trial = try_pattern(x, y, values, error_sd=NONE, fold=np.arange(40) % 5)
    assert trial.skill_frac > 0.5 if smooth else trial.skill_frac < 0.1
    told = 1.0 - (trial.error / trial.error_of_mean) ** 2
    assert trial.skill_frac == pytest.approx(told)
    assert trial.held_frac >= 0.7


def test_what_a_further_sample_takes_away_is_what_a_new_process_finds() -> None:
    """Beside scikit-learn's own posterior with that sample added, its covariance held."""
    from sklearn.gaussian_process import GaussianProcessRegressor

    x, y, values = _field(3, smooth=True)
    pattern = fit_pattern(x, y, values, error_sd=NONE)
    at_x, at_y = np.meshgrid(np.linspace(20, 280, 6), np.linspace(20, 280, 6))
    at_x, at_y = at_x.ravel(), at_y.ravel()
    places, sds = next_places(
        covariance_between(pattern, at_x, at_y), noise_sd=pattern.nugget_sd, count=2
    )
    assert sds.shape == (3, 36)
    assert np.allclose(sds[0], pattern_at(pattern, at_x, at_y)[1], atol=1e-6)
    held = GaussianProcessRegressor(pattern.process.kernel_, optimizer=None, alpha=1e-10)
    more_x, more_y = np.append(x, at_x[places]), np.append(y, at_y[places])
    held.fit(np.column_stack([more_x, more_y]), np.zeros(42))
    _, sd = held.predict(np.column_stack([at_x, at_y]), return_std=True)
    ground = np.sqrt(np.clip(sd**2 - held.kernel_.k2.noise_level, 0.0, None))
    assert np.allclose(sds[2], pattern.scale * ground, atol=1e-5)


def test_outcomes_of_a_doubtful_spot_are_those_of_the_normal_distribution() -> None:
    """A steep step between two knots is the normal distribution function of SciPy."""
    from scipy.stats import norm

    knots = np.array([5.0, 5.9, 6.1, 7.0])
    step = np.array([[0.0], [0.0], [1.0], [1.0]])
    found = shares_over(np.array([6.2]), np.array([0.5]), knots_ph=knots, shares=step)
    assert found[0, 0] == pytest.approx(norm.cdf(0.2 / 0.5), abs=0.06)
