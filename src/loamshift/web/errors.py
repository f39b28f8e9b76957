"""What stands on the page when something could not be done: what it was, and what to do next."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from typing import Final

from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.db import InterfaceError, OperationalError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from loamshift.domain.message import message
from loamshift.report.messages import say
from loamshift.store.changes import KEPT_DAYS
from loamshift.web.sizes import LARGEST_UPLOAD
from loamshift.web.wording import words_for

RETRY_AFTER_S: Final = 10
"""When a page may be tried again where the database did not answer [s]."""


@dataclass(frozen=True, slots=True)
class Said:
    """A heading, why, and what to do next."""

    heading: str
    why: str
    next: str


def error_page(request: HttpRequest, status: int, *, name: str = "") -> HttpResponse:
    """The page for a status; it needs no database, no sign-in and no office."""
    context = {"status": status, "said": words_for_status(request, name or str(status))}
    response = render(request, "loamshift/error.html", context, status=status)
    if status == 503:
        response.headers["Retry-After"] = str(RETRY_AFTER_S)
    return response


def words_for_status(request: HttpRequest, name: str) -> Said:
    """What is said of a status, or of a form that has expired."""
    words = words_for(request)
    why: dict[str, int] = {"most": LARGEST_UPLOAD // 1_000_000} if name == "413" else {}
    after: dict[str, int] = {"days": KEPT_DAYS} if name == "404" else {}
    return Said(
        say(message(f"errors-{name}"), words),
        say(message(f"errors-{name}-why", **why), words),
        say(message(f"errors-{name}-next", **after), words),
    )


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """400, or 413 where a body was larger than a form may be."""
    large = isinstance(exception, (RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent))
    return error_page(request, 413 if large else 400)


def forbidden(request: HttpRequest, exception: Exception) -> HttpResponse:
    """403."""
    return error_page(request, 403)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """404."""
    return error_page(request, 404)


def our_fault(request: HttpRequest) -> HttpResponse:
    """500; 503 where the database does not answer, which is not ours to mend."""
    lost = isinstance(sys.exc_info()[1], (OperationalError, InterfaceError))
    return error_page(request, 503 if lost else 500)


def stale_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """403 for a form without the mark of this workbench."""
    return error_page(request, 403, name="stale")
