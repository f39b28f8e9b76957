"""Readings by season: which belong together, what they are worth, and which one speaks."""

from __future__ import annotations

import math
from datetime import date

import pytest

from loamshift.domain.case import Case
from loamshift.services.context.readings import (
    current_season,
    dated_readings,
    method_error_ph,
    season_readings,
)
from loamshift.tables.model import verdict_values
from services.beds import TODAY, bed

SOIL = 'ph = 6.6\nph_method = "water 1:1"\n{}texture = "loam"\n'
DATED = '[[reading]]\ndate = {}\nph = {}\nph_method = "{}"\n'
LIME = '[[applied]]\ndate = {}\nmaterial = "garden lime"\nrate = "200 g/m2"\n'


def read(*dated: tuple[str, float, str], sampled: str = "", more: str = "") -> Case:
    line = f"sampled = {sampled}\n" if sampled else ""
    told = "".join(DATED.format(*one) for one in dated)
    return bed(SOIL.format(line), more=told + more)


WATER = "water 1:1"


def test_a_reading_without_a_day_is_todays_and_none_is_of_the_future() -> None:
    readings = dated_readings(read(("2025-05-01", 7.0, WATER)))
    assert [reading.taken for reading in readings] == [date(2025, 5, 1), TODAY]


def test_a_reading_said_twice_counts_once() -> None:
    twice = read(("2025-05-01", 7.0, WATER), ("2025-05-01", 7.0, WATER))
    assert len(dated_readings(twice)) == 2
    other = read(("2025-05-01", 7.0, WATER), ("2025-05-01", 7.0, "CaCl2"))
    assert len(dated_readings(other)) == 3


def test_half_a_year_apart_is_another_season() -> None:
    near = season_readings(read(("2025-12-01", 7.0, WATER), sampled="2026-03-01"))
    far = season_readings(read(("2025-05-01", 7.0, WATER), sampled="2026-03-01"))
    assert [len(season.readings) for season in near] == [2]
    assert [len(season.readings) for season in far] == [1, 1]


@pytest.mark.parametrize(("on", "seasons"), [("2026-01-15", 2), ("2026-03-20", 1)])
def test_what_was_put_on_between_them_parts_them(on: str, seasons: int) -> None:
    found = season_readings(
        read(("2025-12-01", 7.0, WATER), sampled="2026-03-01", more=LIME.format(on))
    )
    assert len(found) == seasons


@pytest.mark.parametrize(("limed", "seasons"), [("2025-10-01", 2), ("2022-10-01", 1)])
def test_while_something_is_working_each_reading_keeps_its_own_day(
    limed: str, seasons: int
) -> None:
    """Five weeks apart: lime of last autumn is still working, old lime has done its work."""
    found = season_readings(
        read(("2026-01-25", 6.2, WATER), sampled="2026-03-01", more=LIME.format(limed))
    )
    assert len(found) == seasons
    assert found[-1].ph_water == pytest.approx(6.6 if seasons == 2 else 6.4)


def test_a_repeat_within_four_weeks_is_of_the_same_season_even_while_lime_works() -> None:
    (one,) = season_readings(
        read(("2026-02-10", 6.2, WATER), sampled="2026-03-01", more=LIME.format("2025-10-01"))
    )
    assert len(one.readings) == 2


def test_two_like_readings_of_a_season_are_worth_more_than_one_and_share_its_scatter() -> None:
    (one,) = season_readings(read(sampled="2026-03-01"))
    (two,) = season_readings(read(("2026-02-01", 6.6, WATER), sampled="2026-03-01"))
    assert two.method_sd == pytest.approx(one.method_sd / math.sqrt(2.0))
    scatter = verdict_values()["reading_scatter_sd"]
    assert one.belief.ph_water_sd == pytest.approx(math.hypot(one.method_sd, scatter))
    assert two.belief.ph_water_sd > scatter


def test_the_exact_one_counts_most_and_gives_the_method() -> None:
    (mixed,) = season_readings(read(("2026-03-02", 7.6, "strip"), sampled="2026-03-01"))
    assert not mixed.rough and mixed.leading.ph == 6.6
    assert 6.6 <= mixed.ph_water < 6.8


def test_readings_of_a_season_that_differ_are_worth_less() -> None:
    (alike,) = season_readings(read(("2026-02-01", 6.7, WATER), sampled="2026-03-01"))
    (apart,) = season_readings(read(("2026-02-01", 7.8, WATER), sampled="2026-03-01"))
    assert apart.method_sd > 2.0 * alike.method_sd
    assert apart.ph_water == pytest.approx(7.2)


def test_a_probe_before_the_first_laboratory_is_left_out_and_one_after_is_kept() -> None:
    before = season_readings(read(("2024-05-01", 7.6, "probe"), sampled="2026-03-01"))
    assert [season.rough for season in before] == [False]
    after = read(("2025-10-01", 7.6, "probe"), sampled="2024-03-01")
    assert [season.rough for season in season_readings(after)] == [False, True]
    speaks = current_season(after)
    assert speaks is not None and speaks.leading.ph == 6.6, "a laboratory's before a probe's"


def test_what_is_older_than_twelve_years_is_not_used() -> None:
    found = season_readings(read(("2013-05-01", 7.6, WATER), ("2016-05-01", 7.4, WATER)))
    assert [season.day.year for season in found] == [2016, 2026]


def test_an_error_given_with_the_reading_is_taken() -> None:
    own = DATED.format("2025-05-01", 6.6, WATER) + "ph_sd = 0.4\n"
    readings = dated_readings(bed(SOIL.format(""), more=own))
    assert method_error_ph(readings[0]) == 0.4 > method_error_ph(readings[1])


def test_without_a_reading_no_season_speaks() -> None:
    nothing = bed('texture = "loam"')
    assert season_readings(nothing) == () and current_season(nothing) is None
