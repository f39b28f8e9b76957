"""Letters: beds whose letter is still to write, and letters sent, reopened as they were."""

from __future__ import annotations

from datetime import date
from typing import Any, Final
from uuid import UUID

from django.core.paginator import Paginator
from django.db.models import F, Max, Q, QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_POST, require_safe

from loamshift.domain.message import Given, message
from loamshift.errors import CaseError, InputError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import refusal
from loamshift.report.words import Words
from loamshift.store.models import Bed, Office, SentLetter
from loamshift.store.scope import found, kept
from loamshift.web.acts import delete_kept
from loamshift.web.answers import paper_of
from loamshift.web.beds.views.listing import decided
from loamshift.web.downloads import download
from loamshift.web.letters.forms import NoteForm
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.letters.press import letter_bytes
from loamshift.web.letters.sending import opened, today_differs
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_fault
from loamshift.web.wording import words_for, words_of

A_PAGE: Final = 40
KINDS: Final = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "md": "text/markdown; charset=utf-8",
    "json": "application/json",
}


@require_safe
def post(request: HttpRequest) -> HttpResponse:
    """Beds without a letter since their last change, or with ``?show=sent`` letters sent."""
    office = office_of(request)
    words = words_of(office)
    sought = request.GET.get("find", "").strip()[:200]
    waiting = found(beds_waiting(office), sought)
    letters = found(
        kept(SentLetter, office).select_related("bed__garden__client").defer("answer_text"), sought
    )
    page = Paginator(letters, A_PAGE).get_page(request.GET.get("page"))
    waiting_count = waiting.count()
    context = {
        "sent_tab": request.GET.get("show") == "sent",
        "waiting": [(bed, bed.last_sent) for bed in waiting[:A_PAGE]],
        "waiting_count": waiting_count,
        "more_waiting": max(waiting_count - A_PAGE, 0),
        "letters": [(one, decision_said(one.decision, words)) for one in page.object_list],
        "sent_count": page.paginator.count,
        "page": page,
        "find": sought,
        "any": bool(sought) or waiting_count + page.paginator.count > 0,
    }
    return render(request, "letters/letters.html", context)


def beds_waiting(office: Office) -> QuerySet[Any, Any]:
    """Beds changed since their last letter, or never told anything, the longest waiting first."""
    sent = Max("letters__created_at", filter=Q(letters__deleted_at__isnull=True))
    return (
        kept(Bed, office)
        .select_related("garden__client")
        .annotate(last_sent=sent)
        .filter(Q(last_sent__isnull=True) | Q(changed_at__gt=F("last_sent")))
        .order_by("changed_at", "id")
    )


@require_safe
def letter(request: HttpRequest, pk: UUID) -> HttpResponse:
    """A letter exactly as it was sent."""
    return _letter_page(request, _letter(request, pk))


@require_safe
def letter_today(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The differences between a letter and what the same case would be told today.

    Working them out takes seconds: the page comes at once with the letter as it was sent, and
    asks for the differences (``?now=1``) by itself, or by a link where no script runs.
    """
    sent = _letter(request, pk)
    asked = request.GET.get("now") == "1"
    part = asked and bool(getattr(request, "htmx", False))
    context: dict[str, object] = {"letter": sent, "asked": asked, "style": letter_style_name()}
    if asked:
        context |= _differences(sent, office_of(request))
    if not part:
        context |= _as_sent(sent, words_for(request))
    name = "_differs" if part else "today"
    response = render(request, f"letters/{name}.html", context)
    response.headers["Vary"] = "HX-Request, Cookie"
    return response


def _differences(sent: SentLetter, office: Office) -> dict[str, object]:
    today = date.today()  # noqa: DTZ011 - the local day
    now = sent.bed.case_json
    try:
        differs = today_differs(sent.answer_text, office=office, today=today, now=now)
    except CaseError:
        problem = message("letters-bed-faulty")
        return {"problem": say(problem, words_of(office)), "differs": ""}
    except InputError as fault:
        return {"problem": refusal(fault, words_of(office)), "differs": ""}
    return {"problem": "", "differs": letter_plain(differs, part="differs")}


@require_safe
def letter_file(request: HttpRequest, pk: UUID, kind: str) -> HttpResponse:
    """A letter as a file: PDF, web page, Markdown, or the whole answer as JSON."""
    sent = _letter(request, pk)
    if kind not in KINDS:
        raise Http404
    if kind == "json":
        return download(
            sent.answer_text, name=sent.title, day=sent.sent_on, tail=".json", kind=KINDS[kind]
        )
    there = opened(sent)
    if there.letter is None:
        notify_fault(request, there.problem)
        return redirect("letter", pk=pk)
    try:
        paper, words = paper_of(office_of(request)), there.letter.words
        data = letter_bytes(there.letter.letter, kind, paper=paper, words=words)
    except (LookupError, TypeError, ValueError):
        notify_fault(request, message("letters-cannot-draw"))
        return redirect("letter", pk=pk)
    return download(data, name=sent.title, day=sent.sent_on, tail=f".{kind}", kind=KINDS[kind])


@require_POST
def letter_note(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Keep the office's own note on a letter."""
    sent = _letter(request, pk)
    form = NoteForm(request, sent)
    return redirect("letter", pk=pk) if form.keep() else _letter_page(request, sent, form)


@require_POST
def letter_away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a letter away; the next page takes it back."""
    sent = _letter(request, pk)
    what = message("letters-deleted", letter=Given(sent.title), day=sent.sent_on)
    return redirect("post") if delete_kept(request, sent, what) else redirect("letter", pk=pk)


def decision_said(decision: str, words: Words) -> str:
    """A decision in the words of a list; an unknown one as it is kept."""
    known = decided(decision)
    return decision if known is None else say(known, words)


def _letter_page(
    request: HttpRequest, sent: SentLetter, form: NoteForm | None = None
) -> HttpResponse:
    form = form or NoteForm(request, sent)
    context = {
        "letter": sent,
        **_as_sent(sent, words_for(request)),
        "form": form,
        "style": letter_style_name(),
    }
    return render(request, "letters/letter.html", context, status=form.status)


def _as_sent(sent: SentLetter, words: Words) -> dict[str, object]:
    """A letter as it was sent, or why it cannot be shown."""
    there = opened(sent)
    sections, unread = "", say(there.problem, words)
    if there.letter is not None:
        try:
            sections = letter_plain(there.letter.letter, words=there.letter.words)
        except (LookupError, TypeError, ValueError):
            unread = say(message("letters-cannot-draw"), words)
    head = there.letter.letter if there.letter is not None else None
    return {"sections": sections, "head": head, "unread": unread}


def _letter(request: HttpRequest, pk: UUID) -> SentLetter:
    letters = kept(SentLetter, office_of(request)).select_related("bed__garden__client")
    return get_object_or_404(letters, pk=pk)
