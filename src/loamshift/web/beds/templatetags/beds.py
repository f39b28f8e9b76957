"""What the pages of beds put into templates."""

from __future__ import annotations

from typing import Any

from django import template

from loamshift.store.models import Bed
from loamshift.web.beds.forms import QUICK, PlannedForm, QuickForm
from loamshift.web.beds.last_letter import answer_text_of, last_sent
from loamshift.web.beds.next_thing import due_part

register = template.Library()


@register.inclusion_tag("beds/_quick.html", takes_context=True)
def quick_adds(context: dict[str, Any], bed: Bed) -> dict[str, Any]:
    """Short forms: a part that is due, a new test, and something put on.

    What was wrong stands as it was typed.
    """
    wrong, request = context.get("quick"), context["request"]
    forms: list[QuickForm] = [
        wrong if isinstance(wrong, kind) else kind(request, bed, typed=False)
        for kind in QUICK.values()
    ]
    return {
        "bed": bed,
        "forms": [*_planned(bed, context), *forms],
        "page": "history" if "events" in context else "",
        "words": context.get("words"),
        "csrf_token": context.get("csrf_token"),
    }


def _planned(bed: Bed, context: dict[str, Any]) -> list[QuickForm]:
    """The part of the plan that is due; none where the page tries something out."""
    page = context.get("page")
    found = context.get("found") if page is None else page.answered
    if found is None or (page is not None and page.fields):
        return []
    due = due_part(found.case, found.answer, last_sent(bed), read=answer_text_of)
    if due is None:
        return []
    return [PlannedForm(context["request"], bed, due, case=found.case, words=found.words)]
