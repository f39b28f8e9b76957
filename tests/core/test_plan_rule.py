from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise, product

import numpy as np
import pytest
from scipy.stats import norm

from loamshift.core import rule_lines
from loamshift.core.dose_surface import DoseSurface
from loamshift.core.plan_goal import RuleGoal, bounds_of, reachable
from loamshift.core.plan_rule import Rule, choose_rule
from loamshift.core.reading_bins import normal_probability
from loamshift.errors import InputError

BEDS = 600
START = 7.0
DAYS = 5
"""Now, the test after each season, the day wanted, a year on."""
AMOUNTS = np.array([0.0, 15.0, 30.0, 50.0, 70.0, 95.0, 120.0])


def surface(*, sign: float = 1.0, beds: int = BEDS, spread: float = 0.35) -> DoseSurface:
    """Straight beds whose need differs lognormally: pH = 7 - sign x amount / need."""
    z = norm.ppf((np.arange(beds) + 0.5) / beds)
    order = np.argsort(np.sin(1e4 * (np.arange(beds) + 1.0)), kind="stable")
    need = 60.0 * np.exp(spread * z)[order]
    knots = np.array([0.0, 40.0, 90.0, 180.0, 360.0])
    ph = np.repeat((START - sign * knots[None, :] / need[:, None])[:, None, :], DAYS, axis=1)
    ph[:, 0] = START
    worth = np.ones((beds, 3, DAYS))
    worth[:, 1, :2] = worth[:, 2, :3] = 0.0
    return DoseSurface(
        amounts_g_m2=knots,
        ph=ph,
        worth=worth,
        furthest_ph=ph[:, -1:],
        furthest_worth=np.ones((beds, 1, 3)),
        sign=sign,
    )


def goal(*, sign: float = 1.0, seasons: int = 2, **more: object) -> RuleGoal:
    low, high = (5.2, 5.8) if sign > 0.0 else (8.2, 8.8)
    plain = RuleGoal(
        range_low_ph=low,
        range_high_ph=high,
        harmful_ph=low - 0.6 if sign > 0.0 else high + 0.6,
        on=3,
        hold=4,
        tests=(1, 2)[: seasons - 1],
        reading_sd_ph=0.2,
        first_g_m2=AMOUNTS,
        later_g_m2=AMOUNTS,
        seasons=seasons,
        most_harmed_frac=0.05,
        lines=4,
        worth_a_test_frac=0.03,
    )
    return replace(plain, **more)  # type: ignore[arg-type]


def halves(beds: int = BEDS) -> np.ndarray:
    return np.arange(beds) % 2 == 0


@cache
def rule(sign: float, seasons: int) -> Rule:
    return choose_rule(surface(sign=sign), goal(sign=sign, seasons=seasons), chosen_on=halves())


CASES = [(sign, seasons) for sign in (1.0, -1.0) for seasons in (1, 2, 3)]


def test_the_normal_distribution_is_that_of_scipy() -> None:
    z = np.linspace(-9.0, 9.0, 4001)
    assert np.abs(normal_probability(z) - norm.cdf(z)).max() < 1e-6


@pytest.mark.parametrize(("sign", "seasons"), CASES)
def test_every_amount_is_one_of_those_allowed(sign: float, seasons: int) -> None:
    found = rule(sign, seasons)
    assert found.first_g_m2 in AMOUNTS
    assert found.amounts_g_m2.shape == (seasons, BEDS)
    assert np.all(np.isin(found.amounts_g_m2, AMOUNTS))
    assert all(line.amount_g_m2 in AMOUNTS for line in found.lines)


@pytest.mark.parametrize(("sign", "seasons"), CASES)
def test_few_beds_are_harmed(sign: float, seasons: int) -> None:
    found, wanted = rule(sign, seasons), goal(sign=sign, seasons=seasons)
    hurt = bounds_of(surface(sign=sign), wanted).harmed(*found.amounts_g_m2)
    assert hurt.mean() <= wanted.most_harmed_frac + 0.01
    assert found.share_harmed <= wanted.most_harmed_frac + 0.01


