"""Keeping what the plan page says: a walk-in as a bed, changed fields, a letter that is sent."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import NoReverseMatch, reverse
from django.views.decorators.http import require_POST

from loamshift.domain.message import Given, Message, message
from loamshift.domain.worded_error import given
from loamshift.errors import InputError
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_head import reading_in_force
from loamshift.report.messages import say
from loamshift.report.messages.refusal import refusal
from loamshift.store.changes import Overtaken, Writer
from loamshift.store.models import Bed, Client, Garden, Office
from loamshift.store.models.base import folded
from loamshift.store.scope import kept
from loamshift.web.acts import writer_of
from loamshift.web.answers import Answered
from loamshift.web.beds.merge import Merged, merge
from loamshift.web.beds.merge import before as before_version
from loamshift.web.cases import Tree, with_fields
from loamshift.web.kept_form import version_seen
from loamshift.web.letters.sending import letter_to_send
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.notices import notify_done, notify_fault
from loamshift.web.plan.forms import KeepForm
from loamshift.web.plan.plan_page import leaves, page_of, said_in
from loamshift.web.plan.views.plan import show_plan, title_of, today
from loamshift.web.problems import whole_fault
from loamshift.web.scores.issued import keep_plan_forecast
from loamshift.web.wording import words_of


@require_POST
def keep_walk_in(request: HttpRequest) -> HttpResponse:
    """Make a bed of a walk-in, for a client who is there already or named now."""
    office = office_of(request)
    fields = said_in(request.POST)
    tree = with_fields({}, fields)
    page = page_of(tree, office=office, today=today())
    if page.answered is None:
        notify_fault(request, message("advice-cannot-save"))
        return redirect(f"{reverse('plan')}?{urlencode(fields)}")
    form = KeepForm(request)
    if not form.is_valid():
        return show_plan(request, tree, bed=None, status=422, more={"keep": form})
    typed = form.cleaned_data
    name = typed["name"] or title_of(page, None, words=words_of(office))
    tree["name"] = name
    bed = Bed(name=name, **drawn_out(page.answered))
    bed.take_case({"case": 1, **tree})
    what = message("advice-saved", bed=Given(name))
    writer = writer_of(request, what)
    try:
        names = {"client_name": typed["client"], "garden_name": typed["garden"]}
        bed.garden = _garden(writer, **names, tree=tree)
        writer.add(bed)
    except InputError as error:
        form.refuse([whole_fault(error)])
        return show_plan(request, tree, bed=None, status=422, more={"keep": form})
    keep_plan_forecast(bed, page.answered.answer, page.answered.case)
    notify_done(request, writer)
    return redirect("bed", pk=bed.pk)


def drawn_out(found: Answered) -> dict[str, Any]:
    """What a list of beds shows of a case and its answer."""
    reading = reading_in_force(found.case)
    return {
        "plants": ", ".join(plant.name for plant in found.case.aim.plants)[:300],
        "decision": str(found.answer.verdict.decision),
        "ph": None if reading is None else reading.ph,
    }


def _garden(writer: Writer, *, client_name: str, garden_name: str, tree: Tree) -> Garden | None:
    """The garden of these names, made where it is missing; None where nobody was named."""
    if not client_name:
        return None
    client = _named(Client, writer.office, client_name)
    if client is None:
        client = Client(name=client_name)
        writer.add(client)
    garden_name = garden_name or say(message("advice-garden-name"), words_of(writer.office))
    for garden in kept(Garden, writer.office).filter(client=client):
        if folded(garden.name) == folded(garden_name):
            return garden
    garden = Garden(client=client, name=garden_name, place=dict(tree.get("place") or {}))
    writer.add(garden)
    return garden


def _named(model: type[Client], office: Office, name: str) -> Client | None:
    wanted = folded(name)
    return next((one for one in kept(model, office) if folded(one.name) == wanted), None)


@require_POST
def keep_changes(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Write changed fields into the bed, unless somebody else was quicker."""
    office = office_of(request)
    bed = kept_or_404(request, Bed, pk)
    fields = said_in(request.POST)
    before = bed.case_json
    tree, seen, also = with_fields(before, fields), version_seen(request), None
    merged = _merged(bed, seen, fields)
    if merged is not None and not merged.asked:
        tree, seen, also = merged.tree, bed.version, message("form-merged")
    here = f"{reverse('bed', args=[bed.pk])}?{urlencode(fields)}"
    page = page_of(tree, office=office, today=today(), kept=before)
    if page.answered is None:
        notify_fault(request, message("advice-cannot-save"))
        return redirect(here)
    bed.take_case({"case": 1, **tree})
    bed.name = str(tree.get("name") or bed.name)
    for name, value in drawn_out(page.answered).items():
        setattr(bed, name, value)
    what = message("advice-changed", bed=Given(bed.name))
    writer = writer_of(request, what)
    try:
        writer.change(bed, seen_version=seen)
    except Overtaken as fault:
        return _overtaken(request, fault, before, fields)
    except InputError as fault:
        notify_fault(request, fault)
        return redirect(here)
    keep_plan_forecast(bed, page.answered.answer, page.answered.case)
    notify_done(request, writer, also=also)
    return redirect("bed", pk=bed.pk)


def _merged(bed: Bed, version: int, fields: list[tuple[str, str]]) -> Merged | None:
    """Fields that were changed, put together with what somebody else saved; None where nobody."""
    was = before_version(bed, version)
    if was is None:
        return None
    base = was["case_json"]
    return merge(base=base, theirs=bed.case_json, mine=with_fields(base, fields))


def _overtaken(
    request: HttpRequest, fault: Overtaken, now: Tree, fields: list[tuple[str, str]]
) -> HttpResponse:
    """Show what stands there now beside what was typed; the fields keep what was typed."""
    bed = get_object_or_404(Bed, pk=fault.current.pk, office=office_of(request))
    if bed.deleted_at is not None:
        notify_fault(request, fault)
        return redirect("changes")
    words = words_of(office_of(request))
    there: dict[str, list[str]] = {}
    for leaf, value in leaves(now):
        there.setdefault(leaf, []).append(value)
    rows = [
        (field_called(leaf, words), ", ".join(there.get(leaf, ())) or "–", value or "–")
        for leaf, value in fields
    ]
    kept_now = bed.case_json
    return show_plan(
        request,
        with_fields(kept_now, fields),
        bed=bed,
        before=kept_now,
        status=409,
        more={"overtaken": refusal(fault, words), "both": rows},
    )


@require_POST
def send(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Freeze the letter of a bed as it stands kept: nothing in it is worked out again."""
    office = office_of(request)
    bed = kept_or_404(request, Bed, pk)
    try:
        letter = letter_to_send(bed, office=office, today=today())
        what = message("advice-letter-sent", bed=Given(bed.name))
        writer = writer_of(request, what)
        writer.add(letter, seen_version=version_seen(request))
    except Overtaken as fault:
        notify_fault(request, _not_sent(fault))
        return redirect("bed", pk=bed.pk)
    except InputError as fault:
        notify_fault(request, fault)
        return redirect("bed", pk=bed.pk)
    notify_done(request, writer)
    try:
        return redirect(reverse("letter", args=[letter.pk]))
    except NoReverseMatch:
        return redirect("bed", pk=bed.pk)


def _not_sent(fault: Overtaken) -> Message:
    return message(
        "advice-letter-not-sent",
        bed=given(fault.current),
        at=Given(f"{fault.current.changed_at:%H:%M}"),
    )
