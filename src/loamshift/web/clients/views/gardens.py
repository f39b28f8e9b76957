"""Gardens: a place with its climate, a plan one draws on, and the sizes it gives to the beds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from loamshift.domain.message import Given, Listed, Prose, message
from loamshift.errors import Fault, InputError
from loamshift.store.changes import Overtaken, Writer
from loamshift.store.models import Bed, Client, Garden
from loamshift.store.models.client import empty_plan
from loamshift.store.scope import kept
from loamshift.web.acts import delete_kept, do_act, writer_of
from loamshift.web.beds.keeping import put_case
from loamshift.web.beds.merge import before as earlier
from loamshift.web.beds.views.listing import ph_side, rows_of, with_last_letter
from loamshift.web.cases import case_of, with_fields
from loamshift.web.clients.forms import GardenForm
from loamshift.web.clients.garden_drawing import BedOnPlan, draw_plan, size_said
from loamshift.web.clients.garden_plan import (
    FOOT_M,
    Area,
    Plan,
    drawn_m2,
    id_of,
    merged_plan,
    plan_from_form,
    plan_from_kept,
    plan_to_keep,
)
from loamshift.web.kept_form import version_seen
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.notices import notify_done, notify_fault
from loamshift.web.problems import whole_fault

EMPTY_ROWS: Final = 2
FEET_AT_FIRST: Final = (60.0, 40.0)
"""The ground of a plan with nothing on it, where lengths are in feet."""
LENGTHS: Final = ("width", "length", "left", "top")
AREA: Final = ("name", "bed", "points", *LENGTHS)
"""What the table asks of an area."""
_AGREE: Final = 0.02
"""Sizes that differ by a smaller share are the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaRow:
    """One area as the table of the plan has it, in the unit shown."""

    number: int
    at: str
    values: Mapping[str, str]
    faults: Mapping[str, Fault]

    def lengths(self) -> Iterator[tuple[str, str, Fault | None]]:
        """Its four lengths: what each is, how long, and what is wrong with it."""
        for key in LENGTHS:
            yield key, self.values.get(key, ""), self.faults.get(key)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """What is drawn for a bed beside what its case file says."""

    bed: Bed
    drawn: str
    kept: str
    agrees: bool


@require_http_methods(["GET", "HEAD", "POST"])
def garden(request: HttpRequest, pk: UUID) -> HttpResponse:
    """One garden: its plan, the sizes drawn, its beds."""
    office = office_of(request)
    one = get_object_or_404(kept(Garden, office).select_related("client"), pk=pk)
    beds = list(with_last_letter(kept(Bed, office).filter(garden=one)).order_by("sought", "id"))
    unit_m = FOOT_M if office.units == "us" else 1.0
    before = plan_from_kept(one.plan)
    if office.units == "us" and one.plan == empty_plan():
        before = Plan(width_m=FEET_AT_FIRST[0] * FOOT_M, height_m=FEET_AT_FIRST[1] * FOOT_M)
    if request.method != "POST":
        return _page(request, one, beds, before)
    plan, faults = plan_from_form(
        request.POST, unit_m=unit_m, beds=[str(b.pk) for b in beds], before=before
    )
    if request.POST.get("more"):
        return _page(request, one, beds, plan, faults=faults, typed=request.POST, more=5)
    if faults:
        return _page(request, one, beds, plan, faults=faults, typed=request.POST, status=422)
    version, also = version_seen(request), []
    was = earlier(one, version)
    if was is not None:
        merged = merged_plan(base=was["plan"], theirs=one.plan, mine=plan_to_keep(plan))
        if merged is not None:
            if was["plan"] != one.plan:
                also.append(message("form-merged"))
            plan, version = plan_from_kept(merged), one.version
    what = message("gardens-plan-saved", garden=Given(one.name))
    writer = writer_of(request, what)
    one.plan = plan_to_keep(plan)
    try:
        with transaction.atomic():
            writer.change(one, seen_version=version)
            filled = _fill_in(writer, beds, plan, us=office.units == "us")
    except Overtaken as overtaken:
        current = overtaken.current
        assert isinstance(current, Garden)
        one.version = current.version
        whole = whole_fault(overtaken)
        there = plan_from_kept(current.plan)
        return _page(request, one, beds, plan, faults=(whole,), there=there, status=409)
    except InputError as error:
        whole = whole_fault(error)
        return _page(request, one, beds, plan, faults=(whole,), typed=request.POST, status=422)
    if filled:
        named = Listed(tuple(Given(name) for name in filled))
        also.append(message("gardens-plan-sizes", beds=named))
    notify_done(request, writer, also=Prose(tuple(also)) if also else None)
    return redirect("garden", pk=one.pk)


