"""Plants by name, with the median of the printed pH ranges, every range behind it, and limits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache, lru_cache

from loamshift.domain.names import match_name
from loamshift.domain.plant import Plant, PlantLimit, PlantSource
from loamshift.errors import TableError
from loamshift.tables.rows import (
    Row,
    evidence,
    number,
    number_or_none,
    read_rows,
    truth,
    words,
)

_NEVER_PLURAL = ("ss", "us", "is")
"""Endings of names that look like plurals and are not: cress, asparagus, iris."""


@cache
def load_plants() -> Mapping[str, Plant]:
    """Every plant of the table, by its common name.

    Raises
    ------
    TableError
        Where a name stands twice or a plant has no range behind it.
    """
    sources = _sources_by_plant()
    limits = _limits_by_plant()
    plants: dict[str, Plant] = {}
    for row in read_rows("plants"):
        key = row["key"]
        if key in plants:
            raise TableError(f"plant {key} stands twice")
        if not sources.get(key):
            raise TableError(f"plant {key} has no source")
        plants[key] = _plant(row, sources[key], limits.pop(key, []))
    if limits:
        raise TableError(f"limits of plants that are not listed: {', '.join(sorted(limits))}")
    return plants


@lru_cache(maxsize=4096)
def find_plant(text: str) -> Plant:
    """The plant meant by a common, second, Latin, singular or plural name.

    ``hydrangea`` or ``currants`` fit several plants and are answered with the candidates;
    ``blueberry`` means the highbush blueberry, as in an adviser's speech. Plants named together
    (lawn, vegetables, mixed border, herbs, fruit) are found like one plant.

    Returns
    -------
    Plant
        The plant, with its ranges [pH in water].

    Raises
    ------
    NameFault
        Where no plant, or more than one, is meant; it lists the candidates.

    Examples
    --------
    >>> find_plant("Blueberries").key
    'highbush blueberry'
    """
    return load_plants()[_key_of(text)]


@lru_cache(maxsize=1024)
def _key_of(text: str) -> str:
    """The key of the plant meant; a form or a letter asks for the same few again and again."""
    return match_name(text, plant_spellings(), kind="plant")


@cache
def plant_spellings() -> Mapping[str, tuple[str, ...]]:
    """Common name to every spelling that finds it: synonyms, Latin, plurals, no apostrophe."""
    return {
        key: tuple(dict.fromkeys((*_spellings((key, *plant.synonyms)), plant.latin_name)))
        for key, plant in load_plants().items()
    }


def _spellings(names: tuple[str, ...]) -> Iterator[str]:
    for name in names:
        for spelling in (name, *_other_number(name)):
            yield spelling
            if "'" in spelling:
                yield spelling.replace("'", "")


def _other_number(name: str) -> Iterator[str]:
    """The plural of a singular name, or the singular of a plural one, by the simple rules."""
    if name.endswith(")"):
        return
    if name.endswith("ies") and len(name) > 4:
        yield f"{name[:-3]}y"
    elif name.endswith("oes"):
        yield name[:-2]
    elif name.endswith("s") and not name.endswith(_NEVER_PLURAL):
        yield name[:-1]
    elif name.endswith("y") and name[-2:-1] not in "aeiou":
        yield f"{name[:-1]}ies"
    elif name.endswith(("s", "x", "z", "ch", "sh")):
        yield f"{name}es"
    elif name.endswith("o"):
        yield f"{name}es"
        yield f"{name}s"
    else:
        yield f"{name}s"


def _sources_by_plant() -> dict[str, list[PlantSource]]:
    """Ranges that carry the median, by plant; rows left out stay in the table only."""
    by_plant: dict[str, list[PlantSource]] = {}
    for row in read_rows("plant_sources"):
        if truth(row, "used"):
            by_plant.setdefault(row["plant"], []).append(
                PlantSource(
                    ph_low=number(row, "ph_low"),
                    ph_high=number(row, "ph_high"),
                    source_key=row["source_key"],
                    grade=row["grade"],
                    evidence=evidence(row).value,
                    note=row["note"],
                    kind=row["kind"],
                )
            )
    return by_plant


def _limits_by_plant() -> dict[str, list[PlantLimit]]:
    by_plant: dict[str, list[PlantLimit]] = {}
    for row in read_rows("plant_limits"):
        by_plant.setdefault(row["plant"], []).append(
            PlantLimit(
                kind=row["kind"],
                ph_low=number_or_none(row, "ph_low"),
                ph_high=number_or_none(row, "ph_high"),
                source_key=row["source_key"],
                grade=row["grade"],
                evidence=evidence(row).value,
                basis=row["basis"],
                note=row["note"],
                medium=row["medium"],
                decides=words(row, "decides"),
            )
        )
    return by_plant


def _plant(row: Row, sources: list[PlantSource], limits: list[PlantLimit]) -> Plant:
    return Plant(
        key=row["key"],
        name=row["key"],
        latin_name=row["latin_name"],
        synonyms=words(row, "synonyms"),
        group=row["group"],
        ph_low=number(row, "ph_low"),
        ph_high=number(row, "ph_high"),
        lowest=number(row, "lowest"),
        highest=number(row, "highest"),
        tolerated_low=number_or_none(row, "tolerated_low"),
        tolerated_high=number_or_none(row, "tolerated_high"),
        n_sources=int(number(row, "n_sources")),
        all_seen=truth(row, "all_seen"),
        midpoint_spread=number(row, "midpoint_spread"),
        ranges_agree=truth(row, "ranges_agree"),
        calcifuge=truth(row, "calcifuge"),
        note=row["note"],
        sources=tuple(sources),
        harmful_low=number_or_none(row, "harmful_low"),
        harmful_high=number_or_none(row, "harmful_high"),
        container_harmful_low=number_or_none(row, "container_harmful_low"),
        container_harmful_high=number_or_none(row, "container_harmful_high"),
        occurrence_low=number_or_none(row, "occurrence_low"),
        occurrence_high=number_or_none(row, "occurrence_high"),
        limits=tuple(limits),
        is_group=truth(row, "is_group"),
        tolerates_acid=truth(row, "tolerates_acid"),
        doubtful=truth(row, "doubtful"),
        offered=row["offered"],
    )
