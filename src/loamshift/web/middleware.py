"""For every request: whose office it is, and a policy that lets nothing in from elsewhere."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, resolve_url
from django.utils.http import urlencode

from loamshift.store.models import Office, User

Next = Callable[[HttpRequest], HttpResponse]

POLICY: Final = (
    "default-src 'self'; img-src 'self' data:; frame-ancestors 'none'; base-uri 'none'; "
    "form-action 'self'; object-src 'none'"
)
OPEN_TO_STRANGERS: Final = ("/account/sign-in", "/health", "/static/")
LOOKING: Final = ("GET", "HEAD", "OPTIONS")


def office_of(request: HttpRequest) -> Office:
    """The office that ``WhoseOffice`` put on a request."""
    office = getattr(request, "office", None)
    assert isinstance(office, Office)
    return office


class ContentPolicy:
    """Send the content policy with everything: own files only, no inline script or style."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Add the header."""
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", POLICY)
        response.headers.setdefault(
            "Permissions-Policy", "camera=(), geolocation=(), microphone=()"
        )
        return response


class WhoseOffice:
    """Put the office on the request: the only one without sign-in, the user's own with it."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Turn strangers away where people sign in, and readers from changing things."""
        if request.path.startswith(OPEN_TO_STRANGERS):
            return self.get_response(request)
        if not settings.OFFICE_MODE:
            request.office = the_office()  # type: ignore[attr-defined]
            request.may_change = True  # type: ignore[attr-defined]
            return self.get_response(request)
        user = request.user
        if not isinstance(user, User) or user.office is None:
            if request.path.startswith("/api/"):
                return HttpResponse(
                    '{"detail": "sign in first"}', status=401, content_type="application/json"
                )
            return redirect(
                f"{resolve_url('sign-in')}?{urlencode({'next': request.get_full_path()})}"
            )
        request.office = user.office  # type: ignore[attr-defined]
        request.may_change = user.may_change  # type: ignore[attr-defined]
        if (
            not user.may_change
            and request.method not in LOOKING
            and not request.path.startswith("/account/")
        ):
            return HttpResponse("Readers may look, but not change.", status=403)
        return self.get_response(request)


def the_office() -> Office:
    """The one office of a single adviser, made when it is missing."""
    return Office.objects.first() or Office.objects.create()