@require_POST
def take_size(request: HttpRequest, pk: UUID, bed: UUID) -> HttpResponse:
    """Put the size that is drawn into a bed's case file; asked for by its own button."""
    office = office_of(request)
    one = kept_or_404(request, Garden, pk)
    other = get_object_or_404(kept(Bed, office).filter(garden=one), pk=bed)
    drawn = drawn_m2(plan_from_kept(one.plan)).get(str(other.pk))
    if not drawn:
        notify_fault(request, message("gardens-nothing-for-bed", bed=Given(other.name)))
        return redirect("garden", pk=one.pk)
    said = size_said(drawn, us=office.units == "us")
    shown = Given(_spoken(drawn, us=office.units == "us"))
    what = message("gardens-size-changed", bed=Given(other.name), size=shown)
    do_act(request, what, lambda writer: _give_size(writer, other, said))
    return redirect("garden", pk=one.pk)


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """A new garden; ``?client=`` says whose."""
    return _form(request, Garden(client_id=id_of(request.GET.get("client", "")) or ""))


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Name, client and place of a garden."""
    return _form(request, kept_or_404(request, Garden, pk))


@require_POST
def put_away(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Delete a garden with its beds and their letters; for thirty days that can be undone."""
    one = kept_or_404(request, Garden, pk)
    what = message("gardens-deleted", garden=Given(one.name))
    if not delete_kept(request, one, what):
        return redirect("garden", pk=one.pk)
    return redirect("client", pk=one.client_id)


def _page(
    request: HttpRequest,
    one: Garden,
    beds: Sequence[Bed],
    plan: Plan,
    *,
    faults: Sequence[Fault] = (),
    typed: Mapping[str, Any] | None = None,
    there: Plan | None = None,
    more: int = EMPTY_ROWS,
    status: int = 200,
) -> HttpResponse:
    office = office_of(request)
    us = office.units == "us"
    today = date.today()  # noqa: DTZ011 - the local day
    on_plan = {
        str(bed.pk): BedOnPlan(
            name=bed.name, ph="" if bed.ph is None else f"{bed.ph:g}", ph_side=ph_side(bed.ph)
        )
        for bed in beds
    }
    own = {one.path for one in faults if one.path.startswith("area.")}
    context = {
        "garden": one,
        "client": one.client,
        "drawing": draw_plan(plan, beds=on_plan, us=us),
        "there": None if there is None else draw_plan(there, beds=on_plan, us=us),
        "areas": _rows(plan, faults, typed, us=us, more=more),
        "width": _shown(plan.width_m, us=us),
        "height": _shown(plan.height_m, us=us),
        "unit": "ft" if us else "m",
        "unit_m": FOOT_M if us else 1.0,
        "beds_on_plan": list(on_plan.items()),
        "sizes": _sizes(beds, plan_from_kept(one.plan), us=us, today=today),
        "rows": rows_of(beds, office=office, today=today, patience_s=0.4),
        "whole": [one for one in faults if one.path not in own],
        "faulty_count": len(faults),
    }
    return render(request, "clients/garden.html", context, status=status)


