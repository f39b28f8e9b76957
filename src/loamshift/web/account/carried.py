"""A form that was sent after the session had ended, carried through sign-in and sent then."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import CsrfViewMiddleware
from django.urls import Resolver404, resolve

FIELD: Final = "carried"
_SALT: Final = "loamshift.carried-form"
_KEPT_S: Final = 24 * 3600
_OWN: Final = "csrfmiddlewaretoken"
_NEVER: Final = ("/account/", "/api/")
"""Passwords and keys are typed once more; programs send once more by themselves."""


@dataclass(frozen=True, slots=True)
class Carried:
    """Where a form was going, and its fields."""

    path: str
    fields: tuple[tuple[str, str], ...]


def carry(request: HttpRequest) -> str:
    """The form of a request, signed; empty where it is none of ours or holds what is secret.

    Files do not come along: a browser lets no page fill them in.
    """
    if request.method != "POST" or request.path.startswith(_NEVER) or not _ours(request):
        return ""
    fields = [
        (key, value)
        for key, values in request.POST.lists()
        if key != _OWN
        for value in values
        if isinstance(value, str)
    ]
    return signing.dumps([request.get_full_path(), fields], salt=_SALT, compress=True)


def carried(told: str) -> Carried | None:
    """What such a text carries; None where it is none of ours, or a day old."""
    try:
        path, fields = signing.loads(told, salt=_SALT, max_age=_KEPT_S)
    except signing.BadSignature:
        return None
    return Carried(path, tuple((key, value) for key, value in fields))


def _ours(request: HttpRequest) -> bool:
    """Whether a form came from a page of ours, as every form has to show."""
    try:
        match = resolve(request.path_info)
    except Resolver404:
        return False
    guard = CsrfViewMiddleware(_nothing)
    guard.process_request(request)
    refused: Any = guard.process_view(request, match.func, match.args, match.kwargs)
    return refused is None


def _nothing(_: HttpRequest) -> HttpResponse:
    return HttpResponse()
