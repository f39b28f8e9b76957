"""The letter of the plan page to take along: PDF, HTML, Markdown, JSON, case file."""

from __future__ import annotations

from typing import Final
from urllib.parse import urlencode
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import URLPattern, path, reverse
from django.views.decorators.http import require_safe

from loamshift.errors import InputError
from loamshift.store.models import Bed, Office
from loamshift.store.scope import kept
from loamshift.web.answers import Answered, answered, paper_of
from loamshift.web.cases import Tree, text_of_bed, with_fields
from loamshift.web.downloads import download
from loamshift.web.middleware import office_of
from loamshift.web.plan.plan_page import said_in
from loamshift.web.plan.views.keep import frozen_text
from loamshift.web.plan.views.plan import today

TYPES: Final = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "md": "text/markdown; charset=utf-8",
    "json": "application/json; charset=utf-8",
    "toml": "text/plain; charset=utf-8",
}


@require_safe
def walk_in_file(request: HttpRequest, ending: str) -> HttpResponse:
    """The letter of a walk-in as a file."""
    tree = with_fields({}, said_in(request.GET))
    return _file(request, tree, ending, bed=Bed(), back=reverse("plan"))


@require_safe
def bed_file(request: HttpRequest, pk: UUID, ending: str) -> HttpResponse:
    """The letter of a kept bed as a file; what the address says stands in place of what is kept."""
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=pk)
    tree = with_fields(bed.case_json, said_in(request.GET))
    return _file(request, tree, ending, bed=bed, back=reverse("bed", args=[pk]))


def _file(request: HttpRequest, tree: Tree, ending: str, *, bed: Bed, back: str) -> HttpResponse:
    if ending not in TYPES:
        raise Http404
    office = office_of(request)
    try:
        found = answered(tree, office=office, today=today())
    except InputError:
        return redirect(f"{back}?{urlencode(said_in(request.GET))}")
    data = text_of_bed(bed, tree) if ending == "toml" else letter_bytes(found, office, ending)
    letter = found.letter
    return download(data, name=letter.title, day=letter.day, tail=f".{ending}", kind=TYPES[ending])


def letter_bytes(found: Answered, office: Office, ending: str) -> bytes:
    """A letter as the bytes of a file of one kind: pdf, html, md or json."""
    words = found.words
    if ending == "pdf":
        from loamshift.web.letters.press import press

        return press(found.letter, paper=paper_of(office), words=words)
    if ending == "html":
        from loamshift.report.html import letter_html

        return letter_html(found.letter, words=words).encode("utf-8")
    if ending == "md":
        from loamshift.report.markdown import letter_markdown

        return letter_markdown(found.letter).encode("utf-8")
    return frozen_text(found, office).encode("utf-8")


ROUTES: list[URLPattern] = [
    path("plan/letter.<slug:ending>", walk_in_file, name="plan-file"),
    path("beds/<uuid:pk>/letter.<slug:ending>", bed_file, name="bed-file"),
]
