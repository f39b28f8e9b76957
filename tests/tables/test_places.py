"""Places are found by name, never guessed from a region; coordinates find the nearest point."""

from __future__ import annotations

import csv
import math

import pytest
from common import DATA, source_rows

from loamshift.domain.names import NameFault
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables.places import find_place, load_places, nearest_place
from loamshift.tables.references import load_references
from loamshift.tables.rows import read_rows
from loamshift.tables.towns import find_towns, name_of
from wording import read


def test_every_place_has_a_plausible_year() -> None:
    places = load_places()
    assert len(places) == 150
    for place in places.values():
        assert len(place.air_temp_c) == len(place.rain_mm) == 12
        assert all(-50.0 < temp < 45.0 for temp in place.air_temp_c)
        assert all(0.0 <= rain < 1200.0 for rain in place.rain_mm)
        june_to_august = sum(place.air_temp_c[5:8])
        december_to_february = sum(place.air_temp_c[m] for m in (11, 0, 1))
        if abs(place.latitude) > 24.0:
            assert (june_to_august > december_to_february) == (place.latitude > 0), place.name
        assert place.source_key in load_references()


def test_yearly_figures_agree_with_those_of_the_source() -> None:
    for row in source_rows("climate_normals"):
        place = load_places()[row["place"]]
        assert sum(place.air_temp_c) / 12.0 == pytest.approx(float(row["t_annual_c"]), abs=0.06)
        assert sum(place.rain_mm) == pytest.approx(float(row["p_annual_mm"]), abs=6.5)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Minneapolis", "Minneapolis"),
        ("Minneapolis, MN", "Minneapolis"),
        ("minneapolis (United States)", "Minneapolis"),
        ("London (United Kingdom)", "London"),
        ("London, UK", "London"),
        ("Köln", "Cologne"),
        ("cologne", "Cologne"),
        ("St. Louis, MO", "St Louis"),
        ("Portland", "Portland OR"),
        ("Portland, Oregon", "Portland OR"),
        ("Washington, D.C.", "Washington DC"),
        ("New York", "New York"),
    ],
)
def test_found_by_name(text: str, name: str) -> None:
    assert find_place(text).name == name


@pytest.mark.parametrize("text", ["Minnesota", "Scotland", "", "Washington St", "SW1A 1AA"])
def test_no_place_is_guessed(text: str) -> None:
    with pytest.raises(NameFault) as caught:
        find_place(text)
    assert not caught.value.ambiguous


@pytest.mark.parametrize("text", ["York", "Victoria", "Madison", "Springfield", "San Pedro"])
def test_a_name_that_several_towns_have_is_asked(text: str) -> None:
    with pytest.raises(NameFault) as caught:
        find_place(text)
    assert caught.value.ambiguous and len(caught.value.candidates) > 1
    for candidate in caught.value.candidates:
        assert find_place(candidate).name


@pytest.mark.parametrize(
    ("text", "name", "country", "latitude"),
    [
        ("Leeds", "Leeds, England", "United Kingdom", 53.8),
        ("Sheffield, UK", "Sheffield, England", "United Kingdom", 53.4),
        ("near Leeds", "Leeds, England", "United Kingdom", 53.8),
        ("Madison, WI", "Madison, WI", "United States", 43.1),
        ("madison wisconsin", "Madison, WI", "United States", 43.1),
        ("London, Ontario", "London, ON", "Canada", 43.0),
        ("Portland, ME", "Portland, ME", "United States", 43.7),
        ("Aarhus", "Aarhus, Denmark", "Denmark", 56.2),
        ("53.8, -1.55", "53.80 N, 1.55 W", "", 53.8),
    ],
)
def test_a_town_off_the_list_has_the_climate_of_the_nearest_point(
    text: str, name: str, country: str, latitude: float
) -> None:
    """Positions as GeoNames has them; the table is built from it."""
    place = find_place(text)
    assert (place.name, place.country) == (name, country)
    assert place.latitude == pytest.approx(latitude, abs=0.05)
    nearest = nearest_place(latitude=place.latitude, longitude=place.longitude or 0.0)
    assert place.air_temp_c == nearest.air_temp_c


def test_the_name_of_every_town_finds_it_again() -> None:
    towns = read_rows("towns")
    assert len(towns) > 33_000
    for row in towns[::211]:
        found = find_towns(f"{row['name']}, {row['country']}")
        assert any(town.latitude == float(row["latitude_deg"]) for town in found), row
        for town in found:
            assert find_place(name_of(town)).name


def test_a_longer_name_is_offered_beside_a_short_one() -> None:
    with pytest.raises(NameFault) as caught:
        find_place("Newcastle")
    assert "Newcastle upon Tyne, England" in caught.value.candidates


def test_an_unknown_place_names_the_nearest() -> None:
    with pytest.raises(NameFault) as caught:
        find_place("Mineapolis")
    assert "Minneapolis" in caught.value.candidates


def test_unusable_rain_is_said() -> None:
    told = read(find_place("Honolulu").basis)
    assert "the rain is that of a mountain nearby and cannot be used" in told
    assert "care" not in read(find_place("London").basis)


def test_nearest_point_of_minneapolis() -> None:
    place = nearest_place(latitude=44.9, longitude=-93.2)
    assert (place.latitude, place.longitude) == (44.9, -93.2)
    assert "Minneapolis, 3 km away" in read(place.basis)
    assert place.air_temp_c == find_place("Minneapolis").air_temp_c


@pytest.mark.parametrize(
    ("latitude", "longitude"), [(52.6, 1.7), (-41.9, 172.4), (35.0, 179.9), (64.9, 100.0)]
)
def test_nearest_point_is_the_nearest(latitude: float, longitude: float) -> None:
    """Against a plain search by the spherical law of cosines over both tables."""

    def distance_km(lat: float, lon: float) -> float:
        a, b, c, d = map(math.radians, (latitude, longitude, lat, lon))
        cosine = math.sin(a) * math.sin(c) + math.cos(a) * math.cos(c) * math.cos(b - d)
        return 6371.0088 * math.acos(min(1.0, cosine))

    with (DATA / "climate_points.csv").open(encoding="utf-8", newline="") as handle:
        points = list(csv.DictReader(handle))
    assert len(points) == 8108
    rows = [
        (
            distance_km(float(p["latitude_deg"]), float(p["longitude_deg"])),
            tuple(float(v) for k, v in p.items() if k.startswith("air_temp_c")),
        )
        for p in points
    ]
    rows += [
        (distance_km(p.latitude, p.longitude or 0.0), p.air_temp_c) for p in load_places().values()
    ]
    distance, temps = min(rows)
    if distance > 250.0:
        with pytest.raises(OutOfRangeError, match=f"{distance:.0f} km"):
            nearest_place(latitude=latitude, longitude=longitude)
    else:
        place = nearest_place(latitude=latitude, longitude=longitude)
        assert place.air_temp_c == temps
        assert f"{distance:.0f} km away" in read(place.basis)


def test_open_sea_and_impossible_coordinates_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="878 km"):
        nearest_place(latitude=0.0, longitude=-30.0)
    with pytest.raises(OutOfRangeError, match="latitude 95"):
        nearest_place(latitude=95.0, longitude=0.0)
    with pytest.raises(OutOfRangeError, match="longitude -181"):
        nearest_place(latitude=0.0, longitude=-181.0)
    with pytest.raises(InputError, match="not a number"):
        nearest_place(latitude=float("nan"), longitude=0.0)
