"""Files on their way into beds: the list of them, and a new one uploaded."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from loamshift.errors import InputError
from loamshift.web.intake.drafts import LARGEST_BYTES, drafts_of, laboratories, new_draft
from loamshift.web.intake.forms import UploadForm
from loamshift.web.middleware import office_of
from loamshift.web.notices import person_of
from loamshift.web.problems import whole_fault

LONGEST_NAME = 200
MOST = {"most": LARGEST_BYTES // 1_000_000}
"""How large a file may be [MB]."""


@require_http_methods(["GET", "HEAD", "POST"])
def uploads(request: HttpRequest) -> HttpResponse:
    """The files that were uploaded; a new one is read and kept, and nothing enters any bed."""
    office, form = office_of(request), UploadForm(request, values=MOST)
    if form.is_valid():
        laboratory = " ".join(form.cleaned_data["laboratory"].split())
        sent = form.cleaned_data["file"]
        data, name = sent.read(LARGEST_BYTES + 1), (sent.name or "")[:LONGEST_NAME]
        try:
            draft = new_draft(
                office, data, name=name, laboratory=laboratory, user=person_of(request)
            )
        except InputError as error:
            form.refuse([whole_fault(error, path="file")])
        else:
            return redirect("intake-file", pk=draft.pk)
    context = {
        "drafts": drafts_of(office).defer("content"),
        "laboratories": laboratories(office),
        "form": form,
    }
    return render(request, "intake/uploads.html", context, status=form.status)
