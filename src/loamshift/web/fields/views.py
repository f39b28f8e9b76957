"""Field maps: samples uploaded, zones with rates shown, files for the spreader to take along."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any, Final
from uuid import UUID

from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from loamshift.case.field.write import rate_files
from loamshift.domain.field import FieldMap
from loamshift.domain.message import Given, message
from loamshift.errors import InputError
from loamshift.report.card.field import field_card
from loamshift.report.chart_files import chart_file
from loamshift.report.field_json import column_meanings
from loamshift.report.field_letter import field_letter
from loamshift.report.figures.field import rates_figure
from loamshift.report.messages.refusal import refusal
from loamshift.report.pdf import PaperSize
from loamshift.report.words import Words
from loamshift.store.models import Bed, Client, FieldFiles, Office
from loamshift.store.scope import kept
from loamshift.web.answers import paper_of
from loamshift.web.downloads import download
from loamshift.web.fields.files import files_of, map_of
from loamshift.web.fields.forms import FieldForm
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.letters.press import press
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify, notify_fault
from loamshift.web.wording import words_for

DOOR: Final = "pages"
Maker = Callable[[FieldMap, Words, PaperSize], bytes]


@require_http_methods(["GET", "HEAD", "POST"])
def fields(request: HttpRequest) -> HttpResponse:
    """Fields that were mapped, and a form for another; what is mapped enters no bed."""
    office = office_of(request)
    form = FieldForm(request, office=office, known=_known(request, office))
    if form.is_valid():
        made = form.made(today=today())
        if made is not None:
            made.save()
            return redirect("field-map", pk=made.pk)
    listed = files_of(office).defer("samples", "boundary").select_related("client")
    context = {"form": form, "fields": [one for one in listed if _is_there(one.client)]}
    return render(request, "fields/fields.html", context, status=form.status)


@require_safe
def field(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The map of one field, as the letter that the command writes."""
    files, words = _files(request, pk), words_for(request)
    context: dict[str, Any] = {"field": files, "style": letter_style_name()}
    try:
        found = map_of(files, today=today())
    except InputError as error:
        context["wrong"] = refusal(error, words)
    else:
        letter = field_letter(found, words=words, door=DOOR)
        context |= {
            "about": letter.subtitle,
            "shown": letter_plain(letter, part="map", words=words),
        }
    return render(request, "fields/field.html", context)


@require_safe
def field_file(request: HttpRequest, pk: UUID, file: str) -> HttpResponse:
    """One file of a map."""
    if file not in MAKERS:
        raise Http404
    files, words = _files(request, pk), words_for(request).on("field")
    make, kind = MAKERS[file]
    try:
        found = map_of(files, today=today())
    except InputError as error:
        notify_fault(request, error)
        return redirect("field-map", pk=pk)
    data = make(found, words, paper_of(office_of(request)))
    stem, _, ending = file.partition(".")
    return download(
        data, name=f"{files.name} {stem}", day=found.today, tail=f".{ending}", kind=kind
    )


@require_POST
def delete(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Remove a map with the files it was made of."""
    files = _files(request, pk)
    files.delete()
    notify(request, message("fields-page-deleted", field=Given(files.name)))
    return redirect("fields")


def today() -> date:
    """The local day."""
    return date.today()  # noqa: DTZ011


def _files(request: HttpRequest, pk: UUID) -> FieldFiles:
    files = get_object_or_404(files_of(office_of(request)).select_related("client"), pk=pk)
    if not _is_there(files.client):
        raise Http404
    return files


def _is_there(client: Client | None) -> bool:
    """False for what was of a client who is deleted."""
    return client is None or client.deleted_at is None


def _known(request: HttpRequest, office: Office) -> dict[str, object]:
    """What a bed or a client that the address names says of the field already."""
    bed = _named(request, "bed", Bed, office)
    if bed is not None:
        tree = bed.case_json
        aim, place, soil = (tree.get(key) or {} for key in ("aim", "place", "soil"))
        plant = aim.get("plant", "")
        return {
            "name": bed.name,
            "plant": plant if isinstance(plant, str) else "",
            "target_ph": aim.get("target_ph", ""),
            "place": place.get("name", ""),
            "method": soil.get("ph_method", ""),
            "client": None if bed.garden is None else bed.garden.client_id,
        }
    client = _named(request, "client", Client, office)
    return {} if client is None else {"client": client.pk}


def _named(request: HttpRequest, what: str, model: Any, office: Office) -> Any:
    try:
        return kept(model, office).filter(pk=request.GET.get(what, "")).first()
    except (ValueError, ValidationError):
        return None


def _rates(name: str) -> Maker:
    def make(found: FieldMap, words: Words, paper: PaperSize) -> bytes:
        return rate_files(found, column_meanings(words))[name]

    return make


def _letter(found: FieldMap, words: Words, paper: PaperSize) -> bytes:
    return press(field_letter(found, words=words, door=DOOR), paper=paper, words=words)


def _driver(found: FieldMap, words: Words, paper: PaperSize) -> bytes:
    return press(field_card(found, words=words), paper=paper, words=words)


def _picture(found: FieldMap, words: Words, paper: PaperSize) -> bytes:
    return chart_file(rates_figure(found, words=words), ending="png")


MAKERS: Final[Mapping[str, tuple[Maker, str]]] = {
    "rates.gpkg": (_rates("rates.gpkg"), "application/geopackage+sqlite3"),
    "rates-shapefile.zip": (_rates("rates-shapefile.zip"), "application/zip"),
    "rates.tif": (_rates("rates.tif"), "image/tiff"),
    "rates.png": (_picture, "image/png"),
    "letter.pdf": (_letter, "application/pdf"),
    "driver.pdf": (_driver, "application/pdf"),
}
"""Every file by its name, with what makes it and its kind."""
