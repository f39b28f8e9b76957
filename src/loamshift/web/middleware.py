"""For every request: may it come in, whose office it is, and a policy that keeps others out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, TypeVar
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, resolve_url
from django.utils.http import urlencode

from loamshift.store.models import Kept, Office, User
from loamshift.store.scope import kept
from loamshift.web.account.keys import holder_of
from loamshift.web.serve import is_loopback
from loamshift.web.sizes import LARGEST_FORM, LARGEST_UPLOAD

Next = Callable[[HttpRequest], HttpResponse]
Thing = TypeVar("Thing", bound=Kept)

POLICY: Final = (
    "default-src 'self'; img-src 'self' data:; frame-ancestors 'none'; base-uri 'none'; "
    "form-action 'self'; object-src 'none'"
)
HEALTH: Final = "/health"
OPEN_TO_STRANGERS: Final = ("/account/sign-in", HEALTH)
API: Final = "/api/"
LOOKING: Final = ("GET", "HEAD", "OPTIONS")
ONLY_TO_CHANGE: Final = frozenset(
    (
        "bed-applied",
        "bed-edit",
        "bed-new",
        "bed-test",
        "client-delete",
        "client-edit",
        "client-for-good",
        "client-new",
        "garden-cases",
        "garden-edit",
        "garden-new",
        "prices",
        "product-new",
    )
)
"""Names of pages on which there is nothing to see for somebody who may change nothing."""


def office_of(request: HttpRequest) -> Office:
    """The office that ``WhoseOffice`` put on a request."""
    office = getattr(request, "office", None)
    assert isinstance(office, Office)
    return office


def kept_or_404(request: HttpRequest, model: type[Thing], pk: UUID) -> Thing:
    """A thing of the office, unless it was put away."""
    return get_object_or_404(kept(model, office_of(request)), pk=pk)


def refused(request: HttpRequest, status: int) -> HttpResponse:
    """A page, or for a program JSON, that says why a request is turned away and what to do."""
    from loamshift.web.api.faults import answer_for_status
    from loamshift.web.errors import error_page

    if request.path.startswith(API):
        return answer_for_status(request, status)
    return error_page(request, status)


class ContentPolicy:
    """Send the content policy with everything: own files only, no inline script or style."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Add the headers; what an office sees is kept in no cache."""
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", POLICY)
        response.headers.setdefault(
            "Permissions-Policy", "camera=(), geolocation=(), microphone=()"
        )
        response.headers.setdefault(
            "Cache-Control", "private, no-store" if settings.OFFICE_MODE else "private, no-cache"
        )
        return response


class Worded:
    """Give words to refusals that Django sends bare, and one shape to those of the API."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Leave the status and its headers, and say what it means."""
        bare = self.get_response(request)
        by_program = request.path.startswith(API)
        if bare.status_code < 400 or bare.streaming:
            return bare
        if by_program and bare.headers.get("Content-Type", "").startswith("application/json"):
            return bare
        if not by_program and bare.status_code != 405:
            return bare
        worded = refused(request, bare.status_code)
        for name in ("Allow", "Retry-After"):
            if name in bare.headers:
                worded.headers[name] = bare.headers[name]
        return worded


class Admitted:
    """Turn away what comes from beyond this machine, under a name not ours, or far too large.

    A single adviser's workbench has no sign-in, so that only this machine may use it. The name
    it is called by is looked at for every request: a page elsewhere must not reach it by a name
    of its own that points here.
    """

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Look at the peer, the name and the size, in this order."""
        from loamshift.web.health import health

        near = is_loopback(str(request.META.get("REMOTE_ADDR", "")))
        if not settings.OFFICE_MODE and not near:
            return refused(request, 403)
        if near and request.path == HEALTH:
            return health(request)  # a monitor on this machine need not know our name
        request.get_host()
        if "%00" in request.META.get("QUERY_STRING", "") or "\x00" in request.path:
            return refused(request, 400)  # no database holds that sign, and nobody types it
        if _size(request) > _largest(request):
            return refused(request, 413)
        return self.get_response(request)


def _size(request: HttpRequest) -> int:
    told = str(request.META.get("CONTENT_LENGTH") or "0")
    return int(told) if told.isascii() and told.isdecimal() else 0


def _largest(request: HttpRequest) -> int:
    return LARGEST_UPLOAD if request.content_type == "multipart/form-data" else LARGEST_FORM


class WhoseOffice:
    """Put the office on the request: the only one without sign-in, the user's own with it."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Turn strangers away where people sign in, and readers from changing things."""
        if request.path in OPEN_TO_STRANGERS:
            return self.get_response(request)
        if not settings.OFFICE_MODE:
            request.office = the_office()  # type: ignore[attr-defined]
            request.may_change = True  # type: ignore[attr-defined]
            return self.get_response(request)
        by_key = holder_of(request) if request.path.startswith(API) else None
        if by_key is not None:
            request.user = by_key
        request.by_key = by_key is not None  # type: ignore[attr-defined]
        user = request.user
        if not isinstance(user, User) or user.office is None:
            return _stranger(request)
        request.office = user.office  # type: ignore[attr-defined]
        request.may_change = user.may_change  # type: ignore[attr-defined]
        request.person = user.pk  # type: ignore[attr-defined]
        looks = request.method in LOOKING or request.path.startswith("/account/")
        if not user.may_change and not looks:
            return refused(request, 403)
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: object, args: object, kwargs: object
    ) -> HttpResponse | None:
        """Turn readers away from pages that are there only to change something."""
        match = request.resolver_match
        if match is None or match.url_name not in ONLY_TO_CHANGE:
            return None
        return None if getattr(request, "may_change", False) else refused(request, 403)


def _stranger(request: HttpRequest) -> HttpResponse:
    if request.path.startswith(API):
        return refused(request, 401)
    from loamshift.web.account.carried import carry
    from loamshift.web.account.views.account import ask_to_sign_in

    form = carry(request)
    if form:
        return ask_to_sign_in(request, form)
    target = resolve_url("sign-in")
    if request.method in ("GET", "HEAD") and request.get_full_path() != "/":
        target = f"{target}?{urlencode({'next': request.get_full_path()})}"
    if request.headers.get("HX-Request") == "true":
        return HttpResponse(status=401, headers={"HX-Redirect": target})
    return redirect(target)


def the_office() -> Office:
    """The one office of a single adviser, made when it is missing."""
    return Office.objects.first() or Office.objects.create()
