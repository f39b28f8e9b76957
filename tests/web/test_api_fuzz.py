"""The API tried by its own description: nothing it is sent makes it fail or answer out of shape."""

from __future__ import annotations

from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
    unsupported_method,
)

from loamshift.web.views.api import description
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

pytestmark = pytest.mark.django_db


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
