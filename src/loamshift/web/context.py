"""What every page knows: the office, and whether this person may change things."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.http import HttpRequest


def page(request: HttpRequest) -> dict[str, Any]:
    """Office, role and mode for the templates."""
    return {
        "office": getattr(request, "office", None),
        "may_change": getattr(request, "may_change", False),
        "office_mode": settings.OFFICE_MODE,
    }
