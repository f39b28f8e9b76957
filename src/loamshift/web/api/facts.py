"""What the shipped tables know: materials, plants and places, with their sources."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.http import HttpRequest
from ninja import Query, Router, Schema

from loamshift.domain.material import Material
from loamshift.domain.material_comment import material_comment
from loamshift.domain.names import NameFault
from loamshift.domain.place import Place
from loamshift.domain.plant import Plant
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.search import search_keys
from loamshift.tables.materials import load_materials
from loamshift.tables.places import load_places
from loamshift.tables.plants import load_plants, plant_spellings
from loamshift.web.api.faults import RefusedOut
from loamshift.web.api.shapes import ListQuery, Page
from loamshift.web.wording import words_for

router = Router(tags=["facts"])
REFUSED = dict.fromkeys((400, 401, 422), RefusedOut)


class FigureOut(Schema):
    """A figure with its range, source and evidence."""

    name: str
    value: float
    low: float | None
    high: float | None
    unit: str
    source_key: str
    evidence: str


class MaterialOut(Schema):
    """A material; ``key`` is the name a case takes."""

    key: str
    name_uk: str
    name_us: str
    synonyms: list[str]
    group: str
    form: str
    comment: str
    cautions: list[str]
    figures: list[FigureOut]


class PlantOut(Schema):
    """The pH a plant wants, by the middle of its sources, and what each says."""

    key: str
    name: str
    latin_name: str
    synonyms: list[str]
    group: str
    ph_low: float
    ph_high: float
    n_sources: int
    ranges_agree: bool
    note: str
    source_keys: list[str]


class PlaceOut(Schema):
    """The climate of a place, month by month."""

    name: str
    country: str
    latitude: float
    longitude: float | None
    elevation_m: float | None
    air_temp_c: list[float]
    rain_mm: list[float]
    basis: str
    source_key: str


class MaterialsOut(Page):
    """Materials."""

    items: list[MaterialOut]


class PlantsOut(Page):
    """Plants."""

    items: list[PlantOut]


class PlacesOut(Page):
    """Places."""

    items: list[PlaceOut]


@router.get("/materials", response={200: MaterialsOut, **REFUSED})
def materials(request: HttpRequest, asked: Query[ListQuery]) -> Any:
    """Materials by any name the trade gives them."""
    table = load_materials()
    names = {key: (one.name_uk, one.name_us, *one.synonyms) for key, one in table.items()}
    keys = _keys(asked, names, kind="material")
    words = words_for(request)
    return _page(asked, keys, [_material(table[key], words) for key in _part(asked, keys)])


@router.get("/plants", response={200: PlantsOut, **REFUSED})
def plants(request: HttpRequest, asked: Query[ListQuery]) -> Any:
    """Plants by any of their names."""
    table = load_plants()
    keys = _keys(asked, plant_spellings(), kind="plant")
    return _page(asked, keys, [_plant(table[key]) for key in _part(asked, keys)])


@router.get("/places", response={200: PlacesOut, **REFUSED})
def places(request: HttpRequest, asked: Query[ListQuery]) -> Any:
    """Places by name or country."""
    table = load_places()
    names = {key: (place.country,) for key, place in table.items()}
    keys = _keys(asked, names, kind="place")
    words = words_for(request)
    return _page(asked, keys, [_place(table[key], words) for key in _part(asked, keys)])


def _keys(asked: ListQuery, names: Mapping[str, Iterable[str]], *, kind: str) -> tuple[str, ...]:
    try:
        return search_keys(asked.search, names, kind=kind)
    except NameFault:
        return ()


def _part(asked: ListQuery, keys: tuple[str, ...]) -> tuple[str, ...]:
    return keys[asked.offset : asked.offset + asked.limit]


def _page(asked: ListQuery, keys: tuple[str, ...], items: list[dict[str, Any]]) -> dict[str, Any]:
    return {"count": len(keys), "offset": asked.offset, "limit": asked.limit, "items": items}


def _material(one: Material, words: Words) -> dict[str, Any]:
    figures = [
        {
            "name": name,
            "value": figure.value,
            "low": figure.low,
            "high": figure.high,
            "unit": figure.unit,
            "source_key": figure.source_key,
            "evidence": str(figure.evidence),
        }
        for name, figure in one.figures.items()
    ]
    return {
        **_fields(one, MaterialOut),
        "group": str(one.group),
        "figures": figures,
        "comment": say(material_comment(one), words),
    }


def _plant(one: Plant) -> dict[str, Any]:
    keys = list(dict.fromkeys(source.source_key for source in one.sources))
    return {**_fields(one, PlantOut), "source_keys": keys}


def _place(one: Place, words: Words) -> dict[str, Any]:
    return {**_fields(one, PlaceOut), "basis": say(one.basis, words)}


def _fields(one: object, shape: type[Schema]) -> dict[str, Any]:
    return {name: getattr(one, name) for name in shape.model_fields if hasattr(one, name)}
