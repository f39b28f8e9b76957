"""What every page knows: the office, the way round, and whether this person may change things."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from django.conf import settings
from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

DESK: Final = (
    ("beds", _("Beds"), ("/beds", "/clients", "/gardens")),
    ("claims", _("Claims"), ("/claims",)),
    ("shelf", _("Shelf"), ("/shelf",)),
    ("post", _("Post"), ("/post",)),
)
BACK_ROOM: Final = (
    ("changes", _("Changes"), ("/changes",)),
    ("settings", _("Settings"), ("/settings",)),
)


@dataclass(frozen=True, slots=True)
class Way:
    """One page in the line at the top."""

    address: str
    label: Any
    here: bool


def page(request: HttpRequest) -> dict[str, Any]:
    """Office, role, mode, and the ways round for the templates."""
    office = getattr(request, "office", None)
    return {
        "office": office,
        "may_change": getattr(request, "may_change", False),
        "office_mode": settings.OFFICE_MODE,
        "desk": _ways(DESK, request) if office else (),
        "back_room": _ways(BACK_ROOM, request) if office else (),
    }


def _ways(pages: tuple[tuple[str, Any, tuple[str, ...]], ...], request: HttpRequest) -> list[Way]:
    return [
        Way(reverse(name), label, request.path.startswith(starts)) for name, label, starts in pages
    ]
