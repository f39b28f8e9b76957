"""The API tried by its own description: nothing it is sent makes it fail or answer out of shape."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
from django.core.signals import request_finished, request_started
from django.db import close_old_connections
from hypothesis import HealthCheck, Phase, given, settings
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
from web.worlds import World, world

EXAMPLES = 10
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
        max_examples=EXAMPLES,
        deadline=None,
        database=None,
        derandomize=True,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
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
LEFT_OUT = {"", "place", "place.soil_temp", "soil.other_ph"}
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
        max_examples=40,
        deadline=None,
        database=None,
        derandomize=True,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(body=cases(), ahead=st.booleans())
    def tried(body: dict[str, Any], ahead: bool) -> None:
        query = {"forecast": str(ahead).lower(), "members": 4, "years": 1, "today": "2026-04-12"}
        case = operation.Case(body=body, media_type="application/json", query=query)
        statuses.append(case.call_and_validate(checks=CHECKS).status_code)

    tried()
    assert set(statuses) == {200, 422}
