"""``{% tour %}``: the first steps, one sentence at a time, where a page wants them."""

from __future__ import annotations

from typing import Any

from django import template
from django.http import HttpRequest

from loamshift.web.plan.tour import strip

register = template.Library()


@register.inclusion_tag("plan/_tour.html", takes_context=True)
def tour(context: dict[str, Any]) -> dict[str, Any]:
    """What the strip shows; nothing where somebody has seen it, or may not put it away."""
    request = context.get("request")
    if not isinstance(request, HttpRequest):
        return {"step": None}
    return {"step": strip(request), "csrf_token": context.get("csrf_token"), "request": request}
