"""What the pages of beds put into templates."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import template

from loamshift.domain.ph import PhMethod
from loamshift.store.models import Bed

register = template.Library()
_METHODS: Final = tuple(str(method) for method in PhMethod)


@register.inclusion_tag("beds/_quick.html", takes_context=True)
def quick_adds(context: dict[str, Any], bed: Bed) -> dict[str, Any]:
    """Two short forms: a new test, and something put on."""
    office = context.get("office")
    return {
        "bed": bed,
        "methods": _METHODS,
        "today": date.today().isoformat(),  # noqa: DTZ011 - the local day
        "us": getattr(office, "units", "") == "us",
        "csrf_token": context.get("csrf_token"),
    }
