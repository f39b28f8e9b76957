"""The API's addresses, its description, and a page that lists them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.urls import URLPattern, URLResolver, path
from django.views.decorators.http import require_safe
from ninja import NinjaAPI
from ninja.operation import Operation

from loamshift import __version__
from loamshift.web.api import acts, advise, beds, clients, facts, letters, shelf
from loamshift.web.api.door import Door
from loamshift.web.api.faults import answer_faults
from loamshift.web.api.schema import complete


class Api(NinjaAPI):
    """An API whose operations are called as their functions are."""

    def get_openapi_operation_id(self, operation: Operation) -> str:
        """A name for programs that make a client of the description."""
        return operation.view_func.__name__


api = Api(
    title="loamshift",
    version=__version__,
    description=(
        "Advice on soil pH for programs. Every refusal has the same shape: detail, and a list of "
        "faults with path, given, problem and mend."
    ),
    auth=Door(),
    docs_url=None,
    openapi_url=None,
    urls_namespace="api",
)
answer_faults(api)
for topic in (advise, beds, letters, clients, shelf, facts, acts):
    api.add_router("", topic.router)


@cache
def description() -> dict[str, Any]:
    """The description of the API in OpenAPI 3.1."""
    schema: dict[str, Any] = dict(api.get_openapi_schema(path_prefix="/api/v1/"))
    complete(schema)
    return schema


@require_safe
def openapi(request: HttpRequest) -> HttpResponse:
    """The description as JSON."""
    return JsonResponse(description())


@dataclass(frozen=True, slots=True)
class Line:
    """One address: method, path, what it does, and what it takes in the query."""

    method: str
    path: str
    summary: str
    takes: str


@cache
def _topics() -> tuple[tuple[str, tuple[Line, ...]], ...]:
    found: dict[str, list[Line]] = {}
    for place, methods in description()["paths"].items():
        for method, one in methods.items():
            takes = [p["name"] for p in one.get("parameters", ()) if p["in"] == "query"]
            text = one.get("description") or one.get("summary", "")
            line = Line(method.upper(), place, text.split("\n\n")[0], ", ".join(takes))
            found.setdefault(one["tags"][0], []).append(line)
    return tuple((topic, tuple(lines)) for topic, lines in found.items())


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """How a program uses the API, and every address of it."""
    address = request.build_absolute_uri("/api/v1/")
    return render(request, "api/api.html", {"topics": _topics(), "address": address})


ROUTES: list[URLPattern | URLResolver] = [
    path("api/", page, name="api-page"),
    path("api/v1/", page, name="api-v1"),
    path("api/v1/openapi.json", openapi, name="api-description"),
    path("api/v1/", api.urls),
]
