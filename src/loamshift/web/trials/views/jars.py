"""Jars of one bed: a series set up, its sheet, its readings, and the bed's own titration."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import date
from typing import Any, Final
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import URLPattern, path
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from loamshift.case.numbers import number_from
from loamshift.case.trial_jars import COLUMNS, jars_csv, read_jars_sheet
from loamshift.domain.message import Given, Message, message
from loamshift.domain.trial_jars import Jar, JarPlan
from loamshift.domain.worded_error import WordedError, fault
from loamshift.errors import Fault, InputError
from loamshift.report.trial_jars import jars_letter, jars_result_letter
from loamshift.services.trial.jars import FEWEST_JARS, plan_jars, read_jars
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, JarSeries
from loamshift.store.scope import kept
from loamshift.web.acts import delete_kept
from loamshift.web.answers import paper_of
from loamshift.web.beds.keeping import put_case
from loamshift.web.cases import case_of
from loamshift.web.downloads import download
from loamshift.web.kept_form import version_seen
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.letters.press import press
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, notify_fault, person_of
from loamshift.web.problems import whole_fault
from loamshift.web.trials.forms import JarsForm, UploadForm
from loamshift.web.wording import words_for

BETWEEN: Final = {
    "to_ph": (3.0, 9.0), "count": (3.0, 24.0), "soil_g": (5.0, 1000.0), "acid_mol_l": (0.005, 1.0)
}  # fmt: skip
FRESH: Final = {"count": "6", "soil_g": "50", "acid_mol_l": "0.1"}
LARGEST_BYTES: Final = 200_000


@require_http_methods(["GET", "HEAD", "POST"])
def bed_jars(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The series of a bed; a form sets up another."""
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=pk)
    today = date.today()  # noqa: DTZ011 - the local day
    form = JarsForm(request, initial=FRESH)
    if request.method == "POST" and form.is_valid():
        values, faults = _figures(form)
        form.refuse(faults)
        try:
            if not faults:
                return _set_up(request, bed, values, today)
        except InputError as error:
            form.refuse([whole_fault(error)])
    series = kept(JarSeries, office_of(request)).filter(bed=bed)
    context = {"bed": bed, "form": form, "series": series}
    return render(request, "trials/bed_jars.html", context, status=form.status)


