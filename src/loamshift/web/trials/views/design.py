"""A trial designed and changed: tried as often as one likes, then saved with its forecast."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import URLPattern, path
from django.views.decorators.http import require_http_methods

from loamshift.case.trial_read import trial_from_tree
from loamshift.domain.message import Given, message
from loamshift.domain.trial import Design, TrialPlan
from loamshift.domain.trial import Trial as TrialDesign
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError, InputError
from loamshift.report.trial_plan import trial_try
from loamshift.report.words import Words
from loamshift.services.trial.design import places_of, plan_trial
from loamshift.store.changes import Overtaken, Writer
from loamshift.store.models import Bed, Client, Trial
from loamshift.store.scope import kept
from loamshift.web.kept_form import version_seen
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify_done, person_of
from loamshift.web.problems import whole_fault
from loamshift.web.trials.drafting import owner_of, shown, tree_of, with_doses
from loamshift.web.trials.forms import BED, CLIENT, MOST_TREATMENTS, TrialForm, belongs_to, new_seed
from loamshift.web.trials.opened import keep_design

FRESH: Final = {
    "design": "randomised", "kind": "container", "replicates": "5", "by_lot": True,
    "ph_method": "water 1:2.5", "soil": "bed",
}  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """A new trial; ``?bed=`` or ``?client=`` says whose."""
    bed, client = request.GET.get("bed", ""), request.GET.get("client", "")
    belongs = f"{BED}{bed}" if bed else f"{CLIENT}{client}" if client else ""
    start = date.today()  # noqa: DTZ011 - the local day
    fresh = {**FRESH, "belongs": belongs, "start": start.isoformat(), "seed": new_seed()}
    fresh["soil"] = "own" if client else "bed"
    return _form(request, Trial(), TrialForm(request, initial=fresh))


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, pk: UUID) -> HttpResponse:
    """A trial that is kept; once there are readings its layout stays."""
    one = get_object_or_404(kept(Trial, office_of(request)), pk=pk)
    return _form(
        request, one, TrialForm(request, initial=shown(one.trial_json, belongs=belongs_to(one)))
    )


def _form(request: HttpRequest, one: Trial, form: TrialForm) -> HttpResponse:
    today = date.today()  # noqa: DTZ011 - the local day
    do = request.POST.get("do", "")
    if request.method != "POST":
        return _page(request, one, form)
    if do == "row":
        form.add_rows()
        return _page(request, one, form, seen=version_seen(request))
    plan: TrialPlan | None = None
    if form.is_valid():
        owner = owner_of(office_of(request), form.cleaned_data["belongs"])
        try:
            tree = with_doses(form, _tree(form, one, owner, today))
            design = trial_from_tree(tree)
            plan = plan_trial(design)
            _same_layout(one, design)
            if do == "save":
                done = _keep(request, one, owner, tree, design, today)
                return done
        except CaseError as error:
            form.tell(error)
        except InputError as error:
            form.overtaken = isinstance(error, Overtaken)
            form.refuse([whole_fault(error)])
    seen = None if form.overtaken else version_seen(request)
    return _page(request, one, form, plan=plan, seen=seen)


def _tree(form: TrialForm, one: Trial, owner: Bed | Client | None, today: date) -> dict[str, Any]:
    """The keys as typed; a trial that has readings keeps the soil it was designed on."""
    tree = tree_of(form, owner, today=today)
    if one.readings_text:
        for key in ("soil", "place", "water", "of_bed"):
            if key in one.trial_json:
                tree[key] = one.trial_json[key]
    return tree


def _same_layout(one: Trial, design: TrialDesign) -> None:
    """Refuse another layout once there are readings: they would go to other pots."""
    if not one.readings_text:
        return
    was = trial_from_tree(one.trial_json)
    same = [replace(t, adds=()) for t in was.treatments] == [
        replace(t, adds=()) for t in design.treatments
    ]
    if not same or places_of(was) != places_of(design) or was.start != design.start:
        raise CaseError([fault("", message("trial-form-has-readings"))])


def _keep(
    request: HttpRequest,
    one: Trial,
    owner: Bed | Client | None,
    tree: dict[str, Any],
    design: TrialDesign,
    today: date,
) -> HttpResponse:
    is_new = one._state.adding
    keep_design(one, tree, design, today=today)
    one.bed = owner if isinstance(owner, Bed) else None
    one.client = owner if isinstance(owner, Client) else None
    what = message("trial-page-added" if is_new else "trial-page-changed", trial=Given(one.name))
    writer = Writer(office_of(request), user=person_of(request), what=what)
    if is_new:
        writer.add(one)
    else:
        writer.change(one, seen_version=version_seen(request))
    notify_done(request, writer)
    return redirect("trial", pk=one.pk)


def _page(
    request: HttpRequest,
    one: Trial,
    form: TrialForm,
    *,
    plan: TrialPlan | None = None,
    seen: int | None = None,
) -> HttpResponse:
    words: Words = form.reader
    context = {
        "trial": None if one._state.adding else one,
        "form": form,
        "version": one.version if seen is None else seen,
        "most": MOST_TREATMENTS,
        "two_factors": form["design"].value() == Design.TWO_FACTOR.value,
        "tried": "" if plan is None else letter_plain(trial_try(plan, words=words), words=words),
        "style": letter_style_name(),
        "has_readings": bool(one.readings_text),
    }
    return render(request, "trials/edit.html", context, status=422 if form.is_wrong else 200)


ROUTES: list[URLPattern] = [
    path("trials/new", new, name="trial-new"),
    path("trials/<uuid:pk>/edit", edit, name="trial-edit"),
]
