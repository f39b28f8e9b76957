"""Files on their way into beds: the list of them, and a new one uploaded."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import URLPattern, path
from django.views.decorators.http import require_http_methods

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.errors import InputError
from loamshift.report.messages.refusal import refusal
from loamshift.store.models import IntakeDraft
from loamshift.web.intake.drafts import LARGEST_BYTES, drafts_of, laboratories, new_draft
from loamshift.web.middleware import office_of
from loamshift.web.notices import person_of
from loamshift.web.wording import words_for

LONGEST_NAME, LONGEST_LABORATORY = 200, 120


@require_http_methods(["GET", "HEAD", "POST"])
def uploads(request: HttpRequest) -> HttpResponse:
    """The files that were uploaded; a new one is read and kept, and nothing enters any bed."""
    office = office_of(request)
    laboratory = " ".join(request.POST.get("laboratory", "").split())[:LONGEST_LABORATORY]
    wrong = ""
    if request.method == "POST":
        try:
            draft = _draft(request, laboratory)
        except InputError as error:
            wrong = refusal(error, words_for(request))
        else:
            return redirect("intake-file", pk=draft.pk)
    context = {
        "drafts": drafts_of(office).defer("content"),
        "laboratories": laboratories(office),
        "laboratory": laboratory,
        "wrong": wrong,
        "most": LARGEST_BYTES // 1_000_000,
    }
    return render(request, "intake/uploads.html", context, status=422 if wrong else 200)


def _draft(request: HttpRequest, laboratory: str) -> IntakeDraft:
    upload = request.FILES.get("file")
    if upload is None:
        raise WordedError(message("intake-page-no-file"))
    data, name = upload.read(LARGEST_BYTES + 1), (upload.name or "")[:LONGEST_NAME]
    office, user = office_of(request), person_of(request)
    return new_draft(office, data, name=name, laboratory=laboratory, user=user)


ROUTES: list[URLPattern] = [path("intake/", uploads, name="intake")]
