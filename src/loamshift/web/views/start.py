"""The start page: a first answer for somebody who has just walked in."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import URLPattern, path
from django.utils.translation import gettext_lazy as _

from loamshift.store.models import Bed
from loamshift.store.scope import kept
from loamshift.web.facts import field_of
from loamshift.web.middleware import office_of

RECENT: Final = 6
"""Beds listed on the start page [count]."""
ASKED_FIRST: Final = (
    ("ph", "soil.ph", _("number")),
    ("method", "soil.ph_method", ""),
    ("texture", "soil.texture", _("sand, loam, clay …")),
    ("plant", "aim.plant", _("which plant")),
    ("place", "place.name", _("the nearest town")),
)


def start(request: HttpRequest) -> HttpResponse:
    """Ask the four things that matter most; the answer is the plan page."""
    office = office_of(request)
    beds = kept(Bed, office).select_related("garden__client").order_by("-changed_at", "id")
    context = {
        "fields": {
            name: replace(field_of(path, {}, units=office.units), empty=str(empty))
            for name, path, empty in ASKED_FIRST
        },
        "beds": beds[: RECENT + 1],
        "recent": RECENT,
    }
    return render(request, "loamshift/start.html", context)


ROUTES: list[URLPattern] = [path("", start, name="start")]
