"""All beds under their clients and gardens: found by any word, with what each needs next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from time import monotonic
from typing import Any, Final
from uuid import UUID

from django.core.paginator import Page, Paginator
from django.db.models import OuterRef, QuerySet, Subquery
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_POST, require_safe

from loamshift.domain.answer import Decision
from loamshift.domain.message import Given, Message, Product, message
from loamshift.report.chart_tones import ph_ink
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.store.scope import found, kept
from loamshift.web.acts import delete_kept
from loamshift.web.beds.last_letter import answer_text_of, letters_of
from loamshift.web.beds.next_thing import NextThing, is_known, next_thing
from loamshift.web.kept_form import version_seen
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.wording import words_of

BEDS_A_PAGE: Final = 60
PATIENCE_S: Final = 0.4
"""How long a list may think about beds it has not thought about yet; the rest come after."""
DECIDED: Final = frozenset(str(decision) for decision in Decision)


@dataclass(frozen=True, slots=True, kw_only=True)
class BedRow:
    """One bed of the list."""

    bed: Bed
    next: NextThing | None
    said: str
    late: bool
    ph: str
    ph_side: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenRows:
    """The beds of one garden, under its client."""

    garden: Garden | None
    client: Client | None
    is_first: bool
    rows: tuple[BedRow, ...]


@require_safe
def beds(request: HttpRequest) -> HttpResponse:
    """The list; ``?q=`` finds, ``?by=next`` sorts by what is due."""
    office = office_of(request)
    sought = request.GET.get("q", "").replace("\x00", "").strip()
    by_next = request.GET.get("by") == "next"
    today = date.today()  # noqa: DTZ011 - the local day
    everything = with_last_letter(kept(Bed, office))
    hits = found(everything, sought).order_by(
        "garden__client__sought", "garden__client", "garden__sought", "garden", "sought", "id"
    )
    page = Paginator(hits, BEDS_A_PAGE).get_page(request.GET.get("page"))
    rows = rows_of(page.object_list, office=office, today=today, patience_s=PATIENCE_S)
    if by_next:
        rows.sort(key=lambda row: (row.next is None, _due(row), row.bed.name.casefold()))
    context = {
        "groups": list(_groups(rows)) if not by_next else [],
        "rows": rows if by_next else [],
        "page": page,
        "q": sought,
        "by": "next" if by_next else "",
        "clients": _clients_without_beds(office, sought, page),
        "any": everything.exists() or kept(Client, office).exists(),
    }
    part = "_list.html" if _is_search(request) else "list.html"
    return render(request, f"beds/{part}", context)


@require_safe
def what_next(request: HttpRequest, pk: UUID) -> HttpResponse:
    """What one bed needs next, for a list that was shown without it."""
    office = office_of(request)
    bed = get_object_or_404(with_last_letter(kept(Bed, office)), pk=pk)
    today = date.today()  # noqa: DTZ011 - the local day
    (row,) = rows_of([bed], office=office, today=today)
    return render(request, "beds/_next.html", {"row": row})


@require_POST
def put_away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Delete a bed with its letters; for thirty days that can be undone."""
    bed = kept_or_404(request, Bed, pk)
    what = message("beds-deleted", bed=Given(bed.name))
    seen = version_seen(request) if "version" in request.POST else None
    if not delete_kept(request, bed, what, seen_version=seen):
        return redirect("bed-edit", pk=bed.pk)
    return redirect("beds")


def with_last_letter(some: QuerySet[Bed]) -> QuerySet[Bed]:
    """Beds with their garden and client, and the id of their last letter as ``sent``."""
    last = letters_of(OuterRef("pk")).values("pk")[:1]
    return some.select_related("garden__client").annotate(sent=Subquery(last))


def rows_of(
    some: Iterable[Bed], *, office: Office, today: date, patience_s: float | None = None
) -> list[BedRow]:
    """Beds as the list shows them.

    Parameters
    ----------
    patience_s
        After this long, beds not thought of before are left without a next thing [s].
    """
    words = words_of(office)
    ends = None if patience_s is None else monotonic() + patience_s
    rows = []
    for bed in some:
        sent = getattr(bed, "sent", None)
        todo = None
        if ends is None or monotonic() < ends or is_known(bed.case_json, sent, today=today):
            todo = next_thing(bed.case_json, sent, today=today, read=answer_text_of)
        late = todo is not None and todo.is_late(today)
        rows.append(
            BedRow(
                bed=bed,
                next=todo,
                said=said_of(bed, todo, words=words, late=late),
                late=late,
                ph="" if bed.ph is None else f"{bed.ph:g}",
                ph_side=ph_side(bed.ph),
            )
        )
    return rows


def said_of(bed: Bed, todo: NextThing | None, *, words: Words, late: bool) -> str:
    """What is next, in words; the kept decision where nothing more is known."""
    what = next_said(bed.decision, todo, late=late)
    return "" if what is None else say(what, words)


def next_said(decision: str, todo: NextThing | None, *, late: bool) -> Message | None:
    """What is next for a bed of a decision; None where nothing is known of it."""
    if todo is None or todo.kind == "nothing":
        return decided(decision if todo is None else todo.decision)
    if todo.kind == "fault":
        return message("beds-text-faulty")
    if todo.kind == "measure":
        return message("beds-test-first", field=todo.what.replace(".", "-").replace("_", "-"))
    assert todo.on is not None
    if todo.kind == "part":
        product = Product(todo.what)
        if late:
            return message("beds-apply-late", product=product, day=todo.on)
        return message("beds-apply-on", product=product, day=todo.on)
    if late:
        return message("beds-test-late", day=todo.on)
    return message("beds-test-on", day=todo.on)


def decided(decision: str) -> Message | None:
    """A decision in the few words of a list; None for one that is not known."""
    return message("beds-decided", decision=decision) if decision in DECIDED else None


def ph_side(ph: float | None) -> str:
    """Which colour of our pH scale a pH is written on: acid, neutral or base."""
    if ph is None:
        return ""
    return ph_ink(ph)[0].value


def _due(row: BedRow) -> date:
    return row.next.on if row.next is not None and row.next.on is not None else date.max


def _groups(rows: Iterable[BedRow]) -> Iterator[GardenRows]:
    seen: object = object()
    for _key, lot in groupby(rows, key=lambda row: row.bed.garden_id):
        rows_here = tuple(lot)
        garden = rows_here[0].bed.garden
        client = None if garden is None else garden.client
        yield GardenRows(garden=garden, client=client, is_first=client != seen, rows=rows_here)
        seen = client


def _clients_without_beds(office: Office, sought: str, page: Page[Bed]) -> list[Client]:
    """Clients who have no bed yet, or were found by name; so that no client is out of reach."""
    if page.has_next():
        return []
    some = found(kept(Client, office), sought)
    with_beds = kept(Bed, office).filter(garden__isnull=False).values("garden__client")
    return list(some.exclude(pk__in=with_beds)[:BEDS_A_PAGE])


def _is_search(request: HttpRequest) -> bool:
    htmx: Any = getattr(request, "htmx", None)
    return bool(htmx) and not htmx.boosted and not htmx.history_restore_request
