from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.case import BedKind
from loamshift.errors import OutOfRangeError
from loamshift.services.sample.walk import cores_needed, sample_plan
from loamshift.tables.references import load_references
from wording import read


@pytest.mark.parametrize(
    ("sd", "error", "cores"), [(0.24, 0.2, 6), (0.44, 0.2, 19), (0.1, 0.2, 1), (0.2, 0.196, 4)]
)
def test_cores_follow_from_spread_and_wanted_error(sd: float, error: float, cores: int) -> None:
    """n = (1.96 sd / error)^2, rounded up: 5.5, 18.6, 0.96 and 4.0 exactly."""
    assert cores_needed(core_sd_ph=sd, wanted_error_ph=error, z=1.96) == cores


@given(st.floats(min_value=0.05, max_value=1.0), st.floats(min_value=0.05, max_value=1.0))
def test_a_smaller_error_never_takes_fewer_cores(a: float, b: float) -> None:
    small, large = sorted((a, b))
    wide, narrow = (cores_needed(core_sd_ph=0.3, wanted_error_ph=e, z=1.96) for e in (large, small))
    assert narrow >= wide


def test_an_even_bed_takes_as_many_cores_as_gardeners_are_told() -> None:
    """Five by two sources read, twelve or more by a third: ours lies in between."""
    assert 5 <= sample_plan().cores <= 12


def test_uneven_ground_takes_as_many_as_fields_do() -> None:
    """15 to 20 cores of one mixed sample in North Carolina's figure."""
    assert 15 <= sample_plan(uneven=True).cores <= 20


@given(
    st.sampled_from(BedKind),
    st.booleans(),
    st.booleans(),
    st.floats(min_value=0.05, max_value=1.0),
    st.integers(min_value=1, max_value=40),
)
def test_every_plan_keeps_its_bounds(
    kind: BedKind, uneven: bool, woody: bool, error: float, pots: int
) -> None:
    plan = sample_plan(kind=kind, uneven=uneven, woody=woody, wanted_error_ph=error, pots=pots)
    assert 5 <= plan.cores <= 20
    assert plan.error_ph == pytest.approx(1.96 * plan.core_sd_ph / plan.cores**0.5)
    assert plan.where and plan.how and plan.when and plan.why
    for line in (*plan.where, *plan.how, *plan.when, *plan.why, *plan.tools, *plan.ask):
        for units in ("metric", "us"):
            assert read(line, units=units)[-1] not in " ,;:"
    assert all(key in load_references() for key in plan.source_keys)


def test_the_cores_go_as_deep_as_the_material_will() -> None:
    assert sample_plan(treated_depth_cm=22.0).depth_cm == 22.0
    assert sample_plan(kind=BedKind.LAWN).depth_cm < sample_plan().depth_cm


def test_trees_get_a_second_sample_below() -> None:
    assert sample_plan(woody=True).deeper_cm == 30.0
    assert sample_plan().deeper_cm is None
    assert sample_plan(woody=True, treated_depth_cm=40.0).deeper_cm is None


def test_an_error_out_of_reach_is_told_with_the_number_it_would_take() -> None:
    plan = sample_plan(uneven=True, wanted_error_ph=0.05)
    assert plan.cores == 20
    assert any("would take 298 cores" in read(line) for line in plan.why)


def test_large_ground_is_sampled_in_parts() -> None:
    assert sample_plan(kind=BedKind.FIELD, area_m2=100_000.0).samples == 3
    assert sample_plan(area_m2=20.0).samples == 1


def test_pots_are_sampled_across_pots() -> None:
    many = sample_plan(kind=BedKind.CONTAINER, pots=50)
    one = sample_plan(kind=BedKind.CONTAINER, pots=1)
    assert any("pots picked at random" in read(line) for line in many.where)
    assert any("the pot," in read(line) for line in one.where)


@pytest.mark.parametrize(
    "given",
    [
        {"area_m2": 0.0},
        {"area_m2": float("nan")},
        {"treated_depth_cm": 500.0},
        {"wanted_error_ph": 0.001},
        {"wanted_error_ph": float("nan")},
        {"pots": 0},
    ],
)
def test_impossible_beds_are_refused(given: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError):
        sample_plan(**given)  # type: ignore[arg-type]


@pytest.mark.parametrize("uneven", [False, True])
def test_the_table_of_cores_is_the_standard_error_of_a_mean(uneven: bool) -> None:
    """Half-width of the 95 % range of a mean, 1.96 sd / sqrt(n), and what n + 1 take off it."""
    plan = sample_plan(uneven=uneven)
    assert plan.cores in [line.cores for line in plan.by_cores]
    for line in plan.by_cores:
        assert line.error_ph == pytest.approx(1.96 * plan.core_sd_ph / line.cores**0.5)
        after = 1.96 * plan.core_sd_ph / (line.cores + 1) ** 0.5
        assert line.one_more_saves_ph == pytest.approx(line.error_ph - after)
