"""Every refusal of the API in one shape: what is wrong, and each fault with its place and mend."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any, Final

from django.http import Http404, HttpRequest, HttpResponse
from ninja import NinjaAPI, Schema
from ninja.errors import HttpError, ValidationError

from loamshift.errors import CaseError, Fault, InputError
from loamshift.store.changes import Overtaken
from loamshift.store.limits import Unfit

_SHOWN: Final = 80


class FaultOut(Schema):
    """One thing to mend."""

    path: str
    given: str
    problem: str
    mend: str


class RefusedOut(Schema):
    """Why nothing was done."""

    detail: str
    faults: list[FaultOut]


class Refused(Exception):
    """A request that is turned away, with its status."""

    def __init__(
        self,
        status: int,
        detail: str,
        faults: Sequence[Fault] = (),
        *,
        extra: Mapping[str, Any] | None = None,
        headers: Mapping[str, str] | None = None,
    ) -> None:
        self.status = status
        self.detail = detail
        self.faults = tuple(faults)
        self.extra = dict(extra or {})
        self.headers = dict(headers or {})
        super().__init__(detail)


_WORDS: Final[Mapping[int, str]] = {
    400: "The request could not be read.",
    401: "Sign in first, or send a key as “Authorization: Bearer KEY”; `loamshift office-user key` "
    "makes one.",
    403: "You may not do that: readers change nothing, and a workbench for one adviser answers on "
    "its own machine only.",
    404: "There is nothing at this address.",
    405: "This address does not answer that method; the header Allow lists those it does.",
    413: "The request is larger than 2.5 MB.",
    429: "Too many requests; the header Retry-After says when to go on.",
    500: "The program failed; this is our fault. Please report it with the request id.",
}


def answer_for_status(status: int) -> HttpResponse:
    """A refusal that has nothing to say but its status."""
    return answer(status, _WORDS.get(status, _WORDS[400]))


def answer(
    status: int, detail: str, faults: Sequence[Fault] = (), extra: Mapping[str, Any] | None = None
) -> HttpResponse:
    """A refusal as JSON."""
    listed = [
        {"path": f.path, "given": _clean(f.given), "problem": _clean(f.problem), "mend": f.mend}
        for f in faults
    ]
    body = {"detail": _clean(detail), "faults": listed, **(extra or {})}
    return HttpResponse(
        json.dumps(body, ensure_ascii=False), status=status, content_type="application/json"
    )


def _clean(text: str) -> str:
    """Without halves of letters, which no UTF-8 holds."""
    return text.encode("utf-8", "replace").decode("utf-8")


def answer_faults(api: NinjaAPI) -> None:
    """Have an API answer what can go wrong; what nobody foresaw goes on to Django."""

    def refused(request: HttpRequest, error: Exception) -> HttpResponse:
        assert isinstance(error, Refused)
        made = answer(error.status, error.detail, error.faults, error.extra)
        for name, value in error.headers.items():
            made.headers[name] = value
        return made

    def faulty(request: HttpRequest, error: Exception) -> HttpResponse:
        if isinstance(error, (CaseError, Unfit)):
            count = len(error.faults)
            thing = "thing" if count == 1 else "things"
            return answer(422, f"{count} {thing} to mend.", error.faults)
        return answer(422, str(error))

    def overtaken(request: HttpRequest, error: Exception) -> HttpResponse:
        from loamshift.web.api.shapes import shape_of

        assert isinstance(error, Overtaken)
        return answer(409, str(error), extra={"current": shape_of(error.current)})

    def missing(request: HttpRequest, error: Exception) -> HttpResponse:
        return answer_for_status(404)

    def http(request: HttpRequest, error: Exception) -> HttpResponse:
        assert isinstance(error, HttpError)
        status = error.status_code
        return answer(status, _WORDS[400] if status == 400 else str(error))

    def invalid(request: HttpRequest, error: Exception) -> HttpResponse:
        assert isinstance(error, ValidationError)
        faults = [_fault(one) for one in error.errors[:100]]
        count = len(error.errors)
        return answer(422, f"{count} {'thing' if count == 1 else 'things'} to mend.", faults)

    handlers: tuple[tuple[type[Exception], Any], ...] = (
        (Refused, refused),
        (InputError, faulty),
        (Overtaken, overtaken),
        (Http404, missing),
        (HttpError, http),
        (ValidationError, invalid),
    )
    for kind, handler in handlers:
        api.add_exception_handler(kind, handler)


def _fault(error: Mapping[str, Any]) -> Fault:
    """What ninja found, with the path as the sender knows it."""
    places = [str(part) for part in error.get("loc", ()) if part not in ("body", "query", "path")]
    given = error.get("input", "")
    shown = "" if isinstance(given, (dict, list)) else str(given)
    if len(shown) > _SHOWN:
        shown = shown[: _SHOWN - 1] + "…"
    names = places[1:] if len(places) > 1 and places[0] in ("given", "asked") else places
    path = ".".join(names) or "body"
    return Fault(path, shown, str(error.get("msg", "")), "The schema says what belongs here.")
