"""Clients: their page with gardens, beds and letters; added and changed."""

from __future__ import annotations

from datetime import date
from typing import Final
from uuid import UUID

from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import URLPattern, path
from django.views.decorators.http import require_http_methods, require_safe

from loamshift.domain.message import Given, Message, message
from loamshift.errors import Fault, InputError
from loamshift.store.changes import Overtaken, Writer
from loamshift.store.limits import Unfit
from loamshift.store.models import Bed, Client, Garden, SentLetter
from loamshift.store.scope import kept
from loamshift.web.answers import words_of
from loamshift.web.beds.merge import merge_fields
from loamshift.web.beds.views.listing import rows_of, with_last_letter
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, person_of
from loamshift.web.problems import whole_fault

ASKED: Final = ("name", "contact", "note")
LETTERS_SHOWN: Final = 20


@require_safe
def client(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One client: contact, gardens with their beds, letters."""
    office = office_of(request)
    one = get_object_or_404(kept(Client, office), pk=pk)
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
    }
    return render(request, "clients/client.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """A new client."""
    return _form(request, Client())


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Name, contact and note of a client."""
    return _form(request, get_object_or_404(kept(Client, office_of(request)), pk=pk))


def _form(request: HttpRequest, one: Client) -> HttpResponse:
    is_new = one._state.adding
    if request.method != "POST":
        return _page(request, one, version=one.version)
    for key in ASKED:
        setattr(one, key, request.POST.get(key, "").replace("\r\n", "\n").strip())
    seen = request.POST.get("version", "")
    version = int(seen) if seen.isdecimal() and len(seen) < 10 else 0
    return _keep(request, one, is_new=is_new, version=version)


def _keep(
    request: HttpRequest, one: Client, *, is_new: bool, version: int, also: Message | None = None
) -> HttpResponse:
    """Keep a client as it was typed; or show the form again with what stands in the way."""
    name = Given(one.name)
    what = message("clients-added" if is_new else "clients-changed", client=name)
    writer = Writer(office_of(request), user=person_of(request), what=what)
    try:
        if is_new:
            writer.add(one)
        else:
            writer.change(one, seen_version=version)
    except Unfit as unfit:
        return _page(request, one, version=version, faults=unfit.faults, status=422)
    except Overtaken as overtaken:
        return _overtaken(request, one, overtaken, version=version)
    except InputError as error:
        return _page(request, one, version=version, faults=(whole_fault(error),), status=422)
    notify_done(request, writer, also=also)
    return redirect("client", pk=one.pk)


def _overtaken(
    request: HttpRequest, one: Client, overtaken: Overtaken, *, version: int
) -> HttpResponse:
    """Put together what two people changed; ask where both changed the same field."""
    current = overtaken.current
    assert isinstance(current, Client)
    merged = merge_fields(current, version, {key: getattr(one, key) for key in ASKED})
    if merged is not None:
        for key in ASKED:
            setattr(one, key, merged.tree[key])
        if not merged.asked:
            both = message("form-merged")
            return _keep(request, one, is_new=False, version=current.version, also=both)
    standing = [
        _there_now(key, getattr(current, key))
        for key in ASKED
        if getattr(current, key) != getattr(one, key)
        and (merged is None or key in {path for path, *_ in merged.asked})
    ]
    fault = whole_fault(overtaken)
    return _page(
        request, one, version=current.version, faults=(fault,), standing=standing, status=409
    )


def _there_now(field: str, now: str) -> Message:
    """What somebody else has saved in a field."""
    if not now:
        return message("clients-there-now-blank", field=field)
    return message("clients-there-now", field=field, now=Given(now))


def _page(
    request: HttpRequest,
    one: Client,
    *,
    version: int,
    faults: tuple[Fault, ...] = (),
    standing: list[Message] | None = None,
    status: int = 200,
) -> HttpResponse:
    context = {
        "client": one,
        "is_new": one._state.adding,
        "version": version,
        "faults": {fault.path: fault for fault in faults},
        "whole": [fault for fault in faults if fault.path not in ASKED],
        "standing": standing or [],
        "alike": _alike(request, one),
    }
    return render(request, "clients/edit_client.html", context, status=status)


def _alike(request: HttpRequest, one: Client) -> list[Client]:
    """Clients of the same name, so that nobody is written down twice by mistake."""
    if not one.name or "\x00" in one.name:
        return []
    same = Q(name__iexact=one.name) & ~Q(pk=one.pk)
    return list(kept(Client, office_of(request)).filter(same)[:3])


ROUTES: list[URLPattern] = [
    path("clients/new", new, name="client-new"),
    path("clients/<uuid:pk>", client, name="client"),
    path("clients/<uuid:pk>/edit", edit, name="client-edit"),
]
