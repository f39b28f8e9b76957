"""Readings of a trial: typed for one day, or read from a sheet that came back."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final
from uuid import UUID

from django.forms import BoundField
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import URLPattern, path
from django.views.decorators.http import require_http_methods, require_POST

from loamshift.domain.message import Given, Message, message
from loamshift.domain.trial import TrialPlan
from loamshift.domain.trial_result import Problem
from loamshift.domain.worded_error import fault
from loamshift.errors import InputError
from loamshift.services.trial.understand import understand
from loamshift.store.changes import Overtaken, Writer
from loamshift.store.models import Trial
from loamshift.web.kept_form import version_seen
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, person_of
from loamshift.web.problems import whole_fault
from loamshift.web.trials.forms import DayForm, UploadForm
from loamshift.web.trials.opened import Opened, opened, record_of, take_day, take_rows
from loamshift.web.trials.views.trial import kept_trial

LARGEST_BYTES: Final = 2_000_000
_SEVERAL: Final = re.compile(r"[;/]|\s+")
_SHEET: Final = "typed.csv"


@dataclass(frozen=True, slots=True)
class PotLine:
    """One place of the form: its label, its treatment where it may be seen, and its fields."""

    label: str
    treatment: str
    block: int | None
    ph: BoundField
    note: BoundField


@require_http_methods(["GET", "HEAD", "POST"])
def readings(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The readings of one day, ``?day=``; a form keeps them."""
    one = kept_trial(request, pk)
    try:
        there = opened(one)
    except InputError:
        return redirect("trial", pk=pk)
    day = _day(request, there)
    labels = [place.label for place in there.plan.places]
    form = DayForm(request, labels, initial=_typed_before(there, day))
    if request.method == "POST" and form.is_valid():
        rows, problems = record_of(there, _as_sheet(form, there.plan, day), _SHEET)
        form.refuse(_faults(problems, there.plan, form))
        if not form.errors:
            take_day(one, there, day, rows)
            if _keep(
                request, one, form, message("trial-page-read", trial=Given(one.name), day=day)
            ):
                return redirect("trial", pk=pk)
    return _page(request, one, there, day=day, form=form)


