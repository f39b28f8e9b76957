"""The plan page: a bed's letter with its facts editable where they stand."""

from __future__ import annotations

from datetime import date
from functools import cache
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe

from loamshift.domain.message import Given, Message, message
from loamshift.errors import InputError
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.models import Bed, Client, Garden
from loamshift.store.scope import kept
from loamshift.web.cases import Tree, with_fields
from loamshift.web.compiled import COMPILED
from loamshift.web.forecasts import FORECASTS
from loamshift.web.letters.letter_style import letter_style, letter_style_name
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.once import GoneError
from loamshift.web.plan.forms import KeepForm
from loamshift.web.plan.plan_page import Page, page_of, said_in
from loamshift.web.turns import stays
from loamshift.web.wording import words_of

FOREVER: Final = 31_536_000
FORMS: Final = (("pdf", "PDF"), ("html", "HTML"), ("md", "Markdown"), ("json", "JSON"))
"""What a letter can be taken along as."""
LONGEST_TYPED: Final = 80
"""So much of a place is looked at [characters]."""
GONE: Final = "waitress.client_disconnected"
"""Where the server says whether the browser that asked is still there."""
AGAIN_S: Final = 2
"""After how long a page asks again for a forecast when too many wait for theirs [s]."""


def asked_in(request: HttpRequest, pk: UUID | None) -> tuple[Bed | None, Tree]:
    """The kept bed of an address, None for quick advice, and its tree.

    What the address says stands in place of what is kept; for quick advice it holds all.
    """
    bed = None if pk is None else kept_or_404(request, Bed, pk)
    return bed, with_fields({} if bed is None else bed.case_json, said_in(request.GET))


def address_of(bed: Bed | None) -> str:
    """Where the plan of a bed stands, or quick advice."""
    return reverse("plan") if bed is None else reverse("bed", args=[bed.pk])


@require_safe
def plan(request: HttpRequest, pk: UUID | None = None) -> HttpResponse:
    """The plan of a kept bed, or for somebody who has just walked in."""
    bed, tree = asked_in(request, pk)
    return show_plan(request, tree, bed=bed, at_once=_comes_later(request))


@require_safe
def whole(request: HttpRequest, pk: UUID | None = None) -> HttpResponse:
    """The pieces with the forecast; where too many wait for theirs, when to ask again."""
    bed, tree = asked_in(request, pk)
    if not _is_piecewise(request):
        return redirect(f"{address_of(bed)}?{urlencode(said_in(request.GET))}")
    at_once = FORECASTS.is_full or not COMPILED.is_ready
    return show_plan(request, tree, bed=bed, at_once=at_once)


def _comes_later(request: HttpRequest) -> bool:
    """True where the answer is shown at once, and the page asks for the forecast by itself."""
    return _is_piecewise(request) or not COMPILED.is_ready


def _is_piecewise(request: HttpRequest) -> bool:
    """True where scripts ask for pieces of a page that is there already."""
    return bool(getattr(request, "htmx", False))


def today() -> date:
    """The local day."""
    return date.today()  # noqa: DTZ011


