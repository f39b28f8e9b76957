"""The API tried by its own description: nothing it is sent makes it fail or answer out of shape."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
from django.core.signals import request_finished, request_started
from django.db import close_old_connections
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
    unsupported_method,
)

from loamshift.case.questions import case_questions
from loamshift.web.api.views import description
from loamshift.web.wsgi import application
from tries import count
from web.worlds import World, world

EXAMPLES = 15
CHECKS = [
    schemathesis.checks.not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
    unsupported_method,
]
MODES = (schemathesis.GenerationMode.POSITIVE, schemathesis.GenerationMode.NEGATIVE)
SCHEMA = schemathesis.openapi.from_dict(description())


def here(environ: dict[str, Any], start_response: Any) -> Any:
    """The application as this machine reaches it; the client of these tests unpacks nothing."""
    environ.pop("HTTP_ACCEPT_ENCODING", None)
    return application({**environ, "REMOTE_ADDR": "127.0.0.1"}, start_response)


SCHEMA.app = here
OPERATIONS = [found.ok() for found in SCHEMA.get_all_operations()]
KINDS = {"beds": "bed", "letters": "letter", "clients": "client", "gardens": "garden"}

pytestmark = [pytest.mark.django_db, pytest.mark.drawn]


@pytest.fixture(autouse=True)
def one_connection() -> Iterator[None]:
    """Requests end without closing the connection that holds the test's transaction."""
    for signal in (request_started, request_finished):
        signal.disconnect(close_old_connections)
    yield
    for signal in (request_started, request_finished):
        signal.connect(close_old_connections)


def address_of(path: str, kept: World) -> dict[str, Any]:
    """Ids of things that are there, so that more is tried than the way to 404."""
    if "{act}" in path:
        return {"act": str(kept.at["act"])}
    kind = KINDS.get(path.split("/")[3], "product")
    return {"pk": str(kept.at[kind])} if "{pk}" in path else {}


@pytest.mark.parametrize("operation", OPERATIONS, ids=lambda one: one.label)
def test_nothing_makes_it_fail(operation: Any) -> None:
    kept = world("north")
    cases = st.one_of(*(operation.as_strategy(generation_mode=mode) for mode in MODES))

    @settings(
        max_examples=count(EXAMPLES),
        database=None,
        phases=[Phase.generate],
    )
    @given(case=cases, there=st.booleans())
    def tried(case: Any, there: bool) -> None:
        if there:
            case.path_parameters = address_of(operation.path, kept) or case.path_parameters
        if operation.path.endswith(("advise", "claims", "letters")):
            quick = {"forecast": "false"}
            case.query = {**(case.query or {}), **quick}
            if isinstance(case.body, dict):
                case.body["forecast"] = False
        case.call_and_validate(checks=CHECKS)

    tried()


def examples_of(table: Any) -> Any:
    """Tables filled with some of the examples that the case file documents."""
    return st.fixed_dictionaries(
        {q.key: st.just(value_of(q)) for q in table.questions if q.is_required},
        optional={q.key: st.just(value_of(q)) for q in table.questions if not q.is_required},
    )


def value_of(question: Any) -> Any:
    return tomllib.loads(f"a = {question.example}")["a"] if _is_list(question) else question.example


def _is_list(question: Any) -> bool:
    return str(question.example).startswith("[")


TABLES = {table.name: table for table in case_questions()}
LEFT_OUT = {"", "place", "place.soil_temp", "soil.other_ph", "soil.layer"}
"""Tables whose examples need each other; the place is given by its name alone."""


@st.composite
def cases(draw: st.DrawFn) -> dict[str, Any]:
    case: dict[str, Any] = {"soil": {"ph": draw(st.floats(3.5, 9.0)), "texture": "loam"}}
    for name, table in TABLES.items():
        if name in LEFT_OUT or not draw(st.booleans()):
            continue
        filled = draw(examples_of(table))
        case[name] = [filled] if table.is_list else {**case.get(name, {}), **filled}
    if draw(st.booleans()):
        case["place"] = {"name": "Minneapolis"}
    return case


def test_cases_of_documented_examples_are_answered_in_shape_or_told_their_faults() -> None:
    operation = SCHEMA["/api/v1/advise"]["POST"]
    statuses: list[int] = []

    @settings(
        max_examples=count(40),
        database=None,
        phases=[Phase.generate],
    )
    @given(body=cases(), ahead=st.booleans())
    def tried(body: dict[str, Any], ahead: bool) -> None:
        query = {"forecast": str(ahead).lower(), "members": 4, "years": 1, "today": "2026-04-12"}
        case = operation.Case(body=body, media_type="application/json", query=query)
        statuses.append(case.call_and_validate(checks=CHECKS).status_code)

    tried()
    assert set(statuses) == {200, 422}


