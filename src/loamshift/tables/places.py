"""Places by name, and the nearest point of the shipped climatology for any coordinates."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cache, lru_cache
from typing import Final

from loamshift.domain.message import Given, Listed, Message, choice, message
from loamshift.domain.names import NameFault, nearest_spellings, plain_name
from loamshift.domain.place import Place
from loamshift.errors import InputError, OutOfRangeError, TableError
from loamshift.tables.rows import Row, data_folder, number, number_or_none, read_rows, words
from loamshift.tables.towns import (
    Town,
    find_towns,
    name_of,
    towns_going_on,
    towns_like,
    towns_starting,
)

EARTH_RADIUS_KM: Final = 6371.0088
"""Mean radius of the Earth, IUGG."""
FARTHEST_POINT_KM: Final = 250.0
"""Beyond this the nearest point says little; on land 99 % of points have a neighbour within it."""

_POSITION = re.compile(r"\s*(-?\d{1,3}(?:\.\d+)?)\s*[,;]\s*(-?\d{1,3}(?:\.\d+)?)\s*")
_MOST_OFFERED: Final = 8
_SHORTEST_TYPED: Final = 2
_SAME_KM: Final = 50.0
"""A town and a listed place of one name are the same within so much; judgement [km]."""
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_POINT_SOURCE = "new-2002"
_POINTS = "climate_points"


@cache
def load_places() -> Mapping[str, Place]:
    """Every named place of the table, by its name.

    Returns
    -------
    Mapping[str, Place]
        Name to place; means of 1961-1990 [degC, mm per month].

    Raises
    ------
    TableError
        Where a name stands twice.
    """
    places: dict[str, Place] = {}
    for row in read_rows("places"):
        if row["key"] in places:
            raise TableError(f"place {row['key']} stands twice")
        places[row["key"]] = _place(row)
    return places


def find_place(text: str) -> Place:
    """The place meant by a name, alone or with its region or country.

    A listed place comes first, then the towns of a larger table, whose climate is that of the
    nearest point; a position, ``53.8, -1.55``, does as well. A name is never guessed from its
    region: ``Minneapolis, MN`` is found, ``Minnesota`` is not.

    Returns
    -------
    Place
        The place, with monthly air temperature and rain [degC, mm].

    Raises
    ------
    NameFault
        Where no place, or more than one, is meant; it lists the candidates.

    Examples
    --------
    >>> find_place("minneapolis, mn").name
    'Minneapolis'
    """
    if position := _POSITION.fullmatch(text):
        return nearest_place(latitude=float(position[1]), longitude=float(position[2]))
    plain = plain_name(text).removeprefix("near ")
    exact = _spellings().get(plain, ())
    if len(exact) == 1:
        return load_places()[exact[0]]
    towns = () if exact else find_towns(plain)
    if len(towns) == 1:
        return _climate_of(towns[0])
    if exact or towns:
        names = exact or (*map(name_of, towns), *towns_going_on(plain))
        raise NameFault(text, "place", _offered(names), ambiguous=True)
    names = (*_nearest_names(plain), *towns_like(plain))
    raise NameFault(text, "place", _offered(names), ambiguous=False)


def search_places(text: str) -> tuple[Place, ...]:
    """Every place a text can mean, the one it surely means alone; all listed ones for no text.

    Returns
    -------
    tuple of Place
        Listed places with the words in their names, and towns of the name [degC, mm].

    Raises
    ------
    NameFault
        Where no place is meant; it lists the nearest names.

    Examples
    --------
    >>> [place.name for place in search_places("Hull")]
    ['Kingston upon Hull, England', 'Hull, QC']
    """
    plain = plain_name(text)
    places = load_places()
    if not plain:
        return tuple(places[name] for name in sorted(places))
    try:
        return (find_place(text),)
    except NameFault as fault:
        held = [name for name in places if f" {plain} " in f" {plain_name(name)} "]
        meant = (*held, *(fault.candidates if fault.ambiguous else ()))
        if not meant:
            raise
        return tuple(find_place(name) for name in dict.fromkeys(meant))


def places_starting(text: str) -> tuple[str, ...]:
    """Names of places that begin as somebody has typed: listed places, then the largest towns.

    Returns
    -------
    tuple of str
        Eight at most, each of which ``find_place`` understands; none for a single letter.

    Examples
    --------
    >>> places_starting("minneap")[0]
    'Minneapolis'
    """
    return _places_starting(" ".join(text.split()))


@lru_cache(maxsize=4096)
def _places_starting(text: str) -> tuple[str, ...]:
    before, typed = (text[:5], text[5:]) if text.casefold().startswith("near ") else ("", text)
    plain = plain_name(typed)
    if len(plain) < _SHORTEST_TYPED:
        return ()
    listed = sorted(name for name in load_places() if plain_name(name).startswith(plain))
    found = dict.fromkeys(listed[:_MOST_OFFERED])
    for town in towns_starting(plain):
        if len(found) == _MOST_OFFERED:
            break
        name = name_of(town)
        if not _POSITION.fullmatch(name) and not any(_is_at(town, one) for one in listed):
            found[name] = None
    return tuple(f"{before}{name}" for name in found)


def _is_at(town: Town, name: str) -> bool:
    """True where a town is a listed place by another spelling of its region."""
    place = load_places()[name]
    here = (math.radians(town.latitude), math.radians(town.longitude))
    there = (math.radians(place.latitude), math.radians(place.longitude or 0.0))
    return plain_name(town.name) == plain_name(name) and _distance_km(*here, *there) < _SAME_KM


def nearest_place(*, latitude: float, longitude: float) -> Place:
    """The climate of the nearest shipped point or named place.

    No correction is made for height: as a rule air is about 0.6 degC cooler per 100 m up.

    Parameters
    ----------
    latitude
        Degrees north, -90 to 90 [degrees].
    longitude
        Degrees east, -180 to 180 [degrees].

    Returns
    -------
    Place
        Monthly air temperature and rain of that point [degC, mm]; ``latitude`` and
        ``longitude`` are those asked for, ``basis`` says how far the point lies [km].

    Raises
    ------
    InputError
        Where a coordinate is not a number.
    OutOfRangeError
        Where a coordinate is impossible, or no point lies within 250 km (open sea, ice).

    Notes
    -----
    Great-circle distance on a sphere of 6371.0088 km.

    References
    ----------
    new-2002
    """
    _check_position(latitude=latitude, longitude=longitude)
    line, point_km = _nearest_line(latitude=latitude, longitude=longitude)
    named, named_km = _nearest_named(latitude=latitude, longitude=longitude)
    if min(point_km, named_km) > FARTHEST_POINT_KM:
        raise OutOfRangeError(
            f"latitude {latitude:g}, longitude {longitude:g}: the nearest climate point is "
            f"{min(point_km, named_km):.0f} km away, more than {FARTHEST_POINT_KM:.0f} km; check "
            "the signs (south and west are negative) or give twelve monthly temperatures"
        )
    name = _position_name(latitude=latitude, longitude=longitude)
    if named_km <= point_km:
        assert isinstance(named.basis, Message)
        basis = message(
            "place-near-place", name=Given(named.name), km=round(named_km), of=named.basis
        )
        return replace(named, name=name, latitude=latitude, longitude=longitude, basis=basis)
    return _point(line, name=name, latitude=latitude, longitude=longitude, distance_km=point_km)


def _offered(names: Iterable[str]) -> tuple[str, ...]:
    """What to offer instead, each once and bare positions last."""
    once = dict.fromkeys(names)
    return tuple(sorted(once, key=lambda name: bool(_POSITION.fullmatch(name))))[:_MOST_OFFERED]


def _climate_of(town: Town) -> Place:
    """The climate of the point nearest to a town, under the town's name."""
    place = nearest_place(latitude=town.latitude, longitude=town.longitude)
    return replace(place, name=name_of(town), country=town.country)


