from __future__ import annotations

from collections import Counter

import pytest

from loamshift.domain.names import plain_name
from loamshift.domain.rules import KitchenMeasure
from loamshift.tables.materials import load_materials
from loamshift.tables.measures import load_kitchen_measures
from loamshift.units import US_CUP_L, US_GALLON_L

MEASURES = load_kitchen_measures()


@pytest.mark.parametrize("measure", list(MEASURES.values()), ids=lambda measure: measure.name)
def test_either_a_volume_or_a_mass_within_its_range(measure: KitchenMeasure) -> None:
    given = [value for value in (measure.volume_l, measure.mass_g) if value is not None]
    assert len(given) == 1
    assert 0.0 < measure.low <= given[0] <= measure.high


def test_names_are_not_shared() -> None:
    names = Counter(
        spelling
        for measure in MEASURES.values()
        for spelling in {plain_name(name) for name in (measure.name, *measure.synonyms)}
    )
    assert max(names.values()) == 1


def test_exact_measures() -> None:
    assert MEASURES["US cup"].volume_l == US_CUP_L
    assert MEASURES["US gallon"].volume_l == US_GALLON_L
    assert MEASURES["US pint"].volume_l == pytest.approx(US_GALLON_L / 8.0, abs=1e-9)
    assert MEASURES["US quart"].volume_l == pytest.approx(US_GALLON_L / 4.0, abs=1e-9)
    assert MEASURES["metric cup"].volume_l == 0.25
    assert MEASURES["UK pint"].volume_l == pytest.approx(4.54609 / 8.0)


@pytest.mark.parametrize("form", ["powder", "wettable"])
def test_a_cup_of_sulfur_holds_the_180_g_of_the_warning(form: str) -> None:
    """One pound is printed as two and a half cups; fluffed flowers weigh less, by memory."""
    sulfur = load_materials()[f"elemental sulfur, {form}"]
    assert sulfur.bulk_density_kg_m3 is not None
    assert sulfur.bulk_density_low_kg_m3 is not None
    assert sulfur.bulk_density_high_kg_m3 is not None
    assert US_CUP_L * sulfur.bulk_density_kg_m3 == pytest.approx(453.592 / 2.5, abs=0.2)
    assert 105.0 <= US_CUP_L * sulfur.bulk_density_low_kg_m3 < 110.0
    assert 185.0 <= US_CUP_L * sulfur.bulk_density_high_kg_m3 < 195.0
    assert sulfur.figures["bulk_density_kg_m3"].source_key == "gu-crouse-2010"


def test_a_handful_is_a_mass() -> None:
    handful = MEASURES["handful"]
    assert (handful.mass_g, handful.low, handful.high) == (45.0, 30.0, 60.0)