@require_http_methods(["GET", "HEAD", "POST"])
def jars(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One series: what goes into each jar, and the pH as it comes back."""
    one = _kept(request, pk)
    typed: dict[int, str] = {}
    faults: list[Fault] = []
    if request.method == "POST":
        rows = _rows(one)
        typed = {n: request.POST.get(f"ph-{n}", "").strip() for n in range(len(rows))}
        try:
            sheet = _sheet_with(rows, typed)
            read_jars_sheet(sheet.encode("utf-8"), "jars.csv")
            if _keep(request, one, sheet):
                return redirect("jars", pk=pk)
        except InputError as error:
            faults = [whole_fault(error)]
    return _page(request, one, typed=typed, faults=faults)


@require_POST
def jars_upload(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The sheet of a series with its pH filled in."""
    one = _kept(request, pk)
    form = UploadForm(request)
    if form.is_valid():
        sent = form.cleaned_data["sheet"]
        try:
            points = read_jars_sheet(sent.read(LARGEST_BYTES + 1), sent.name or "")
            if _keep(request, one, _sheet_of(one, points)):
                return redirect("jars", pk=pk)
        except InputError as error:
            form.refuse([whole_fault(error, path="sheet")])
    return _page(request, one, upload=form)


@require_safe
def jars_file(request: HttpRequest, pk: UUID, ending: str) -> HttpResponse:
    """The protocol as PDF, or the sheet as CSV."""
    one = _kept(request, pk)
    words = words_for(request)
    name, day = one.bed.name, one.set_up_on
    if ending == "csv":
        text, kind = one.sheet_text, "text/csv; charset=utf-8"
        return download(text, name=name, day=day, tail="-jars.csv", kind=kind)
    if ending != "pdf":
        raise Http404
    letter = jars_letter(_plan(one), words=words, door="pages")
    data = press(letter, paper=paper_of(office_of(request)), words=words)
    return download(data, name=name, day=day, tail="-jars.pdf", kind="application/pdf")


@require_POST
def jars_to_bed(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a titration into its bed, in the place of one it had."""
    one = _kept(request, pk)
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=one.bed_id)
    writer = Writer(
        office_of(request),
        user=person_of(request),
        what=message("jars-page-in-bed", bed=Given(bed.name)),
    )
    try:
        points = _points(one)
        if len(points) < FEWEST_JARS:
            raise WordedError(message("jars-too-few", count=len(points), fewest=FEWEST_JARS))
        entries = [{"acid_mmolc_kg": acid, "ph": ph} for acid, ph in points]
        seen = bed.version
        put_case(bed, {**bed.case_json, "titration": entries}, today=date.today())  # noqa: DTZ011
        writer.change(bed, seen_version=seen)
    except InputError as error:
        notify_fault(request, error)
        return redirect("jars", pk=pk)
    notify_done(request, writer)
    return redirect("bed", pk=bed.pk)


@require_POST
def jars_away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a series away; the next page takes it back."""
    one = _kept(request, pk)
    delete_kept(request, one, message("jars-page-deleted", bed=Given(one.bed.name)))
    return redirect("bed-jars", pk=one.bed_id)


def _set_up(request: HttpRequest, bed: Bed, values: dict[str, float], today: date) -> HttpResponse:
    plan = plan_jars(
        case_of(bed.case_json, today=today),
        ph_to=values["to_ph"],
        count=round(values["count"]),
        soil_g=values["soil_g"],
        acid_mol_l=values["acid_mol_l"],
    )
    if not any(jar.acid_mmolc_kg for jar in plan.jars):
        raise WordedError(message("jars-nothing", ph=Given(f"{values['to_ph']:g}")))
    one = JarSeries(
        bed=bed,
        set_up_on=today,
        to_ph=plan.ph_to,
        soil_g=plan.soil_g,
        acid_mol_l=plan.acid_mol_l,
        sheet_text=jars_csv(plan),
    )
    what = message("jars-page-added", bed=Given(bed.name))
    writer = Writer(office_of(request), user=person_of(request), what=what)
    writer.add(one)
    notify_done(request, writer)
    return redirect("jars", pk=one.pk)


def _figures(form: JarsForm) -> tuple[dict[str, float], list[Fault]]:
    values: dict[str, float] = {}
    faults: list[Fault] = []
    for name, (low, high) in BETWEEN.items():
        typed = str(form.cleaned_data[name] or FRESH.get(name, ""))
        try:
            values[name] = number_from(typed)
        except InputError:
            values[name] = low - 1.0
        except ValueError:
            values[name] = low - 1.0
        if not low <= values[name] <= high:
            wrong = message("jars-form-between", low=Given(f"{low:g}"), high=Given(f"{high:g}"))
            faults.append(fault(name, wrong, given=typed))
    return values, faults


def _keep(request: HttpRequest, one: JarSeries, sheet: str) -> bool:
    one.sheet_text = sheet
    what: Message = message("jars-page-read", bed=Given(one.bed.name))
    writer = Writer(office_of(request), user=person_of(request), what=what)
    try:
        writer.change(one, seen_version=version_seen(request) or one.version)
    except InputError as error:
        notify_fault(request, error)
        return False
    notify_done(request, writer)
    return True


def _page(
    request: HttpRequest,
    one: JarSeries,
    *,
    typed: dict[int, str] | None = None,
    faults: Sequence[Fault] = (),
    upload: UploadForm | None = None,
) -> HttpResponse:
    words, today = words_for(request), date.today()  # noqa: DTZ011
    rows = _rows(one)
    points = _points(one)
    context: dict[str, Any] = {
        "jars": one,
        "protocol": letter_plain(jars_letter(_plan(one), words=words, door="pages"), words=words),
        "rows": [(n, row, (typed or {}).get(n, row["ph"])) for n, row in enumerate(rows)],
        "faults": faults,
        "upload": upload or UploadForm(request, typed=False),
        "read": len(points),
        "version": one.version,
        "style": letter_style_name(),
    }
    if len(points) >= FEWEST_JARS:
        try:
            case = case_of(one.bed.case_json, today=today)
            result = read_jars(case, points, ph_to=one.to_ph)
        except InputError as error:
            context["faults"] = [*faults, whole_fault(error)]
        else:
            letter = jars_result_letter(result, words=words, door="pages")
            context["shown"] = letter_plain(letter, part="result", words=words)
            entries = [{"acid_mmolc_kg": acid, "ph": ph} for acid, ph in points]
            context["in_bed"] = one.bed.case_json.get("titration") == entries
    status = 422 if faults or (upload is not None and upload.errors) else 200
    return render(request, "trials/jars.html", context, status=status)


def _kept(request: HttpRequest, pk: UUID) -> JarSeries:
    rows = kept(JarSeries, office_of(request)).filter(bed__deleted_at=None).select_related("bed")
    return get_object_or_404(rows, pk=pk)


def _rows(one: JarSeries) -> list[dict[str, str]]:
    return [
        {name: row.get(name) or "" for name in COLUMNS}
        for row in csv.DictReader(io.StringIO(one.sheet_text))
    ]


def _plan(one: JarSeries) -> JarPlan:
    """The series as it was set up."""
    jars = tuple(
        Jar(
            number=place,
            acid_mmolc_kg=float(row["acid_mmolc_kg"]),
            acid_ml=float(row["acid_ml"]),
            lime_g=float(row["lime_g"]),
        )
        for place, row in enumerate(_rows(one), start=1)
    )
    return JarPlan(
        jars=jars,
        soil_g=one.soil_g,
        water_ml=one.soil_g,
        acid_mol_l=one.acid_mol_l,
        ph_to=one.to_ph,
    )


def _points(one: JarSeries) -> tuple[tuple[float, float], ...]:
    return read_jars_sheet(one.sheet_text.encode("utf-8"), "jars.csv")


def _sheet_with(rows: list[dict[str, str]], typed: dict[int, str]) -> str:
    """The sheet of a series with other pH."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for place, row in enumerate(rows):
        writer.writerow([*(row[name] for name in COLUMNS[:-1]), typed.get(place, "")])
    return out.getvalue()


def _sheet_of(one: JarSeries, points: Sequence[tuple[float, float]]) -> str:
    """The sheet of a series with the pH of an uploaded one, jar by jar by what was added.

    Raises
    ------
    InputError
        Where a jar of the sheet is none of this series.
    """
    rows = _rows(one)
    typed = {n: row["ph"] for n, row in enumerate(rows)}
    for acid, ph in points:
        place = next(
            (n for n, row in enumerate(rows) if abs(float(row["acid_mmolc_kg"]) - acid) < 1e-6),
            None,
        )
        if place is None:
            raise WordedError(message("jars-page-other", acid=Given(f"{acid:g}")))
        typed[place] = f"{ph:g}"
    return _sheet_with(rows, typed)


ROUTES: list[URLPattern] = [
    path("beds/<uuid:pk>/jars", bed_jars, name="bed-jars"),
    path("jars/<uuid:pk>", jars, name="jars"),
    path("jars/<uuid:pk>/upload", jars_upload, name="jars-upload"),
    path("jars/<uuid:pk>/sheet.<str:ending>", jars_file, name="jars-file"),
    path("jars/<uuid:pk>/to-bed", jars_to_bed, name="jars-to-bed"),
    path("jars/<uuid:pk>/away", jars_away, name="jars-away"),
]
