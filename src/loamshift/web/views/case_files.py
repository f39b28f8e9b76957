"""Case files in and out: one bed's file, and any number of files into a garden."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import PurePosixPath
from typing import Final
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import URLPattern, path
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_http_methods, require_safe

from loamshift.errors import CaseError, Fault, InputError
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Garden
from loamshift.store.scope import kept
from loamshift.web.downloads import download
from loamshift.web.keeping import LONGEST_NAME, put_case
from loamshift.web.middleware import office_of
from loamshift.web.said import told, who

LARGEST_BYTES: Final = 1_000_000
MOST_FILES: Final = 200
_MOST_MENDED: Final = 500_000
"""Signs of one text that a form can hand back for mending [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """One case file as it was given: its name, its text, and its bed or what is wrong with it."""

    name: str
    text: str
    faults: tuple[Fault, ...] = ()
    bed: Bed | None = None


@require_safe
def case_file(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The case file of a bed, to the letter as it is kept."""
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=pk)
    kind = "application/toml; charset=utf-8"
    return download(bed.case_text, name=bed.name, tail=".toml", kind=kind)


@require_http_methods(["GET", "HEAD", "POST"])
def into_garden(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Add a bed for each case file that can be used; the others come back to be mended."""
    garden = get_object_or_404(kept(Garden, office_of(request)), pk=pk)
    if request.method != "POST":
        return _page(request, garden, [])
    given = [_read(garden, name, text, problem) for name, text, problem in _given(request)]
    if not given:
        nothing = Fault("", "", gettext("no file was chosen"), gettext("Choose one or many."))
        given = [Given(name="", text="", faults=(nothing,))]
    good = [one.bed for one in given if one.bed is not None]
    writer = Writer(office_of(request), user=who(request), what=_what(good, garden))
    try:
        with transaction.atomic():
            for bed in good:
                writer.add(bed)
    except InputError as fault:
        whole = Fault("", "", str(fault), "")
        return _page(request, garden, [Given(name="", text="", faults=(whole,)), *given])
    if good:
        told(request, writer.what, writer.act)
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
            yield name, "", _fault(gettext("larger than 1 MB"), gettext("A case file is small."))
            continue
        try:
            yield name, file.read().decode("utf-8-sig"), None
        except UnicodeDecodeError:
            mend = gettext("Save the case file as UTF-8 text.")
            yield name, "", _fault(gettext("not a text in UTF-8"), mend)
    for file in files[MOST_FILES:]:
        mend = gettext("Send it with the next ones.")
        yield file.name or "", "", _fault(gettext("one of more than 200 files"), mend)


def _fault(problem: str, mend: str) -> Fault:
    return Fault(gettext("file"), "", problem, mend)


def _read(garden: Garden, name: str, text: str, problem: Fault | None) -> Given:
    if problem is not None:
        return Given(name=name, text="", faults=(problem,))
    bed = Bed(garden=garden)
    try:
        case = put_case(bed, text, today=date.today())  # noqa: DTZ011 - the local day
    except CaseError as error:
        return Given(name=name, text=text[:_MOST_MENDED], faults=error.faults)
    except InputError as error:
        return Given(name=name, text=text[:_MOST_MENDED], faults=(_fault(str(error), ""),))
    if not case.name:
        bed.name = (PurePosixPath(name).stem or bed.name)[:LONGEST_NAME]
    return Given(name=name, text=text, bed=bed)


def _what(good: list[Bed], garden: Garden) -> str:
    said = ngettext(
        "Added %(count)d bed to %(garden)s from a case file",
        "Added %(count)d beds to %(garden)s from case files",
        len(good),
    )
    return said % {"count": len(good), "garden": garden.name}


def _page(request: HttpRequest, garden: Garden, bad: list[Given]) -> HttpResponse:
    context = {"garden": garden, "bad": bad, "most": MOST_FILES}
    status = 422 if bad else 200
    return render(request, "loamshift/data/cases.html", context, status=status)


ROUTES: list[URLPattern] = [
    path("beds/<uuid:pk>/case.toml", case_file, name="bed-case"),
    path("gardens/<uuid:pk>/cases", into_garden, name="garden-cases"),
]
