"""What is named in place of a plant that the soil does not suit; hardiness is common practice."""

from __future__ import annotations

from loamshift.services.verdict.other_plants import grows_at
from loamshift.tables.places import load_places
from loamshift.tables.plants import load_plants

PLACES = {place.name: place for place in load_places().values()}


def test_what_frost_kills_or_a_cool_summer_starves_is_not_named() -> None:
    plants = load_plants()
    london, chicago, phoenix = (PLACES[name] for name in ("London", "Chicago", "Phoenix"))
    for name, where in {
        "passion fruit": (False, False, False),
        "pecan": (False, True, True),
        "european ash": (False, False, False),
        "plum (european)": (True, True, True),
    }.items():
        found = tuple(grows_at(plants[name], place) for place in (london, chicago, phoenix))
        assert found == where, name
        assert grows_at(plants[name], None) is all(where), name


def test_every_name_that_is_held_back_is_a_plant_with_a_known_need() -> None:
    found = {plant.offered for plant in load_plants().values()}
    assert found == {"", "warm summer", "no frost", "never"}
    assert sum(bool(plant.offered) for plant in load_plants().values()) == 83
