"""Ground limestone of no stated grade is as fine as the law of its country asks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.case.build_label import product_from_label
from loamshift.domain.material import LimeGrade
from loamshift.tables.lime_grades import (
    BURNT_LIME,
    GARDEN_LIME,
    KNOWN_AS,
    LIMESTONE,
    fine_share,
    grade_of_place,
    grade_sources,
    graded,
    is_graded_by_place,
    sizes_of,
)
from loamshift.tables.materials import find_material, load_materials
from loamshift.tables.places import load_places, nearest_place
from loamshift.tables.references import load_references

GRADES = [grade for grade in LimeGrade if grade is not LimeGrade.TOLD]


def test_named_places_have_the_grade_of_their_country() -> None:
    of_country = {"United Kingdom": LimeGrade.BRITISH, "Ireland": LimeGrade.IRISH}
    for place in load_places().values():
        expected = of_country.get(place.country, LimeGrade.PULVERISED)
        assert grade_of_place(place) is expected, place.name
    assert {place.country for place in load_places().values()} >= set(of_country)


@pytest.mark.parametrize(
    ("town", "latitude", "longitude", "grade"),
    [
        ("Penzance", 50.12, -5.54, LimeGrade.BRITISH),
        ("Hugh Town", 49.92, -6.32, LimeGrade.BRITISH),
        ("Dover", 51.13, 1.31, LimeGrade.BRITISH),
        ("Lowestoft", 52.48, 1.75, LimeGrade.BRITISH),
        ("Lerwick", 60.15, -1.15, LimeGrade.BRITISH),
        ("Stornoway", 58.20, -6.38, LimeGrade.BRITISH),
        ("Portpatrick", 54.84, -5.11, LimeGrade.BRITISH),
        ("Donaghadee", 54.64, -5.53, LimeGrade.BRITISH),
        ("Derry", 55.00, -7.32, LimeGrade.BRITISH),
        ("Enniskillen", 54.34, -7.63, LimeGrade.BRITISH),
        ("Newry", 54.18, -6.34, LimeGrade.BRITISH),
        ("Letterkenny", 54.95, -7.73, LimeGrade.IRISH),
        ("Dundalk", 54.00, -6.40, LimeGrade.IRISH),
        ("Wexford", 52.34, -6.46, LimeGrade.IRISH),
        ("Dingle", 52.14, -10.27, LimeGrade.IRISH),
        ("Calais", 50.95, 1.85, LimeGrade.PULVERISED),
        ("Dieppe", 49.92, 1.08, LimeGrade.PULVERISED),
        ("Cherbourg", 49.64, -1.62, LimeGrade.PULVERISED),
        ("Saint Helier", 49.18, -2.10, LimeGrade.PULVERISED),
        ("Ostend", 51.22, 2.92, LimeGrade.PULVERISED),
        ("Minneapolis", 44.98, -93.27, LimeGrade.PULVERISED),
    ],
)
def test_positions_near_the_coasts_and_the_border(
    town: str, latitude: float, longitude: float, grade: LimeGrade
) -> None:
    assert grade_of_place(nearest_place(latitude=latitude, longitude=longitude)) is grade, town


def test_without_a_position_the_grade_is_a_mixture() -> None:
    somewhere = replace(next(iter(load_places().values())), longitude=None)
    assert grade_of_place(None) is grade_of_place(somewhere) is LimeGrade.MIXED


@pytest.mark.parametrize("grade", GRADES)
def test_every_grade_is_whole_and_has_a_source(grade: LimeGrade) -> None:
    assert sum(size.mass_frac for size in sizes_of(grade)) == pytest.approx(1.0)
    assert set(grade_sources(grade)) <= set(load_references())
    assert grade_sources(grade)


def test_the_shares_below_150_um_are_those_of_the_laws() -> None:
    found = {grade: fine_share(grade) for grade in GRADES}
    assert found == pytest.approx(
        {
            LimeGrade.BRITISH: 0.40,
            LimeGrade.IRISH: 0.35,
            LimeGrade.PULVERISED: 0.60,
            LimeGrade.MIXED: 0.50,
        }
    )


def test_between_the_sieves_of_the_law_mass_lies_evenly_over_log_size() -> None:
    """The row says so; spread over diameter, two thirds of it would be coarser than 1.2 mm."""
    geometric_mean_um = (150.0 * 3350.0) ** 0.5
    between = [s for s in sizes_of(LimeGrade.BRITISH) if 150.0 <= s.low_um < 3350.0]
    finer = sum(
        s.mass_frac * min(1.0, max(0.0, (geometric_mean_um - s.low_um) / (s.high_um - s.low_um)))
        for s in between
    )
    assert sum(s.mass_frac for s in between) == pytest.approx(0.55)
    assert finer == pytest.approx(0.275, abs=0.02)


def test_only_what_no_name_or_label_tells_is_graded_by_place() -> None:
    told = ("ground limestone, british standard", "ground limestone, coarse", "hydrated lime")
    told += ("pelletised limestone", "wood ash", "urea", BURNT_LIME)
    for key in told:
        assert graded(load_materials()[key], LimeGrade.IRISH) is load_materials()[key]
    for key in (LIMESTONE, "ground limestone, dolomitic", GARDEN_LIME):
        assert graded(load_materials()[key], LimeGrade.IRISH).sizes == sizes_of(LimeGrade.IRISH)


def test_a_label_with_a_fineness_needs_no_place() -> None:
    bare = product_from_label("Pale bag", "nv_as_cao = 50")
    told = product_from_label("Pale bag", 'nv_as_cao = 50, fineness = "95 % through 150 um"')
    assert is_graded_by_place(bare) and not is_graded_by_place(told)
    assert not is_graded_by_place(product_from_label("Pale bag", "n_urea = 46"))


@pytest.mark.parametrize(
    ("written", "key"),
    [
        ("garden lime", GARDEN_LIME),
        ("lime of unknown grade", GARDEN_LIME),
        ("lump lime", BURNT_LIME),
        ("burnt lime of unknown grade", BURNT_LIME),
        ("ground limestone", LIMESTONE),
        ("ground chalk", LIMESTONE),
        ("quicklime", "burnt lime"),
    ],
)
def test_what_a_name_says_of_the_grade(written: str, key: str) -> None:
    assert find_material(written).key == key


def test_a_label_makes_lime_of_unknown_grade_a_known_one() -> None:
    bag = product_from_label("garden lime", "nv_as_caco3 = 90")
    assert bag.written == LIMESTONE and bag.caco3_eq_frac == pytest.approx(0.9)
    assert set(KNOWN_AS.values()) <= set(load_materials())


def test_lump_lime_keeps_the_cautions_of_burnt_lime() -> None:
    assert load_materials()[BURNT_LIME].cautions == load_materials()["burnt lime"].cautions
