"""The randomisation test against SciPy's own, on both ways of counting, and what it keeps to."""

import numpy as np
import pytest
from scipy import stats

from loamshift.core.analysis.dealt_again import DRAWN, dealt_again
from loamshift.errors import OutOfRangeError

RNG = np.random.default_rng(5)


@pytest.mark.parametrize(("treated", "bare"), [(5, 5), (3, 6), (2, 4)])
def test_all_ways_are_counted_as_scipy_counts_them(treated: int, bare: int) -> None:
    read = RNG.normal(7.0, 0.1, treated + bare)
    read[:treated] -= 0.1
    is_treated = np.arange(read.size) < treated
    whole = stats.permutation_test(
        (read[:treated], read[treated:]),
        # both directions of the absolute value, as ours
        lambda a, b, axis: np.abs(a.mean(axis=axis) - b.mean(axis=axis)),
        vectorized=True, alternative="greater", n_resamples=np.inf,
    )  # fmt: skip
    found = dealt_again(read, is_treated, rng=RNG)
    assert found.is_exact and found.p == pytest.approx(whole.pvalue)


def test_pairs_are_only_turned_round_within_themselves() -> None:
    bare = RNG.normal(7.0, 0.6, 8)
    treated = bare - 0.1 + RNG.normal(0.0, 0.05, 8)
    whole = stats.permutation_test(
        (treated - bare,),
        lambda gap, axis: np.abs(gap.mean(axis=axis)),
        permutation_type="samples", vectorized=True, alternative="greater", n_resamples=np.inf,
    )  # fmt: skip
    read = np.ravel(np.column_stack([bare, treated]))
    pair = np.repeat(np.arange(8), 2)
    found = dealt_again(read, np.tile([False, True], 8), pair, rng=RNG)
    assert found.ways == 2**8 and found.p == pytest.approx(whole.pvalue)
    assert dealt_again(read, np.tile([False, True], 8), rng=RNG).p > 10 * found.p


def test_too_many_ways_are_drawn_and_agree_with_all_of_them() -> None:
    read = RNG.normal(7.0, 0.1, 24)
    read[:12] -= 0.08
    is_treated = np.arange(24) < 12
    found = dealt_again(read, is_treated, rng=np.random.default_rng(1))
    assert not found.is_exact and found.ways == DRAWN
    again = dealt_again(read, is_treated, rng=np.random.default_rng(1))
    assert again == found
    near = stats.ttest_ind(read[:12], read[12:]).pvalue
    assert found.p == pytest.approx(near, abs=0.02)


def test_three_pots_can_never_reach_five_in_a_hundred() -> None:
    read = np.array([7.0, 7.0, 7.1, 5.0, 5.1, 5.0])
    found = dealt_again(read, np.arange(6) > 2, rng=RNG)
    assert (found.ways, found.as_large) == (20, 2) and found.can_reach == 0.1


def test_without_untreated_pots_there_is_no_lot() -> None:
    with pytest.raises(OutOfRangeError):
        dealt_again(np.ones(3), np.ones(3, dtype=bool), rng=RNG)
