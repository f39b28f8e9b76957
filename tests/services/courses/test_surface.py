"""Any amounts from a few runs: against the beds run outright."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from loamshift.services.belief.belief import believe
from loamshift.services.belief.possible_beds import PossibleBeds
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import Seasons, seasons_ahead
from loamshift.services.courses.surface import (
    ACID_KNOTS,
    LIME_KNOTS,
    Courses,
    courses_of,
    day_index,
    knot_amounts,
)
from loamshift.services.verdict.reach import retest_error_ph
from services.beds import TODAY, bed

SOIL = (
    'ph = 6.8\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0'
)


HALF_A_TEST_PH = 0.5 * retest_error_ph(build_context(bed(SOIL)))
"""What no single test could show."""


@cache
def simulated() -> tuple[PossibleBeds, Seasons, Courses]:
    context = build_context(bed(SOIL, aim="target_ph = 5.6"))
    seasons = seasons_ahead(context, acidify=True)
    ahead = (seasons.hold - TODAY).days + 31
    beds = believe(context, seasons.simulated((1.0,)), members=60, seed=1, days_ahead=ahead).beds
    courses = courses_of(
        beds, seasons, alone=beds.run(()), need_mid_g_m2=90.0, need_high_g_m2=180.0
    )
    return beds, seasons, courses


@pytest.mark.parametrize("amounts", [(30.0,), (70.0,), (120.0,)])
def test_one_amount_is_met_as_the_column_has_it(amounts: tuple[float, ...]) -> None:
    beds, seasons, courses = simulated()
    run = beds.run(seasons.simulated(amounts)).ph
    read = courses.surface.course(amounts)
    for day in (seasons.tests[0], seasons.on, seasons.hold):
        at = courses.index(day)
        assert abs(np.median(read[:, at] - run[:, at])) < 0.03
        assert np.quantile(np.abs(read[:, at] - run[:, at]), 0.95) < HALF_A_TEST_PH


@pytest.mark.parametrize(
    "amounts", [(120.0,), (40.0, 40.0), (60.0, 0.0, 40.0), (36.0, 30.0, 30.0), (40.0, 60.0)]
)
def test_shares_over_seasons_are_those_of_beds_run_outright(amounts: tuple[float, ...]) -> None:
    """What the surface is for: within the sampling error of a share of so many beds."""
    beds, seasons, courses = simulated()
    run = beds.run(seasons.simulated(amounts)).ph
    read = courses.surface.course(amounts)
    error = (0.25 / run.shape[0]) ** 0.5
    for day in (seasons.on, seasons.hold):
        at = courses.index(day)
        assert abs(np.median(read[:, at] - run[:, at])) < 0.03
        inside = [((ph[:, at] > 5.35) & (ph[:, at] < 5.85)).mean() for ph in (run, read)]
        assert abs(inside[0] - inside[1]) < error
    far = run.min(axis=1), courses.surface.furthest(amounts)
    for limit in (4.5, 4.75, 5.0, 5.35):
        assert abs((far[0] < limit).mean() - (far[1] < limit).mean()) < error


def test_nothing_is_the_bed_left_alone_and_half_the_draws_choose() -> None:
    beds, _, courses = simulated()
    assert np.allclose(courses.surface.course((0.0,)), beds.run(()).ph)
    assert courses.chosen_on.mean() == pytest.approx(0.5, abs=0.1)
    assert courses.balance_error < 1e-9
    assert np.all(np.diff(courses.oxidised_frac) >= -1e-9)


def test_a_season_counts_for_nothing_before_it_comes_and_for_much_in_the_end() -> None:
    _, seasons, courses = simulated()
    worth = courses.surface.worth
    test, second = courses.index(seasons.tests[0]), courses.index(seasons.days[1][0])
    assert worth[:, 1, test : second + 1].max() == 0.0
    on = worth[:, 1, courses.index(seasons.on)]
    assert 0.7 < np.median(on) < 1.3 and on.std() > 0.01, "each bed its own"


@pytest.mark.parametrize(
    ("middle", "top"), [(100.0, 400.0), (100.0, 120.0), (100.0, 30.0), (0.5, 300.0)]
)
def test_amounts_run_rise_from_nothing_to_the_most_that_may_go_on(
    middle: float, top: float
) -> None:
    knots = knot_amounts(ACID_KNOTS, middle_g_m2=middle, top_g_m2=top)
    assert knots[0] == 0.0 and knots[-1] == top
    assert np.all(np.diff(knots) > 0.0) and 3 <= knots.size <= 4
    assert 2.0 * knots[1] <= top + 1e-9, "the reference goes on twice within what was run"


def test_the_last_day_that_is_not_after_a_day() -> None:
    days = tuple(TODAY.replace(day=day) for day in (12, 19, 26))
    assert [day_index(days, TODAY.replace(day=day)) for day in (1, 12, 18, 19, 30)] == [
        0, 0, 0, 1, 2,
    ]  # fmt: skip


@pytest.mark.parametrize("middle", [0.0, 1e-9, 5.0, 1e6])
@pytest.mark.parametrize("top", [1e-3, 30.0, 900.0])
def test_the_amounts_run_rise_from_nothing_even_where_nothing_is_needed(
    middle: float, top: float
) -> None:
    for shares in (ACID_KNOTS, LIME_KNOTS):
        amounts = knot_amounts(shares, middle_g_m2=middle, top_g_m2=top)
        assert amounts[0] == 0.0 and amounts[-1] == top and len(amounts) >= 4
        assert np.all(np.diff(amounts) > 0.0)
