"""What the pages of beds put into templates."""

from __future__ import annotations

from typing import Any

from django import template

from loamshift.store.models import Bed
from loamshift.web.beds.forms import QUICK

register = template.Library()


@register.inclusion_tag("beds/_quick.html", takes_context=True)
def quick_adds(context: dict[str, Any], bed: Bed) -> dict[str, Any]:
    """Two short forms: a new test, and something put on; what was wrong stands as it was typed."""
    wrong, request = context.get("quick"), context["request"]
    return {
        "bed": bed,
        "forms": [
            wrong if isinstance(wrong, kind) else kind(request, bed, typed=False)
            for kind in QUICK.values()
        ],
        "page": "history" if "events" in context else "",
        "words": context.get("words"),
        "csrf_token": context.get("csrf_token"),
    }