def test_a_limit_on_harm_that_binds_is_kept_and_costs() -> None:
    """The harmful limit just below the range: amounts fall short rather than pass it."""
    near = goal(harmful_ph=5.15)
    loose = choose_rule(surface(), replace(near, most_harmed_frac=1.0), chosen_on=halves())
    tight = choose_rule(surface(), near, chosen_on=halves())
    assert bounds_of(surface(), near).harmed(*loose.amounts_g_m2).mean() > 0.06
    assert bounds_of(surface(), near).harmed(*tight.amounts_g_m2).mean() <= 0.06
    assert tight.share_in_range < loose.share_in_range


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_a_test_helps_and_two_help_more_and_knowing_helps_most(sign: float) -> None:
    one, two, three = (rule(sign, seasons) for seasons in (1, 2, 3))
    assert one.share_in_range == one.share_without_tests
    assert one.share_in_range + 0.1 < two.share_in_range < three.share_in_range
    for found in (one, two, three):
        assert found.share_without_tests <= found.share_in_range + 0.03
        assert found.share_in_range <= found.share_if_known <= 1.0


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("seasons", [2, 3])
def test_lines_cover_every_reading_once_and_rise_with_the_need(sign: float, seasons: int) -> None:
    lines = rule(sign, seasons).lines
    assert lines[0].low_ph is None and lines[-1].high_ph is None
    for lower, higher in pairwise(lines):
        assert lower.high_ph is not None and higher.low_ph is not None
        assert higher.low_ph - lower.high_ph == pytest.approx(0.1)
    amounts = [line.amount_g_m2 for line in lines]
    assert amounts == sorted(amounts, reverse=sign < 0.0)
    assert 2 <= len(lines) <= 4
    assert sum(line.probability for line in lines) == pytest.approx(1.0, abs=1e-6)


def test_one_line_more_never_does_worse() -> None:
    shares = [
        choose_rule(surface(), goal(lines=count), chosen_on=halves()).share_in_range
        for count in (1, 2, 3, 4)
    ]
    assert all(more >= less - 0.02 for less, more in pairwise(shares))
    assert shares[1] > shares[0] + 0.05


@pytest.mark.parametrize("seasons", [2, 3])
def test_what_is_promised_comes_true_when_readings_are_drawn(seasons: int) -> None:
    """Readings with a random error, the printed steps followed: the exact sum by simulation."""
    rng = np.random.default_rng(7)
    beds, wanted, found = surface(), goal(seasons=seasons), rule(1.0, seasons)
    assert found.steps is not None
    shares = []
    for _ in range(40):
        first = np.full(BEDS, found.first_g_m2)
        read = beds.at(1, (first,)) + wanted.reading_sd_ph * rng.normal(size=BEDS)
        amounts = [first, found.steps.second(read)]
        if seasons == 3:
            again = beds.at(2, tuple(amounts)) + wanted.reading_sd_ph * rng.normal(size=BEDS)
            amounts.append(found.steps.third(read, again))
        shares.append(float(bounds_of(beds, wanted).in_range(*amounts).mean()))
    assert np.mean(shares) == pytest.approx(found.share_in_range, abs=0.03)
    spread = float(bounds_of(beds, wanted).in_range(*found.amounts_g_m2).mean())
    assert spread == pytest.approx(np.mean(shares), abs=0.04)


def test_the_steps_are_the_printed_lines() -> None:
    found = rule(1.0, 2)
    assert found.steps is not None
    for ph in np.arange(4.0, 8.0, 0.1).round(1):
        line = next(one for one in found.lines if one.high_ph is None or ph <= one.high_ph + 1e-9)
        assert found.steps.second(np.array([ph]))[0] == line.amount_g_m2, ph


def test_an_exact_reading_is_as_good_as_knowing() -> None:
    wanted = goal(reading_sd_ph=0.01, lines=7, later_g_m2=np.linspace(0.0, 240.0, 13))
    found = choose_rule(surface(), wanted, chosen_on=halves())
    assert found.share_in_range > found.share_if_known - 0.06


def test_the_best_cuts_are_found_against_every_other_way_to_cut() -> None:
    """Brute force over all cuts and all rising amounts."""
    rng = np.random.default_rng(11)
    for lines in (1, 2, 3):
        for rising in (True, False):
            value = rng.normal(size=(6, 4))
            cut = rule_lines.cut_into_lines(value, lines=lines, rising=rising)
            got = sum(float(value[start:end, choice].sum()) for start, end, choice in cut)
            assert got == pytest.approx(brute_force(value, lines=lines, rising=rising))
            assert [start for start, _, _ in cut] == [0, *(end for _, end, _ in cut)][:-1]
            choices = [choice for _, _, choice in cut]
            assert choices == sorted(choices, reverse=not rising)


