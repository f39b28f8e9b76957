"""All beds under their clients and gardens: found by any word, with what each needs next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
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
from django.urls import URLPattern, path
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from loamshift.errors import InputError
from loamshift.report.chart_tones import ph_ink
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_words import lowered, material_called
from loamshift.report.words import Words
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Client, Garden, Office, SentLetter
from loamshift.store.scope import found, kept
from loamshift.web.answers import words_of
from loamshift.web.middleware import office_of
from loamshift.web.next_thing import NextThing, is_known, next_thing
from loamshift.web.said import told, told_fault, who

BEDS_A_PAGE: Final = 60
PATIENCE_S: Final = 0.4
"""How long a list may think about beds it has not thought about yet; the rest come after."""
DECIDED: Final[Mapping[str, object]] = {
    "leave": _("leave it as it is"),
    "go": _("worth changing"),
    "effort": _("possible, with effort"),
    "elsewhere": _("better in another place"),
    "measure-first": _("measure first"),
    "stop": _("stop"),
}


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
    return render(request, f"loamshift/beds/{part}", context)


@require_safe
def what_next(request: HttpRequest, pk: UUID) -> HttpResponse:
    """What one bed needs next, for a list that was shown without it."""
    office = office_of(request)
    bed = get_object_or_404(with_last_letter(kept(Bed, office)), pk=pk)
    today = date.today()  # noqa: DTZ011 - the local day
    (row,) = rows_of([bed], office=office, today=today)
    return render(request, "loamshift/beds/_next.html", {"row": row})


@require_POST
def put_away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a bed away with its letters; for thirty days it can be taken back."""
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=pk)
    what = gettext("Put away %(bed)s") % {"bed": bed.name}
    writer = Writer(office_of(request), user=who(request), what=what)
    seen = request.POST.get("version", "")
    try:
        writer.put_away(bed, seen_version=int(seen) if seen.isdecimal() else None)
    except InputError as fault:
        told_fault(request, fault)
        return redirect("bed-edit", pk=bed.pk)
    told(request, what, writer.act)
    return redirect("beds")


def with_last_letter(some: QuerySet[Bed]) -> QuerySet[Bed]:
    """Beds with their garden and client, and the id of their last letter as ``sent``."""
    letters = SentLetter.objects.filter(bed=OuterRef("pk"), deleted_at__isnull=True)
    last = letters.order_by("-sent_on", "-created_at").values("pk")[:1]
    return some.select_related("garden__client").annotate(sent=Subquery(last))


def rows_of(
    some: Iterable[Bed], *, office: Office, today: date, patience_s: float | None = None
) -> list[BedRow]:
    """Beds as the list shows them.

    Parameters
    ----------
    some
        Beds from ``with_last_letter`` [objects].
    office
        For units and words [object].
    today
        The day of the list [date].
    patience_s
        After this long, beds not thought of before are left without a next thing [s].

    Returns
    -------
    list of BedRow
        In the order given [objects].
    """
    words = words_of(office)
    ends = None if patience_s is None else monotonic() + patience_s
    rows = []
    for bed in some:
        sent = getattr(bed, "sent", None)
        todo = None
        if ends is None or monotonic() < ends or is_known(bed.case_text, sent, today=today):
            todo = next_thing(bed.case_text, sent, today=today, read=_answer_text)
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
    decision = str(DECIDED.get(bed.decision if todo is None else todo.decision, ""))
    if todo is None or todo.kind == "nothing":
        return decision
    if todo.kind == "fault":
        return gettext("its case file needs mending")
    if todo.kind == "measure":
        return gettext("first: %(test)s") % {"test": words.text(lowered(field_called(todo.what)))}
    assert todo.on is not None
    said = {"material": "", "day": words.date(todo.on)}
    if todo.kind == "part":
        said["material"] = material_called(todo.what, words).split(" (")[0]
        if late:
            return gettext("%(material)s was due on %(day)s") % said
        return gettext("%(material)s on %(day)s") % said
    if late:
        return gettext("a test was due on %(day)s") % said
    return gettext("test again on %(day)s") % said


def ph_side(ph: float | None) -> str:
    """Which colour of our pH scale a pH is written on: acid, neutral or base."""
    if ph is None:
        return ""
    return ph_ink(ph)[0].value


def _answer_text(letter: UUID) -> str:
    found_text = SentLetter.objects.filter(pk=letter).values_list("answer_text", flat=True)
    return next(iter(found_text), "")


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


ROUTES: list[URLPattern] = [
    path("beds/", beds, name="beds"),
    path("beds/<uuid:pk>/next", what_next, name="bed-next"),
    path("beds/<uuid:pk>/put-away", put_away, name="bed-put-away"),
]