def _check_position(*, latitude: float, longitude: float) -> None:
    for word, value, limit in (("latitude", latitude, 90.0), ("longitude", longitude, 180.0)):
        if not math.isfinite(value):
            raise InputError(f"{word} {value} is not a number; give decimal degrees")
        if abs(value) > limit:
            raise OutOfRangeError(
                f"{word} {value:g} lies outside -{limit:.0f} to {limit:.0f}; give decimal "
                "degrees, south and west negative"
            )


def _nearest_line(*, latitude: float, longitude: float) -> tuple[str, float]:
    """The line of the nearest point, unparsed, and its distance [km]."""
    lines, latitudes, longitudes = _point_index()
    lat, lon = math.radians(latitude), math.radians(longitude)
    sin_lat, cos_lat, cos = math.sin(lat), math.cos(lat), math.cos
    # The cosine of the angle orders points as distance does; the distance itself is exact below.
    best = max(
        range(len(lines)),
        key=lambda i: (
            sin_lat * math.sin(latitudes[i])
            + cos_lat * cos(latitudes[i]) * cos(longitudes[i] - lon)
        ),
    )
    return lines[best], _distance_km(lat, lon, latitudes[best], longitudes[best])


def _nearest_named(*, latitude: float, longitude: float) -> tuple[Place, float]:
    lat, lon = math.radians(latitude), math.radians(longitude)
    ranked = [
        (_distance_km(lat, lon, math.radians(p.latitude), math.radians(p.longitude or 0.0)), p.name)
        for p in load_places().values()
    ]
    distance_km, name = min(ranked)
    return load_places()[name], distance_km


