from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from scipy.stats import norm

from loamshift.case.read import parse_case
from loamshift.domain.answer import ForecastPh
from loamshift.domain.case import Case
from loamshift.domain.score import (
    IssuedAs,
    IssuedForecast,
    LeftOut,
    PlannedPart,
    ScoredPair,
    Shown,
)
from loamshift.services.score.held import LEVELS
from loamshift.services.score.hindcast import known_before
from loamshift.services.score.issued import region_of
from loamshift.services.score.pairs import scored_pairs, scored_readings
from loamshift.services.score.summary import FEW, score_summary
from reference_scores import theirs

DAY = date(2025, 4, 1)
SULFUR = "elemental sulfur, powder"
CAREFUL_SD = 0.18027756377319945  # 0.10 of a laboratory's water pH and 0.15 from year to year


def issued(
    day: date = DAY, *, middle: float = 6.0, sd: float = 0.4, **more: object
) -> IssuedForecast:
    weeks = 60
    q = [tuple(float(norm.ppf(level, middle, sd)) for _ in range(weeks)) for level in LEVELS]
    made = IssuedForecast(
        key=f"{day}",
        title="Bed",
        issued_as=IssuedAs.LETTER,
        on=day,
        dates=tuple(day + timedelta(weeks=week) for week in range(weeks)),
        ph=ForecastPh(q05=q[0], q25=q[1], q50=q[2], q75=q[3], q95=q[4]),
        measured_ph=6.5,
        measured_sd=CAREFUL_SD,
    )
    return replace(made, **more)  # type: ignore[arg-type]


def case(*tests: tuple[date, float, str], more: str = "") -> Case:
    text = "case = 1\ntoday = 2027-01-01\n" + more
    for day, ph, method in tests:
        text += f'[[reading]]\ndate = {day}\nph = {ph}\nph_method = "{method}"\n'
    return parse_case(text)


def after(weeks: int) -> date:
    return DAY + timedelta(weeks=weeks)


def pairs(bed: Case, *forecasts: IssuedForecast) -> tuple[ScoredPair, ...]:
    return scored_pairs(bed, forecasts or (issued(),), bed="Bed")


def test_a_careful_test_is_scored_as_scoringrules_scores_it() -> None:
    (pair,) = pairs(case((after(10), 6.3, "water 1:1")))
    assert pair.left_out is None
    assert pair.error == pytest.approx(0.3, abs=1e-6)
    assert pair.crps == pytest.approx(float(theirs.crps_normal(6.3, 6.0, 0.4)), abs=0.002)
    both = CAREFUL_SD * 2.0**0.5
    stays = float(theirs.crps_normal(6.3, 6.5, both))
    assert pair.crps_stays == pytest.approx(stays, abs=1e-9)
    assert pair.share_below == pytest.approx(norm.cdf(6.3, 6.0, 0.4), abs=0.01)
    assert (pair.is_inside_50, pair.is_inside_90) == (False, True)


def test_another_method_is_converted_and_its_error_widens_the_range() -> None:
    (water,) = pairs(case((after(10), 6.0, "water 1:1")))
    (salt,) = pairs(case((after(10), 5.4, "CaCl2")))
    assert salt.read.ph_water == pytest.approx(6.0)
    more = 0.25**2 - CAREFUL_SD**2  # CaCl2: 0.20 of the conversion and 0.15 from year to year
    assert salt.high - salt.low == pytest.approx(2 * 1.645 * (0.4**2 + more) ** 0.5, abs=0.02)
    assert water.high - water.low == pytest.approx(2 * 1.645 * 0.4, abs=0.02)


def test_the_newest_forecast_before_the_day_counts_and_none_of_the_same_day() -> None:
    first, second = issued(middle=5.0), issued(after(8), middle=6.0)
    read = case((after(8), 5.0, "water 1:1"), (after(10), 6.0, "water 1:1"))
    under_first, under_second = pairs(read, second, first)
    assert under_first.issued == first
    assert under_second.issued == second
    assert pairs(case((DAY, 6.0, "water 1:1"))) == ()


def test_of_a_letter_and_a_plan_of_one_day_the_letter_counts() -> None:
    plan = issued(issued_as=IssuedAs.PLAN, key="plan")
    (pair,) = pairs(case((after(5), 6.0, "water 1:1")), issued(), plan)
    assert pair.issued.issued_as is IssuedAs.LETTER


def test_each_forecast_counts_once_by_its_first_careful_test() -> None:
    read = case((after(5), 6.0, "probe"), (after(6), 6.0, "water 1:1"), (after(9), 6.1, "CaCl2"))
    assert [pair.left_out for pair in pairs(read)] == [LeftOut.ROUGH, None, LeftOut.AGAIN]


