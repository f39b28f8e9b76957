"""Every plant obeys one contract, whichever list its figures come from."""

from __future__ import annotations

from statistics import median

import pytest

from loamshift.domain.evidence import Evidence
from loamshift.domain.plant import Plant
from loamshift.tables.plants import load_plants
from loamshift.tables.references import load_references

PLANTS = list(load_plants().values())


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.key)
def test_contract(plant: Plant) -> None:
    assert 2.0 < plant.lowest <= plant.ph_low < plant.ph_high <= plant.highest < 10.0
    assert plant.latin_name
    assert plant.group
    assert plant.sources
    assert 1 <= plant.n_sources <= len(plant.sources)
    assert plant.ph_low == pytest.approx(median(s.ph_low for s in plant.sources), abs=0.001)
    assert plant.ph_high == pytest.approx(median(s.ph_high for s in plant.sources), abs=0.001)
    assert plant.lowest == min(s.ph_low for s in plant.sources)
    assert plant.highest == max(s.ph_high for s in plant.sources)
    mids = [(s.ph_low + s.ph_high) / 2.0 for s in plant.sources]
    assert plant.midpoint_spread == pytest.approx(max(mids) - min(mids), abs=0.001)
    if plant.tolerated_low is not None and plant.tolerated_high is not None:
        assert plant.tolerated_low <= plant.ph_low
        assert plant.ph_high <= plant.tolerated_high
    for source in plant.sources:
        assert source.ph_low < source.ph_high
        assert source.grade in ("A", "B", "C")
        assert Evidence(source.evidence)
        assert not source.note.startswith("suspect")
        assert source.source_key in load_references()
    recalled = {Evidence.MEMORY, Evidence.COMMON_PRACTICE}
    assert plant.all_seen == (not any(Evidence(s.evidence) in recalled for s in plant.sources))


def test_there_are_403_plants() -> None:
    assert len(PLANTS) == 403
