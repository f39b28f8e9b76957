"""The letter of the plan page to take along: PDF, HTML, Markdown, JSON, case file."""

from __future__ import annotations

from typing import Final
from urllib.parse import urlencode
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_safe

from loamshift.errors import InputError
from loamshift.store.models import Bed
from loamshift.web.answers import answered, paper_of
from loamshift.web.cases import text_of_bed
from loamshift.web.downloads import download
from loamshift.web.letters.press import letter_bytes
from loamshift.web.letters.sending import frozen_text
from loamshift.web.middleware import office_of
from loamshift.web.plan.plan_page import said_in
from loamshift.web.plan.views.plan import address_of, asked_in, today

TYPES: Final = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "md": "text/markdown; charset=utf-8",
    "json": "application/json; charset=utf-8",
    "toml": "text/plain; charset=utf-8",
}


@require_safe
def file(request: HttpRequest, ending: str, pk: UUID | None = None) -> HttpResponse:
    """The letter of the plan page as a file."""
    if ending not in TYPES:
        raise Http404
    office = office_of(request)
    bed, tree = asked_in(request, pk)
    try:
        found = answered(tree, office=office, today=today())
    except InputError:
        return redirect(f"{address_of(bed)}?{urlencode(said_in(request.GET))}")
    data: str | bytes
    if ending == "toml":
        data = text_of_bed(bed or Bed(), tree)
    elif ending == "json":
        data = frozen_text(found)
    else:
        paper = paper_of(office)
        data = letter_bytes(found.letter, ending, paper=paper, words=found.words)
    letter = found.letter
    return download(data, name=letter.title, day=letter.day, tail=f".{ending}", kind=TYPES[ending])
