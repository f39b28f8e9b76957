"""When and how much: limits in the unit of the product, last year's doses, the day wanted."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.case import Case
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import (
    Seasons,
    choose_material,
    seasons_ahead,
    tidy,
    tidy_amounts,
)
from loamshift.tables.materials import load_materials
from loamshift.tables.model import lime_parameters
from loamshift.tables.rules import cap_for
from services.beds import TODAY, bed

LOAM = (
    'ph = {}\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0'
)
PLANTED = 'area = "20 m2"\nplanted = true'
POWDER = load_materials()["elemental sulfur, powder"]
SULFUR = '[[on_hand]]\nmaterial = "elemental sulfur, powder"\npurity_pct = {}\n'
APPLIED = '[[applied]]\ndate = {}\nmaterial = "{}"\nrate = "{} g/m2"\n'


def seasons_of(case: Case, *, acidify: bool = True) -> Seasons:
    return seasons_ahead(build_context(case), acidify=acidify)


def limit(what: str, ground: str, per: str) -> float:
    return cap_for(applies_to=what, situation=ground, per=per).limit_g_m2


@pytest.mark.parametrize(("place", "ground"), [("", "unplanted"), (PLANTED, "planted")])
def test_limits_are_met_in_the_unit_they_were_printed_in(place: str, ground: str) -> None:
    case = bed(LOAM.format(7.0), **({"bed": place} if place else {}))
    seasons = seasons_of(case)
    share = POWDER.elemental_s_frac
    dose, year = (limit("sulfur", ground, per) for per in ("dose", "year"))
    assert dose - share < seasons.dose_g_m2 * share <= dose + 1e-9
    assert all(one * share <= year + 1e-9 for one in seasons.capacity_g_m2)


@pytest.mark.parametrize("purity_pct", [99.0, 90.0, 45.0])
def test_a_weaker_product_may_go_on_in_larger_amounts_and_no_more_sulfur(purity_pct: float) -> None:
    seasons = seasons_of(bed(LOAM.format(7.0), more=SULFUR.format(purity_pct)))
    assert seasons.active_frac == pytest.approx(purity_pct / 100.0)
    cap = limit("sulfur", "unplanted", "dose")
    assert cap - 1.0 < seasons.dose_g_m2 * seasons.active_frac <= cap + 1e-9
    part = seasons.simulated((50.0,))[0]
    assert part.rate_g_m2 * POWDER.elemental_s_frac == pytest.approx(50.0 * seasons.active_frac)


def test_hydrated_lime_counts_by_its_neutralising_value() -> None:
    """90 % calcium hydroxide is 0.9 x 1.35 x 0.95 of limestone and not 0.9 of it."""
    hand = '[[on_hand]]\nmaterial = "hydrated lime"\npurity_pct = 90\n'
    case = bed(LOAM.format(5.2), aim='plant = "cabbage"', more=hand)
    material, active = choose_material(build_context(case), acidify=False)
    assert material.key == "hydrated lime"
    assert active > 1.1 * lime_parameters().field_efficiency


@pytest.mark.parametrize("spent", [40.0, 90.0, 400.0])
def test_what_went_on_within_the_year_counts_against_the_first_season(spent: float) -> None:
    fresh = seasons_of(bed(LOAM.format(7.0), bed=PLANTED))
    year = limit("sulfur", "planted", "year") / POWDER.elemental_s_frac
    used = bed(LOAM.format(7.0), bed=PLANTED, more=APPLIED.format("2025-09-01", POWDER.key, spent))
    left = seasons_of(used)
    assert left.capacity_g_m2[0] == pytest.approx(
        max(0.0, min(fresh.capacity_g_m2[0], year - spent))
    )
    assert left.capacity_g_m2[1:] == fresh.capacity_g_m2[1:]


def test_last_years_doses_are_summed_and_older_ones_are_not() -> None:
    three = "".join(APPLIED.format(day, POWDER.key, 10.0) for day in ("2025-06-01", "2025-08-01"))
    old = APPLIED.format("2024-08-01", POWDER.key, 500.0)
    summed = seasons_of(bed(LOAM.format(7.0), bed=PLANTED, more=three))
    single = seasons_of(
        bed(LOAM.format(7.0), bed=PLANTED, more=APPLIED.format("2025-07-01", POWDER.key, 20.0))
    )
    assert summed.capacity_g_m2[0] == pytest.approx(single.capacity_g_m2[0])
    aged = seasons_of(bed(LOAM.format(7.0), bed=PLANTED, more=old))
    assert aged.capacity_g_m2 == seasons_of(bed(LOAM.format(7.0), bed=PLANTED)).capacity_g_m2


def test_another_acid_of_last_year_counts_by_its_acid_and_lime_does_not() -> None:
    """2 x 18 = 36 g of iron sulfate heptahydrate bring about as much acid as 4.2 g of sulfur."""
    iron = APPLIED.format("2025-09-01", "ferrous sulfate, heptahydrate", 200.0)
    lime = APPLIED.format("2025-09-01", "ground limestone, calcitic", 200.0)
    fresh, salted, limed = (
        seasons_of(bed(LOAM.format(7.0), bed=PLANTED, more=more)).capacity_g_m2[0]
        for more in ("", iron, lime)
    )
    assert limed == fresh
    assert fresh - salted == pytest.approx(max(0.0, 200.0 / 8.67 - slack(fresh)), abs=1.0)


def slack(fresh_g_m2: float) -> float:
    """How much more the year allows than one dose."""
    return limit("sulfur", "planted", "year") / POWDER.elemental_s_frac - fresh_g_m2


@pytest.mark.parametrize(
    ("by", "count"), [("2026-09-01", 1), ("2027-12-01", 2), ("2028-12-01", 3), ("2031-01-01", 3)]
)
def test_a_season_too_late_for_the_day_wanted_is_left_out(by: str, count: int) -> None:
    seasons = seasons_of(bed(LOAM.format(7.0), aim=f"target_ph = 6.0\nby = {by}"))
    assert seasons.count == count
    assert seasons.on == date.fromisoformat(by)
    assert seasons.hold == seasons.on + timedelta(days=365)
    assert all(day < seasons.on for days in seasons.days for day in days)


def test_without_a_day_it_is_three_seasons_from_the_first_part() -> None:
    seasons = seasons_of(bed(LOAM.format(7.0)))
    assert seasons.count == 3
    assert seasons.on == seasons.days[0][0] + timedelta(days=3 * 365)
    assert seasons.days[0][0] >= TODAY


def test_every_season_but_the_first_is_tested_before_and_a_year_after() -> None:
    for acidify, ph, aim in ((True, 7.0, "target_ph = 5.5"), (False, 5.0, "target_ph = 6.5")):
        seasons = seasons_of(bed(LOAM.format(ph), aim=aim), acidify=acidify)
        starts = [days[0] for days in seasons.days]
        assert len(seasons.tests) == seasons.count - 1
        for test, start, before in zip(seasons.tests, starts[1:], starts, strict=False):
            assert before < test < start
        assert all((b - a).days >= 365 for a, b in pairwise(starts))


def test_sulfur_goes_on_once_a_season() -> None:
    """Tennessee Extension and Penn State: test before more goes on."""
    seasons = seasons_of(bed(LOAM.format(7.0)))
    assert [len(days) for days in seasons.days] == [1, 1, 1]


def test_lime_stands_half_a_year_apart_within_its_season_and_before_the_next() -> None:
    seasons = seasons_of(bed(LOAM.format(4.8), aim="target_ph = 6.8"), acidify=False)
    for days, following in zip(
        seasons.days, (*(d[0] for d in seasons.days[1:]), None), strict=True
    ):
        assert all((b - a).days >= 150 for a, b in pairwise(days))
        assert following is None or days[-1] < following


@given(st.floats(0.0, 700.0))
def test_an_amount_of_a_season_is_split_within_the_limit_of_one_dose(amount: float) -> None:
    sizes = SEASONS.sizes(0, amount)
    if amount <= SEASONS.capacity_g_m2[0]:
        assert all(size <= SEASONS.dose_g_m2 + 1e-9 for _, size in sizes)
    if amount > 1e-6:
        assert sum(size for _, size in sizes) == pytest.approx(amount)
    assert [day for day, _ in sizes] == list(SEASONS.days[0][: len(sizes)])


SEASONS = seasons_of(bed(LOAM.format(4.8), aim="target_ph = 6.8"), acidify=False)


@given(st.floats(0.0, 5000.0))
def test_a_tidy_amount_is_never_more_than_given_and_never_far_below(amount: float) -> None:
    assert tidy(amount) <= amount + 1e-6
    assert amount - tidy(amount) < 0.1 if amount < 3.0 else tidy(amount) > 0.7 * amount
    assert tidy(tidy(amount)) == tidy(amount)


@given(st.floats(0.5, 3000.0), st.integers(2, 15))
def test_amounts_to_choose_from_rise_from_nothing_to_the_limit(top: float, count: int) -> None:
    amounts = tidy_amounts(top, count=count)
    assert amounts[0] == 0.0 and amounts[-1] == tidy(top) <= top + 1e-6
    assert list(amounts) == sorted(set(amounts)) and len(amounts) <= count


def test_a_bed_that_is_planted_is_never_dug_through() -> None:
    assert seasons_of(bed(LOAM.format(7.0), bed=PLANTED)).incorporate_cm == 0.0
    assert seasons_of(bed(LOAM.format(7.0))).incorporate_cm > 0.0


@pytest.mark.parametrize("kind", ["pastilles", "dispersible"])
def test_prills_are_looked_at_until_nine_tenths_have_acted(kind: str) -> None:
    hand = f'[[on_hand]]\nmaterial = "elemental sulfur, {kind}"\n'
    seasons, powder = (
        seasons_of(bed(LOAM.format(7.0), more=hand)),
        seasons_of(bed(LOAM.format(7.0))),
    )
    assert seasons.material.key == f"elemental sulfur, {kind}"
    assert powder.acted_on is None
    assert seasons.acted_on is not None
    assert seasons.acted_on <= seasons.on and powder.on <= seasons.on
    assert seasons.on - seasons.acted_on < timedelta(days=366) or seasons.on == powder.on
    assert seasons.hold == seasons.on + timedelta(days=365)


def test_little_clay_needs_years_longer_than_much() -> None:
    some, much = (
        seasons_of(
            bed(LOAM.format(7.0), more=f'[[on_hand]]\nmaterial = "elemental sulfur, {kind}"\n')
        ).acted_on
        for kind in ("pastilles", "dispersible")
    )
    assert some is not None and much is not None
    assert (some - much).days > 2 * 365


UNTESTED = APPLIED.format("{}", "elemental sulfur, powder", "98")


@pytest.mark.parametrize("days", [0, 30, 150, 360, 395])
def test_while_sulfur_lies_untested_no_more_goes_on_before_a_test(days: int) -> None:
    """Tennessee's rule for blueberries: two thirds, a test after about 3 months, then the rest."""
    on = TODAY - timedelta(days=days)
    seasons = seasons_of(bed(LOAM.format(6.9) + f"\nsampled = {on}", more=UNTESTED.format(on)))
    assert seasons.capacity_g_m2[0] < 1.0
    assert seasons.days[1][0] >= on + timedelta(days=365)
    assert TODAY < seasons.tests[0] < seasons.days[1][0]


