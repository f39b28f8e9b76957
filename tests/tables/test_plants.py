"""Plants are found by the names people use, and their ranges keep the disagreement."""

from __future__ import annotations

import pytest
from build_plants import consensus_as_printed
from common import DATA
from plant_ranges import differences_from_printed

from loamshift.domain.names import NameFault
from loamshift.tables.plants import find_plant, load_plants, plant_spellings


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("blueberry", "highbush blueberry"),
        ("Blueberries", "highbush blueberry"),
        ("Vaccinium corymbosum", "highbush blueberry"),
        ("courgette", "summer squash (courgette)"),
        ("Zucchini", "summer squash (courgette)"),
        ("aubergines", "aubergine (eggplant)"),
        ("eggplant", "aubergine (eggplant)"),
        ("coriander", "coriander"),
        ("cilantro", "coriander"),
        ("rhododendrons", "rhododendron"),
        ("oaks", "oak"),
        ("English oak", "oak"),
        ("northern red oak", "red oak"),
        ("Tomatoes", "tomato"),
        ("peaches", "peach"),
        ("peonies", "peony"),
        ("Brussels sprout", "brussels sprouts"),
        ("baby’s breath", "baby's breath"),
        ("blue hydrangeas", "hydrangea (blue flowers)"),
        ("Hydrangea (pink)", "hydrangea (pink flowers)"),
        ("box", "boxwood"),
        ("asparagus", "asparagus"),
        ("iris", "iris"),
    ],
)
def test_found_by_uk_us_latin_and_plural_names(text: str, key: str) -> None:
    assert find_plant(text).key == key


@pytest.mark.parametrize(
    ("text", "among"),
    [
        ("hydrangea", {"hydrangea (blue flowers)", "hydrangea (pink flowers)"}),
        ("Hydrangea macrophylla", {"hydrangea (blue flowers)", "hydrangea (pink flowers)"}),
        ("grass", {"lawn", "kentucky bluegrass", "perennial ryegrass", "red fescue"}),
        ("lime", {"lime (key)", "small-leaved lime"}),
        ("currants", {"blackcurrant", "redcurrant"}),
        ("buffalo grass", {"buffalograss", "st augustinegrass"}),
    ],
)
def test_a_name_of_several_plants_lists_them(text: str, among: set[str]) -> None:
    with pytest.raises(NameFault) as caught:
        find_plant(text)
    assert caught.value.ambiguous
    assert among <= set(caught.value.candidates)


def test_an_unknown_plant_names_the_nearest() -> None:
    with pytest.raises(NameFault) as caught:
        find_plant("rhododendrum")
    assert not caught.value.ambiguous
    assert "rhododendron" in caught.value.candidates


def test_blueberry_range_and_disagreement() -> None:
    plant = find_plant("blueberries")
    assert (plant.ph_low, plant.ph_high) == (4.5, 5.5)
    assert (plant.lowest, plant.highest) == (4.0, 6.0)
    assert (plant.tolerated_low, plant.tolerated_high) == (3.0, 5.5)
    assert plant.calcifuge
    assert not plant.ranges_agree  # 4.0-5.0 and 5.0-6.0 only touch
    assert not plant.is_weak
    assert plant.n_sources == 7  # eight ranges read, the almanac's list and a copy of it as one


def test_weak_ranges_say_so() -> None:
    weak = [plant for plant in load_plants().values() if plant.is_weak and not plant.is_group]
    assert find_plant("pieris").is_weak  # recalled only
    assert find_plant("lowbush blueberry").is_weak  # one source
    assert not find_plant("tomato").is_weak
    assert len(weak) == 191  # 257 on the first list alone


def test_survival_limits_that_contradict_the_range_are_left_out() -> None:
    for name in ("parsnip", "pecan", "plum (european)", "pomegranate", "boxwood"):
        plant = find_plant(name)
        assert plant.tolerated_low is None
        assert plant.tolerated_high is None
        assert "left out" in plant.note


def test_suspect_ranges_are_kept_in_the_table_but_not_used() -> None:
    assert all(source.ph_high < 8.5 for source in find_plant("chilli pepper").sources)
    text = (DATA / "plant_sources.csv").read_text(encoding="utf-8")
    assert "chilli pepper,7,8.5" in text
    assert "7.0-8.5" in find_plant("chilli pepper").note


def test_our_medians_are_those_handed_down() -> None:
    assert differences_from_printed(consensus_as_printed()) == []


def test_every_name_still_finds_its_plant_or_says_it_is_shared() -> None:
    plants = load_plants()
    for key in plants:
        assert find_plant(key).key == key
    keys = set(plants)
    for key, spellings in plant_spellings().items():
        assert not (set(spellings) & keys) - {key}
