"""Clients: their page with gardens, beds and letters; added and changed."""

from __future__ import annotations

from datetime import date
from typing import Final
from uuid import UUID

from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from loamshift.store.models import Bed, Client, Garden, SentLetter, Trial
from loamshift.store.scope import kept
from loamshift.web.beds.views.listing import rows_of, with_last_letter
from loamshift.web.clients.forms import ClientForm
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.wording import words_of

LETTERS_SHOWN: Final = 20


@require_safe
def client(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One client: contact, gardens with their beds, letters."""
    office = office_of(request)
    one = kept_or_404(request, Client, pk)
    today = date.today()  # noqa: DTZ011 - the local day
    beds = with_last_letter(kept(Bed, office).filter(garden__client=one)).order_by("sought", "id")
    rows = rows_of(beds, office=office, today=today, patience_s=0.4)
    gardens = [
        (garden, [row for row in rows if row.bed.garden_id == garden.pk])
        for garden in kept(Garden, office).filter(client=one)
    ]
    letters = kept(SentLetter, office).filter(bed__garden__client=one).select_related("bed")
    context = {
        "client": one,
        "gardens": gardens,
        "letters": [
            (letter, words_of(office).date(letter.sent_on))
            for letter in letters.defer("answer_text")[:LETTERS_SHOWN]
        ],
        "letter_count": letters.count(),
        "trials": kept(Trial, office).filter(Q(client=one) | Q(bed__garden__client=one)),
    }
    return render(request, "clients/client.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """A new client."""
    return _form(request, Client())


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Name, contact and note of a client."""
    return _form(request, kept_or_404(request, Client, pk))


def _form(request: HttpRequest, one: Client) -> HttpResponse:
    form = ClientForm(request, one)
    if form.keep():
        return redirect("client", pk=one.pk)
    context = {"client": one, "form": form, "alike": _alike(request, form["name"].value() or "")}
    return render(request, "clients/edit_client.html", context, status=form.status)


def _alike(request: HttpRequest, name: str) -> list[Client]:
    """Clients of the same name, so that nobody is written down twice by mistake."""
    if not name or "\x00" in name:
        return []
    return list(kept(Client, office_of(request)).filter(name__iexact=name)[:3])