def show_plan(
    request: HttpRequest,
    tree: Tree,
    *,
    bed: Bed | None,
    before: Tree | None = None,
    at_once: bool = False,
    status: int = 200,
    more: dict[str, Any] | None = None,
) -> HttpResponse:
    """The plan page of a tree of fields, or the pieces of it that follow a change.

    Parameters
    ----------
    before
        The tree of the bed as it is kept, where it was read already.
    at_once
        True for the answer without its forecast, unless the whole one is known already.
    status
        Status of the response [number].
    more
        What the page shows besides [objects by name].
    """
    office = office_of(request)
    if bed is not None and before is None:
        before = bed.case_json
    try:
        page = page_of(
            tree,
            office=office,
            today=today(),
            kept=before,
            at_once=at_once,
            gone=request.META.get(GONE, stays),
        )
    except GoneError:
        return HttpResponse(status=204)  # nobody reads it
    here = address_of(bed)
    title = title_of(page, bed, words=words_of(office))
    context = {
        "page": page,
        "bed": bed,
        "letter": None if page.answered is None else page.answered.page,
        "title": title,
        "keep": None if bed else KeepForm(request, typed=False, initial={"name": title}),
        "here": here,
        "style": letter_style_name(),
        "sliders": f"{here}/sliders",
        "whole": f"{here}/whole",
        "again_s": AGAIN_S if request.path.endswith("/whole") else 0,
        "preparing": not COMPILED.is_ready,
        "sheets": sheets_of(page, here),
        "files": [(f"{here}/letter.{ending}", said) for ending, said in FORMS],
        "clients": [] if bed else kept(Client, office).order_by("name")[:300],
        "gardens": [] if bed else kept(Garden, office).order_by("name")[:300],
        "oob": _is_piecewise(request),
        **(more or {}),
    }
    part = "plan.html"
    if context["oob"] and status == 200:
        part = "_first_parts.html" if page.is_coming else "_parts.html"
    response = render(request, f"plan/{part}", context, status=status)
    if part == "_first_parts.html":
        response.headers["HX-Reswap"] = "none"
    response.headers["Vary"] = "HX-Request, Cookie"
    response.headers["Cache-Control"] = "no-store"
    return response


def sheets_of(page: Page, here: str) -> list[tuple[str, Message]]:
    """Sheets there are for what the page tells of, each with its address and what it is called."""
    if page.answered is None:
        return []
    names = [("card", message("advice-sheet-card"))]
    if page.answered.answer.rescue is not None:
        names.append(("rescue", message("advice-sheet-rescue")))
    names.append(("sampling", message("advice-sheet-sampling")))
    return [(f"{here}/sheets/{name}.pdf", said) for name, said in names]


def title_of(page: Page, bed: Bed | None, *, words: Words) -> str:
    """What a plan is called: its name, or what is to grow where."""
    name = str(page.tree.get("name") or (bed.name if bed is not None else ""))
    if name:
        return name
    plant = str((page.tree.get("aim") or {}).get("plant", ""))
    where = str((page.tree.get("place") or {}).get("name", ""))
    if not plant and not where:
        return say(message("page-quick-advice"), words)
    if not plant:
        return where
    if not where:
        return say(message("advice-title", plant=Given(plant)), words)
    return say(message("advice-title-where", plant=Given(plant), place=Given(where)), words)


@require_safe
def sliders(request: HttpRequest, pk: UUID | None = None) -> HttpResponse:
    """What the sliders of the page need."""
    from loamshift.web.plan.live import sliders_of

    try:
        data = sliders_of(asked_in(request, pk)[1], office=office_of(request), today=today())
    except InputError:
        data = None
    return HttpResponse(status=204) if data is None else JsonResponse(data)


@require_safe
@cache_control(max_age=FOREVER, immutable=True)
def style(request: HttpRequest, name: str) -> HttpResponse:
    """Return the letter's own rules, kept to the letter; the address changes with them."""
    return HttpResponse(letter_style(), content_type="text/css; charset=utf-8")


@require_safe
@cache_control(max_age=86_400)
def known(request: HttpRequest) -> HttpResponse:
    """Return the names that fields suggest: plants and textures."""
    return JsonResponse(_known())


@require_safe
@cache_control(max_age=86_400)
def places_like(request: HttpRequest) -> HttpResponse:
    """Return the places that begin as somebody has typed, eight at most."""
    from loamshift.tables.places import places_starting

    return JsonResponse({"places": places_starting(request.GET.get("typed", "")[:LONGEST_TYPED])})


@cache
def _known() -> dict[str, list[str]]:
    from loamshift.tables.plants import load_plants
    from loamshift.tables.soils import load_textures

    return {
        "plants": sorted(load_plants()),
        "textures": [texture.name.lower() for texture in load_textures().values()],
    }
