"""Addresses of sums in templates: what opens a number of a letter knows whose letter it is."""

from __future__ import annotations

from typing import Any

from django import template
from django.urls import reverse
from django.utils.html import escape
from django.utils.http import urlencode
from django.utils.safestring import SafeString, mark_safe

register = template.Library()


@register.simple_tag(takes_context=True)
def own_sums(context: Any, letter_html: str | None) -> SafeString:
    """Pieces of a letter whose links to explanations lead to the sums of its own bed."""
    asked = asked_of(context.get("bed"), context.get("page"))
    start = f'href="{reverse("why-all")}'
    before, *links = (letter_html or "").split(start)
    pieces = [before]
    for link in links:
        address, quote, after = link.partition('"')
        more = f"?{escape(asked)}" if asked else ""
        pieces.append(f"{start}{address}{more}{quote}{after}")
    return mark_safe("".join(pieces))


def asked_of(bed: Any, page: Any) -> str:
    """What an address says of a bed and of what differs on its page."""
    parts = [urlencode({"bed": str(bed.pk)})] if bed is not None else []
    query = getattr(page, "query", "")
    return "&".join((*parts, query) if query else parts)