def test_a_test_after_the_end_of_the_forecast_has_none() -> None:
    assert pairs(case((after(70), 6.0, "water 1:1"))) == ()


@pytest.mark.parametrize(
    ("rate", "left_out"),
    [("60 g/m2", None), ("80 g/m2", None), ("20 g/m2", LeftOut.OTHERWISE), ("", LeftOut.OTHERWISE)],
)
def test_a_forecast_of_a_plan_counts_only_where_it_was_followed(
    rate: str, left_out: LeftOut | None
) -> None:
    put_on = f'[[applied]]\ndate = {after(2)}\nmaterial = "{SULFUR}"\nrate = "{rate}"\n'
    bed = case((after(20), 6.0, "water 1:1"), more=put_on if rate else "")
    planned = issued(parts=(PlannedPart(on=after(2), rate_g_m2=60.0),))
    (pair,) = pairs(bed, planned)
    assert pair.left_out is left_out


def test_what_was_put_on_before_the_letter_of_that_day_is_not_held_against_it() -> None:
    put_on = f'[[applied]]\ndate = {DAY}\nmaterial = "elemental sulfur, powder"\nrate = "60 g/m2"\n'
    bed = case((after(20), 6.0, "water 1:1"), more=put_on)
    assert pairs(bed)[0].left_out is LeftOut.OTHERWISE
    assert pairs(bed, issued(known_g_m2=60.0))[0].left_out is None


def test_the_report_counts_as_a_reading_and_one_said_twice_once() -> None:
    report = '[soil]\nph = 6.1\nph_method = "water 1:1"\nsampled = 2025-08-01\n'
    bed = case((date(2025, 8, 1), 6.1, "water 1:1"), more=report)
    assert len(scored_readings(bed)) == 1


def many(count: int, inside: int) -> tuple[ScoredPair, ...]:
    found = []
    for place in range(count):
        ph = 6.0 if place < inside else 7.5
        found += pairs(case((after(10), ph, "water 1:1")))
    return tuple(found)


def test_few_pairs_are_said_to_prove_nothing() -> None:
    assert score_summary(()).shown is Shown.NOTHING
    assert score_summary(many(FEW - 1, FEW - 1)).shown is Shown.FEW


@pytest.mark.parametrize(
    ("count", "inside", "shown"),
    [(30, 27, Shown.AGREES), (30, 15, Shown.NARROW), (40, 40, Shown.WIDE)],
)
def test_many_pairs_show_whether_ranges_are_too_narrow(
    count: int, inside: int, shown: Shown
) -> None:
    summary = score_summary(many(count, inside))
    assert (summary.count, summary.inside_90, summary.shown) == (count, inside, shown)


def test_left_out_readings_are_counted_apart() -> None:
    read = case((after(5), 6.0, "probe"), (after(6), 6.0, "water 1:1"), (after(9), 6.1, "CaCl2"))
    summary = score_summary(pairs(read))
    assert (summary.count, summary.rough, summary.again) == (1, 1, 1)
    assert summary.skill is not None and summary.skill > 0.0


def test_a_hindcast_knows_nothing_of_the_day_and_after() -> None:
    report = (
        '[soil]\nph = 6.1\nph_method = "water 1:1"\nsampled = 2026-01-01\ntexture = "loam"\n'
        '[[applied]]\ndate = 2025-05-01\nmaterial = "elemental sulfur, powder"\nrate = "20 g/m2"\n'
        '[[applied]]\ndate = 2025-09-01\nmaterial = "elemental sulfur, powder"\nrate = "20 g/m2"\n'
    )
    bed = case((DAY, 6.4, "water 1:1"), (date(2025, 9, 1), 6.2, "water 1:1"), more=report)
    known = known_before(bed, date(2025, 9, 1))
    assert known.today == date(2025, 8, 31)
    assert [read.on for read in scored_readings(known)] == [DAY]
    assert [one.on for one in known.applied] == [date(2025, 5, 1)]
    assert known.soil.texture == bed.soil.texture


def test_a_region_is_a_country_or_ten_degrees() -> None:
    head = "case = 1\ntoday = 2026-04-12\n"
    assert region_of(parse_case(f'{head}[place]\nname = "Minneapolis"\n')) == "United States"
    own = "latitude = -33.9\nair_temp_c = [22,22,21,18,16,13,13,13,15,17,19,21]\n"
    rain = "rain_mm = [10,10,10,40,60,90,80,70,40,30,10,10]\n"
    assert region_of(parse_case(f"{head}[place]\n{own}{rain}")) == "30-40 S"
    assert region_of(parse_case(head)) is None
