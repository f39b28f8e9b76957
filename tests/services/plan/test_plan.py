from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from loamshift.domain.answer import Direction, Dose
from loamshift.domain.case import Case
from loamshift.services.context.build_context import build_context
from loamshift.services.context.warmth import start_date
from loamshift.services.materials.acid_clock import daily_soil_temp_c
from loamshift.services.plan.dose import dose
from loamshift.services.plan.parts import Plan, plan
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.decision_table import Outcome
from loamshift.tables.materials import load_materials
from loamshift.tables.rules import cap_for
from services.beds import bed

NO_LIME = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0\n'


def run(case: Case) -> tuple[Outcome, Dose, Plan]:
    context = build_context(case)
    outcome = decide(context)
    amount = dose(context, outcome)
    return outcome, amount, plan(context, outcome, amount)


def test_the_parts_add_up_to_the_middle_of_the_dose() -> None:
    _, amount, parts = run(bed("ph = 7.0\n" + NO_LIME))
    assert amount.sulfur_as_s_g_m2 is not None
    share = load_materials()[parts.applications[0].material].elemental_s_frac
    total = sum(part.rate_g_m2 for part in parts.applications) * share
    assert total == pytest.approx(amount.sulfur_as_s_g_m2.mid, rel=0.2)
    assert total <= amount.sulfur_as_s_g_m2.mid * (1 + 1e-9)


@pytest.mark.parametrize(
    ("place", "context"),
    [
        ('area = "20 m2"\nplanted = false', "unplanted"),
        ('area = "20 m2"\nplanted = true', "planted"),
        ('kind = "lawn"\narea = "20 m2"', "lawn"),
    ],
)
def test_no_part_and_no_year_is_over_its_cap(place: str, context: str) -> None:
    _, _, parts = run(bed("ph = 6.0\n" + NO_LIME, bed=place))
    share = load_materials()["elemental sulfur, powder"].elemental_s_frac
    dose_cap = cap_for(applies_to="sulfur", situation=context, per="dose").limit_g_m2
    year_cap = cap_for(applies_to="sulfur", situation=context, per="year").limit_g_m2
    assert parts.applications
    for part in parts.applications:
        assert part.rate_g_m2 * share <= dose_cap + 1e-6
        year = [
            other.rate_g_m2 * share
            for other in parts.applications
            if part.date <= other.date < part.date + timedelta(days=365)
        ]
        assert sum(year) <= year_cap + 1e-6


def test_only_the_first_part_is_without_condition() -> None:
    _, _, parts = run(bed("ph = 7.0\n" + NO_LIME))
    conditions = [part.only_if for part in parts.applications]
    assert conditions[0] is None and all(conditions[1:]) and len(conditions) > 1


def test_a_test_comes_before_every_further_part_and_never_too_early() -> None:
    _, _, parts = run(bed("ph = 7.0\n" + NO_LIME))
    assert parts.too_early_before is not None
    assert all(day >= parts.too_early_before for day in parts.retest)
    for part in parts.applications[1:]:
        assert any(day <= part.date for day in parts.retest)


def test_autumn_sulfur_waits_for_spring_where_winters_are_cold() -> None:
    case = bed("ph = 7.0\n" + NO_LIME)
    autumn = replace(case, today=case.today.replace(month=10, day=20))
    _, _, parts = run(autumn)
    assert parts.applications[0].date.month in (3, 4, 5)
    assert parts.applications[0].date.year == 2027


def test_the_first_spring_part_waits_until_the_ground_can_be_worked() -> None:
    """Common practice, no source: ground fresh from the thaw is too wet and cold to dig."""
    context = build_context(bed("ph = 7.0\n" + NO_LIME))
    february = date(2027, 2, 1)
    dug = start_date(context, acidify=True, not_before=february)
    limed = start_date(context, acidify=False, not_before=february)
    temp_c = daily_soil_temp_c(context.soil_temp_c, start=february, days=120)
    assert temp_c[(dug - february).days] >= 5.0 > temp_c[(dug - february).days - 1]
    assert timedelta(days=7) <= dug - limed <= timedelta(days=45)


def test_lime_does_not_wait_for_warmth() -> None:
    case = bed("ph = 5.2\n" + NO_LIME, aim='plant = "cabbage"')
    autumn = replace(case, today=case.today.replace(month=10, day=20))
    _, amount, parts = run(autumn)
    assert amount.direction is Direction.LIME
    assert parts.applications[0].date == autumn.today


def test_what_is_on_hand_is_used_at_its_purity() -> None:
    hand = '[[on_hand]]\nmaterial = "elemental sulfur, pastilles"\npurity_pct = 90\n'
    _, amount, parts = run(bed("ph = 6.0\n" + NO_LIME, more=hand))
    assert amount.sulfur_as_s_g_m2 is not None
    assert parts.applications[0].material == "elemental sulfur, pastilles"
    assert sum(p.rate_g_m2 for p in parts.applications) * 0.9 == pytest.approx(
        amount.sulfur_as_s_g_m2.mid, rel=0.2
    )


def test_nothing_goes_on_where_the_verdict_is_no() -> None:
    for soil in ("ph = 5.0\n" + NO_LIME, "ph = 3.5\n" + NO_LIME):
        _, amount, parts = run(bed(soil))
        assert parts == Plan((), None, ())
        assert amount.direction is Direction.NONE


def test_amount_is_rate_times_every_bed() -> None:
    place = 'area = "20 m2"\ncount = 3\nplanted = false'
    _, _, parts = run(bed("ph = 6.0\n" + NO_LIME, bed=place))
    part = parts.applications[0]
    assert part.amount_g == pytest.approx(60.0 * part.rate_g_m2)
