"""The layers of a lesson against what a run of the column keeps, and against common practice."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from loamshift.case.read import parse_case
from loamshift.domain.lesson import LayerCourse
from loamshift.services.belief.column_runs import run
from loamshift.services.claim.course import claim_inputs
from loamshift.services.claim.layers import layer_course
from loamshift.services.context.build_context import build_context

MEMBERS = 15
BED = """case = 1
today = 2026-04-12
place.name = "Minneapolis"
bed.depth = "20 cm"
soil.ph = 7.0
soil.texture = "loam"
soil.organic_matter_pct = 3.5
soil.carbonate_pct = {lime}
water.alkalinity = {alkalinity}
[[claim]]
material = "elemental sulfur, powder"
amount = "80 g/m2"
"""


def layers(*, lime: float = 0.0, alkalinity: float = 0.0) -> LayerCourse:
    case = parse_case(BED.format(lime=lime, alkalinity=alkalinity), today=date(2026, 4, 12))
    return layer_course(build_context(case), case.claims[0], members=MEMBERS, seed=1)


@pytest.fixture(scope="module")
def rain() -> LayerCourse:
    return layers()


def test_two_years_of_months_from_the_evening_before(rain: LayerCourse) -> None:
    assert len(rain.dates) == 26
    assert rain.dates[0] <= date(2026, 4, 13) < rain.dates[1]
    assert rain.dates[-1] >= date(2028, 3, 1)
    assert rain.layers[0][0] == 0.0
    assert rain.with_ph[0] == pytest.approx(rain.alone_ph[0], abs=0.02)


def test_the_last_day_is_the_end_of_one_whole_run(rain: LayerCourse) -> None:
    case = parse_case(BED.format(lime=0, alkalinity=0), today=date(2026, 4, 12))
    inputs, with_it, _ = claim_inputs(
        build_context(case), case.claims, years=2, members=MEMBERS, seed=1
    )
    days = (rain.dates[-1] - inputs.start).days
    whole = run(inputs, with_it)
    near = np.median(whole.end_ph, axis=0)
    assert inputs.days - days < 40
    assert np.allclose(near, rain.with_ph[-1], atol=0.1)


def test_what_is_dug_in_works_where_it_lies(rain: LayerCourse) -> None:
    """Common practice, no source: sulphur acidifies the depth it is mixed into."""
    year = 13
    drops = np.array(rain.alone_ph[year]) - np.array(rain.with_ph[year])
    inside = [top < 20.0 for top, _ in rain.layers]
    assert drops[inside].min() > 0.3
    assert drops[-1] < 0.5 * drops[inside].min()


def test_hard_water_brings_the_top_back_first() -> None:
    """Common practice, no source: alkaline water limes a bed from the surface down."""
    hard = layers(alkalinity=280.0)
    change = np.array(hard.with_ph[-1]) - np.array(hard.with_ph[0])
    assert change[0] > 0.3
    assert max(change[1], change[2]) < -0.3


def test_free_lime_holds_the_ph_until_it_is_gone() -> None:
    limy = layers(lime=2.0)
    assert np.allclose(limy.with_ph[-1], limy.alone_ph[-1], atol=0.1)
    used = np.array(limy.lime_pct[0]) - np.array(limy.lime_pct[-1])
    assert used[1] > 0.05
