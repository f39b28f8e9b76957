"""Case files out and in: the text of one bed, and files imported as beds of a garden."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import PurePosixPath
from typing import Final
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from loamshift.domain.message import Given, Message, message
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError, Fault, InputError
from loamshift.store.models import Bed, Garden
from loamshift.web.acts import writer_of
from loamshift.web.beds.keeping import LONGEST_NAME, put_case
from loamshift.web.cases import text_of_bed
from loamshift.web.downloads import download
from loamshift.web.middleware import kept_or_404
from loamshift.web.notices import notify_done
from loamshift.web.problems import whole_fault

LARGEST_BYTES: Final = 1_000_000
MOST_FILES: Final = 200
_MOST_MENDED: Final = 500_000
"""Characters of one text that a form can hand back to be corrected [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseFile:
    """One case file as it was given: its name, its text, and its bed or what is wrong with it."""

    name: str
    text: str
    faults: tuple[Fault, ...] = ()
    bed: Bed | None = None


@require_safe
def case_file(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The case file of a bed, with the remarks of whoever wrote one."""
    bed = kept_or_404(request, Bed, pk)
    kind = "application/toml; charset=utf-8"
    return download(text_of_bed(bed), name=bed.name, tail=".toml", kind=kind)


@require_http_methods(["GET", "HEAD", "POST"])
def into_garden(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Add a bed for each case file that can be used; the others come back to be mended."""
    garden = kept_or_404(request, Garden, pk)
    if request.method != "POST":
        return _page(request, garden, [])
    given = [_read(garden, name, text, problem) for name, text, problem in _given(request)]
    if not given:
        nothing = fault("", message("data-import-none"), message("data-import-choose"))
        given = [CaseFile(name="", text="", faults=(nothing,))]
    good = [one.bed for one in given if one.bed is not None]
    writer = writer_of(request, _what(good, garden))
    try:
        with transaction.atomic():
            for bed in good:
                writer.add(bed)
    except InputError as error:
        whole = CaseFile(name="", text="", faults=(whole_fault(error),))
        return _page(request, garden, [whole, *given])
    if good:
        notify_done(request, writer)
    bad = [one for one in given if one.bed is None]
    return _page(request, garden, bad) if bad else redirect("garden-cases", pk=garden.pk)


def _given(request: HttpRequest) -> Iterator[tuple[str, str, Fault | None]]:
    """Names and texts of the files sent, and of those mended on the page."""
    names, texts = request.POST.getlist("mended-name"), request.POST.getlist("mended")
    for name, text in zip(names, texts, strict=False):
        if text.strip():
            yield name, text.replace("\r\n", "\n"), None
    files = request.FILES.getlist("files")
    for file in files[:MOST_FILES]:
        name = file.name or ""
        if (file.size or 0) > LARGEST_BYTES:
            wrong = message("data-import-large")
            yield name, "", fault("", wrong, message("data-import-small"))
            continue
        try:
            yield name, file.read().decode("utf-8-sig"), None
        except UnicodeDecodeError:
            wrong = message("data-import-not-text")
            yield name, "", fault("", wrong, message("data-import-utf-8"))
    for file in files[MOST_FILES:]:
        wrong = message("data-import-over", most=MOST_FILES)
        yield file.name or "", "", fault("", wrong, message("data-import-later"))


def _read(garden: Garden, name: str, text: str, problem: Fault | None) -> CaseFile:
    if problem is not None:
        return CaseFile(name=name, text="", faults=(problem,))
    bed = Bed(garden=garden)
    try:
        case = put_case(bed, text, today=date.today())  # noqa: DTZ011 - the local day
    except CaseError as error:
        return CaseFile(name=name, text=text[:_MOST_MENDED], faults=error.faults)
    except InputError as error:
        return CaseFile(name=name, text=text[:_MOST_MENDED], faults=(whole_fault(error),))
    if not case.name:
        bed.name = (PurePosixPath(name).stem or bed.name)[:LONGEST_NAME]
    return CaseFile(name=name, text=text, bed=bed)


def _what(good: list[Bed], garden: Garden) -> Message:
    return message("data-imported", n=len(good), garden=Given(garden.name))


def _page(request: HttpRequest, garden: Garden, bad: list[CaseFile]) -> HttpResponse:
    context = {"garden": garden, "bad": bad, "most": MOST_FILES}
    status = 422 if bad else 200
    return render(request, "data/cases.html", context, status=status)
