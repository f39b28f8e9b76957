"""One file beside what was understood of it: answered, confirmed, entered, undone."""

from __future__ import annotations

from datetime import date
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from loamshift.case.intake.answers import checked_answers
from loamshift.case.intake.proposal import Proposal
from loamshift.domain.message import Given, message
from loamshift.errors import InputError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import refusal
from loamshift.store.models import Garden, IntakeDraft
from loamshift.store.scope import kept
from loamshift.web.acts import writer_of
from loamshift.web.beds.keeping import garden_called
from loamshift.web.intake.asked import asked_columns, new_answers, questions
from loamshift.web.intake.drafts import (
    act_that_stands,
    beds_of_act,
    drafts_of,
    keep,
    read_draft,
    remember,
)
from loamshift.web.intake.entering import (
    also_said,
    asked_rows,
    bed_labels,
    done_said,
    entered,
    write,
)
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify, notify_done
from loamshift.web.wording import words_for

BED: Final = "bed:"
"""How the fields of a form begin that say which bed a row goes to."""
_ROWS_SHOWN: Final = 40
_LONGEST_BED: Final = 160


@require_http_methods(["GET", "HEAD", "POST"])
def file(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The file beside what was understood; a form keeps answers, or enters what is confirmed."""
    draft = get_object_or_404(drafts_of(office_of(request)), pk=pk)
    today = date.today()  # noqa: DTZ011 - the local day
    if request.method != "POST":
        return _page(request, draft, today)
    if act_that_stands(draft) is not None:
        return redirect("intake-file", pk=pk)
    do = request.POST.get("do", "")
    if do == "again":
        draft.answers, draft.beds = {}, {}
        keep(draft)
        return redirect("intake-file", pk=pk)
    proposal = read_draft(draft, today=today)[1]
    try:
        draft.beds = _beds_said(request)
        draft.garden = _garden(request)
        new = checked_answers(new_answers(request.POST, proposal), source=draft.name)
    except InputError as error:
        keep(draft)
        return _page(request, draft, today, wrong=refusal(error, words_for(request)))
    draft.answers = {**draft.answers, **new}
    keep(draft)
    if do != "enter":
        return redirect("intake-file", pk=pk)
    if new:
        notify(request, message("intake-page-look-again"))
        return redirect("intake-file", pk=pk)
    return _enter(request, draft, proposal, today)


@require_POST
def delete(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Remove a file; what it has entered stays."""
    draft = get_object_or_404(drafts_of(office_of(request)), pk=pk)
    draft.delete()
    notify(request, message("intake-page-deleted", file=Given(draft.name)))
    return redirect("intake")


def _enter(
    request: HttpRequest, draft: IntakeDraft, proposal: Proposal, today: date
) -> HttpResponse:
    office = office_of(request)
    garden = garden_called(office, str(draft.garden or ""))
    done = entered(proposal, draft.beds, office=office, garden=garden, today=today)
    if done.faults:
        return _page(request, draft, today, faults=done.faults)
    if not done.beds:
        nothing = say(message("intake-page-nothing"), words_for(request))
        return _page(request, draft, today, wrong=nothing)
    writer = writer_of(request, done_said(done, draft.name))
    try:
        write(done, writer=writer)
    except InputError as error:
        return _page(request, draft, today, wrong=refusal(error, words_for(request)))
    draft.act = writer.act
    keep(draft)
    remember(draft)
    notify_done(request, writer, also=also_said(done))
    return redirect("intake-file", pk=draft.pk)


def _beds_said(request: HttpRequest) -> dict[str, str]:
    return {
        field.removeprefix(BED): " ".join(str(value).split())[:_LONGEST_BED]
        for field, value in request.POST.items()
        if field.startswith(BED)
    }


def _garden(request: HttpRequest) -> UUID | None:
    garden = garden_called(office_of(request), request.POST.get("garden", ""))
    return None if garden is None else garden.pk


def _page(request: HttpRequest, draft: IntakeDraft, today: date, **wrong: Any) -> HttpResponse:
    office, words = office_of(request), words_for(request)
    sheets, proposal = read_draft(draft, today=today)
    labels = bed_labels(office)
    rows = list(asked_rows(proposal, draft.beds, labels))
    asked = list(questions(proposal, words))
    act = act_that_stands(draft)
    context = {
        "draft": draft,
        "act": act,
        "beds": beds_of_act(office, act),
        "sheets": [(sheet, sheet.rows[:_ROWS_SHOWN], len(sheet.rows)) for sheet in sheets],
        "columns": list(asked_columns(proposal, words)),
        "questions": asked,
        "remarks": [one for one in proposal.findings if one.question is None],
        "rows": rows,
        "ready": sum(bool(row.bed) for row in rows),
        "labels": labels,
        "gardens": kept(Garden, office).select_related("client"),
        **wrong,
    }
    return render(request, "intake/file.html", context, status=422 if wrong else 200)
