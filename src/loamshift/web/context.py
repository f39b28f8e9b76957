"""What every page knows: the office, its words, the navigation, and who may change things."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from django.conf import settings
from django.http import HttpRequest
from django.urls import reverse

from loamshift.domain.message import Message, message
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.changes import KEPT_DAYS
from loamshift.web.wording import words_for

Pages = tuple[tuple[str, Message, tuple[str, ...]], ...]
_OF_BEDS: Final = ("/beds", "/clients", "/gardens", "/trials", "/jars", "/fields")
MAIN: Final[Pages] = (
    (
        "beds",
        message("page-beds"),
        ("/beds", "/clients", "/gardens", "/trials", "/jars", "/fields"),
    ),
    ("claims", message("page-claims"), ("/claims",)),
    ("shelf", message("page-products"), ("/shelf",)),
    ("post", message("page-letters"), ("/post",)),
    ("inbox", message("inbox-title"), ("/inbox",)),
)
OFFICE: Final[Pages] = (
    ("changes", message("page-history"), ("/changes",)),
    ("settings", message("page-settings"), ("/settings",)),
)


@dataclass(frozen=True, slots=True)
class Way:
    """One page in the line at the top."""

    address: str
    label: str
    here: bool


def page(request: HttpRequest) -> dict[str, Any]:
    """Office, words, role, mode, and the navigation for the templates."""
    office = getattr(request, "office", None)
    words = words_for(request)
    return {
        "office": office,
        "words": words,
        "undo_days": KEPT_DAYS,
        "may_change": getattr(request, "may_change", False),
        "office_mode": settings.OFFICE_MODE,
        "main_pages": _ways(MAIN, request, words) if office else (),
        "office_pages": _ways(OFFICE, request, words) if office else (),
    }


def _ways(pages: Pages, request: HttpRequest, words: Words) -> list[Way]:
    return [
        Way(reverse(name), say(label, words), request.path.startswith(starts))
        for name, label, starts in pages
    ]
