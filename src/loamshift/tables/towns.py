"""Positions of towns that have no climate of their own in the list of places."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from functools import cache
from typing import Final

from loamshift.domain.names import plain_name
from loamshift.errors import TableError
from loamshift.tables.rows import data_folder

_TABLE = "towns"
_ALIASES: Final = {"GB": ("uk", "great britain", "britain"), "US": ("usa", "u.s.", "america")}
"""What people write for a country beside its name and its two letters."""
_JOINTS: Final = "upon|on|under"
"""Words of a river or a hill in full names: people say Hull, the table Kingston upon Hull."""
_OFFERED: Final = 5
_ALIKE: Final = 0.75
"""How alike two spellings must be to be offered, 0 to 1, as ``difflib`` counts it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Town:
    """A town of the table: its name, where it lies [degrees], and how many live there."""

    name: str
    region: str
    region_short: str
    country: str
    country_short: str
    latitude: float
    longitude: float
    population: int

    @property
    def full_name(self) -> str:
        """The name with its region, or its country where regions have no names here."""
        return f"{self.name}, {self.region_short or self.region or self.country}"

    def lies_in(self, plain: str) -> bool:
        """Whether a plain word names its region or its country."""
        own = (self.region, self.region_short, self.country, self.country_short)
        aliases = _ALIASES.get(self.country_short, ())
        return plain in aliases or any(plain == plain_name(word) for word in own if word)


def find_towns(text: str) -> tuple[Town, ...]:
    """Towns that a text can mean, the largest first; none where none has the name.

    A region or country after the name narrows them: ``Madison, WI``, ``Leeds UK``. A larger town
    whose full name holds this one beside a river or a hill is meant as likely.

    Examples
    --------
    >>> [town.full_name for town in find_towns("Springfield, Ohio")]
    ['Springfield, OH']
    >>> [town.full_name for town in find_towns("Hull")]
    ['Kingston upon Hull, England', 'Hull, QC']
    """
    plain = plain_name(text)
    name, *regions = (part.strip() for part in plain.split(","))
    if towns := _inside(name, [word for word in regions if word]):
        return towns
    words = plain.replace(",", " ").split()
    for cut in range(len(words) - 1, 0, -1):
        if towns := _inside(" ".join(words[:cut]), [" ".join(words[cut:])]):
            return towns
    return ()


def name_of(town: Town) -> str:
    """The shortest text with a region that finds this town alone, or else its position."""
    for text in (town.full_name, f"{town.full_name}, {town.country}"):
        if find_towns(text) == (town,):
            return text
    return f"{town.latitude:g}, {town.longitude:g}"


def towns_like(text: str) -> tuple[str, ...]:
    """Names of towns that go on from a text or are spelt much like it, five at most."""
    name = plain_name(text).split(",")[0]
    if not name:
        return ()
    names = dict.fromkeys(line.split(",", 1)[0] for line in _lines() if line[:1] == name[:1])
    alike = difflib.get_close_matches(name, names, n=_OFFERED, cutoff=_ALIKE)
    found = [*_going_on(name), *(town for near in alike for town in _named(near))]
    found.sort(key=lambda town: -town.population)
    return tuple(dict.fromkeys(map(name_of, found)))[:_OFFERED]


def towns_going_on(text: str) -> tuple[str, ...]:
    """Names of towns that go on from a text by a further word, the largest first, five at most.

    Examples
    --------
    >>> towns_going_on("Newcastle")
    ('Newcastle upon Tyne, England', 'Newcastle under Lyme, England')
    """
    found = sorted(_going_on(plain_name(text)), key=lambda town: -town.population)
    return tuple(dict.fromkeys(map(name_of, found)))[:_OFFERED]


def _going_on(plain: str) -> tuple[Town, ...]:
    return _matching(rf"{re.escape(plain)} [^,\n]*") if plain else ()


def towns_starting(plain: str) -> tuple[Town, ...]:
    """Towns whose names begin with a plain text, the largest first."""
    name, comma, _ = plain.partition(",")
    if not re.fullmatch(r"[^\n\"]+", name):
        return ()
    rest = "" if comma else r"[^,\n]*"
    towns = sorted(_matching(f"{re.escape(name)}{rest}"), key=lambda town: -town.population)
    return tuple(t for t in towns if not comma or plain_name(t.full_name).startswith(plain))


def _inside(name: str, regions: list[str]) -> tuple[Town, ...]:
    """Towns of one name inside regions, and larger ones whose full name holds it."""
    named, in_full = (
        [town for town in towns if all(town.lies_in(word) for word in regions)]
        for towns in (_named(name), _in_full(name))
    )
    largest = max((town.population for town in named), default=0)
    meant = [*named, *(town for town in in_full if town.population > largest)]
    return tuple(sorted(meant, key=lambda town: -town.population))


def _in_full(plain: str) -> tuple[Town, ...]:
    """Towns whose full name is this one with a river or a hill."""
    name = re.escape(plain)
    return _matching(rf"(?:[^,\n]+ (?:{_JOINTS}) {name}|{name} (?:{_JOINTS}) [^,\n]+)")


@cache
def _text() -> str:
    path = data_folder() / f"{_TABLE}.csv"
    try:
        return "\n" + path.read_text(encoding="utf-8")
    except OSError as error:
        raise TableError(f"table {_TABLE} cannot be read: {error}") from error


def _lines() -> list[str]:
    return _text().splitlines()[2:]


def _named(plain: str) -> tuple[Town, ...]:
    """Every town of one plain spelling."""
    return _matching(re.escape(plain)) if re.fullmatch(r"[^\n,\"]+", plain) else ()


def _matching(pattern: str) -> tuple[Town, ...]:
    """Towns whose plain spelling is a pattern; the text is searched, so nothing else is parsed."""
    starts = [found.start() + 1 for found in re.finditer(f"\n{pattern},", _text())]
    return tuple(_town(_text()[start : _text().index("\n", start)]) for start in starts)


def _town(line: str) -> Town:
    _, name, region, short, country, country_short, latitude, longitude, population = line.split(
        ","
    )
    return Town(
        name=name,
        region=region,
        region_short=short,
        country=country,
        country_short=country_short,
        latitude=float(latitude),
        longitude=float(longitude),
        population=int(population),
    )
