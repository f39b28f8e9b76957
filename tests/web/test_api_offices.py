"""Every write of the API in its right shape: the own office takes it, another's ids are unknown."""

from __future__ import annotations

import json
from typing import Any

import pytest
from django.test import Client as Browser

from loamshift.store.models import User
from loamshift.web.api.views import description
from store.stores import everything
from web.worlds import CASE, MARK, World, world

pytestmark = pytest.mark.django_db

ENTRY = {"date": "2026-03-02", "ph": 6.2, "ph_method": "water 1:2.5"}
BAG = {"name": "New bag", "material": "gypsum", "pack": "25 kg", "price": 7.5}
GIVEN = "2026-03-01"
WRITES: dict[tuple[str, str], Any] = {
    ("post", "beds"): {"case_toml": CASE, "garden": "{garden}"},
    ("put", "beds/{bed}"): {"case_toml": CASE, "garden": "{garden}", "version": 1},
    ("post", "beds/{bed}/readings"): {"version": 1, "entry": ENTRY},
    ("post", "beds/{bed}/applied"): {
        "version": 1,
        "entry": {"date": GIVEN, "material": "gypsum", "rate": "30 g/m2"},
    },
    ("post", "letters"): {"bed": "{bed}", "title": "New letter"},
    ("post", "gardens"): {"client": "{client}", "name": "New garden"},
    ("put", "gardens/{garden}"): {"client": "{client}", "name": "Other name", "version": 1},
    ("put", "clients/{client}"): {"name": "Other name", "version": 1},
    ("put", "products/{product}"): {**BAG, "version": 1},
    ("delete", "beds/{bed}?version=1"): None,
    ("delete", "gardens/{garden}?version=1"): None,
    ("delete", "clients/{client}?version=1"): None,
    ("delete", "products/{product}?version=1"): None,
    ("post", "acts/{act}/take-back"): {},
}
"""Writes that name a thing by its id, in the address or in the body."""
NAMING_NOTHING = {("post", "clients"), ("post", "products"), ("post", "advise"), ("post", "claims")}
MIXED: dict[str, tuple[str, str, Any]] = {
    "a bed into their garden": ("post", "beds", {"case_toml": CASE, "garden": "{theirs.garden}"}),
    "a bed moved into their garden": (
        "put",
        "beds/{bed}",
        {"case_toml": CASE, "garden": "{theirs.garden}", "version": 1},
    ),
    "a garden for their client": ("post", "gardens", {"client": "{theirs.client}", "name": "N"}),
    "a garden moved to their client": (
        "put",
        "gardens/{garden}",
        {"client": "{theirs.client}", "name": "N", "version": 1},
    ),
    "a letter on their bed": ("post", "letters", {"bed": "{theirs.bed}", "title": "N"}),
}
"""One's own thing, tied to another office's."""


@pytest.fixture(autouse=True)
def office_mode(settings: Any) -> None:
    settings.OFFICE_MODE = True


@pytest.fixture
def north() -> World:
    return world("north")


@pytest.fixture
def south() -> World:
    return world("south")


def write(user: User, method: str, path: str, body: Any, *, at: dict[str, Any]) -> Any:
    browser = Browser()
    browser.force_login(user)
    text = json.dumps(body)
    for kind, key in at.items():
        path, text = path.replace(f"{{{kind}}}", str(key)), text.replace(f"{{{kind}}}", str(key))
    more = {} if body is None else {"data": text, "content_type": "application/json"}
    return browser.generic(method.upper(), f"/api/v1/{path}", **more)


def test_every_write_of_the_api_is_tried() -> None:
    described = set()
    for path, ways in description()["paths"].items():
        short = path.removeprefix("/api/v1/")
        kind = short.split("/")[0].removesuffix("s")
        short = short.replace("{pk}", f"{{{kind}}}")
        described |= {(way, short) for way in ways if way not in ("get", "head")}
    tried = {(way, path.split("?")[0]) for way, path in WRITES}
    assert described == tried | NAMING_NOTHING


@pytest.mark.parametrize(("method", "path"), WRITES)
def test_ones_own_office_takes_it(north: World, method: str, path: str) -> None:
    answer = write(north.adviser, method, path, WRITES[method, path], at=north.at)
    assert answer.status_code in (200, 201), answer.content


@pytest.mark.parametrize(("method", "path"), WRITES)
def test_another_office_is_told_that_there_is_no_such_thing(
    north: World, south: World, method: str, path: str
) -> None:
    before = everything(north.office), everything(south.office)
    answer = write(south.adviser, method, path, WRITES[method, path], at=north.at)
    in_address = "{" in path
    assert answer.status_code == (404 if in_address else 422), answer.content
    assert in_address or "There is no such" in answer.json()["faults"][0]["problem"]
    assert MARK not in answer.content.decode()
    assert (everything(north.office), everything(south.office)) == before


@pytest.mark.parametrize(("method", "path"), WRITES)
def test_a_reader_is_refused(north: World, method: str, path: str) -> None:
    before = everything(north.office)
    answer = write(north.reader, method, path, WRITES[method, path], at=north.at)
    assert answer.status_code == 403
    assert everything(north.office) == before


@pytest.mark.parametrize("name", MIXED)
def test_ones_own_thing_is_not_tied_to_another_offices(
    north: World, south: World, name: str
) -> None:
    before = everything(north.office), everything(south.office)
    method, path, body = MIXED[name]
    at = {**south.at, **{f"theirs.{kind}": key for kind, key in north.at.items()}}
    answer = write(south.adviser, method, path, body, at=at)
    assert answer.status_code in (404, 422), answer.content
    assert MARK not in answer.content.decode()
    assert (everything(north.office), everything(south.office)) == before
