"""Ranges that moved with the later lists, against the figures their sources print."""

from __future__ import annotations

import pytest

from loamshift.domain.names import NameFault
from loamshift.tables.plants import find_plant, load_plants


@pytest.mark.parametrize(
    ("name", "ph_low", "ph_high"),
    [
        ("wheat", 6.0, 7.25),  # FAO 6-7, AHDB 6-7.5
        ("oats", 5.5, 6.75),  # FAO 5-6, AHDB 6-7.5
        ("maize", 5.25, 7.25),  # FAO 5-7, Michigan State 5.5-7.5
        ("perennial ryegrass", 5.9, 7.0),  # FAO 5-7, Maine 6.3-7, UConn 6-7, AHDB 5.8-7
        ("red fescue", 5.75, 6.75),  # Maine 6-7, extension answer 5.5-6.5
        ("cowpea", 5.75, 7.25),  # FAO 5.5-7.5, Georgia 6-7
        ("hairy vetch", 5.9, 6.75),  # FAO 6-7, Purdue 5.8-6.5
        ("peony", 6.0, 7.25),  # web list 6-7, UConn 6-7.5
        ("tulip", 6.0, 6.9),  # newspaper 6-6.8, UConn 6-7
        ("lawn", 6.0, 7.0),  # TGMSA 6.5-7, extension 6-6.5, UConn 6-7, Maine 6-7
        ("mixed border", 5.75, 6.75),  # 6-7, 5.5-7.5, 6-6.5, 5.5-6.5
    ],
)
def test_medians_by_hand(name: str, ph_low: float, ph_high: float) -> None:
    plant = find_plant(name)
    assert (plant.ph_low, plant.ph_high) == (ph_low, ph_high)
    assert not plant.is_weak


@pytest.mark.parametrize(
    "name",
    (
        *("wheat", "maize", "perennial ryegrass", "tall fescue", "red fescue", "bermudagrass"),
        *("lucerne", "barley", "oats", "rye", "white clover", "timothy", "cocksfoot"),
        "zoysiagrass",
    ),
)
def test_the_most_grown_crops_and_grasses_are_not_weak(name: str) -> None:
    assert not find_plant(name).is_weak


def test_a_target_supports_a_range_and_moves_no_end() -> None:
    fescue = find_plant("tall fescue")
    assert (fescue.ph_low, fescue.ph_high) == (5.5, 8.0)  # FAO alone prints a range
    assert {(s.ph_low, s.ph_high) for s in fescue.sources if s.kind == "target"} == {
        (6.0, 6.0),  # Georgia
        (5.5, 6.0),  # Michigan State after Miller: a class without upper limit
    }
    assert fescue.n_sources == 3


def test_two_ranges_with_a_gap_between_them_are_weak() -> None:
    bugleweed = find_plant("bugleweed")  # 6.5-7.5 in one list, 4-6 in the other
    assert bugleweed.n_sources == 2
    assert bugleweed.is_weak


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("lawn", "lawn"),
        ("Lawns", "lawn"),
        ("turf", "lawn"),
        ("veg", "vegetables"),
        ("vegetable garden", "vegetables"),
        ("veggie garden", "vegetables"),
        ("allotment", "vegetables"),
        ("flower border", "mixed border"),
        ("herbaceous border", "mixed border"),
        ("flower bed", "mixed border"),
        ("herb garden", "herbs"),
        ("fruit trees", "fruit"),
        ("orchard", "fruit"),
        ("ericaceous plants", "acid-loving shrubs"),
    ],
)
def test_groups_are_found_like_a_plant(text: str, key: str) -> None:
    plant = find_plant(text)
    assert plant.key == key
    assert plant.is_group


@pytest.mark.parametrize("text", ["grass", "clover", "fescue", "currants"])
def test_words_for_several_plants_still_list_them(text: str) -> None:
    with pytest.raises(NameFault) as caught:
        find_plant(text)
    assert caught.value.ambiguous
    assert len(caught.value.candidates) > 1


def test_winter_heaths_are_not_heaths() -> None:
    winter = find_plant("Erica carnea")
    assert winter.key == "winter heath"
    assert not winter.calcifuge
    assert winter.ph_high == 7.0  # Royal Horticultural Society: at 7.0 or higher too
    assert find_plant("heath").ph_high < 6.5


def test_keys_of_the_first_list_stay() -> None:
    assert {"alfalfa (lucerne)", "highbush blueberry", "cocksfoot (orchardgrass)"} <= set(
        load_plants()
    )