@require_POST
def upload(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Read a record sheet; what cannot be used is told, and the rest is kept."""
    one = kept_trial(request, pk)
    there = opened(one)
    form = UploadForm(request)
    told: Sequence[Message] = ()
    if form.is_valid():
        sent = form.cleaned_data["sheet"]
        try:
            rows, problems = record_of(there, sent.read(LARGEST_BYTES + 1), sent.name or "")
            told = [problem.said for problem in problems]
            told += [
                problem.said for problem in understand(there.plan, rows).problems if problem.refuses
            ]
            take_rows(one, there, rows)
            what = message(
                "trial-page-uploaded", trial=Given(one.name), file=Given(sent.name or "")
            )
            if _keep(request, one, form, what):
                if not told:
                    return redirect("trial", pk=pk)
                there = opened(one)
        except InputError as error:
            form.refuse([whole_fault(error, path="sheet")])
    return _page(request, one, there, day=_day(request, there), upload_form=form, told=told)


def _keep(request: HttpRequest, one: Trial, form: DayForm | UploadForm, what: Message) -> bool:
    writer = Writer(office_of(request), user=person_of(request), what=what)
    try:
        writer.change(one, seen_version=version_seen(request))
    except InputError as error:
        form.overtaken = isinstance(error, Overtaken)
        form.refuse([whole_fault(error)])
        return False
    notify_done(request, writer)
    return True


def _page(
    request: HttpRequest,
    one: Trial,
    there: Opened,
    *,
    day: int,
    form: DayForm | None = None,
    upload_form: UploadForm | None = None,
    told: Sequence[Message] = (),
) -> HttpResponse:
    trial = there.trial
    labels = [place.label for place in there.plan.places]
    shown = form or DayForm(request, labels, typed=False, initial=_typed_before(there, day))
    lines = [
        PotLine(
            label=place.label,
            treatment="" if trial.blind else trial.treatments[place.treatment].name,
            block=place.block,
            ph=shown[f"ph-{place.label}"],
            note=shown[f"note-{place.label}"],
        )
        for place in there.plan.places
    ]
    days = sorted({*trial.days, *(row.day for row in there.rows if row.day is not None)})
    forms: list[Any] = [one for one in (form, upload_form) if one is not None]
    context = {
        "trial": one,
        "plan": there.plan,
        "day": day,
        "due": trial.due(day),
        "days": [(one, trial.due(one), any(row.day == one for row in there.rows)) for one in days],
        "form": shown,
        "lines": lines,
        "upload": upload_form or UploadForm(request, typed=False),
        "told": told,
        "version": version_seen(request)
        if form is not None and form.errors and not form.overtaken
        else one.version,
    }
    status = max((form.status for form in forms), default=200)
    return render(request, "trials/readings.html", context, status=status)


def _day(request: HttpRequest, there: Opened) -> int:
    """The day that is asked for, or the first that was not read."""
    typed = request.POST.get("day", request.GET.get("day", ""))
    if typed.lstrip("-").isdecimal() and len(typed) < 6:
        return int(typed)
    read = {row.day for row in there.rows}
    days = there.trial.days
    return next((day for day in days if day not in read), days[-1])


def _typed_before(there: Opened, day: int) -> dict[str, str]:
    """What is kept of a day, as its form shows it."""
    rows = [row for row in there.rows if row.day == day]
    dates = [row.on for row in rows if row.on is not None]
    methods = [row.method for row in rows if row.method is not None]
    on = dates[0] if dates else there.trial.due(day)
    method = methods[0] if methods else there.trial.ph_method
    found = {"on": on.isoformat(), "method": method.value}
    for row in rows:
        if row.ph is None:
            continue
        before = found.get(f"ph-{row.pot}")
        found[f"ph-{row.pot}"] = f"{row.ph:g}" if before is None else f"{before}; {row.ph:g}"
        if row.note:
            found[f"note-{row.pot}"] = row.note
    return found


def _as_sheet(form: DayForm, plan: TrialPlan, day: int) -> bytes:
    """What was typed as a record sheet, for the reader of all record sheets."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(("pot", "day", "date", "ph", "method", "note"))
    on = form.cleaned_data["on"] or ""
    method = form.cleaned_data["method"] or plan.trial.ph_method.value
    for label, typed in _readings(form, plan):
        writer.writerow((label, day, on, typed, method, form.cleaned_data[f"note-{label}"]))
    return out.getvalue().encode("utf-8")


def _readings(form: DayForm, plan: TrialPlan) -> list[tuple[str, str]]:
    """Label and reading, one for each; several of one place are parted by a semicolon."""
    return [
        (place.label, typed)
        for place in plan.places
        for typed in _SEVERAL.split(str(form.cleaned_data[f"ph-{place.label}"]).strip())
        if typed
    ]


def _faults(problems: Sequence[Problem], plan: TrialPlan, form: DayForm) -> list[Any]:
    """What the reader could not read, beside the field that it stands in."""
    labels = [label for label, _ in _readings(form, plan)]
    found = []
    for problem in problems:
        values = problem.said.values
        row, column = values.get("row"), values.get("column")
        place = row - 2 if isinstance(row, int) else -1
        if column == "date":
            path = "on"
        elif column == "ph" and 0 <= place < len(labels):
            path = f"ph-{labels[place]}"
        else:
            path = ""
        said = message("trial-form-unreadable", given=values.get("given"), column=column)
        found.append(fault(path, said))
    return list({(one.path, one.problem): one for one in found}.values())


ROUTES: list[URLPattern] = [
    path("trials/<uuid:pk>/readings", readings, name="trial-readings"),
    path("trials/<uuid:pk>/upload", upload, name="trial-upload"),
]