def _rows(
    plan: Plan,
    faults: Sequence[Fault],
    typed: Mapping[str, Any] | None,
    *,
    us: bool,
    more: int,
) -> list[AreaRow]:
    """The rows of the table: as typed where something is wrong, else as drawn; then empty ones."""
    wrong: dict[str, dict[str, Fault]] = {}
    for one in faults:
        at, _, key = one.path.rpartition(".")
        wrong.setdefault(at, {})[key] = one
    if typed is not None:
        numbers = sorted({int(k.split(".")[1]) for k in typed if _is_row(k)})
        every = {n: {k: str(typed.get(f"area.{n}.{k}", "")) for k in AREA} for n in numbers}
        held = {number: values for number, values in every.items() if any(values.values())}
        first = max(numbers, default=-1) + 1
    else:
        held = dict(enumerate(_values_of(area, us=us) for area in plan.areas))
        first = len(held)
    held |= {number: {} for number in range(first, first + more)}
    return [
        AreaRow(number=count, at=f"area.{n}", values=values, faults=wrong.get(f"area.{n}", {}))
        for count, (n, values) in enumerate(held.items(), 1)
    ]


def _values_of(area: Area, *, us: bool) -> dict[str, str]:
    """An area as the table has it, in the unit shown."""
    left, top, width, length = (_shown(value, us=us) for value in area.box)
    points = " ".join(f"{x:.10g},{y:.10g}" for x, y in area.points)
    lengths = dict(zip(LENGTHS, (width, length, left, top), strict=True))
    return {"name": area.name, "bed": area.bed, "points": points, **lengths}


def _is_row(key: str) -> bool:
    parts = key.split(".")
    return len(parts) == 3 and parts[0] == "area" and parts[1].isdecimal() and len(parts[1]) < 6


def _shown(length_m: float, *, us: bool) -> str:
    return f"{round(length_m / (FOOT_M if us else 1.0), 2):.10g}"


def _sizes(beds: Sequence[Bed], plan: Plan, *, us: bool, today: date) -> list[Size]:
    drawn = drawn_m2(plan)
    sizes = []
    for bed in beds:
        here = drawn.get(str(bed.pk))
        if here is None:
            continue
        held = _kept_m2(bed, today)
        sizes.append(
            Size(
                bed=bed,
                drawn=_spoken(here, us=us),
                kept="" if held is None else _spoken(held, us=us),
                agrees=held is not None and abs(here - held) <= _AGREE * held,
            )
        )
    return sizes


def _spoken(area_m2: float, *, us: bool) -> str:
    return size_said(area_m2, us=us).replace("m2", "m²")


def _kept_m2(bed: Bed, today: date) -> float | None:
    try:
        return case_of(bed.case_json, today=today).bed.area_m2
    except InputError:
        return None


def _fill_in(writer: Writer, beds: Sequence[Bed], plan: Plan, *, us: bool) -> list[str]:
    """Give their size to beds that have none; a size that stands is never changed unasked."""
    today = date.today()  # noqa: DTZ011 - the local day
    filled = []
    for key, drawn in drawn_m2(plan).items():
        bed = next((bed for bed in beds if bed.pk == id_of(key)), None)
        if bed is None or drawn <= 0.0:
            continue
        try:
            if case_of(bed.case_json, today=today).bed.area_m2 is not None:
                continue
        except InputError:
            continue  # a file with faults is mended on its own page, not here
        _give_size(writer, bed, size_said(drawn, us=us))
        filled.append(bed.name)
    return filled


def _give_size(writer: Writer, bed: Bed, said: str) -> None:
    tree = with_fields(bed.case_json, [("bed.area", said)])
    put_case(bed, tree, today=date.today())  # noqa: DTZ011 - the local day
    writer.change(bed, seen_version=bed.version)


def _form(request: HttpRequest, one: Garden) -> HttpResponse:
    form = GardenForm(request, one)
    if form.keep():
        return redirect("garden", pk=one.pk)
    office = office_of(request)
    context = {
        "garden": one,
        "form": form,
        "any_client": kept(Client, office).exists(),
        "beds": 0 if form.is_new else kept(Bed, office).filter(garden=one).count(),
    }
    return render(request, "clients/edit_garden.html", context, status=form.status)
