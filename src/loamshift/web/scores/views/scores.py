"""How good our forecasts are: the page of a bed, a client and an office, and the file of pairs."""

from __future__ import annotations

from datetime import date
from uuid import UUID

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from loamshift.domain.message import Given, Message, message
from loamshift.report.score_pairs import pair_columns, pairs_csv, pairs_json
from loamshift.report.scores import scores_letter
from loamshift.store.models import Bed, Client
from loamshift.store.scope import kept
from loamshift.web.downloads import download
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.scores.scored import scored
from loamshift.web.wording import words_of

KINDS = {"csv": "text/csv; charset=utf-8", "json": "application/json"}


@require_safe
def office_scores(request: HttpRequest) -> HttpResponse:
    """All beds of the office."""
    return _page(request, kept(Bed, office_of(request)), message("score-under-office"), ())


@require_safe
def client_scores(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The beds of one client."""
    office = office_of(request)
    client = kept_or_404(request, Client, pk)
    beds = kept(Bed, office).filter(garden__client=client)
    under = message("score-under-client", name=Given(client.name))
    return _page(request, beds, under, ((reverse("client", args=[pk]), client.name),))


@require_safe
def bed_scores(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One bed."""
    office = office_of(request)
    bed = kept_or_404(request, Bed, pk)
    under = message("score-under-bed", name=Given(bed.name))
    back = ((reverse("bed-history", args=[pk]), bed.name),)
    return _page(request, kept(Bed, office).filter(pk=pk), under, back)


@require_safe
def pairs_file(request: HttpRequest, kind: str) -> HttpResponse:
    """The pairs of the office without names, as CSV or JSON."""
    if kind not in KINDS:
        raise Http404
    office = office_of(request)
    today = date.today()  # noqa: DTZ011 - the local day
    pairs = scored(kept(Bed, office), office, today=today).pairs
    text = pairs_csv(pairs) if kind == "csv" else pairs_json(pairs, words=words_of(office))
    return download(text, name="forecast-pairs", day=today, tail=f".{kind}", kind=KINDS[kind])


def _page(
    request: HttpRequest,
    beds: QuerySet[Bed],
    under: Message,
    back: tuple[tuple[str, str], ...],
) -> HttpResponse:
    office = office_of(request)
    words = words_of(office)
    found = scored(beds, office, today=date.today())  # noqa: DTZ011 - the local day
    letter = scores_letter(found.summary, found.pairs, under=under, words=words)
    context = {
        "letter": letter,
        "sections": letter_plain(letter, words=words),
        "back": back,
        "found": found,
        "columns": pair_columns(words),
        "style": letter_style_name(),
    }
    return render(request, "scores/scores.html", context)
