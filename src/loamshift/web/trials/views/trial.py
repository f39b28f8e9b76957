"""One trial: what it is, its sheets, its readings, what they show, and what they say of the bed."""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import URLPattern, path
from django.views.decorators.http import require_POST, require_safe

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError
from loamshift.errors import InputError
from loamshift.report.messages.refusal import refusal
from loamshift.report.trial_plan import trial_try
from loamshift.report.trial_public import MOST_TREATMENTS
from loamshift.report.trial_result import trial_letter
from loamshift.services.trial.to_bed import readings_for_bed
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Trial
from loamshift.store.scope import kept
from loamshift.web.acts import delete_kept
from loamshift.web.beds.keeping import put_case
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, notify_fault, person_of
from loamshift.web.trials.opened import opened, result_of
from loamshift.web.wording import words_for


@require_safe
def trial(request: HttpRequest, pk: UUID) -> HttpResponse:
    """The page of a trial."""
    one = kept_trial(request, pk)
    words = words_for(request)
    context: dict[str, Any] = {"trial": one, "style": letter_style_name()}
    try:
        there = opened(one)
    except InputError as error:
        context["wrong"] = refusal(error, words)
        return render(request, "trials/trial.html", context)
    context |= {
        "plan": there.plan,
        "designed": letter_plain(trial_try(there.plan, words=words), part="design", words=words),
        "forecast": there.prediction,
        "days": [
            (day, there.trial.due(day), any(row.day == day for row in there.rows))
            for day in there.trial.days
        ],
    }
    if there.rows:
        result = result_of(there, one)
        letter = trial_letter(result, words=words)
        context |= {
            "result": result,
            "shown": letter_plain(letter, part="result", words=words),
            "can_share": any(day.rows for day in result.days),
            "can_page": there.trial.n_treatments <= MOST_TREATMENTS,
        }
        if one.bed is not None and one.bed.deleted_at is None:
            context["for_bed"] = readings_for_bed(result)
            context["bed_has"] = _already(one.bed, context["for_bed"].rows)
    return render(request, "trials/trial.html", context)


@require_POST
def to_bed(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put the readings of the untreated pots or plots into the bed they are readings of."""
    one = kept_trial(request, pk)
    bed = get_object_or_404(kept(Bed, office_of(request)), pk=one.bed_id)
    what = message("trial-page-to-bed-done", trial=Given(one.name), bed=Given(bed.name))
    writer = Writer(office_of(request), user=person_of(request), what=what)
    try:
        there = opened(one)
        rows = readings_for_bed(result_of(there, one)).rows
        has = _already(bed, rows)
        new = [row.entry for row, is_there in zip(rows, has, strict=True) if not is_there]
        if not new:
            raise WordedError(message("trial-page-to-bed-none"))
        seen = bed.version
        entries = [*bed.case_json.get("reading", []), *new]
        put_case(bed, {**bed.case_json, "reading": entries}, today=date.today())  # noqa: DTZ011
        writer.change(bed, seen_version=seen)
    except InputError as error:
        notify_fault(request, error)
    else:
        notify_done(request, writer)
    return redirect("trial", pk=pk)


@require_POST
def away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Put a trial away; the next page takes it back."""
    one = kept_trial(request, pk)
    delete_kept(request, one, message("trial-page-deleted", trial=Given(one.name)))
    return redirect("trials")


def kept_trial(request: HttpRequest, pk: UUID) -> Trial:
    """A trial of the office."""
    rows = kept(Trial, office_of(request)).select_related("bed", "client")
    return get_object_or_404(rows, pk=pk)


def _already(bed: Bed, rows: Any) -> list[bool]:
    """Which readings the bed has by their day, pH and method."""
    has = {
        (str(entry.get("date", ""))[:10], str(entry.get("ph", "")), str(entry.get("ph_method", "")))
        for entry in bed.case_json.get("reading", [])
        if isinstance(entry, dict)
    }
    return [
        (row.entry["date"], str(row.entry["ph"]), row.entry["ph_method"]) in has for row in rows
    ]


ROUTES: list[URLPattern] = [
    path("trials/<uuid:pk>", trial, name="trial"),
    path("trials/<uuid:pk>/to-bed", to_bed, name="trial-to-bed"),
    path("trials/<uuid:pk>/away", away, name="trial-away"),
]
