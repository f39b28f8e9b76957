"""Putting the first steps and the invented beds away."""

from __future__ import annotations

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import URLPattern, path
from django.utils.translation import gettext
from django.views.decorators.http import require_POST

from loamshift.errors import InputError
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.store.scope import kept
from loamshift.web.middleware import office_of
from loamshift.web.said import told, told_fault, who
from loamshift.web.tour import samples
from loamshift.web.views.changes import next_page


@require_POST
def done(request: HttpRequest) -> HttpResponse:
    """Put the first steps away for this office."""
    _toured(office_of(request), toured=True)
    told(request, gettext("The first steps are put away; Settings shows them again"))
    return redirect(next_page(request, otherwise="start"))


@require_POST
def again(request: HttpRequest) -> HttpResponse:
    """Show the first steps again."""
    _toured(office_of(request), toured=False)
    return redirect("start")


@require_POST
def samples_away(request: HttpRequest) -> HttpResponse:
    """Put every invented bed away as one act, and the client and garden made for them alone."""
    office = office_of(request)
    beds = list(samples(office).select_related("garden__client"))
    writer = Writer(office, user=who(request), what=gettext("Deleted the invented beds"))
    gardens = {bed.garden for bed in beds if bed.garden is not None}
    try:
        with transaction.atomic():
            for bed in beds:
                writer.put_away(bed)
            for garden in gardens:
                if not kept(Bed, office).filter(garden=garden).exists():
                    writer.put_away(garden)
            for client in {garden.client for garden in gardens}:
                if not _has_more(client, office):
                    writer.put_away(client)
    except InputError as fault:
        told_fault(request, fault)
        return redirect(next_page(request, otherwise="start"))
    if beds:
        told(request, writer.what, writer.act)
    return redirect(next_page(request, otherwise="start"))


def _has_more(client: Client, office: Office) -> bool:
    return kept(Garden, office).filter(client=client).exists()


def _toured(office: Office, *, toured: bool) -> None:
    office.toured = toured
    office.save(update_fields=["toured"])


ROUTES: list[URLPattern] = [
    path("tour/done", done, name="tour-done"),
    path("tour/again", again, name="tour-again"),
    path("tour/samples-away", samples_away, name="samples-away"),
]
