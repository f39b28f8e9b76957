"""What the shell offers after Tab: names of plants, places, materials, textures, tables, keys.

A name is offered with hyphens for its spaces, and comes through any shell without quotation
marks; every reader of names takes a hyphen for a space.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Final

_PLAIN: Final = re.compile(r"[^\W_][\w,.%-]*")
"""What no shell reads anything into."""


def plants(incomplete: str) -> list[str]:
    """Plants that begin so."""
    from loamshift.tables.plants import plant_spellings

    return offered(plant_spellings(), incomplete)


def materials(incomplete: str) -> list[str]:
    """Materials that begin so."""
    from loamshift.tables.materials import load_materials

    return offered({key: one.synonyms for key, one in load_materials().items()}, incomplete)


def places(incomplete: str) -> list[str]:
    """Places that begin so."""
    from loamshift.tables.places import load_places

    return offered(dict.fromkeys(load_places(), ()), incomplete)


def textures(incomplete: str) -> list[str]:
    """Texture classes that begin so."""
    from loamshift.tables.soils import load_textures

    return offered({key: one.synonyms for key, one in load_textures().items()}, incomplete)


def tables(incomplete: str) -> list[str]:
    """Sources of printed sulfur and lime tables that begin so."""
    from loamshift.domain.answer import Direction
    from loamshift.services.plan.published import table_sources

    ways = (Direction.ACIDIFY, Direction.LIME)
    keys = {key for way in ways for key in table_sources(direction=way)}
    return offered(dict.fromkeys(keys, ()), incomplete)


def why_keys(incomplete: str) -> list[str]:
    """Keys that ``why`` opens and that begin so."""
    from loamshift.services.why import explained_keys

    keys = [key for keys in explained_keys().values() for key in keys if " " not in key]
    return sorted({key for key in keys if key.startswith(incomplete)})


def offered(names: Mapping[str, Iterable[str]], incomplete: str) -> list[str]:
    """Names that begin with what is typed, as they are typed in a shell.

    Other spellings stand in where no key begins so, or where a key is none that a shell takes.

    >>> offered({"red oak": (), "elm (field)": ("field elm",)}, "F")
    ['field-elm']
    """
    begun = _typed(incomplete).casefold()
    first: list[str] = []
    others: list[str] = []
    for key, spellings in names.items():
        words = [word for word in map(_typed, (key, *spellings)) if _PLAIN.fullmatch(word)]
        if words and words[0].casefold().startswith(begun):
            first.append(words[0])
        others += [word for word in words if word.casefold().startswith(begun)]
    return sorted(set(first or others))


def _typed(name: str) -> str:
    return re.sub(r"\s+", "-", re.sub(r"\s*,\s*", ",", name.strip("\"' ")))
