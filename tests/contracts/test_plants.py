"""Every plant obeys one contract, whichever list its figures come from."""

from __future__ import annotations

from statistics import median

import pytest

from loamshift.domain.evidence import Evidence
from loamshift.domain.plant import Plant
from loamshift.tables.plants import load_plants
from loamshift.tables.references import load_references
from loamshift.tables.rows import read_rows

PLANTS = list(load_plants().values())


NEVER_COUNTED = {"usda-plants-characteristics", "sys-1993-as-coded", "garden-bands-2010"}
RANGES = {plant.key: [s for s in plant.sources if s.kind == "range"] for plant in PLANTS}


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.key)
def test_contract(plant: Plant) -> None:
    ranges = RANGES[plant.key]
    assert 2.0 < plant.lowest <= plant.ph_low < plant.ph_high <= plant.highest < 10.0
    assert plant.latin_name or plant.is_group
    assert plant.group
    assert ranges
    assert 1 <= plant.n_sources <= len(plant.sources)
    assert plant.ph_low == pytest.approx(median(s.ph_low for s in ranges), abs=0.001)
    assert plant.ph_high == pytest.approx(median(s.ph_high for s in ranges), abs=0.001)
    assert plant.lowest == min(s.ph_low for s in ranges)
    assert plant.highest == max(s.ph_high for s in ranges)
    mids = [(s.ph_low + s.ph_high) / 2.0 for s in ranges]
    assert plant.midpoint_spread == pytest.approx(max(mids) - min(mids), abs=0.001)
    if plant.tolerated_low is not None and plant.tolerated_high is not None:
        assert plant.tolerated_low <= plant.ph_low
        assert plant.ph_high <= plant.tolerated_high
    recalled = {Evidence.MEMORY, Evidence.COMMON_PRACTICE}
    assert plant.all_seen == (not any(Evidence(s.evidence) in recalled for s in ranges))


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.key)
def test_sources(plant: Plant) -> None:
    for source in plant.sources:
        assert source.ph_low <= source.ph_high
        assert source.grade in ("A", "B", "C")
        assert Evidence(source.evidence)
        assert not source.note.startswith("suspect")
        assert source.source_key in load_references()
        if source.kind == "range":
            assert source.ph_low < source.ph_high
        else:
            assert source.kind == "target"
            assert plant.ph_low - 0.25 <= source.ph_low
            assert source.ph_high <= plant.ph_high + 0.25


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.key)
def test_limits_of_injury_lie_outside_the_range_or_say_why_not(plant: Plant) -> None:
    inside = []
    if plant.harmful_low is not None and not plant.harmful_low < plant.ph_low:
        inside.append("low")
    if plant.harmful_high is not None and not plant.harmful_high > plant.ph_high:
        inside.append("high")
    for side in inside:
        assert any(
            side in limit.decides and limit.medium == "soil" and "explained:" in limit.note
            for limit in plant.limits
        ), f"{plant.key}: the {side} limit lies inside the range and nothing says why"


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.key)
def test_limits_rest_on_a_row_for_the_medium(plant: Plant) -> None:
    for name, medium in (("harmful", "soil"), ("container_harmful", "container")):
        for side in ("low", "high"):
            deciding = [
                getattr(limit, f"ph_{side}")
                for limit in plant.limits
                if limit.kind != "occurrence" and limit.medium == medium and side in limit.decides
            ]
            value = getattr(plant, f"{name}_{side}")
            assert deciding == ([] if value is None else [value])
    for limit in plant.limits:
        assert limit.kind in ("harmful", "tolerated", "occurrence")
        assert limit.medium in ("soil", "container", "solution")
        assert limit.ph_low is not None or limit.ph_high is not None
        assert limit.source_key in load_references()
        assert Evidence(limit.evidence)
        if limit.medium == "solution":
            assert not limit.decides


def test_there_are_404_plants_and_six_groups() -> None:
    assert len([plant for plant in PLANTS if not plant.is_group]) == 404
    assert {plant.key for plant in PLANTS if plant.is_group} == {
        "lawn",
        "vegetables",
        "mixed border",
        "herbs",
        "fruit",
        "acid-loving shrubs",
    }


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.key)
def test_a_doubtful_range_is_weak_and_says_so(plant: Plant) -> None:
    if plant.doubtful:
        assert plant.is_weak
        assert plant.note.startswith("This range looks wrong:")


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.key)
def test_an_institution_counts_once(plant: Plant) -> None:
    rows = [row for row in read_rows("plant_sources") if row["plant"] == plant.key]
    used = [row for row in rows if row["used"] == "yes"]
    families = [row["family"] for row in used if row["family"] != "almanac list"]
    assert len(families) == len(set(families))
    assert plant.n_sources == len({row["family"] for row in used})
    assert len(plant.sources) == len(used)
    assert not [row for row in used if row["source_key"] in NEVER_COUNTED]
    assert not [row for row in used if row["medium"] != "soil" or row["basis"] == "KCl"]