ODD = st.sampled_from(
    [
        *(0, -1, 1e308, -1e308, 5e-324, 1e-12, 10**25, True, None, "", " ", [], {}, [1], {"a": 1}),
        *("0", "-1 m2", "1e400", "nan", "inf", "1e-320 g", "999999999 t", "٣", "6,5", "6.4 or so"),
        *("0001-01-01", "9999-12-31", "2026-02-30", "2026-04-12T25:00:00", "x" * 5000, "\u202e"),
    ]
)
NEAR: dict[str, tuple[Any, ...]] = {
    "soil.ph": (2.0, 3.0, 4.0, 5.5, 7.0, 8.4, 9.5, 11.0),
    "soil.organic_matter_pct": (0, 0.01, 3, 40, 95, 100),
    "soil.carbonate_pct": (0, 0.1, 5, 60, 100),
    "soil.bulk_density_g_cm3": (0.05, 0.1, 1.3, 2.2),
    "soil.ec_ds_m": (0, 2, 40),
    "soil.texture": ("sand", "clay", "loam", "silt"),
    "soil.sampled": ("2026-04-12", "2026-04-13", "1999-01-01"),
    "bed.area": (0.01, "1 cm2", "20 m2", "1000 ha"),
    "bed.depth": (0.1, 15, 300),
    "bed.kind": ("ground", "raised", "container", "lawn", "field"),
    "bed.count": (1, 1000, 10**6),
    "aim.plant": ("highbush blueberry", "cabbage", ["highbush blueberry", "lavender"]),
    "aim.target_ph": (2.5, 4.5, 6.5, 9.0),
    "water.alkalinity": (0, 1, 300, 5000),
    "water.weekly": (0, "1 L", "2 in", 10**6),
    "place.latitude": (-90, -45, 0, 51.5, 90),
    "place.longitude": (-180, 0, 180),
    "feed.n_g_m2_year": (0, 5, 500),
}
ENTRIES: dict[str, tuple[dict[str, Any], ...]] = {
    "applied": (
        {"date": "2026-04-12", "material": "elemental sulfur", "rate": "5 kg/m2"},
        {"date": "2020-01-01", "material": "ground limestone", "rate": "0.001 g/m2"},
        {"material": "wood ash", "rate": "50 t/ha"},
    ),
    "reading": (
        {"date": "2024-02-29", "ph": 3.1, "ph_method": "KCl"},
        {"date": "2026-04-12", "ph": 9.9, "ph_method": "strip"},
        {"ph": 6.0},
    ),
    "titration": ({"acid_mmolc_kg": 0, "ph": 7.5}, {"acid_mmolc_kg": 500, "ph": 7.4}),
    "claim": ({"material": "coffee grounds", "rate": "1 cm"}, {"material": "gypsum"}),
}


@st.composite
def odd_cases(draw: st.DrawFn) -> dict[str, Any]:
    """Cases at the edge of what is possible, most with one value that is beyond it."""
    case: dict[str, Any] = {"soil": {"ph": 6.4, "texture": "loam"}}
    for path in draw(st.lists(st.sampled_from(sorted(NEAR)), max_size=8, unique=True)):
        table, key = path.split(".")
        case.setdefault(table, {})[key] = draw(st.sampled_from(NEAR[path]))
    for name in draw(st.lists(st.sampled_from(sorted(ENTRIES)), max_size=3, unique=True)):
        drawn = draw(st.lists(st.sampled_from(ENTRIES[name]), max_size=3))
        case[name] = [dict(one) for one in drawn]
    if draw(st.booleans()):
        table = draw(st.sampled_from(sorted(case)))
        if isinstance(case[table], dict) and case[table]:
            case[table][draw(st.sampled_from(sorted(case[table])))] = draw(ODD)
        elif case[table]:
            entry = case[table][0]
            entry[draw(st.sampled_from(sorted(entry)))] = draw(ODD)
    return case


@pytest.mark.parametrize("ahead", [False, True], ids=["without a forecast", "with one"])
def test_cases_at_the_edge_are_answered_in_shape_or_told_their_faults(ahead: bool) -> None:
    operation = SCHEMA["/api/v1/advise"]["POST"]
    statuses: list[int] = []

    @settings(
        max_examples=count(150),
        database=None,
        phases=[Phase.generate],
    )
    @given(body=odd_cases(), years=st.integers(1, 3))
    def tried(body: dict[str, Any], years: int) -> None:
        query = {
            "forecast": str(ahead).lower(),
            "members": 4,
            "years": years,
            "today": "2026-04-12",
        }
        case = operation.Case(body=body, media_type="application/json", query=query)
        answer = case.call_and_validate(checks=CHECKS)
        statuses.append(answer.status_code)
        text = answer.content.decode()
        assert "NaN" not in text and "Infinity" not in text, body

    tried()
    assert set(statuses) == {200, 422}
    assert statuses.count(200) > len(statuses) / 5, "most were refused at the door"
