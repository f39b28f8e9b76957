"""What the answer keeps for its figures agrees with the context behind it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from loamshift.domain.case import Aim, Bed, Case
from loamshift.services.context.aim import wanted
from loamshift.services.context.build_context import build_context
from loamshift.services.context.warmth import soil_temperature, start_date
from loamshift.services.materials.acid_clock import daily_soil_temp_c
from loamshift.tables.places import find_place
from loamshift.tables.plants import find_plant
from services.beds import bed

CASE = Case(name="Bed", today=date(2028, 2, 26), place=find_place("London"), bed=Bed(depth_cm=20.0))


def test_a_year_of_soil_is_weekly_from_today_and_follows_the_season() -> None:
    warmth = soil_temperature(build_context(CASE))
    assert warmth is not None
    assert (warmth.dates[0], warmth.depth_cm) == (CASE.today, 10.0)
    assert len(warmth.dates) == len(warmth.c) == 53
    assert {b - a for a, b in zip(warmth.dates, warmth.dates[1:], strict=False)} == {
        timedelta(days=7)
    }
    assert warmth.dates[warmth.c.index(max(warmth.c))].month in (7, 8)
    assert warmth.c[0] == pytest.approx(warmth.c[-1], abs=1.0)


def test_nothing_is_said_without_a_place_or_an_aim() -> None:
    nowhere = build_context(replace(CASE, place=None))
    assert soil_temperature(nowhere) is None
    assert wanted(nowhere) is None


def test_the_range_is_the_plants_or_lies_around_the_target() -> None:
    camellia = find_plant("camellia")
    found = wanted(build_context(replace(CASE, aim=Aim(plants=(camellia,)))))
    assert found is not None
    assert (found.ph_low, found.ph_high) == (camellia.ph_low, camellia.ph_high)
    assert found.names == (camellia.name,)
    around = wanted(build_context(replace(CASE, aim=Aim(target_ph=6.5))))
    assert around is not None
    assert around.ph_low < around.ph_aim == 6.5 < around.ph_high
    assert around.names == ()


def test_the_first_spring_part_waits_until_the_ground_can_be_worked() -> None:
    """Common practice, no source: ground fresh from the thaw is too wet and cold to dig."""
    context = build_context(bed())
    february = date(2027, 2, 1)
    dug = start_date(context, acidify=True, not_before=february)
    limed = start_date(context, acidify=False, not_before=february)
    temp_c = daily_soil_temp_c(context.soil_temp_c, start=february, days=120)
    assert temp_c[(dug - february).days] >= 5.0 > temp_c[(dug - february).days - 1]
    assert timedelta(days=7) <= dug - limed <= timedelta(days=45)
