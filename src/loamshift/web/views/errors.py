"""What stands on the page when something could not be done: what it was, and what to do next."""

from __future__ import annotations

from dataclasses import dataclass

from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext

from loamshift.web.sizes import LARGEST_UPLOAD


@dataclass(frozen=True, slots=True)
class Said:
    """A heading, why, and what to do next."""

    heading: str
    why: str
    next: str


def error_page(request: HttpRequest, status: int, *, said: Said | None = None) -> HttpResponse:
    """The page for a status; it needs no database, no sign-in and no office."""
    context = {"status": status, "said": said or words_for(status)}
    return render(request, "loamshift/errors/error.html", context, status=status)


def words_for(status: int) -> Said:
    """What is said for a status."""
    mega = LARGEST_UPLOAD // 1_000_000
    known = {
        400: Said(
            gettext("That could not be read"),
            gettext("The request was not one that this workbench understands."),
            gettext(
                "Go back and try again. If a saved address brought you here, open the page "
                "anew from the start."
            ),
        ),
        403: Said(
            gettext("That is not yours to do here"),
            gettext(
                "Readers may look at everything of their office, but change nothing; and a "
                "workbench for one adviser answers on its own machine only."
            ),
            gettext("Ask an adviser of your office to make the change."),
        ),
        404: Said(
            gettext("Nothing is here"),
            gettext("The address has a slip in it, or what stood here was deleted."),
            gettext("What was deleted in the last thirty days can be taken back under Changes."),
        ),
        405: Said(
            gettext("This address does something else"),
            gettext("It cannot be opened like a page; it answers a button on another page."),
            gettext("Go back to that page and use the button."),
        ),
        413: Said(
            gettext("That is too large"),
            gettext("Files together may have %d MB, a form without files 2.5 MB.") % mega,
            gettext(
                "Nothing was kept. Send less at once; whole stores larger than this come in "
                "with loamshift restore."
            ),
        ),
        500: Said(
            gettext("That went wrong, and it is our fault"),
            gettext(
                "The program failed while it made this page. What you had saved before is "
                "kept; what you were just saving may not be."
            ),
            gettext(
                "Go back and try once more. If it fails again, please report it with what you did."
            ),
        ),
    }
    return known[status]


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
    """500."""
    return error_page(request, 500)


def stale_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """403 for a form without the mark of this workbench."""
    said = Said(
        gettext("This form was open for too long, or came from another page"),
        gettext(
            "Forms carry a mark that shows they come from a page of this workbench; this one had "
            "none that holds. Nothing was changed. Signing in or out elsewhere also makes an open "
            "form stale."
        ),
        gettext(
            "Go back, load the page anew, and send the form again. What you typed should still "
            "stand there."
        ),
    )
    return error_page(request, 403, said=said)
