"""Browsers that somebody signed in with before, told by a signed cookie."""

from __future__ import annotations

import secrets
from typing import Any, Final

from django.conf import settings
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.utils.crypto import salted_hmac

SALT: Final = "loamshift.device"
KEPT_S: Final = 365 * 24 * 3600
MOST_PEOPLE: Final = 20
"""How many people one browser is remembered for; the latest ones."""
_PLAIN_NAME: Final = "loamshift-device"


def device_for(request: HttpRequest, name: str) -> str:
    """The id of a browser that signed in under this name before; empty for any other."""
    device, people = _told(request)
    return device if _mark(name) in people else ""


def remember(request: HttpRequest, response: HttpResponse, name: str) -> None:
    """Let a browser be known again as one that signed in under this name.

    Only a right password leads here, so nobody makes such a cookie by guessing, and one that
    is stolen opens nothing: it has a count of tries, like any other.
    """
    device, people = _told(request)
    mark = _mark(name)
    others = [one for one in people if one != mark][-(MOST_PEOPLE - 1) :]
    response.set_cookie(
        _cookie(),
        signing.dumps([device or secrets.token_urlsafe(16), [*others, mark]], salt=SALT),
        max_age=KEPT_S,
        secure=bool(settings.SESSION_COOKIE_SECURE),
        httponly=True,
        samesite="Lax",
    )


def _told(request: HttpRequest) -> tuple[str, list[str]]:
    try:
        told: Any = signing.loads(request.COOKIES.get(_cookie(), ""), salt=SALT, max_age=KEPT_S)
    except signing.BadSignature:
        return "", []
    device, people = told
    return device, people


def _cookie() -> str:
    return f"__Host-{_PLAIN_NAME}" if settings.SESSION_COOKIE_SECURE else _PLAIN_NAME


def _mark(name: str) -> str:
    """A name as the cookie holds it, which tells nobody who it is."""
    return salted_hmac(SALT, name.casefold().strip(), algorithm="sha256").hexdigest()[:32]
