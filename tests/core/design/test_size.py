"""What a trial can show, against printed tables."""

import numpy as np
import pytest
from statsmodels.stats.power import TTestIndPower

from loamshift.core.analysis.many_to_one import against_control, differences
from loamshift.core.analysis.treatment_means import treatment_means
from loamshift.core.design.size import power_to_show, smallest_difference_ph
from loamshift.errors import OutOfRangeError


@pytest.mark.parametrize(("d", "n"), [(0.2, 393), (0.5, 64), (0.8, 26)])
def test_size_of_two_groups_for_a_power_of_80_in_100(d: float, n: int) -> None:
    """Cohen 1992, A power primer, Psychological Bulletin 112:155-159, table 2 (from memory)."""
    at = {"sd_ph": 1.0, "n_treatments": 2, "in_blocks": False, "level": 0.95}
    enough = power_to_show(difference_ph=d, replicates=n, **at)
    assert enough >= 0.799 > power_to_show(difference_ph=d, replicates=n - 2, **at)


def test_two_small_groups_as_another_library_has_them() -> None:
    for n in (3, 4, 6):
        ours = power_to_show(
            difference_ph=0.3, sd_ph=0.15, replicates=n, n_treatments=2, in_blocks=False, level=0.95
        )
        assert ours == pytest.approx(TTestIndPower().power(2.0, n, 0.05), abs=1e-6)


def test_power_comes_out_as_promised() -> None:
    """A cheap run of what the benchmark does at length: within 6 points for 400 trials."""
    rng = np.random.default_rng(11)
    promised = power_to_show(
        difference_ph=0.25, sd_ph=0.12, replicates=5, n_treatments=4, in_blocks=False, level=0.95
    )
    treatment, shown = np.repeat(np.arange(4), 5), 0
    for _ in range(400):
        read = rng.normal(0.0, 0.12, 20)
        read[treatment == 2] += 0.25
        fit = treatment_means(read, treatment)
        found = differences(fit.mean, fit.covariance, against_control(4), df=fit.df, level=0.95)
        shown += not found.low[1] <= 0.0 <= found.high[1]
    assert shown / 400 == pytest.approx(promised, abs=0.06)


def test_the_smallest_difference_has_the_power_asked_for() -> None:
    at = {"sd_ph": 0.1, "replicates": 4, "n_treatments": 5, "in_blocks": True, "level": 0.95}
    smallest = smallest_difference_ph(power=0.8, **at)
    assert power_to_show(difference_ph=smallest, **at) == pytest.approx(0.8, abs=1e-3)


def test_one_replicate_has_no_power() -> None:
    with pytest.raises(OutOfRangeError):
        power_to_show(
            difference_ph=1, sd_ph=0.1, replicates=1, n_treatments=3, in_blocks=False, level=0.95
        )
