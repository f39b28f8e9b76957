from __future__ import annotations

from collections.abc import Callable

import pytest

from loamshift.domain.answer import Direction
from loamshift.domain.case import Bed, Case
from loamshift.domain.message import Given, Measure, Prose
from loamshift.errors import InputError
from loamshift.services.advise import advise
from loamshift.services.context.build_context import build_context
from loamshift.services.plan.published import (
    published_spread,
    table_rate_g_m2,
    table_sources,
)
from loamshift.services.table_plan import plan_by_table

Make = Callable[..., Case]
ACID = Direction.ACIDIFY


def test_the_spread_counts_each_origin_once(bed_case: Make) -> None:
    spread = published_spread(build_context(bed_case(6.5, target=5.5)), direction=ACID)
    assert spread is not None
    assert spread.n_sources == 3
    assert spread.low == pytest.approx(110.0) and 150.0 < spread.high < 160.0


def test_a_printed_row_is_met_exactly(bed_case: Make) -> None:
    # The reprint gives 172.61 g/m2 for loam from 6.0 to 4.5 at 20 cm.
    context = build_context(bed_case(6.0, target=4.5, bed=Bed(area_m2=1.0, depth_cm=20.0)))
    assert table_rate_g_m2(context, "msu-sulfur-reprint", direction=ACID) == pytest.approx(172.61)
    half = build_context(bed_case(6.0, target=4.5, bed=Bed(area_m2=1.0, depth_cm=10.0)))
    assert table_rate_g_m2(half, "MSU-sulfur-reprint", direction=ACID) == pytest.approx(86.305)


def test_sand_asks_for_less_than_loam_and_clay_for_more(bed_case: Make) -> None:
    rates = [
        table_rate_g_m2(
            build_context(bed_case(6.0, target=4.5, texture=texture)),
            "msu-sulfur-reprint",
            direction=ACID,
        )
        for texture in ("sand", "loam", "clay")
    ]
    assert rates == sorted(rates) and rates[0] < 0.5 * rates[1]


def test_lime_tables_have_a_spread_of_their_own(bed_case: Make) -> None:
    context = build_context(bed_case(5.5, target=6.5))
    spread = published_spread(context, direction=Direction.LIME)
    assert spread is not None and spread.n_sources == 2
    assert spread.low == pytest.approx(244.1, abs=0.1)
    assert published_spread(context, direction=Direction.NONE) is None


def test_recalled_tables_stay_out_of_the_spread_but_can_be_followed(bed_case: Make) -> None:
    context = build_context(bed_case(8.0, target=6.0))
    rate = table_rate_g_m2(context, "clemson-hgic-1650", direction=ACID)
    assert rate == pytest.approx(195.3)
    assert "clemson-hgic-1650" in table_sources(direction=ACID)
    covered = build_context(bed_case(7.0, target=5.0))
    table_rate_g_m2(covered, "clemson-hgic-1650", direction=ACID)
    spread = published_spread(covered, direction=ACID)
    assert spread is not None and spread.n_sources == 3  # with it there would be four


def test_a_rate_for_every_soil_alike_speaks_of_none_but_can_be_followed(bed_case: Make) -> None:
    context = build_context(
        bed_case(5.2, target=6.1, texture="sand", bed=Bed(area_m2=1.0, depth_cm=10.0))
    )
    assert published_spread(context, direction=Direction.LIME) is None
    rate = table_rate_g_m2(context, "garden-page-any-soil", direction=Direction.LIME)
    assert rate == pytest.approx(351.5, abs=0.1)


def test_an_unknown_table_lists_the_right_ones(bed_case: Make) -> None:
    with pytest.raises(InputError, match="msu-sulfur-reprint"):
        table_rate_g_m2(build_context(bed_case()), "some table", direction=ACID)


def test_a_table_that_does_not_cover_the_case_says_what_it_covers(bed_case: Make) -> None:
    with pytest.raises(InputError, match=r"table-not-covered.*textures: clay, sand"):
        table_rate_g_m2(build_context(bed_case()), "gu-crouse-2010", direction=ACID)
    with pytest.raises(InputError, match=r"starts: .*value=5.0, high=7.0"):
        table_rate_g_m2(
            build_context(bed_case(8.2, target=4.5)), "msu-sulfur-reprint", direction=ACID
        )


def test_following_a_table_puts_its_rate_in_the_parts(bed_case: Make) -> None:
    case = bed_case(6.0, target=4.5)
    followed = plan_by_table(case, "msu-sulfur-reprint")
    rate = 172.61 * 15.0 / 20.0
    assert followed.dose.published_g_m2 is not None
    assert followed.dose.published_g_m2.low == followed.dose.published_g_m2.high
    assert followed.dose.published_g_m2.low == pytest.approx(rate)
    assert sum(part.rate_g_m2 * 0.99 for part in followed.applications) == pytest.approx(
        rate, rel=0.11
    )
    assert all(part.rate_g_m2 * 0.99 <= 97.66 for part in followed.applications)
    ours = advise(case).verdict.because
    assert isinstance(ours, Prose) and isinstance(followed.verdict.because, Prose)
    told = followed.verdict.because.sentences[len(ours.sentences) :]
    assert followed.verdict.because.sentences[: len(ours.sentences)] == ours.sentences
    assert [part.key for part in told] == [
        "verdict-table",
        "verdict-table-rate",
        "verdict-table-ours",
        "verdict-table-limits",
    ]
    source, own = told[0].values["source"], told[2].values["own"]
    assert isinstance(source, Given) and "Michigan" in source.text
    assert isinstance(own, Measure) and followed.dose.sulfur_as_s_g_m2 is not None
    assert own.value == followed.dose.sulfur_as_s_g_m2.mid


def test_a_bed_that_needs_nothing_follows_no_table(bed_case: Make) -> None:
    with pytest.raises(InputError, match="table-no-dose"):
        plan_by_table(bed_case(5.0, target=5.0), "msu-sulfur-reprint")
    with pytest.raises(InputError, match="table-unknown"):
        plan_by_table(bed_case(5.0, target=5.0), "nobody")
