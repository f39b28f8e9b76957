"""Every refusal of the API in one shape: what is wrong, and each fault with its place and mend."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any, Final

from django.http import Http404, HttpRequest, HttpResponse
from ninja import NinjaAPI, Schema
from ninja.errors import HttpError, ValidationError

from loamshift.domain.message import Given, Message, Worded, message
from loamshift.domain.worded_error import fault, plainly
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import mend_text, problem_text, refusal
from loamshift.report.words import Words
from loamshift.store.changes import Overtaken
from loamshift.store.limits import Unfit
from loamshift.web.wording import words_for

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
        detail: Worded,
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
        super().__init__(plainly(detail))


_KNOWN: Final = (400, 401, 403, 404, 405, 413, 429, 500, 503)
"""Statuses that have a message."""


def answer_for_status(request: HttpRequest, status: int) -> HttpResponse:
    """A refusal that has nothing to say but its status."""
    return answer(status, _meaning(status), words=words_for(request))


def _meaning(status: int) -> Message:
    return message(f"api-{status if status in _KNOWN else 400}")


def answer(
    status: int,
    detail: Worded,
    faults: Sequence[Fault] = (),
    extra: Mapping[str, Any] | None = None,
    *,
    words: Words,
) -> HttpResponse:
    """A refusal as JSON."""
    listed = [
        {
            "path": one.path,
            "given": _clean(one.given),
            "problem": _clean(problem_text(one, words)),
            "mend": mend_text(one, words),
        }
        for one in faults
    ]
    body = {"detail": _clean(say(detail, words)), "faults": listed, **(extra or {})}
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
        words = words_for(request)
        made = answer(error.status, error.detail, error.faults, error.extra, words=words)
        for name, value in error.headers.items():
            made.headers[name] = value
        return made

    def faulty(request: HttpRequest, error: Exception) -> HttpResponse:
        words = words_for(request)
        if isinstance(error, (CaseError, Unfit)):
            return answer(422, _counted(len(error.faults)), error.faults, words=words)
        return answer(422, refusal(error, words), words=words)

    def overtaken(request: HttpRequest, error: Exception) -> HttpResponse:
        from loamshift.web.api.shapes import shape_of

        assert isinstance(error, Overtaken)
        words = words_for(request)
        current = {"current": shape_of(error.current)}
        return answer(409, refusal(error, words), extra=current, words=words)

    def missing(request: HttpRequest, error: Exception) -> HttpResponse:
        return answer_for_status(request, 404)

    def http(request: HttpRequest, error: Exception) -> HttpResponse:
        assert isinstance(error, HttpError)
        status = error.status_code
        detail = _meaning(400) if status == 400 else str(error)
        return answer(status, detail, words=words_for(request))

    def invalid(request: HttpRequest, error: Exception) -> HttpResponse:
        assert isinstance(error, ValidationError)
        faults = [_fault(one) for one in error.errors[:100]]
        return answer(422, _counted(len(error.errors)), faults, words=words_for(request))

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


def _counted(n: int) -> Message:
    return message("api-problems", n=n)


def _fault(error: Mapping[str, Any]) -> Fault:
    """What ninja found, with the path as the sender knows it."""
    places = [str(part) for part in error.get("loc", ()) if part not in ("body", "query", "path")]
    given = error.get("input", "")
    shown = "" if isinstance(given, (dict, list)) else str(given)
    if len(shown) > _SHOWN:
        shown = shown[: _SHOWN - 1] + "…"
    names = places[1:] if len(places) > 1 and places[0] in ("given", "asked") else places
    path = ".".join(names) or "body"
    wrong = message("api-invalid", why=Given(str(error.get("msg", ""))))
    return fault(path, wrong, message("api-schema-says"), given=shown)
