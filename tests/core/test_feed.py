"""Choosing feeds: nitrogen exact, never worse than one feed alone, shares kept."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from loamshift.core.feed import choose_feed
from loamshift.errors import InputError, OutOfRangeError
from tries import tries

FEEDS = st.lists(st.floats(-80.0, 150.0), min_size=1, max_size=6)
LEDGER = st.floats(-3000.0, 3000.0)
NEED = st.floats(0.5, 40.0)


def test_a_wish_out_of_reach_takes_the_strongest_feed_alone() -> None:
    choice = choose_feed(
        [35.7, 142.8, -35.7],
        nitrogen_g_m2_year=10.0,
        other_acid_mmolc_m2_year=-5000.0,
        wanted_acid_mmolc_m2_year=0.0,
    )
    assert choice.nitrogen_g_m2_year == pytest.approx([0.0, 10.0, 0.0])
    assert choice.misfit_mmolc_m2_year == pytest.approx(-3572.0)


def test_shares_are_kept_and_a_forbidden_feed_stays_out() -> None:
    choice = choose_feed(
        [142.8, 35.7, -35.7],
        nitrogen_g_m2_year=10.0,
        other_acid_mmolc_m2_year=1000.0,
        wanted_acid_mmolc_m2_year=0.0,
        max_share_frac=[1.0, 0.7, 0.0],
    )
    assert choice.nitrogen_g_m2_year == pytest.approx([3.0, 7.0, 0.0])


def test_between_equals_the_usual_feed_wins() -> None:
    choice = choose_feed(
        [35.7, 35.7],
        nitrogen_g_m2_year=8.0,
        other_acid_mmolc_m2_year=0.0,
        wanted_acid_mmolc_m2_year=0.0,
    )
    assert choice.nitrogen_g_m2_year == pytest.approx([8.0, 0.0])


def test_a_range_of_nitrogen_is_used_only_as_far_as_it_helps() -> None:
    wish = {"other_acid_mmolc_m2_year": -1000.0, "wanted_acid_mmolc_m2_year": 0.0}
    more = choose_feed([100.0], nitrogen_g_m2_year=4.0, nitrogen_high_g_m2_year=20.0, **wish)
    assert more.nitrogen_g_m2_year == pytest.approx([10.0])
    least = choose_feed([-10.0], nitrogen_g_m2_year=4.0, nitrogen_high_g_m2_year=20.0, **wish)
    assert least.nitrogen_g_m2_year == pytest.approx([4.0])


def test_no_nitrogen_no_feed() -> None:
    choice = choose_feed(
        [50.0],
        nitrogen_g_m2_year=0.0,
        other_acid_mmolc_m2_year=7.0,
        wanted_acid_mmolc_m2_year=0.0,
    )
    assert choice.net_acid_mmolc_m2_year == 7.0
    assert choice.nitrogen_g_m2_year.tolist() == [0.0]


@tries(40)
@given(FEEDS, NEED, LEDGER, LEDGER)
@example([11.0, 1e-6], 1.0, 0.0, 0.0)
@example([11.0, 9.00692538, 28.8169104, -1e-7], 40.0, 6.415366720375694e-06, 1e-7)
def test_nitrogen_is_exact_and_no_single_feed_does_better(
    feeds: list[float], need: float, other: float, wanted: float
) -> None:
    choice = choose_feed(
        feeds,
        nitrogen_g_m2_year=need,
        other_acid_mmolc_m2_year=other,
        wanted_acid_mmolc_m2_year=wanted,
    )
    assert math.isclose(float(choice.nitrogen_g_m2_year.sum()), need, rel_tol=1e-12)
    assert np.all(choice.nitrogen_g_m2_year >= 0.0)
    singles = [abs(other + acid * need - wanted) for acid in feeds]
    size = need * max(abs(acid) for acid in feeds) + abs(other) + abs(wanted) + 1.0
    assert abs(choice.misfit_mmolc_m2_year) <= min(singles) + 1e-6 * size
    reachable = min(feeds) * need <= wanted - other <= max(feeds) * need
    if reachable:
        assert abs(choice.misfit_mmolc_m2_year) <= 1e-6 * size
    assert np.count_nonzero(choice.nitrogen_g_m2_year > 1e-6 * need) <= 2


@tries(40)
@given(st.lists(st.tuples(st.floats(-80.0, 150.0), st.floats(0.3, 1.0)), min_size=4), NEED, LEDGER)
def test_shares_hold_for_every_mix(
    feeds: list[tuple[float, float]], need: float, other: float
) -> None:
    choice = choose_feed(
        [acid for acid, _ in feeds],
        nitrogen_g_m2_year=need,
        other_acid_mmolc_m2_year=other,
        wanted_acid_mmolc_m2_year=0.0,
        max_share_frac=[share for _, share in feeds],
    )
    for nitrogen, (_, share) in zip(choice.nitrogen_g_m2_year, feeds, strict=True):
        assert nitrogen <= share * need * (1 + 1e-6)


@tries(60)
@given(
    st.lists(
        st.tuples(st.sampled_from([142.8, 71.4, 35.7, 35.6, 0.0, -35.7]), st.floats(0.3, 1.0)),
        min_size=4,
        max_size=7,
    ),
    st.sampled_from([0.0, 5.0, 12.5]),
    st.sampled_from([0.0, 7.5, 30.0]),
    st.floats(-2000.0, 2000.0),
)
def test_a_general_solver_finds_nothing_nearer_and_nothing_cheaper(
    feeds: list[tuple[float, float]], need: float, more: float, other: float
) -> None:
    """The same two aims given to HiGHS, by way of SciPy (Huangfu and Hall 2018)."""
    acid, share = np.array(feeds).T
    choice = choose_feed(
        acid,
        nitrogen_g_m2_year=need,
        nitrogen_high_g_m2_year=need + more,
        other_acid_mmolc_m2_year=other,
        wanted_acid_mmolc_m2_year=0.0,
        max_share_frac=share,
    )
    n = acid.size
    ones, pad = np.ones(n), np.zeros((n, 2))
    upper = np.vstack([np.hstack([np.eye(n) - np.outer(share, ones), pad]), [*ones, 0, 0]])
    upper = np.vstack([upper, [*-ones, 0, 0]])
    program = {"A_eq": [[*acid, -1.0, 1.0]], "b_eq": [-other], "bounds": (0.0, None)}
    upper_to = [*np.zeros(n), need + more, -need]
    nearest = linprog([*np.zeros(n), 1.0, 1.0], A_ub=upper, b_ub=upper_to, **program)
    assert abs(choice.misfit_mmolc_m2_year) <= nearest.fun + 1e-6
    usual = np.array([*(1.0 + 1e-3 * np.arange(n) ** 2.0), 0.0, 0.0])
    cheapest = linprog(
        usual,
        A_ub=np.vstack([upper, [*np.zeros(n), 1.0, 1.0]]),
        b_ub=[*upper_to, abs(choice.misfit_mmolc_m2_year) + 1e-6],
        **program,
    )
    assert float(usual[:n] @ choice.nitrogen_g_m2_year) <= cheapest.fun + 1e-5
    total = choice.nitrogen_g_m2_year.sum()
    assert need - 1e-9 <= total <= need + more + 1e-9
    assert np.all(choice.nitrogen_g_m2_year <= share * total + 1e-9)


def test_impossible_wishes_are_refused() -> None:
    wish = {"other_acid_mmolc_m2_year": 0.0, "wanted_acid_mmolc_m2_year": 0.0}
    with pytest.raises(InputError, match="one feed or more"):
        choose_feed([], nitrogen_g_m2_year=5.0, **wish)
    with pytest.raises(InputError, match="one share per feed"):
        choose_feed([1.0], nitrogen_g_m2_year=5.0, max_share_frac=[0.5, 0.5], **wish)
    with pytest.raises(OutOfRangeError, match="together at least 1"):
        choose_feed([1.0, 2.0], nitrogen_g_m2_year=5.0, max_share_frac=[0.4, 0.4], **wish)
    with pytest.raises(OutOfRangeError, match="nitrogen from"):
        choose_feed([1.0], nitrogen_g_m2_year=5.0, nitrogen_high_g_m2_year=4.0, **wish)
    with pytest.raises(OutOfRangeError, match="finite"):
        choose_feed(
            [1.0],
            nitrogen_g_m2_year=5.0,
            other_acid_mmolc_m2_year=math.nan,
            wanted_acid_mmolc_m2_year=0.0,
        )