@pytest.mark.parametrize(("tested", "goes_on"), [(60, False), (110, True)])
def test_a_test_three_months_on_lets_the_next_part_go_on(tested: int, goes_on: bool) -> None:
    on = TODAY - timedelta(days=120)
    soil = LOAM.format(6.1) + f"\nsampled = {on + timedelta(days=tested)}"
    seasons = seasons_of(bed(soil, more=UNTESTED.format(on)))
    assert (seasons.capacity_g_m2[0] > 1.0) is goes_on


def test_less_than_one_dose_leaves_the_rest_of_it() -> None:
    more = APPLIED.format(TODAY, "elemental sulfur, powder", "40")
    seasons = seasons_of(bed(LOAM.format(6.9) + f"\nsampled = {TODAY}", more=more))
    cap = limit("sulfur", "unplanted", "dose") / POWDER.elemental_s_frac
    assert seasons.capacity_g_m2[0] == pytest.approx(cap - 40.0, abs=1.0)


@pytest.mark.parametrize("days", [0, 60, 120, 200])
@pytest.mark.parametrize("spent", [10.0, 24.0, 60.0])
def test_two_parts_less_than_a_year_apart_keep_the_limit_of_a_year(days: int, spent: float) -> None:
    """Published limits are of a year, whichever day it begins on."""
    on = TODAY - timedelta(days=days)
    more = APPLIED.format(on, POWDER.key, spent)
    pot = 'kind = "container"\narea = "0.25 m2"'
    seasons = seasons_of(bed(LOAM.format(7.2) + f"\nsampled = {TODAY}", bed=pot, more=more))
    year = limit("sulfur", "container", "year") / POWDER.elemental_s_frac
    dated = [(on, spent)]
    for number, most in enumerate(seasons.capacity_g_m2):
        dated += seasons.sizes(number, most)
    for last, _ in dated:
        within = [rate for day, rate in dated if last - timedelta(days=365) < day <= last]
        assert sum(within) <= max(year, spent) + 1e-6
