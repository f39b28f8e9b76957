"""The post: beds that wait for a letter, and letters sent, reopened as they were."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any, Final
from uuid import UUID

from django.core.paginator import Paginator
from django.db.models import F, Max, Q, QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import URLPattern, path
from django.utils.translation import gettext
from django.views.decorators.http import require_POST, require_safe

from loamshift.case.frozen import FrozenLetter
from loamshift.errors import InputError
from loamshift.report.html import letter_html
from loamshift.report.markdown import letter_markdown
from loamshift.report.summary import DECISIONS
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Office, SentLetter
from loamshift.store.scope import found, kept
from loamshift.web.answers import paper_of
from loamshift.web.downloads import download
from loamshift.web.letter_plain import letter_plain
from loamshift.web.letter_style import letter_style_name
from loamshift.web.middleware import office_of
from loamshift.web.said import told, told_fault, who
from loamshift.web.sending import opened, today_differs

A_PAGE: Final = 40
LONGEST_NOTE: Final = 2000
KINDS: Final = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "md": "text/markdown; charset=utf-8",
    "json": "application/json",
}


@require_safe
def post(request: HttpRequest) -> HttpResponse:
    """Beds without a letter since their last change, and letters sent; ``?find=`` searches both."""
    office = office_of(request)
    sought = request.GET.get("find", "").strip()[:200]
    waiting = found(beds_waiting(office), sought)
    letters = found(
        kept(SentLetter, office).select_related("bed__garden__client").defer("answer_text"), sought
    )
    page = Paginator(letters, A_PAGE).get_page(request.GET.get("page"))
    context = {
        "waiting": [(bed, bed.last_sent) for bed in waiting[:A_PAGE]],
        "more_waiting": max(waiting.count() - A_PAGE, 0),
        "letters": [(letter, decision_said(letter.decision)) for letter in page.object_list],
        "page": page,
        "find": sought,
        "any": bool(sought) or bool(page.paginator.count),
    }
    return render(request, "loamshift/post/post.html", context)


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
        context |= _as_sent(sent)
    name = "_differs" if part else "today"
    response = render(request, f"loamshift/post/{name}.html", context)
    response.headers["Vary"] = "HX-Request, Cookie"
    return response


def _differences(sent: SentLetter, office: Office) -> dict[str, object]:
    try:
        differs = today_differs(sent.answer_text, office=office, today=date.today())  # noqa: DTZ011
    except InputError as fault:
        return {"problem": str(fault), "differs": ""}
    return {"problem": "", "differs": letter_plain(differs, part="differs")}


@require_safe
def letter_file(request: HttpRequest, pk: UUID, kind: str) -> HttpResponse:
    """A letter as a file: PDF, web page, Markdown, or the whole answer as JSON."""
    sent = _letter(request, pk)
    name = f"{sent.title} {sent.sent_on}"
    if kind not in KINDS:
        raise Http404
    if kind == "json":
        return download(sent.answer_text, name=name, tail=".json", kind=KINDS[kind])
    there = opened(sent)
    if there.letter is None:
        told_fault(request, there.problem)
        return redirect("letter", pk=pk)
    try:
        data = MAKERS[kind](there.letter, office_of(request))
    except (LookupError, TypeError, ValueError):
        told_fault(request, gettext("A figure of this letter cannot be drawn any more."))
        return redirect("letter", pk=pk)
    return download(data, name=name, tail=f".{kind}", kind=KINDS[kind])


@require_POST
def letter_note(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Keep the office's own note on a letter."""
    sent = _letter(request, pk)
    note = request.POST.get("note", "").strip()
    typed = request.POST.get("version", "")
    seen = int(typed) if typed.isdecimal() and len(typed) < 10 else 0
    if len(note) > LONGEST_NOTE:
        problem = gettext("The note has %(count)s signs; shorten it to %(most)s.")
        said = problem % {"count": len(note), "most": LONGEST_NOTE}
        return _letter_page(request, sent, note=note, problem=said, status=422)
    there = sent.note
    sent.note = note
    writer = Writer(
        office_of(request), user=who(request), what=f"Changed the note on the letter {sent.title}"
    )
    try:
        writer.change(sent, seen_version=seen)
    except InputError as fault:
        problem = f"{fault} {gettext('There now:')} {there}" if there else str(fault)
        return _letter_page(request, _letter(request, pk), note=note, problem=problem, status=409)
    told(request, writer.what, writer.act)
    return redirect("letter", pk=pk)


@require_POST
def letter_away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a letter away; the next page takes it back."""
    sent = _letter(request, pk)
    writer = Writer(office_of(request), user=who(request), what=f"Deleted the letter {sent}")
    try:
        writer.put_away(sent)
    except InputError as fault:
        told_fault(request, fault)
        return redirect("letter", pk=pk)
    told(request, writer.what, writer.act)
    return redirect("post")


def decision_said(decision: str) -> str:
    """A decision in the words of the letter; an unknown one as it is kept."""
    said = {str(key): words for key, words in DECISIONS.items()}
    return said.get(decision, decision)


def _letter_page(
    request: HttpRequest,
    sent: SentLetter,
    *,
    note: str | None = None,
    problem: str = "",
    status: int = 200,
) -> HttpResponse:
    context = {
        "letter": sent,
        "decision": decision_said(sent.decision),
        **_as_sent(sent),
        "note": sent.note if note is None else note,
        "problem": problem,
        "style": letter_style_name(),
    }
    return render(request, "loamshift/post/letter.html", context, status=status)


def _as_sent(sent: SentLetter) -> dict[str, object]:
    """A letter as it was sent, or why it cannot be shown."""
    there = opened(sent)
    sections, unread = "", there.problem
    if there.letter is not None:
        try:
            sections = letter_plain(there.letter.letter)
        except (LookupError, TypeError, ValueError):
            unread = gettext("A figure of this letter cannot be drawn any more.")
    head = there.letter.letter if there.letter is not None else None
    return {"sections": sections, "head": head, "unread": unread}


def _letter(request: HttpRequest, pk: UUID) -> SentLetter:
    letters = kept(SentLetter, office_of(request)).select_related("bed__garden__client")
    return get_object_or_404(letters, pk=pk)


def _pdf(frozen: FrozenLetter, office: Office) -> bytes:
    from loamshift.web.press import press

    return press(frozen.letter, paper=paper_of(office), words=frozen.words)


def _html(frozen: FrozenLetter, office: Office) -> str:
    return letter_html(frozen.letter, words=frozen.words)


def _markdown(frozen: FrozenLetter, office: Office) -> str:
    return letter_markdown(frozen.letter)


MAKERS: Final[dict[str, Callable[[FrozenLetter, Office], bytes | str]]] = {
    "pdf": _pdf,
    "html": _html,
    "md": _markdown,
}

ROUTES: list[URLPattern] = [
    path("post/", post, name="post"),
    path("post/<uuid:pk>", letter, name="letter"),
    path("post/<uuid:pk>/today", letter_today, name="letter-today"),
    path("post/<uuid:pk>/letter.<str:kind>", letter_file, name="letter-file"),
    path("post/<uuid:pk>/note", letter_note, name="letter-note"),
    path("post/<uuid:pk>/put-away", letter_away, name="letter-away"),
]
