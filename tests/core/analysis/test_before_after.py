"""Before and after, against the interaction of a model with both and every site in it."""

import numpy as np
import pytest

from loamshift.core.analysis.before_after import set_off
from loamshift.core.analysis.many_to_one import against_control, differences
from loamshift.core.analysis.over_time import average_means
from loamshift.errors import FitError

BEFORE = np.array([True, True, False, False, False])


def test_the_difference_of_changes_is_the_interaction_of_period_and_treatment() -> None:
    """Least squares with site and period, and the error between sites, worked out apart.

    The classical analysis of a repeated-measures design in two periods: the interaction is tested
    against sites within treatments, with sites less two degrees of freedom.
    """
    rng = np.random.default_rng(3)
    treated = np.repeat([0, 1], 4)
    read = 7.0 + rng.normal(0.0, 0.5, 8)[:, None] + rng.normal(0.0, 0.05, (8, 5))
    read[treated == 1, 2:] -= 0.3
    fit = average_means(set_off(read, BEFORE), treated)
    found = differences(fit.mean, fit.covariance, against_control(2), df=fit.df, level=0.95)
    change = read[:, 2:].mean(axis=1) - read[:, :2].mean(axis=1)
    gap = change[treated == 1].mean() - change[treated == 0].mean()
    within = sum(np.var(change[treated == k], ddof=1) * 3 for k in (0, 1)) / 6
    assert fit.df == 6
    assert found.estimate[0] == pytest.approx(gap)
    half = 2.4469 * np.sqrt(within * 2 / 4)  # t of 6 degrees of freedom, printed in any table
    assert found.high[0] - found.low[0] == pytest.approx(2 * half, rel=1e-4)


def test_sites_that_differ_from_the_start_are_no_effect() -> None:
    read = np.array([[7.0, 7.1, 7.0, 7.0, 7.1], [5.0, 5.1, 5.0, 5.0, 5.1]])
    even = set_off(read, BEFORE)
    assert np.ptp(even[:, 0]) == pytest.approx(0.0) and even.mean() == pytest.approx(
        6.033, abs=0.01
    )


def test_a_site_that_was_not_read_before_has_no_change() -> None:
    read = np.array([[7.0, np.nan, 6.5, 6.5, 6.5], [np.nan, np.nan, 5.0, 5.0, 5.0]])
    assert np.isnan(set_off(read, BEFORE)).tolist() == [[False] * 3, [True] * 3]
    with pytest.raises(FitError):
        set_off(read[1:], BEFORE)
    with pytest.raises(FitError):
        set_off(read, np.zeros(5, dtype=bool))
