"""Many beds at once and the acid they need: the edges let through, what is refused, the cost."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from numpy.typing import ArrayLike

from core.test_need import need
from loamshift.core.ensemble import (
    BAND_PROBABILITIES,
    FloatArray,
    coverage,
    crps_ensemble,
    draw_members,
    quantile_bands,
    variance_shares,
)
from loamshift.core.need import (
    Need,
    carbonate_nodes,
    reading_nodes,
    weighted_quantile,
)
from loamshift.errors import InputError, OutOfRangeError

PRIORS = ("centre", "spread", "lognormal", "low", "high")


class OneDraw(np.random.Generator):
    """Slices in their order, every member at the same place in its slice."""

    def __init__(self, place: float) -> None:
        super().__init__(np.random.PCG64(1))
        self.place = place

    def permutation(self, x: int) -> np.ndarray:  # type: ignore[override]
        return np.arange(x)

    def random(self, size: int) -> FloatArray:  # type: ignore[override]
        return np.full(size, self.place)


def draw(
    centre: Sequence[float] = (1.0,),
    spread: Sequence[float] = (0.5,),
    *,
    lognormal: Sequence[bool] = (False,),
    low: Sequence[float] = (-math.inf,),
    high: Sequence[float] = (math.inf,),
    n_members: int = 400,
    rng: np.random.Generator | None = None,
) -> FloatArray:
    return draw_members(
        centre,
        spread,
        lognormal=lognormal,
        low=low,
        high=high,
        n_members=n_members,
        rng=rng or np.random.default_rng(3),
    )


@pytest.mark.parametrize("short", PRIORS)
def test_one_list_of_priors_of_another_length_is_refused(short: str) -> None:
    priors: dict[str, Any] = {
        "centre": [1.0, 2.0],
        "spread": [0.5, 0.5],
        "lognormal": [False, False],
        "low": [0.0, 0.0],
        "high": [9.0, 9.0],
    }
    assert draw(**priors).shape == (400, 2)
    priors[short] = priors[short][:1]
    with pytest.raises(InputError, match="must hold as many"):
        draw(**priors)


def test_one_member_is_enough_and_none_is_refused() -> None:
    assert draw(n_members=1).shape == (1, 1)
    for n_members in (0, -1):
        with pytest.raises(OutOfRangeError, match=f"n_members {n_members} must be 1 or more"):
            draw(n_members=n_members)


@pytest.mark.parametrize("low", [0.3, 1.0, 1.5])
def test_a_lognormal_prior_keeps_to_its_lower_bound(low: float) -> None:
    drawn = draw([2.0], [1.0], lognormal=[True], low=[low], high=[30.0])
    assert low <= drawn.min() < 1.05 * low
    assert 20.0 < drawn.max() <= 30.0


@pytest.mark.parametrize("low", [0.0, -5.0])
def test_a_lognormal_prior_without_a_bound_above_zero_is_not_cut(low: float) -> None:
    free = draw([2.0], [1.0], lognormal=[True])
    assert np.array_equal(draw([2.0], [1.0], lognormal=[True], low=[low]), free)
    assert np.log(free).mean() == pytest.approx(math.log(2.0), abs=0.01)


@pytest.mark.parametrize("centre", [0.0, -1.0])
def test_only_a_lognormal_centre_must_be_above_zero(centre: float) -> None:
    assert draw([centre]).mean() == pytest.approx(centre, abs=0.01)
    assert draw([0.5], lognormal=[True]).min() > 0.0
    with pytest.raises(OutOfRangeError, match="lognormal prior must be above 0"):
        draw([centre, centre], [0.5] * 2, lognormal=[False, True], low=[-9.0] * 2, high=[9.0] * 2)


@pytest.mark.parametrize("spread", [0.01, 1.0])
def test_only_what_is_held_may_lie_outside_its_bounds(spread: float) -> None:
    priors: dict[str, Any] = {"lognormal": [False] * 2, "low": [2.0] * 2, "high": [3.0] * 2}
    held, free = draw([1.0, 2.5], [0.0, spread], **priors).T
    assert set(held) == {1.0}
    assert 2.0 <= free.min() < free.max() <= 3.0
    assert len(set(free)) == free.size
    for centre in (1.0, 4.0):
        with pytest.raises(OutOfRangeError, match="hold its centre between them"):
            draw([2.5, centre], [spread] * 2, **priors)


@pytest.mark.parametrize("centre", [2.0, 3.0])
def test_a_centre_on_its_bound_is_let_through(centre: float) -> None:
    drawn = draw([centre], [0.5], low=[2.0], high=[3.0])
    assert 2.0 <= drawn.min() < drawn.max() <= 3.0


@pytest.mark.parametrize(
    ("centre", "spread"),
    [
        ([1.0, math.nan], [0.5, 0.5]),
        ([1.0, math.inf], [0.5, 0.5]),
        ([1.0, 1.0], [0.5, -0.1]),
        ([1.0, 1.0], [0.5, math.inf]),
    ],
)
def test_one_prior_that_is_no_number_is_refused_among_good_ones(
    centre: list[float], spread: list[float]
) -> None:
    with pytest.raises(OutOfRangeError, match="must be a number and every spread 0 or more"):
        draw(centre, spread, lognormal=[False] * 2, low=[-9.0] * 2, high=[9.0] * 2)


def test_bounds_that_meet_leave_nothing_between_them() -> None:
    with pytest.raises(OutOfRangeError, match="bounds of a prior must rise"):
        draw([1.0], [0.5], low=[1.0], high=[1.0])


@pytest.mark.parametrize("place", [0.0, math.nextafter(1.0, 0.0)])
def test_the_first_and_the_last_draw_of_a_generator_are_numbers(place: float) -> None:
    drawn = draw([5.0], [1.0], n_members=2, rng=OneDraw(place))
    assert np.all(np.isfinite(drawn))
    assert drawn[0, 0] < drawn[1, 0]


def test_a_member_lies_where_its_slice_says() -> None:
    """The middles of four slices of a normal: its quantiles at 1, 3, 5 and 7 eighths."""
    drawn = draw([10.0], [2.0], n_members=4, rng=OneDraw(0.5))[:, 0]
    assert drawn == pytest.approx(
        [10 - 2.30070, 10 - 0.63728, 10 + 0.63728, 10 + 2.30070], abs=1e-4
    )
    cut = draw([10.0], [2.0], low=[10.0], n_members=1, rng=OneDraw(0.5))
    assert cut[0, 0] == pytest.approx(10.0 + 2.0 * 0.67449, abs=1e-4)


def test_bands_need_a_member_and_numbers_alone() -> None:
    assert quantile_bands([4.0]).tolist() == [4.0] * len(BAND_PROBABILITIES)
    nobody: tuple[ArrayLike, ...] = ([], 4.0, np.zeros((0, 3)))
    for none in nobody:
        with pytest.raises(InputError, match="holds no member"):
            quantile_bands(none)
    for bad in (math.nan, math.inf):
        with pytest.raises(InputError, match="no numbers"):
            quantile_bands([[1.0, 2.0], [3.0, bad]])


def test_the_bands_are_the_median_the_middle_half_and_nine_in_ten() -> None:
    low, quarter, median, three_quarters, high = BAND_PROBABILITIES
    assert (median, three_quarters - quarter) == (0.5, 0.5)
    assert (low + high, high - low) == pytest.approx((1.0, 0.9))


def rank_correlation(one: Sequence[float], other: Sequence[float]) -> float:
    """Of two orders without ties, by the sum of squared differences of rank."""
    n = len(one)
    apart = sum((a - b) ** 2 for a, b in zip(one, other, strict=True))
    return 1.0 - 6.0 * apart / (n * (n * n - 1.0))


def test_shares_are_squared_rank_correlations_less_what_chance_gives() -> None:
    first = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 10]
    second = [3, 0, 1, 2, 6, 4, 8, 5, 7, 10, 11, 9]
    outcome = list(range(12))
    chance = 1.0 / 11.0
    one, two = (rank_correlation(order, outcome) ** 2 - chance for order in (first, second))
    assert min(one, two) > 3.0 * chance
    shares = variance_shares(np.column_stack([first, second]), outcome)
    assert shares == pytest.approx([one / (one + two), two / (one + two)], rel=1e-12)


def test_what_chance_gives_one_in_twenty_counts_as_none() -> None:
    """Just above and just below four over one less than the members."""
    outcome = list(range(8))
    orders = [list(order) for order in itertools.permutations(range(8)) if order[:2] == (0, 1)]
    squared = {rank_correlation(order, outcome) ** 2: order for order in orders}
    edge = 4.0 / 7.0
    weak = squared[max(value for value in squared if value < edge)]
    strong = squared[min(value for value in squared if value > edge)]
    assert edge - 0.03 < rank_correlation(weak, outcome) ** 2
    assert rank_correlation(strong, outcome) ** 2 < edge + 0.03
    shares = variance_shares(np.column_stack([weak, strong, outcome]), outcome)
    assert shares[0] == 0.0
    assert shares[1] == pytest.approx(1.0 - shares[2])
    assert 0.2 < shares[1] < 0.4


def test_equal_values_share_the_mean_of_their_ranks() -> None:
    """Ranks 0, 2, 2, 2, 4 to 8 against 0 to 8: the squared correlation is 58/60."""
    tied = [0.1, 0.4, 0.4, 0.4, 0.6, 0.7, 0.8, 0.9, 1.0]
    other = [float(rank) for rank in range(9)]
    chance = 1.0 / 8.0
    one, two = 58.0 / 60.0 - chance, 1.0 - chance
    for table in ([tied, other], [tied[::-1], other]):
        shares = variance_shares(np.column_stack(table), other)
        assert shares == pytest.approx([one / (one + two), two / (one + two)], rel=1e-12)


def test_three_members_tell_causes_apart_and_two_do_not() -> None:
    assert variance_shares([[1.0], [2.0], [3.0]], [1.0, 2.0, 3.0]).tolist() == [0.0]
    with pytest.raises(InputError, match="2 members are too few"):
        variance_shares([[1.0], [2.0]], [1.0, 2.0])


@pytest.mark.parametrize(
    ("parameters", "outcome"),
    [([1.0, 2.0, 3.0], [1.0] * 3), ([[1.0]] * 4, [1.0] * 3), ([[1.0]] * 3, [[1.0]] * 3)],
)
def test_a_table_that_is_not_one_row_a_member_is_refused(
    parameters: list[float], outcome: list[float]
) -> None:
    with pytest.raises(InputError, match="one row, and outcome one value"):
        variance_shares(parameters, outcome)


def test_a_forecast_without_members_is_not_scored() -> None:
    nobody: tuple[ArrayLike, ...] = ([], np.zeros((0, 3)))
    for none in nobody:
        with pytest.raises(InputError, match="holds no member"):
            crps_ensemble(none, 5.0)
    for members, observed in (([1.0, 2.0], [1.0]), ([[1.0, 2.0]], 1.0)):
        with pytest.raises(InputError, match="observed holds"):
            crps_ensemble(members, observed)


def test_a_score_by_hand() -> None:
    """Members 1, 2 and 6 against 3: errors 2, 1, 3; pairs 1, 4, 5 apart, each counted twice."""
    score = crps_ensemble([6.0, 1.0, 2.0], 3.0)
    assert float(score) == pytest.approx(6.0 / 3.0 - 0.5 * 2.0 * (1.0 + 4.0 + 5.0) / 9.0)


def test_a_value_on_either_edge_of_a_band_is_held() -> None:
    edges = {"low": [2.0] * 4, "high": [3.0] * 4}
    assert coverage([2.0, 3.0, 1.999, 3.001], **edges) == 0.5
    assert coverage([2.0], low=[2.0], high=[2.0]) == 1.0
    with pytest.raises(InputError, match="same number"):
        coverage([], low=[], high=[])
    with pytest.raises(InputError, match="swapped"):
        coverage([1.0, 1.0], low=[0.0, 2.0], high=[2.0, 0.0])


def test_where_no_lime_is_believed_its_bounds_do_not_matter() -> None:
    plain = need(zero=1.0)
    for low, high in ((0.0, 0.0), (0.0, 0.5), (1.0, 3.0)):
        found = need(zero=1.0, low=low, high=high)
        for acid in (0.0, 20.0, 50.0, 90.0):
            assert found.probability_at_most(acid) == plain.probability_at_most(acid)


def test_the_weights_of_lime_and_no_lime_add() -> None:
    """Acid for the curve alone and for the curve with 1 % of lime, 200 mmolc/kg."""
    curve = 1.0 / (0.24 * math.sqrt(2.0))

    def within(acid: float) -> float:
        return 0.5 * (1.0 + math.erf(curve * math.log10(acid / 50.0)))

    found = need(zero=0.3, low=1.0, high=1.0)
    assert found.probability_at_most(100.0) == pytest.approx(0.3 * within(100.0), rel=1e-12)
    both = 0.3 * within(260.0) + 0.7 * within(60.0)
    assert found.probability_at_most(260.0) == pytest.approx(both, rel=1e-12)


def test_lime_alone_is_even_in_its_logarithm() -> None:
    found = need(curve=0.0, zero=0.0, low=0.05, high=5.0)
    for share in (0.0, 0.25, 0.5, 1.0):
        acid = 200.0 * 0.05 * 100.0**share
        assert found.probability_at_most(acid) == pytest.approx(share, abs=1e-12)
    assert found.probability_at_most(9.0) == 0.0
    assert found.probability_at_most(2000.0) == pytest.approx(1.0, abs=1e-12)
    assert found.quantile(0.25) == pytest.approx(10.0 * 100.0**0.25, rel=1e-9)


def test_no_acid_is_enough_only_where_nothing_is_needed() -> None:
    assert need(curve=50.0).probability_at_most(0.0) == 0.0
    for acid, chance in ((-1e-9, 0.0), (0.0, 1.0), (1e-9, 1.0)):
        assert need(curve=0.0).probability_at_most(acid) == chance
    half = Need(
        curve_mmolc_kg=np.array([0.0, 50.0]),
        curve_weight=np.array([0.4, 0.6]),
        zero_weight=1.0,
        carbonate_low_mmolc_kg=0.0,
        carbonate_high_mmolc_kg=0.0,
        log10_k_mean=0.0,
        log10_k_sd=0.24,
    )
    assert half.probability_at_most(0.0) == pytest.approx(0.4)
    assert half.probability_at_most(50.0) == pytest.approx(0.4 + 0.6 * 0.5)
    assert half.quantile(0.4) == 0.0
    assert half.quantile(0.41) > 1.0
    assert half.quantile(0.7) == pytest.approx(50.0, rel=1e-9)


@pytest.mark.parametrize("curve", [0.004, 0.5, 1.0, 40.0])
@pytest.mark.parametrize("mean", [-0.2, 0.0, 0.3])
def test_the_scale_of_a_curve_moves_its_median(curve: float, mean: float) -> None:
    """Without lime, with lime measured as 1 %, and with much lime of a narrow range."""
    half = curve * 10.0**mean
    found = replace(need(curve=curve), log10_k_mean=mean)
    assert found.probability_at_most(half) == pytest.approx(0.5, abs=1e-9)
    assert found.quantile(0.5) == pytest.approx(half, rel=1e-9)
    wide = half * 10.0 ** (0.24 * 1.6448536)
    assert found.quantile(0.95) == pytest.approx(wide, rel=1e-6)
    limed = replace(need(curve=curve, zero=0.0, low=1.0, high=1.0), log10_k_mean=mean)
    assert limed.quantile(0.5) == pytest.approx(200.0 + half, rel=1e-9)
    narrow = replace(need(curve=curve, zero=0.0, low=0.999, high=1.001), log10_k_mean=mean)
    median = narrow.quantile(0.5)
    assert median == pytest.approx(200.0 + half, abs=0.2 + 0.12 * half)


def test_a_need_is_found_with_half_the_looks_of_plain_bisection(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    looks = 0
    looked = Need.probability_at_most

    def counted(self: Need, acid_mmolc_kg: float) -> float:
        nonlocal looks
        looks += 1
        return looked(self, acid_mmolc_kg)

    monkeypatch.setattr(Need, "probability_at_most", counted)
    cases = list(itertools.product((5.0, 50.0), (0.0, 0.3, 1.0), (0.5, 3.0), (0.05, 0.5, 0.95)))
    for curve, zero, high, p in cases:
        need(curve=curve, zero=zero, high=high).quantile(p)
    assert looks / len(cases) < 35.0


def test_readings_stand_even_about_their_mean() -> None:
    values, weights = reading_nodes(ph=6.4, ph_sd=0.3)
    assert values.size == weights.size == 7
    assert values + values[::-1] == pytest.approx(np.full(7, 12.8))
    fourth = float(((values - 6.4) ** 4 * weights).sum())
    assert fourth == pytest.approx(3.0 * 0.3**4)
    weights[0] = 9.0
    assert reading_nodes(ph=6.4, ph_sd=0.3)[1].sum() == pytest.approx(1.0)


def test_nodes_of_lime_hold_its_mean() -> None:
    """Even in the logarithm from 0.1 to 10 %: the mean is the width over the logarithm of 100."""
    values, weights = carbonate_nodes(
        zero_weight=0.25, low_pct=0.1, high_pct=10.0, mmolc_kg_per_pct=200.0
    )
    assert (values.size, weights.size) == (13, 13)
    mean = 0.75 * 200.0 * (10.0 - 0.1) / math.log(100.0)
    assert float((values * weights).sum()) == pytest.approx(mean, rel=1e-9)
    assert weights.sum() == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("zero", "low", "high", "values", "weights"),
    [
        (0.0, 2.0, 2.0, [400.0], [1.0]),
        (0.25, 2.0, 2.0, [0.0, 400.0], [0.25, 0.75]),
        (0.999, 2.0, 2.0, [0.0, 400.0], [0.999, 0.001]),
        (1.0, 2.0, 2.0, [0.0], [1.0]),
        (0.25, 0.0, 0.0, [0.0], [1.0]),
        (0.25, 0.5, 0.5, [0.0, 100.0], [0.25, 0.75]),
    ],
)
def test_measured_lime_is_one_value_beside_none(
    zero: float, low: float, high: float, values: list[float], weights: list[float]
) -> None:
    found = carbonate_nodes(zero_weight=zero, low_pct=low, high_pct=high, mmolc_kg_per_pct=200.0)
    assert found[0].tolist() == pytest.approx(values)
    assert found[1].tolist() == pytest.approx(weights)


def test_lime_without_a_chance_of_none_has_no_node_at_none() -> None:
    values, weights = carbonate_nodes(
        zero_weight=0.0, low_pct=0.1, high_pct=1.0, mmolc_kg_per_pct=200.0
    )
    assert values.size == 12
    assert 20.0 < values.min() < values.max() < 200.0
    weights[0] = 9.0
    again = carbonate_nodes(zero_weight=0.0, low_pct=0.1, high_pct=1.0, mmolc_kg_per_pct=200.0)
    assert again[1].sum() == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("p", "value"),
    [(0.0, 1.0), (0.2, 1.0), (0.2 + 1e-13, 1.0), (0.21, 2.0), (0.5, 2.0), (0.51, 3.0), (1.0, 3.0)],
)
def test_a_weighted_quantile_is_the_first_value_that_reaches_the_share(
    p: float, value: float
) -> None:
    assert weighted_quantile([3.0, 1.0, 2.0], [0.5, 0.2, 0.3], p) == value


def test_weights_that_fall_short_give_the_last_value() -> None:
    assert weighted_quantile([3.0, 1.0, 2.0], [0.3, 0.4, 0.2], 0.95) == 3.0


def test_a_value_without_its_weight_is_refused() -> None:
    with pytest.raises(ValueError, match="argument 2 is longer"):
        weighted_quantile([1.0], [0.5, 0.5], 0.5)


def test_a_lone_number_is_no_forecast() -> None:
    with pytest.raises(InputError, match="no member"):
        crps_ensemble(5.0, 5.0)


def test_five_members_tell_no_cause_and_six_a_perfect_one() -> None:
    assert variance_shares(np.arange(5.0)[:, None], np.arange(5.0)).tolist() == [0.0]
    assert variance_shares(np.arange(6.0)[:, None], np.arange(6.0)).tolist() == [1.0]
