"""What the pages of beds put into templates."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import template

from loamshift.domain.ph import PhMethod
from loamshift.store.models import Bed
from loamshift.web.beds.quick import QuickForm

register = template.Library()
_METHODS: Final = tuple(str(method) for method in PhMethod)


def _method_of(bed: Bed) -> str:
    """How the pH of this bed was measured last; the next test is most likely done alike."""
    tree = bed.case_json
    told = [tree.get("soil"), *(tree.get("reading") or ())]
    methods = [str(one.get("ph_method", "")) for one in told if isinstance(one, dict)]
    return next((method for method in reversed(methods) if method), "")


@register.inclusion_tag("beds/_quick.html", takes_context=True)
def quick_adds(context: dict[str, Any], bed: Bed) -> dict[str, Any]:
    """Two short forms: a new test, and something put on; what was wrong stands as it was typed."""
    office = context.get("office")
    today = date.today().isoformat()  # noqa: DTZ011 - the local day
    wrong = context.get("quick")
    forms = {
        "reading": QuickForm.fresh("reading", date=today, ph_method=_method_of(bed)),
        "applied": QuickForm.fresh("applied", date=today),
    }
    if isinstance(wrong, QuickForm):
        forms[wrong.table] = wrong
    return {
        "bed": bed,
        **forms,
        "methods": _METHODS,
        "own_method": forms["reading"].values["ph_method"],
        "page": "history" if "events" in context else "",
        "us": getattr(office, "units", "") == "us",
        "words": context.get("words"),
        "csrf_token": context.get("csrf_token"),
    }