def brute_force(value: np.ndarray, *, lines: int, rising: bool) -> float:
    bins, amounts = value.shape
    best = -np.inf
    for count in range(1, lines + 1):
        for inner in combinations(range(1, bins), count - 1):
            edges = (0, *inner, bins)
            for choice in product(range(amounts), repeat=count):
                ordered = list(choice) == sorted(choice, reverse=not rising)
                if ordered:
                    spans = zip(pairwise(edges), choice, strict=True)
                    best = max(best, sum(float(value[a:b, c].sum()) for (a, b), c in spans))
    return best


def test_beds_that_would_be_harmed_anyhow_are_not_the_plans_doing() -> None:
    made = surface()
    low = replace(made, ph=made.ph - 3.0, furthest_ph=made.furthest_ph - 3.0)
    assert (
        not bounds_of(low, goal()).harmed(0.0, 0.0).any()
        and not bounds_of(low, goal()).harmed(120.0).any()
    )
    assert bounds_of(made, goal()).harmed(np.full(BEDS, 360.0)).mean() > 0.5


def test_within_reach_is_what_some_plan_reaches_and_more_seasons_reach_more() -> None:
    made = surface(spread=0.8)
    reached = [reachable(made, goal(seasons=seasons)).mean() for seasons in (1, 2, 3)]
    assert reached[0] < reached[1] < reached[2] < 1.0
    strong = reachable(made, goal(first_g_m2=AMOUNTS[:1], later_g_m2=AMOUNTS[:1]))
    assert not strong.any()


def test_a_bed_pushed_past_the_range_on_the_day_or_a_year_on_does_not_count() -> None:
    made = surface(beds=3)
    back = replace(made, ph=made.ph.copy())
    back.ph[:, 4] = START  # water has brought it back a year on
    for amount in (60.0, 90.0, 120.0):
        assert not bounds_of(back, goal()).in_range(amount).any()


def test_the_same_beds_give_the_same_rule() -> None:
    again = choose_rule(surface(), goal(seasons=3), chosen_on=halves())
    assert again.lines == rule(1.0, 3).lines
    assert np.array_equal(again.amounts_g_m2, rule(1.0, 3).amounts_g_m2)


def test_tests_between_the_seasons_and_two_halves_are_needed() -> None:
    with pytest.raises(InputError, match="tests between"):
        choose_rule(surface(), goal(seasons=2, tests=()), chosen_on=halves())
    with pytest.raises(InputError, match="chosen_on"):
        choose_rule(surface(), goal(), chosen_on=np.ones(BEDS, dtype=bool))


def test_shares_are_those_of_the_half_a_plan_was_not_chosen_on() -> None:
    """Two halves of opposite needs: what serves the one serves none of the other."""
    made = surface(spread=0.0)
    need = np.where(halves(), 30.0, 80.0)
    ph = START - made.amounts_g_m2[None, None, :] / need[:, None, None]
    apart = replace(made, ph=np.repeat(ph, DAYS, axis=1), furthest_ph=ph)
    found = choose_rule(apart, goal(seasons=1), chosen_on=halves())
    assert found.share_without_tests == 0.0
    mixed = choose_rule(apart, goal(seasons=1), chosen_on=np.arange(BEDS) < BEDS // 2)
    assert mixed.share_without_tests == pytest.approx(0.5)


@pytest.mark.parametrize("rising", [True, False])
def test_of_amounts_worth_the_same_but_for_rounding_the_smaller_goes_on(rising: bool) -> None:
    """A last place of a sum must not choose: other processors round another way."""
    alike = np.array([[0.2, 0.3, 0.3], [0.2, 0.3, 0.3]])
    for nudge in (0.0, 6e-16, -6e-16):
        value = alike + np.array([0.0, 0.0, nudge])
        assert rule_lines.cut_into_lines(value, lines=4, rising=rising) == ((0, 2, 1),)