def _distance_km(lat_a: float, lon_a: float, lat_b: float, lon_b: float) -> float:
    """Great-circle distance [km] between positions in radians (haversine form)."""
    half = (
        math.sin((lat_b - lat_a) / 2.0) ** 2
        + math.cos(lat_a) * math.cos(lat_b) * math.sin((lon_b - lon_a) / 2.0) ** 2
    )
    return 2.0 * EARTH_RADIUS_KM * math.asin(math.sqrt(min(1.0, half)))


@cache
def _point_index() -> tuple[list[str], list[float], list[float]]:
    """Lines of the point table with their positions in radians; the rest stays unparsed."""
    path = data_folder() / f"{_POINTS}.csv"
    try:
        lines = path.read_text(encoding="utf-8").splitlines()[1:]
        cells = [line.split(",", 2) for line in lines]
        latitudes = [math.radians(float(cell[0])) for cell in cells]
        longitudes = [math.radians(float(cell[1])) for cell in cells]
    except (OSError, ValueError, IndexError) as error:
        raise TableError(f"table {_POINTS} cannot be read: {error}") from error
    return lines, latitudes, longitudes


def _point(line: str, *, name: str, latitude: float, longitude: float, distance_km: float) -> Place:
    values = [float(cell) for cell in line.split(",")]
    where = _position_name(latitude=values[0], longitude=values[1])
    return Place(
        name=name,
        country="",
        latitude=latitude,
        longitude=longitude,
        elevation_m=values[2],
        air_temp_c=tuple(values[3:15]),
        rain_mm=tuple(values[15:27]),
        wet_days=tuple(values[27:39]),
        source_key=_POINT_SOURCE,
        basis=message(
            "place-near-point",
            position=Given(where),
            height=Given(f"{values[2]:.0f}"),
            km=round(distance_km),
        ),
    )


def _position_name(*, latitude: float, longitude: float) -> str:
    north = "N" if latitude >= 0 else "S"
    east = "E" if longitude >= 0 else "W"
    return f"{abs(latitude):.2f} {north}, {abs(longitude):.2f} {east}"


@cache
def _spellings() -> Mapping[str, tuple[str, ...]]:
    """Every plain spelling with the places it names."""
    spellings: dict[str, tuple[str, ...]] = {}
    for row in read_rows("places"):
        for name in (row["key"], *words(row, "synonyms"), *words(row, "with_region")):
            plain = plain_name(name)
            if row["key"] not in spellings.get(plain, ()):
                spellings[plain] = (*spellings.get(plain, ()), row["key"])
    return spellings


def _nearest_names(plain: str) -> tuple[str, ...]:
    """Places to offer for an unknown name: those that hold its words, then like spellings."""
    spellings = _spellings()
    held = [key for key in load_places() if plain and f" {plain} " in f" {plain_name(key)} "]
    town = plain.split(",")[0]
    near = [
        key
        for wanted in (town, plain)
        for spelling in nearest_spellings(wanted, spellings, n=5, cutoff=0.7)
        for key in spellings[spelling]
    ]
    return tuple(dict.fromkeys(held + near))[:5]


def _flags(text: str) -> Listed | None:
    """What the table remarks on the figures of a place, as messages; None for nothing."""
    if not text:
        return None
    return Listed(tuple(message(f"place-flag-{choice(one)}") for one in text.split("; ")))


def _place(row: Row) -> Place:
    return Place(
        name=row["key"],
        country=row["country"],
        latitude=number(row, "latitude_deg"),
        longitude=number(row, "longitude_deg"),
        elevation_m=number_or_none(row, "elevation_m"),
        air_temp_c=tuple(number(row, f"air_temp_c_{month}") for month in _MONTHS),
        rain_mm=tuple(number(row, f"rain_mm_{month}") for month in _MONTHS),
        wet_days=tuple(number(row, f"wet_days_{month}") for month in _MONTHS),
        source_key=row["source_key"],
        basis=message("place-shipped", flags=_flags(row["flag"])),
    )
