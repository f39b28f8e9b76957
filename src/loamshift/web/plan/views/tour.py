"""Closing the tour, and deleting the example beds."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from loamshift.domain.message import message
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.store.scope import kept
from loamshift.web.acts import do_act
from loamshift.web.data.views.changes import next_page
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify
from loamshift.web.plan.tour import samples


@require_POST
def done(request: HttpRequest) -> HttpResponse:
    """Put the first steps away for this office."""
    _toured(office_of(request), toured=True)
    notify(request, message("tour-closed"))
    return redirect(next_page(request, otherwise="start"))


@require_POST
def again(request: HttpRequest) -> HttpResponse:
    """Show the first steps again."""
    _toured(office_of(request), toured=False)
    return redirect("start")


@require_POST
def samples_away(request: HttpRequest) -> HttpResponse:
    """Delete every example bed as one act, and the client and garden made for them alone."""
    office = office_of(request)
    beds = list(samples(office).select_related("garden__client"))
    gardens = {bed.garden for bed in beds if bed.garden is not None}

    def delete(writer: Writer) -> None:
        for bed in beds:
            writer.put_away(bed)
        for garden in gardens:
            if not kept(Bed, office).filter(garden=garden).exists():
                writer.put_away(garden)
        for client in {garden.client for garden in gardens}:
            if not _has_more(client, office):
                writer.put_away(client)

    if beds:
        do_act(request, message("tour-examples-deleted"), delete)
    return redirect(next_page(request, otherwise="start"))


def _has_more(client: Client, office: Office) -> bool:
    return kept(Garden, office).filter(client=client).exists()


def _toured(office: Office, *, toured: bool) -> None:
    office.toured = toured
    office.save(update_fields=["toured"])
