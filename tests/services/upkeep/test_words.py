from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case, Feed, Water
from loamshift.domain.message import Measure, Message, Prose
from loamshift.services.context.build_context import build_context
from loamshift.services.upkeep.words import Held, comment
from wording import read

Make = Callable[..., Case]
QUIET = Held(
    aim_ph=6.5,
    alone_mmolc_m2=0.0,
    net_mmolc_m2=0.0,
    most_sulfur_mmolc_m2=2132.0,
    feed_acid_mmolc_m2=0.0,
    present_feed_mmolc_m2=0.0,
    tail_mmolc_m2=0.0,
    nitrogen_known=True,
    nitrogen_told=True,
    limes=False,
    falls=False,
    rises=False,
    treats_water=False,
    lime_mmolc_m2=0.0,
    humus_mmolc_m2=0.0,
    has_urea=False,
    per_ph_mmolc_m2=6000.0,
)
HARD = Water(alkalinity_mg_l_as_caco3=300.0, weekly_mm=30.0)


def remarks(context: BedContext, held: Held) -> dict[str, Message]:
    """What stands under the upkeep, by its keys."""
    return {one.key: one for one in comment(context, held).sentences}


def figure(message: Message, name: str) -> float:
    measure = message.values[name]
    assert isinstance(measure, Measure)
    return measure.value


def test_nothing_to_say_is_nothing(bed_case: Make) -> None:
    assert comment(build_context(bed_case(6.5, target=6.5)), QUIET) == Prose()


def test_water_beyond_the_limit_of_sulfur_is_said_to_win_with_its_rise(bed_case: Make) -> None:
    context = build_context(bed_case(6.5, target=6.5, water=HARD))
    wins = remarks(context, replace(QUIET, net_mmolc_m2=-3332.0))["upkeep-water-wins"]
    assert figure(wins, "rise") == 0.2  # 1200 mmolc/m2 over 6000 a unit
    assert figure(wins, "lime") == pytest.approx(
        context.water_base_mmolc_m2_year * 0.05004, rel=1e-3
    )
    assert "still rise by about 0.2 a year" in read(wins) and "rainwater" in read(wins)
    assert wins.values["fed"] == "no"
    fed = remarks(context, replace(QUIET, net_mmolc_m2=-3332.0, feed_acid_mmolc_m2=100.0))
    assert "Fertiliser and the yearly limit" in read(fed["upkeep-water-wins"])


def test_water_to_be_treated_first_is_not_said_to_win(bed_case: Make) -> None:
    context = build_context(bed_case(6.5, target=6.5, water=HARD))
    said = remarks(context, replace(QUIET, net_mmolc_m2=-3332.0, treats_water=True))
    assert list(said) == ["upkeep-water-treated"]


@pytest.mark.parametrize(("weekly_mm", "asked"), [(30.0, True), (2.0, False)])
def test_a_guessed_alkalinity_is_to_be_tested_where_it_counts(
    bed_case: Make, weekly_mm: float, asked: bool
) -> None:
    context = build_context(bed_case(6.5, target=6.5, water=Water(weekly_mm=weekly_mm)))
    assert ("upkeep-water-guessed" in remarks(context, QUIET)) is asked


def test_unknown_nitrogen_is_asked_for(bed_case: Make) -> None:
    context = build_context(bed_case(6.5, target=6.5))
    assert "upkeep-nitrogen-unknown" in remarks(context, replace(QUIET, nitrogen_known=False))


def test_nitrate_is_named_to_those_who_hate_lime_only(bed_case: Make) -> None:
    feed = Feed(n_g_m2_year=9.0, form="nitrate")
    blue = build_context(bed_case(5.0, target=None, plant="highbush blueberry", feed=feed))
    green = build_context(bed_case(6.5, target=None, plant="cabbage", feed=feed))
    assert "upkeep-nitrate" in remarks(blue, QUIET)
    assert "upkeep-nitrate" not in remarks(green, QUIET)


def test_a_bed_that_rises_by_itself_waits_for_a_test_above_its_range(bed_case: Make) -> None:
    context = build_context(bed_case(5.0, target=6.5))
    rises = remarks(context, replace(QUIET, rises=True))["upkeep-rises"]
    assert context.target is not None and figure(rises, "ph") == context.target.ph_high
    assert "no sulphur or other acid unless a test reads above pH" in read(rises)


def test_free_lime_that_still_dissolves_is_told_as_lime(bed_case: Make) -> None:
    context = build_context(bed_case(6.5, target=6.5))
    said = remarks(context, replace(QUIET, lime_mmolc_m2=500.0))["upkeep-free-lime"]
    assert figure(said, "lime") == pytest.approx(500.0 * 0.05004, rel=1e-3)
    assert "25 g/m² of pure lime in the coming year" in read(said)


def test_turf_that_rots_is_told_as_sulfur_where_it_weighs(bed_case: Make) -> None:
    context = build_context(bed_case(6.5, target=6.5))
    said = remarks(context, replace(QUIET, humus_mmolc_m2=1000.0))["upkeep-humus"]
    assert "Organic matter rots in bare ground and makes acid" in read(said)
    assert "16 g/m² of pure sulphur" in read(said)
    assert "upkeep-humus" not in remarks(context, replace(QUIET, humus_mmolc_m2=1.0))
