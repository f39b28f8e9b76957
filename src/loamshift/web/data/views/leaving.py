"""A client leaves: exported as a zip, deleted for thirty days, or deleted permanently."""

from __future__ import annotations

from datetime import timedelta
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from loamshift.domain.message import Given, message
from loamshift.errors import InputError
from loamshift.store.changes import KEPT_DAYS
from loamshift.store.erase import erase_client
from loamshift.store.export import client_zip
from loamshift.store.models import Bed, Client, SentLetter
from loamshift.store.scope import kept
from loamshift.web.acts import delete_kept
from loamshift.web.data.backups import BACKUPS
from loamshift.web.data.forms import ForGoodForm
from loamshift.web.downloads import download
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.notices import notify, notify_fault
from loamshift.web.wording import said


@require_safe
def out(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One client with all that is its own, as a zip."""
    client = kept_or_404(request, Client, pk)
    about = said(request, message("store-about"))
    zipped = client_zip(client, now=timezone.now(), about=about)
    return download(zipped, name=client.name, tail=".zip", kind="application/zip")


@require_http_methods(["GET", "HEAD", "POST"])
def delete(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Ask, and delete a client; for thirty days it can be taken back."""
    client = kept_or_404(request, Client, pk)
    if request.method != "POST":
        return render(request, "data/delete.html", _of(request, client))
    delete_kept(request, client, message("clients-deleted", client=Given(client.name)))
    return redirect("data")


@require_http_methods(["GET", "HEAD", "POST"])
def for_good(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Ask a second time, by the client's name, and remove it for good."""
    office = office_of(request)
    client = get_object_or_404(Client, office=office, pk=pk)
    form = ForGoodForm(request, client)
    if not form.is_valid():
        context = _of(request, client) | {"form": form}
        return render(request, "data/for_good.html", context, status=form.status)
    try:
        gone = erase_client(office, client)
    except InputError as fault:
        notify_fault(request, fault)
    else:
        notify(request, message("data-permanent-done", n=gone))
    return redirect("data")


def _of(request: HttpRequest, client: Client) -> dict[str, object]:
    office = office_of(request)
    leaves = None if client.deleted_at is None else client.deleted_at + timedelta(days=KEPT_DAYS)
    return {
        "client": client,
        "beds": kept(Bed, office).filter(garden__client=client).count(),
        "letters": kept(SentLetter, office).filter(bed__garden__client=client).count(),
        "days": KEPT_DAYS,
        "leaves": leaves,
        "place": "" if settings.OFFICE_MODE else settings.DATA_FOLDER / BACKUPS,
    }
