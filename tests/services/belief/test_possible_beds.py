"""Beds read between members of the column that stand on nodes of the buffer scale."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from loamshift.core.member_weights import normal_slices
from loamshift.domain.case import Case
from loamshift.services.belief.bed_run import every_other
from loamshift.services.belief.belief import believe
from loamshift.services.belief.column_inputs import draw_members_of
from loamshift.services.belief.possible_beds import SCALE_SLICES, PossibleBeds
from loamshift.services.belief.scale_nodes import NODES_Z, on_nodes
from loamshift.services.context.build_context import build_context, require_soil
from loamshift.services.courses.seasons import seasons_ahead
from services.beds import TODAY, bed

SOIL = (
    'ph = 6.6\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0'
)
HARD = '[water]\nalkalinity = "250 mg/L CaCO3"\nweekly = "25 mm"\n'
OTHERS = 20


@cache
def beds_of(more: str = "") -> PossibleBeds:
    context = build_context(bed(SOIL, more=more))
    parts = seasons_ahead(context, acidify=True).simulated((60.0,))
    return believe(context, parts, members=5 * OTHERS, seed=1, days_ahead=730).beds


def test_there_are_so_many_values_of_the_scale_for_each_draw() -> None:
    beds = beds_of()
    assert beds.shape == (SCALE_SLICES, OTHERS) and beds.n_beds == SCALE_SLICES * OTHERS
    assert np.allclose(beds.z[:, 0], normal_slices(SCALE_SLICES))
    assert beds.draws.shape[0] == beds.reading_z.size == beds.n_beds
    assert np.allclose(beds.draws[:, 0], beds.log10_k)


def test_a_bed_on_a_node_is_the_member_that_stands_there() -> None:
    beds = beds_of()
    at_nodes = np.repeat(np.array(NODES_Z)[:, None], OTHERS, axis=1)
    on = PossibleBeds(inputs=beds.inputs, nodes_z=beds.nodes_z, z=at_nodes)
    members = np.arange(5.0 * OTHERS)
    assert np.allclose(on.of_beds(members), members)


def test_between_the_nodes_a_weaker_soil_falls_further_under_sulfur() -> None:
    context = build_context(bed(SOIL))
    beds = beds_of()
    run = beds.run(seasons_ahead(context, acidify=True).simulated((60.0,))).ph
    last = run[:, -1].reshape(beds.shape)
    assert np.all(np.diff(last, axis=0) > 0.0)
    assert run.shape == (beds.n_beds, len(beds.days))
    assert beds.days[0] == TODAY and (beds.days[-1] - TODAY).days >= 728


def test_thinned_beds_are_some_of_the_same() -> None:
    beds = beds_of()
    few = beds.thinned(4)
    whole = beds.run(()).ph.reshape(*beds.shape, -1)
    assert np.allclose(few.run(()).ph.reshape(*few.shape, -1), whole[:, ::4])


def test_rain_water_lifts_nothing() -> None:
    hard = beds_of(HARD)
    with_it, without = hard.run(()).ph, hard.with_rain_water().run(()).ph
    assert np.median(with_it[:, -1] - without[:, -1]) > 0.15
    dry = beds_of(HARD.replace("250", "0"))
    assert np.allclose(without, dry.run(()).ph)


@pytest.mark.parametrize("ph", [3.0, 9.3])
def test_no_bed_starts_beyond_the_curve(ph: float) -> None:
    of: Case = bed(SOIL.replace("6.6", str(ph)).replace("water 1:1", "probe"))
    context = build_context(of)
    soil = require_soil(context)
    drawn = draw_members_of(context, (), soil=soil, members=200, seed=1)
    start = (
        soil.ph.ph_water
        + on_nodes(drawn, soil=soil, nodes_z=np.array(NODES_Z)).parameters.start_ph_shift
    )
    assert start.min() > 2.0 and start.max() < 9.5


def test_half_of_the_draws_choose_and_the_other_half_judge() -> None:
    half = every_other((SCALE_SLICES, OTHERS)).reshape(SCALE_SLICES, OTHERS)
    assert np.all(half == half[0]) and half[0].sum() == OTHERS // 2


def test_the_error_of_a_further_reading_is_spread_evenly_and_follows_no_bed() -> None:
    """Its mean is 0 and its sd 1 (a standard normal), whatever few draws the readings left."""
    beds = beds_of()
    assert abs(float(np.median(beds.reading_z))) < 1e-6
    assert abs(float(beds.reading_z.std()) - 1.0) < 0.02
    ph = beds.run(()).ph[:, 0]
    assert abs(float(np.corrcoef(ph, beds.reading_z)[0, 1])) < 0.1
