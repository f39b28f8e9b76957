"""The plan as a rule: its limits, its tests and its first path, by one layer and by the column."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from loamshift.core.plan_rule import RuleLine
from loamshift.domain.answer import Answer, Application, Direction, Then
from loamshift.domain.case import Case
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import Seasons, seasons_ahead
from loamshift.services.look import look_with_column
from loamshift.services.plan.plan import NO_PLAN, Plan, dated_parts, line_for, plan_of
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judgement import Judgement
from loamshift.tables.materials import load_materials
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from services.beds import bed
from wording import read

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0\n'
SAND = 'ph_method = "water 1:1"\ntexture = "sand"\norganic_matter_pct = 1.5\ncarbonate_pct = 0\n'
CLAY = 'ph_method = "water 1:1"\ntexture = "clay"\norganic_matter_pct = 4\ncarbonate_pct = 0\n'
PLANTED = 'area = "20 m2"\nplanted = true'
MEMBERS = 100

BEDS: dict[str, Callable[[], Case]] = {
    "loam": lambda: bed("ph = 7.0\n" + LOAM),
    "sand": lambda: bed("ph = 6.5\n" + SAND),
    "planted": lambda: bed("ph = 6.0\n" + LOAM, bed=PLANTED),
    "lawn": lambda: bed("ph = 7.2\n" + LOAM, bed='kind = "lawn"\narea = "20 m2"', aim=LAWN_AIM),
    "limed": lambda: bed("ph = 5.2\n" + CLAY, aim='plant = "cabbage"'),
    "probe": lambda: bed("ph = 7.4\n" + LOAM.replace("water 1:1", "probe")),
}
LAWN_AIM = "target_ph = 6.2"


def quick(case: Case) -> tuple[Judgement, Plan]:
    context = build_context(case)
    judged = decide(context).judged
    return judged, plan_of(context, judged)


@cache
def by_column(name: str) -> tuple[Judgement, Plan]:
    context = build_context(BEDS[name]())
    look = look_with_column(context, members=MEMBERS, seed=1, years=3, refit=True)
    return look.judged, look.plan


@cache
def planned(name: str, column: bool) -> tuple[Judgement, Plan]:
    judged, plan = by_column(name) if column else quick(BEDS[name]())
    assert judged.rule is not None and plan.rule is not None
    return judged, plan


EVERY = [(name, column) for name in BEDS for column in (False, True)]


@pytest.mark.parametrize(("name", "column"), EVERY)
def test_no_part_no_season_and_no_line_is_over_the_printed_limit(name: str, column: bool) -> None:
    _, plan = planned(name, column)
    assert plan.rule is not None
    material = load_materials()[plan.rule.material]
    acid = material.elemental_s_frac > 0.0
    share = material.elemental_s_frac if acid else material.caco3_eq_frac
    ground = build_context(BEDS[name]()).cap_situation
    substance = "sulfur" if acid else "limestone"
    dose_cap = cap_for(applies_to=substance, situation=ground, per="dose").limit_g_m2
    year_cap = cap_for(applies_to=substance, situation=ground, per="year").limit_g_m2
    parts: list[Application] = [*plan.applications]
    for part in parts:
        assert part.rate_g_m2 * share <= dose_cap + 1e-6
        year = [
            other.rate_g_m2 * share
            for other in parts
            if part.date <= other.date < part.date + timedelta(days=365)
        ]
        assert sum(year) <= year_cap + 1e-6
    for line in plan.rule.decides:
        assert line.part_g_m2 * share <= year_cap + 1e-6


@pytest.mark.parametrize(("name", "column"), EVERY)
def test_the_lines_of_a_test_cover_every_reading_once_and_rise_with_the_need(
    name: str, column: bool
) -> None:
    judged, plan = planned(name, column)
    assert plan.rule is not None
    lines = plan.rule.decides
    assert lines[0].reads_from is None and lines[-1].reads_to is None
    for lower, higher in pairwise(lines):
        assert lower.reads_to is not None and higher.reads_from is not None
        assert higher.reads_from - lower.reads_to == pytest.approx(0.1)
    amounts = [line.part_g_m2 for line in lines]
    acid = judged.direction is Direction.ACIDIFY
    assert amounts == sorted(amounts, reverse=not acid)
    giving = [line for line in lines if line.part_g_m2 > 0.0]
    assert len(giving) <= parameter_values("plan")["test_lines"]
    for line in lines:
        assert (line.then is Then.PART) is (line.part_g_m2 > 0.0) is (line.part_on is not None)


@pytest.mark.parametrize(("name", "column"), EVERY)
def test_a_plan_with_a_test_keeps_as_many_beds_as_the_best_single_amount(
    name: str, column: bool
) -> None:
    """Judged on beds not used to choose it, so within the error of a share of half the beds."""
    judged, _ = planned(name, column)
    rule = judged.rule
    assert rule is not None and judged.courses is not None
    beds = judged.courses.chosen_on.size
    error = 2.0 * (0.25 / (0.5 * beds)) ** 0.5
    assert rule.share_in_range >= rule.share_without_tests - error
    assert 0.0 <= rule.share_in_range <= rule.share_if_known <= 1.0


@pytest.mark.parametrize(("name", "column"), EVERY)
def test_few_beds_are_harmed_by_the_plan(name: str, column: bool) -> None:
    judged, plan = planned(name, column)
    assert plan.ph is not None and judged.courses is not None and plan.rule is not None
    target = build_context(BEDS[name]()).target
    assert target is not None
    most = parameter_values("plan")["most_harmed_frac"]
    alone = judged.courses.surface.course((0.0,))
    if judged.direction is Direction.ACIDIFY:
        hurt = (plan.ph < target.harmful_low).any(axis=1) & ~(alone < target.harmful_low).any(
            axis=1
        )
    else:
        hurt = (plan.ph > target.harmful_high).any(axis=1) & ~(alone > target.harmful_high).any(
            axis=1
        )
    assert hurt.mean() <= most
    assert plan.rule.share_harmed <= most


@pytest.mark.parametrize(("name", "column"), EVERY)
def test_the_first_path_is_the_first_season_and_the_line_of_the_reading_to_be_expected(
    name: str, column: bool
) -> None:
    judged, plan = planned(name, column)
    assert plan.rule is not None and judged.rule is not None and judged.courses is not None
    own = [part for part in plan.applications if part.only_if is None]
    assert [(part.date, part.rate_g_m2) for part in own] == [
        (part.date, part.rate_g_m2) for part in plan.rule.parts
    ]
    assert sum(part.rate_g_m2 for part in own) == pytest.approx(judged.rule.first_g_m2)
    later = [part for part in plan.applications if part.only_if is not None]
    test = plan.rule.decides[0].test
    day = judged.courses.index(test)
    reads = float(np.median(judged.courses.surface.at(day, (judged.rule.first_g_m2,))))
    line = line_for(judged.rule.lines, reads)
    assert sum(part.rate_g_m2 for part in later) == pytest.approx(line.amount_g_m2)
    assert all(part.date > test for part in later)
    assert all(str(test.year) in read(part.only_if) for part in later)


@pytest.mark.parametrize(("name", "column"), EVERY)
def test_no_test_comes_before_it_can_see_anything(name: str, column: bool) -> None:
    _, plan = planned(name, column)
    assert plan.rule is not None
    if plan.rule.parts:
        assert plan.too_early_before is not None
        assert plan.rule.parts[0].date < plan.too_early_before
        assert all(day >= plan.too_early_before for day in plan.retest)
    assert plan.rule.decides[0].test in plan.retest and plan.rule.on in plan.retest
    assert list(plan.retest) == sorted(plan.retest)


@pytest.mark.parametrize(("name", "column"), EVERY)
def test_what_the_plan_promises_is_what_its_beds_do(name: str, column: bool) -> None:
    """``ph`` follows every bed through its own readings; the shares are exact sums over them."""
    judged, plan = planned(name, column)
    assert plan.ph is not None and plan.rule is not None and judged.courses is not None
    target = build_context(BEDS[name]()).target
    assert target is not None
    seasons = judged.courses.seasons
    inside = np.ones(plan.ph.shape[0], dtype=bool)
    for day in (seasons.on, seasons.hold):
        ph = plan.ph[:, judged.courses.index(day)]
        inside &= (ph >= target.ph_low) & (ph <= target.ph_high)
    assert inside.mean() == pytest.approx(plan.rule.share_in_range, abs=0.12)
    assert plan.rule.median_ph == pytest.approx(
        np.median(plan.ph[:, judged.courses.index(plan.rule.on)])
    )
    assert target.ph_low - 0.1 <= plan.rule.median_ph <= target.ph_high + 0.1


def test_autumn_sulfur_waits_for_spring_where_winters_are_cold() -> None:
    case = bed("ph = 7.0\n" + LOAM)
    _, plan = quick(replace(case, today=case.today.replace(month=10, day=20)))
    assert plan.applications[0].date.month in (3, 4, 5)
    assert plan.applications[0].date.year == 2027


def test_lime_does_not_wait_for_warmth() -> None:
    case = bed("ph = 5.2\n" + LOAM, aim='plant = "cabbage"')
    autumn = replace(case, today=case.today.replace(month=10, day=20))
    judged, plan = quick(autumn)
    assert judged.direction is Direction.LIME
    assert plan.applications[0].date == autumn.today


def test_what_is_on_hand_is_used_at_its_purity() -> None:
    """Half the strength, twice the product and no more sulfur; amounts are cut to be weighed."""
    hand = '[[on_hand]]\nmaterial = "elemental sulfur, powder"\npurity_pct = {}\n'
    full, half = (
        quick(bed("ph = 6.0\n" + LOAM, more=hand.format(pct)))[0].rule for pct in (99, 49.5)
    )
    assert full is not None and half is not None
    assert half.first_g_m2 == pytest.approx(2.0 * full.first_g_m2, rel=0.15)


@pytest.mark.parametrize("soil", ["ph = 5.0\n" + LOAM, "ph = 3.5\n" + LOAM])
def test_nothing_goes_on_where_the_verdict_is_no(soil: str) -> None:
    judged, plan = quick(bed(soil))
    assert plan == NO_PLAN and judged.direction is Direction.NONE
    assert advise(bed(soil)).plan is None


def test_amount_is_rate_times_every_bed() -> None:
    place = 'area = "20 m2"\ncount = 3\nplanted = false'
    _, plan = quick(bed("ph = 6.0\n" + LOAM, bed=place))
    assert plan.rule is not None
    for part in (*plan.applications, *plan.rule.parts):
        assert part.amount_g == pytest.approx(60.0 * part.rate_g_m2)


def seasons_of(case: Case, *, acidify: bool = True) -> Seasons:
    return seasons_ahead(build_context(case), acidify=acidify)


def test_an_amount_of_a_printed_table_is_spread_over_the_seasons() -> None:
    case = bed("ph = 7.0\n" + LOAM)
    seasons = seasons_of(case)
    whole = sum(seasons.capacity_g_m2)
    assert seasons.dose_g_m2 <= seasons.capacity_g_m2[0] < seasons.dose_g_m2 + 1.0
    parts = dated_parts(build_context(case), seasons, 0.9 * whole)
    assert sum(part.rate_g_m2 for part in parts) == pytest.approx(0.9 * whole)
    assert all(part.rate_g_m2 <= seasons.dose_g_m2 + 1e-9 for part in parts)
    assert [part.date for part in parts] == sorted(part.date for part in parts)
    first = [part for part in parts if part.date in seasons.days[0]]
    assert all(part.only_if is None for part in first)
    assert all(part.only_if for part in parts if part not in first)
    assert dated_parts(build_context(case), seasons, 0.0) == ()


LINES = (
    RuleLine(low_ph=None, high_ph=5.4, amount_g_m2=0.0, test_again=False, probability=0.2),
    RuleLine(low_ph=5.5, high_ph=6.1, amount_g_m2=40.0, test_again=False, probability=0.6),
    RuleLine(low_ph=6.2, high_ph=None, amount_g_m2=90.0, test_again=False, probability=0.2),
)


@pytest.mark.parametrize(
    ("ph", "amount"), [(4.0, 0.0), (5.44, 0.0), (5.46, 40.0), (6.14, 40.0), (6.16, 90.0), (9, 90.0)]
)
def test_a_reading_is_printed_to_a_tenth_before_its_line_is_looked_up(
    ph: float, amount: float
) -> None:
    assert line_for(LINES, ph).amount_g_m2 == amount


@cache
def answer_with_column() -> Answer:
    return advise(BEDS["loam"](), look_ahead=LookAhead(members=MEMBERS, years=2))


def test_the_forecast_is_that_of_the_plan() -> None:
    answer = answer_with_column()
    _, plan = by_column("loam")
    assert answer.forecast is not None and plan.ph is not None and answer.plan == plan.rule
    weeks = len(answer.forecast.dates)
    middle = np.median(plan.ph[:, :weeks], axis=0)
    assert np.abs(np.array(answer.forecast.ph.q50) - middle).max() < 0.12
    assert answer.dose.by_forecast is None


def test_the_same_seed_gives_the_same_plan_and_years_shown_do_not_change_it() -> None:
    one = answer_with_column()
    two = advise(BEDS["loam"](), look_ahead=LookAhead(members=MEMBERS, years=1))
    assert one.plan == two.plan and one.applications == two.applications


def test_a_lower_aim_takes_more_and_a_stronger_soil_too() -> None:
    aims = {ph: quick(bed("ph = 7.0\n" + LOAM, aim=f"target_ph = {ph}"))[1] for ph in (6.2, 5.6)}
    weak, strong = (
        quick(bed("ph = 7.0\n" + soil, aim="target_ph = 6.0"))[1] for soil in (SAND, CLAY)
    )
    for less, more in ((aims[6.2], aims[5.6]), (weak, strong)):
        assert expected_g_m2(less) < expected_g_m2(more)


def expected_g_m2(plan: Plan) -> float:
    return sum(part.rate_g_m2 for part in plan.applications)


def test_a_day_within_one_season_leaves_a_single_amount_and_no_test() -> None:
    judged, plan = quick(bed("ph = 7.0\n" + LOAM, aim="target_ph = 6.0\nby = 2026-09-01"))
    assert plan.rule is not None and judged.rule is not None
    assert plan.rule.decides == () and judged.rule.lines == ()
    assert plan.rule.share_in_range == plan.rule.share_in_range_without_tests
    assert plan.rule.on == date(2026, 9, 1)
    assert plan.retest == (plan.rule.on,)
    assert all(part.only_if is None for part in plan.applications)


@pytest.mark.parametrize("name", ["loam", "sand", "limed"])
def test_each_line_has_the_course_of_the_beds_that_read_so(name: str) -> None:
    context = build_context(BEDS[name]())
    look = look_with_column(context, members=MEMBERS, seed=1, years=3, refit=True)
    rule, outlook = look.plan.rule, look.outlook
    assert rule is not None and rule.decides and outlook is not None
    shown = outlook.forecast
    start = max(i for i, day in enumerate(shown.dates) if day <= rule.decides[0].test)
    courses = [line.ph_after for line in rule.decides if line.ph_after is not None]
    weeks = (rule.on - shown.dates[start]).days // 7 + 1
    assert courses and {len(course) for course in courses} == {weeks}
    at_test = [course[0] for course in courses]
    assert at_test == sorted(at_test), "beds that read higher are higher"
    for line in rule.decides:
        if line.ph_after is not None and line.reads_from is not None and line.reads_to is not None:
            assert line.reads_from - 0.4 <= line.ph_after[0] <= line.reads_to + 0.4
    after = zip(*courses, strict=True)
    for week, values in zip(range(start, len(shown.dates)), after, strict=False):
        assert min(values) - 0.05 <= shown.ph.q50[week] <= max(values) + 0.05
        assert all(shown.ph.q05[week] < value < shown.ph.q95[week] for value in values)


def test_beds_of_a_line_get_what_the_line_says() -> None:
    judged, plan = by_column("loam")
    assert judged.rule is not None and plan.rule is not None
    read, amounts = judged.rule.read_line, judged.rule.amounts_g_m2
    assert read is not None and read.shape == amounts[1].shape
    for number, line in enumerate(plan.rule.decides):
        assert np.all(amounts[1][read == number] == line.part_g_m2)


def test_without_the_column_no_course_is_told() -> None:
    _, plan = quick(BEDS["loam"]())
    assert plan.rule is not None and plan.rule.decides
    assert all(line.ph_after is None for line in plan.rule.decides)
