"""The plan page: a bed's letter with its facts editable where they stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from importlib import metadata
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, render
from django.urls import URLPattern, path, reverse
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe

from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.html import sections_html
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.web.answers import Answered, answered, words_of
from loamshift.web.cases import Tree, text_of, tree_of, with_fields
from loamshift.web.facts import Piece, facts, faults_elsewhere
from loamshift.web.middleware import office_of

BUNDLE: Final = metadata.version("vl-convert-python")
"""The chart script changes with this version only, so that a browser may keep it."""


@dataclass(frozen=True, slots=True)
class Page:
    """What the plan page shows: sentences with fields, and the answer or what is wrong."""

    tree: Tree
    sentences: tuple[tuple[Piece, ...], ...]
    answered: Answered | None
    faults: tuple[Fault, ...]


@require_safe
def walk_in(request: HttpRequest) -> HttpResponse:
    """Answer somebody who has just walked in; the address holds all that was said."""
    tree = with_fields({}, said_in(request))
    return _render(request, tree, bed=None)


@require_safe
def bed_plan(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The plan of a kept bed; what the address says stands in place of what is kept."""
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=pk)
    tree = with_fields(tree_of(bed.case_text), said_in(request))
    return _render(request, tree, bed=bed)


def said_in(request: HttpRequest) -> list[tuple[str, str]]:
    """The fields of a case file among what an address says."""
    return [
        (key, value)
        for key, values in request.GET.lists()
        if "." in key or key in ("name", "units", "today")
        for value in values
    ]


def page_of(tree: Mapping[str, Any], *, office: Office, today: date) -> Page:
    """Everything on the plan page for a tree of fields."""
    faults: tuple[Fault, ...] = ()
    found: Answered | None = None
    try:
        if tree.get("soil") or tree.get("aim"):
            found = answered(text_of(tree), office=office, today=today)
    except CaseError as error:
        faults = error.faults
    except InputError as error:
        faults = (Fault("", "", str(error), ""),)
    return Page(dict(tree), facts(tree, units=office.units, faults=faults), found, faults)


def _render(request: HttpRequest, tree: Tree, *, bed: Bed | None) -> HttpResponse:
    office = office_of(request)
    page = page_of(tree, office=office, today=date.today())  # noqa: DTZ011 - the local day
    context = {
        "page": page,
        "sections": sections_html(page.answered.letter) if page.answered else "",
        "bed": bed,
        "sliders": reverse("bed-sliders", args=[bed.pk]) if bed else reverse("plan-sliders"),
        "title": tree.get("name") or (bed.name if bed else ""),
        "elsewhere": faults_elsewhere(page.faults),
        "changed": bed is not None and bool(said_in(request)),
    }
    part = "_letter.html" if getattr(request, "htmx", False) else "plan.html"
    return render(request, f"loamshift/plan/{part}", context)


@require_safe
def walk_in_sliders(request: HttpRequest) -> HttpResponse:
    """What the sliders of a walk-in need."""
    return _sliders(request, with_fields({}, said_in(request)))


@require_safe
def bed_sliders(request: HttpRequest, pk: UUID) -> HttpResponse:
    """What the sliders of a kept bed need."""
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=pk)
    return _sliders(request, with_fields(tree_of(bed.case_text), said_in(request)))


def _sliders(request: HttpRequest, tree: Tree) -> HttpResponse:
    from loamshift.web.live import TONES, slider_data

    office = office_of(request)
    tone = TONES.get(request.GET.get("tone", ""), TONES["light"])
    wide = request.GET.get("width", "")
    width = min(max(int(wide), 300), 700) if wide.isdecimal() else 620
    found = page_of(tree, office=office, today=date.today()).answered  # noqa: DTZ011
    data = (
        None
        if found is None
        else slider_data(found, words=words_of(office), tone=tone, width=width)
    )
    if data is None:
        return HttpResponse(status=204)
    return JsonResponse(data)


@require_safe
@cache_control(max_age=31_536_000, immutable=True)
def bundle(request: HttpRequest) -> HttpResponse:
    """Return the script that draws live charts; its address holds its version."""
    from loamshift.report.chart import live_bundle

    return HttpResponse(live_bundle(), content_type="text/javascript; charset=utf-8")


ROUTES: list[URLPattern] = [
    path("plan", walk_in, name="plan"),
    path("plan/sliders", walk_in_sliders, name="plan-sliders"),
    path("beds/<uuid:pk>", bed_plan, name="bed"),
    path("beds/<uuid:pk>/sliders", bed_sliders, name="bed-sliders"),
    path(f"charts-{BUNDLE}.js", bundle, name="charts"),
]
